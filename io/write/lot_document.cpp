#include "io/write/lot_document.hpp"

#include <algorithm>

namespace vrid {

void check_part(const LotStrips& strips) {
    const std::size_t boards = strips.serials.size();
    bool fits = strips.dates.size() == boards;
    for (const LotText& one : strips.texts) {
        fits = fits && one.words.size() == boards;
    }
    for (const LotStrip& one : strips.numbers) {
        fits = fits && one.readings.size() == boards && one.ewma.size() == boards &&
               one.half_width.size() == boards;
    }
    must_hold(fits, "a strip has another length than its boards");
    std::vector<std::size_t> named = strips.outliers;
    if (strips.change) {
        named.insert(named.end(), strips.change->begin(), strips.change->end());
    }
    must_hold(std::ranges::all_of(named, [&](std::size_t at) { return at <= boards; }),
              "a board is named that no strip has");
}

FoundLot read_found_lot(const std::string& text, const std::string& file) {
    return read_whole<FoundLot>(text, file, "strips");
}

} // namespace vrid
