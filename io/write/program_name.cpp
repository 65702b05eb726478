#include "io/write/program_name.hpp"

namespace vrid {

std::string program_name() {
    return "vrid " VRID_VERSION;
}

} // namespace vrid
