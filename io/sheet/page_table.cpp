#include "io/sheet/page_table.hpp"

#include <utility>

#include "io/report/svg.hpp"

namespace vrid {

PageTable::PageTable(std::vector<std::string> titles, std::set<std::size_t> texts,
                     std::vector<std::string> boxes)
    : titles_(std::move(titles)), boxes_(std::move(boxes)), texts_(std::move(texts)) {}

void PageTable::row(const std::vector<std::string>& cells, const std::string& kind) {
    rows_ += kind.empty() ? "<tr>" : "<tr class=\"" + kind + "\">";
    for (std::size_t i = 0; i < cells.size(); ++i) {
        rows_ += (texts_.contains(i) ? "<td class=\"text\">" : "<td>") + cells[i] + "</td>";
    }
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
        rows_ += "<td class=\"box\"></td>";
    }
    rows_ += "</tr>\n";
}

std::string PageTable::markup() const {
    std::string head = "<table>\n<thead><tr>";
    for (std::size_t i = 0; i < titles_.size(); ++i) {
        head +=
            (texts_.contains(i) ? "<th class=\"text\">" : "<th>") + escaped(titles_[i]) + "</th>";
    }
    for (const std::string& box : boxes_) {
        head += "<th class=\"box\">" + escaped(box) + "</th>";
    }
    return head + "</tr></thead>\n<tbody>\n" + rows_ + "</tbody>\n</table>\n";
}

} // namespace vrid
