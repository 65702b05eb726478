#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/verbs/verb.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// A number the user may type, with its accepted range, both ends included.
struct NumberOption {
    std::string name; ///< "--degree"
    double min = 0, max = 0;
    bool whole = false; ///< integers only
};

/// The option's number; nothing if it was not given. What is wrong is added to `problems`.
std::optional<double> number_of(const Arguments& arguments, const NumberOption& option,
                                std::vector<Problem>& problems);

/// All numbers of a repeatable option.
std::vector<double> numbers_of(const Arguments& arguments, const NumberOption& option,
                               std::vector<Problem>& problems);

/// A share typed as 0.001 or 0.1%, above 0 and below 1.
std::optional<double> share_of(const Arguments& arguments, const std::string& name,
                               std::vector<Problem>& problems);

/// The option's text; empty if it was not given.
std::string text_of(const Arguments& arguments, const std::string& name);

/// The folder that --out names; empty if it was not given. \throws InputError for an empty name
std::string out_folder(const Arguments& arguments);

/// Makes the folder that --out names, if it does: what is wrong with it should not come to light
/// after minutes of solving. \throws OutputError
void try_folder(const std::string& folder);

/// \throws InputError if there are any
void throw_if_any(const std::vector<Problem>& problems);

/// The board file that an option names for an answer: no folder, and none of the inputs. Empty
/// without the option. \throws InputError
std::string answer_file(const Arguments& arguments, const std::string& option);

} // namespace vrid
