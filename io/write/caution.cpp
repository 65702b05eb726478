#include "io/write/caution.hpp"

#include "io/write/table.hpp"

namespace vrid {

std::string caution_text() {
    constexpr std::size_t width = 80;
    return "\n" + wrapped(short_caution, width, 2);
}

std::string program_name() {
    return "vrid " VRID_VERSION;
}

} // namespace vrid
