#include "io/write/bar_cell.hpp"

#include "solver/response/error_bar.hpp"

namespace vrid {

std::string bar_cell(const BenchQuantity& quantity) {
    if (!(quantity.error < no_bar)) {
        return "no bar";
    }
    const RoundedNumber shown = rounded(quantity.value, quantity.error);
    return shown.error.empty() ? "" : "+- " + shown.error;
}

} // namespace vrid
