#include "io/live/changed_lines.hpp"

#include <algorithm>

namespace vrid {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

} // namespace

std::vector<ChangedLine> changed_lines(const std::string& before, const std::string& after) {
    const std::vector<std::string> a = lines_of(before), b = lines_of(after);
    std::size_t same = 0, tail = 0;
    const std::size_t least = std::min(a.size(), b.size());
    while (same < least && a[same] == b[same]) {
        ++same;
    }
    while (tail < least - same && a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
        ++tail;
    }
    // Longest common subsequence of what is between: an edit leaves that short.
    const std::size_t n = a.size() - same - tail, m = b.size() - same - tail;
    std::vector<std::vector<unsigned>> kept(n + 1, std::vector<unsigned>(m + 1, 0));
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t j = m; j-- > 0;) {
            kept[i][j] = a[same + i] == b[same + j] ? kept[i + 1][j + 1] + 1
                                                    : std::max(kept[i + 1][j], kept[i][j + 1]);
        }
    }
    std::vector<ChangedLine> changed;
    for (std::size_t i = 0, j = 0; i < n || j < m;) {
        if (i < n && j < m && a[same + i] == b[same + j]) {
            ++i, ++j;
        } else if (i < n && (j == m || kept[i + 1][j] >= kept[i][j + 1])) {
            changed.push_back({same + i + 1, false, a[same + i]});
            ++i;
        } else {
            changed.push_back({same + j + 1, true, b[same + j]});
            ++j;
        }
    }
    return changed;
}

} // namespace vrid
