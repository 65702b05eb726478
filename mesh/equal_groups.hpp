#pragma once

#include <algorithm>
#include <numeric>
#include <vector>

namespace vrid {

/// Things 0..n-1 in groups that must be treated alike; each group is named by its least member.
class EqualGroups {
  public:
    explicit EqualGroups(std::size_t n) : root_(n) { std::iota(root_.begin(), root_.end(), 0); }
    int find(int i) {
        while (root_[at(i)] != i) {
            i = root_[at(i)] = root_[at(root_[at(i)])];
        }
        return i;
    }
    void join(int i, int k) {
        i = find(i);
        k = find(k);
        root_[at(std::max(i, k))] = std::min(i, k);
    }

  private:
    static std::size_t at(int i) { return static_cast<std::size_t>(i); }

    std::vector<int> root_;
};

} // namespace vrid
