#pragma once

#include <string>

namespace vrid::tests {

/// A legal board file as a shop, a lab or a program would write it, the same for ever by seed. All
/// tables of the format, numbers round and odd, boards, coupons, plates.
struct RandomBoardFile {
    std::string toml;
    std::string csv; ///< of a drawn outline, to stand beside it as outline.csv; else empty
};

RandomBoardFile random_board_file(unsigned seed);

} // namespace vrid::tests
