#include <string>

#include "io/read_text.hpp"
#include "io/table_reader.hpp"

namespace vrid {

void note_problem(Reading& reading, std::string place, std::string message) {
    constexpr std::size_t most = 200; // nobody reads further
    if (reading.problems.size() < most) {
        reading.problems.push_back({std::move(place), std::move(message)});
    } else if (reading.problems.size() == most) {
        reading.problems.push_back({reading.file, "further problems are not listed"});
    }
}

toml::table parse_toml(const std::string& text, const std::string& file) {
    if (auto unfit = unfit_for_toml(text, file)) {
        throw InputError({*std::move(unfit)});
    }
    try {
        return toml::parse(text, file);
    } catch (const toml::parse_error& error) { // becomes our own error: the library stays in here
        const auto at = error.source().begin;
        throw InputError(file + ":" + std::to_string(at.line) + ":" + std::to_string(at.column),
                         std::string(error.description()));
    }
}

} // namespace vrid
