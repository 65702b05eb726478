#include "io/verbs/verb.hpp"

#include <charconv>
#include <cmath>
#include <filesystem>

#include "io/write/csv_cell.hpp"
#include "io/write/staged_files.hpp"

namespace vrid {

namespace {

/// The whole text as a finite number, whatever the locale.
std::optional<double> parse(const std::string& text) {
    double value = 0;
    const bool plus = text.starts_with('+') && !text.starts_with("+-");
    const char* first = text.data() + (plus ? 1 : 0);
    const char* end = text.data() + text.size();
    const auto read = std::from_chars(first, end, value);
    const bool good = read.ec == std::errc{} && read.ptr == end && std::isfinite(value);
    return good ? std::optional(value) : std::nullopt;
}

std::string accepted(const NumberOption& option) {
    return std::string(option.whole ? "a whole number" : "a number") + " from " +
           csv_cell(option.min) + " to " + csv_cell(option.max);
}

} // namespace

std::vector<double> numbers_of(const Arguments& arguments, const NumberOption& option,
                               std::vector<Problem>& problems) {
    std::vector<double> all;
    for (const std::string& text : texts_of(arguments, option.name)) {
        const auto value = parse(text);
        if (!value || *value < option.min || *value > option.max ||
            (option.whole && *value != std::floor(*value))) {
            problems.push_back(
                {option.name, "found '" + text + "'; accepted: " + accepted(option)});
        } else {
            all.push_back(*value);
        }
    }
    return all;
}

std::optional<double> number_of(const Arguments& arguments, const NumberOption& option,
                                std::vector<Problem>& problems) {
    const std::vector<double> all = numbers_of(arguments, option, problems);
    return all.empty() ? std::nullopt : std::optional(all.back());
}

std::optional<double> share_of(const Arguments& arguments, const std::string& name,
                               std::vector<Problem>& problems) {
    if (!arguments.has(name)) {
        return std::nullopt;
    }
    const std::string text = text_of(arguments, name);
    const bool percent = text.ends_with('%');
    const auto number = parse(percent ? text.substr(0, text.size() - 1) : text);
    const double share = number ? (percent ? *number / 100 : *number) : 0;
    if (!number || !(share > 0 && share < 1)) {
        problems.push_back({name, "found '" + text + "'; accepted: a share such as 0.001 or 0.1%"});
        return std::nullopt;
    }
    return share;
}

std::string text_of(const Arguments& arguments, const std::string& name) {
    const std::vector<std::string> all = texts_of(arguments, name);
    return all.empty() ? "" : all.back();
}

std::vector<std::string> texts_of(const Arguments& arguments, const std::string& name) {
    const auto found = arguments.options.find(name);
    return found == arguments.options.end() ? std::vector<std::string>{} : found->second;
}

std::string out_folder(const Arguments& arguments) {
    std::string folder = text_of(arguments, "--out");
    if (arguments.has("--out") && folder.empty()) {
        throw InputError("--out", "found an empty name; accepted: a folder");
    }
    return folder;
}

void try_folder(const std::string& folder) {
    if (!folder.empty()) {
        const StagedFiles created(folder);
    }
}

std::string answer_file(const Arguments& arguments, const std::string& option) {
    if (!arguments.has(option)) {
        return "";
    }
    const std::string out = text_of(arguments, option);
    std::error_code error;
    if (out.empty() || std::filesystem::is_directory(out, error)) {
        throw InputError(option, "found '" + out + "'; accepted: the name of a new board file");
    }
    for (const std::string& input : arguments.positional) {
        if (std::filesystem::equivalent(input, out, error)) {
            throw InputError(option, "'" + out + "' is an input; the answer needs its own name");
        }
    }
    return out;
}

} // namespace vrid
