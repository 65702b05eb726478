#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/write/markup_text.hpp"

namespace vrid {

using Points = std::vector<std::pair<double, double>>; ///< [px]

/// A picture as SVG with real text; a screen reader says its title and description. Colours come
/// from the page's style by class, so that dark mode and print apply.
class Svg {
  public:
    Svg(double width, double height) : width_(width), height_(height) {}

    void line(double x1, double y1, double x2, double y2, const std::string& style_class);
    void rectangle(double x, double y, double width, double height, const std::string& style_class,
                   const std::string& tip = "");
    void circle(double x, double y, double radius, const std::string& style_class);
    void polyline(const Points& points, const std::string& style_class);
    void polygon(const Points& points, const std::string& style_class,
                 const std::string& attributes = "", const std::string& tip = "");
    /// \param anchor "start", "middle" or "end"
    void text(double x, double y, const std::string& text, const std::string& anchor = "start",
              const std::string& style_class = "");
    void raw(const std::string& markup) { body_ += markup; }

    /// The whole picture; `id` is unique on the page.
    [[nodiscard]] std::string markup(const std::string& id, const std::string& title,
                                     const std::string& description) const;

  private:
    double width_, height_;
    std::string body_;
};

/// The line without points that lie within `tolerance` of what remains (Douglas and Peucker 1973).
Points simplified(const Points& line, double tolerance);

/// "12.3": at most two decimals, as coordinates need.
std::string px(double value);

} // namespace vrid
