#pragma once

#include <cmath>
#include <regex>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

namespace vrid::tests {

/// An element of a picture: what its attributes say, and its text.
struct DrawnElement {
    std::string markup, text;
    [[nodiscard]] std::string word(const std::string& attribute) const {
        std::smatch found;
        const std::regex pattern(" " + attribute + "=\"([^\"]*)\"");
        return std::regex_search(markup, found, pattern) ? found[1].str() : "";
    }
    [[nodiscard]] double number(const std::string& attribute) const {
        const std::string text = word(attribute);
        return text.empty() ? std::nan("") : std::stod(text);
    }
    /// Of a polyline or polygon.
    [[nodiscard]] std::vector<std::pair<double, double>> points() const {
        std::vector<std::pair<double, double>> all;
        const std::string list = word("points");
        const std::regex pair("([^ ,]+),([^ ,]+)");
        for (std::sregex_iterator one(list.begin(), list.end(), pair), end; one != end; ++one) {
            all.emplace_back(std::stod((*one)[1]), std::stod((*one)[2]));
        }
        return all;
    }
};

/// The elements of a kind ("line", "text", "rect") with that class, in order; any class: "".
inline std::vector<DrawnElement> drawn(const std::string& picture, const std::string& kind,
                                       const std::string& style_class = "") {
    std::vector<DrawnElement> all;
    const std::regex element("<" + kind + "( [^>]*?)/?>([^<]*)");
    for (std::sregex_iterator one(picture.begin(), picture.end(), element), end; one != end;
         ++one) {
        DrawnElement found{(*one)[1], (*one)[2]};
        if (style_class.empty() || found.word("class") == style_class) {
            all.push_back(std::move(found));
        }
    }
    return all;
}

/// The text that stands there, or the first; its place tells where a label is.
inline DrawnElement drawn_text(const std::string& picture, const std::string& text) {
    for (const DrawnElement& one : drawn(picture, "text")) {
        if (one.text == text) {
            return one;
        }
    }
    FAIL("no text in the picture: " << text);
    return {};
}

/// A ruler made of the numbers at an axis as a reader has them: from places to values.
struct Ruler {
    double place = 0, value = 0, per_px = 0;
    [[nodiscard]] double at(double px) const { return value + (px - place) * per_px; }
};

/// Of the tick numbers at the left (`down`, with their base line 4 px below the tick) or below.
/// All must lie on one straight scale.
inline Ruler ruler(const std::string& picture, bool down) {
    std::vector<std::pair<double, double>> marks; // place, value
    for (const DrawnElement& tick : drawn(picture, "text", "tick")) {
        const bool number = tick.text.find_first_not_of("+-.0123456789") == std::string::npos;
        if (number && (tick.word("text-anchor") == "end") == down) {
            marks.emplace_back(down ? tick.number("y") - 4 : tick.number("x"),
                               std::stod(tick.text));
        }
    }
    REQUIRE(marks.size() >= 2);
    const auto [first, value] = marks.front();
    const auto [last, high] = marks.back();
    const Ruler found{first, value, (high - value) / (last - first)};
    for (const auto& [place, number] : marks) {
        CHECK(found.at(place) == Approx(number).margin(0.01 * std::abs(found.per_px)));
    }
    return found;
}

} // namespace vrid::tests
