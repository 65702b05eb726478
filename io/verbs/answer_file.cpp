#include "io/verbs/answer_file.hpp"

#include <filesystem>

#include "io/verbs/arguments.hpp"

namespace vrid {

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
