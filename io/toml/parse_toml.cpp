#include <string>

#include "io/toml/read_text.hpp"
#include "io/toml/table_reader.hpp"

namespace vrid {

namespace {

void note(std::vector<Problem>& list, const std::string& file, Problem problem) {
    constexpr std::size_t most = 200; // nobody reads further
    if (list.size() < most) {
        list.push_back(std::move(problem));
    } else if (list.size() == most) {
        list.push_back({file, "further ones are not listed"});
    }
}

} // namespace

void note_problem(Reading& reading, std::string place, std::string message) {
    note(reading.problems, reading.file, {std::move(place), std::move(message)});
}

void note_warning(Reading& reading, std::string place, std::string message) {
    note(reading.warnings, reading.file, {std::move(place), std::move(message)});
}

std::string place_text(const Reading& reading, const toml::source_position& position) {
    const auto line = static_cast<int>(position.line);
    const int column = file_column(reading.widened, line, static_cast<int>(position.column));
    return reading.file + ":" + std::to_string(line) + ":" + std::to_string(column);
}

toml::table parse_toml(const std::string& text, Reading& reading) {
    AsciiText ascii = fit_for_toml(text, reading.file);
    reading.widened = std::move(ascii.widened);
    try {
        return toml::parse(ascii.text, reading.file);
    } catch (const toml::parse_error& error) { // becomes our own error: the library stays in here
        throw InputError(place_text(reading, error.source().begin), unspelled(error.description()));
    }
}

} // namespace vrid
