#include "mesh/board/nearest_name.hpp"

#include <algorithm>
#include <cctype>

namespace vrid {

namespace {

// Names are short; a longer "name" is no misspelling, and the comparison is quadratic.
constexpr std::size_t longest_name = 80;

bool same_letter(char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) ==
           std::tolower(static_cast<unsigned char>(b));
}

// Optimal string alignment distance, rows of the usual table.
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) {
        last[j] = j;
    }
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = same_letter(a[i - 1], b[j - 1]) ? 0 : 1;
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
            if (i > 1 && j > 1 && same_letter(a[i - 1], b[j - 2]) &&
                same_letter(a[i - 2], b[j - 1])) {
                row[j] = std::min(row[j], before[j - 2] + 1);
            }
        }
        before.swap(last);
        last.swap(row);
    }
    return last[b.size()];
}

} // namespace

std::string nearest_name(std::string_view name, const std::vector<std::string>& valid) {
    if (name.size() > longest_name) {
        return {};
    }
    std::string nearest;
    std::size_t least = std::max<std::size_t>(2, name.size() / 3) + 1;
    for (const std::string& candidate : valid) {
        if (candidate.size() > longest_name) {
            continue;
        }
        const std::size_t d = distance(name, candidate);
        if (d < least && d < candidate.size()) {
            least = d;
            nearest = candidate;
        }
    }
    return nearest;
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& valid) {
    const std::string nearest = nearest_name(name, valid);
    return nearest.empty() || nearest == name ? "" : "; did you mean '" + nearest + "'?";
}

} // namespace vrid
