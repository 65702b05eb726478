#include "io/design/limit_names.hpp"

#include "io/design/number_names.hpp"
#include "io/toml/fault_words.hpp"

namespace vrid {

std::vector<Problem> unknown_limits(const NamedBoard& read) {
    std::vector<Problem> problems;
    for (const auto& [name, limit] : read.board.limits) {
        if (name.starts_with("edge ")) {
            continue;
        }
        const NumberFound found = find_number(name, read.board);
        if (!found.request) {
            const std::string path = "limits." + name;
            const char* const bound = limit.max ? ".max" : ".min";
            problems.push_back({place_of(read.places, path + bound),
                                path + ": is held against nothing: " + found.wrong});
        }
    }
    return problems;
}

} // namespace vrid
