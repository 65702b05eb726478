#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "io/sheet/shop_sheet.hpp"

namespace vrid {

/// A table of the printed page; its last columns are empty boxes for what people measure.
class PageTable {
  public:
    /// \param texts which columns are words, set left
    PageTable(std::vector<std::string> titles, std::set<std::size_t> texts,
              std::vector<std::string> boxes = {});
    /// Cells as HTML. \param kind the row's class; may be empty
    void row(const std::vector<std::string>& cells, const std::string& kind = "");
    [[nodiscard]] std::string markup() const;

  private:
    std::vector<std::string> titles_, boxes_;
    std::set<std::size_t> texts_;
    std::string rows_;
};

/// What the press's page says and lists; the sheet has its heights.
std::string press_section(const ShopSheet& sheet);

} // namespace vrid
