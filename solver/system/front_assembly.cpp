#include "solver/system/front_assembly.hpp"

namespace vrid {

namespace {

void add(const double* from, double* to, int size) {
    for (int i = 0; i < size; ++i) {
        to[i] += from[i];
    }
}

} // namespace

void number_front_rows(const EliminationFront& front, const std::vector<char>& fixed,
                       std::vector<int>& row) {
    row.clear();
    int next = 0;
    for (const int n : front.pivots) {
        for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
            row.push_back(fixed[d] != 0 ? -1 : next++);
        }
    }
    for (std::size_t i = 0; i < node_dofs * front.boundary.size(); ++i) {
        row.push_back(next++);
    }
}

void find_runs(const std::vector<int>& row, std::vector<Run>& runs) {
    runs.clear();
    for (int i = 0; i < static_cast<int>(row.size()); ++i) {
        if (row[i] < 0) {
            continue;
        }
        if (!runs.empty() && runs.back().from + runs.back().length == i &&
            runs.back().to + runs.back().length == row[i]) {
            ++runs.back().length;
        } else {
            runs.push_back({i, row[i], 1});
        }
    }
}

void add_child(const FrontAssembly& front, const double* handed, int m,
               const std::vector<Run>& runs) {
    for (std::size_t c = 0; c < runs.size(); ++c) {
        for (int j = 0; j < runs[c].length; ++j) {
            const double* from = handed + static_cast<std::size_t>(runs[c].from + j) * m;
            double* to = front.column(runs[c].to + j);
            add(from + runs[c].from + j, to + runs[c].to + j, runs[c].length - j);
            for (std::size_t r = c + 1; r < runs.size(); ++r) {
                add(from + runs[r].from, to + runs[r].to, runs[r].length);
            }
        }
    }
    const double* diagonal = handed + static_cast<std::size_t>(m) * m;
    for (const Run& run : runs) {
        add(diagonal + run.from, front.diagonal + run.to, run.length);
    }
}

void add_element(const FrontAssembly& front, const Eigen::MatrixXd& K,
                 const std::vector<Run>& runs) {
    for (const Run& across : runs) {
        for (int j = 0; j < across.length; ++j) {
            const int row = across.to + j;
            const double* from = K.data() + static_cast<std::size_t>(across.from + j) * K.rows();
            double* to = front.column(row);
            for (const Run& run : runs) {
                if (run.to > row) {
                    add(from + run.from, to + run.to, run.length);
                }
            }
            add(from + across.from + j, to + row, across.length - j);
            front.diagonal[row] += from[across.from + j];
        }
    }
}

} // namespace vrid
