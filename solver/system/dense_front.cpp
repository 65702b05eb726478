#include "solver/system/dense_front.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include <cblas.h>

namespace vrid {

namespace {

constexpr int block = diagonal_block;
constexpr std::size_t block_size = std::size_t{block} * block;
using Block = std::array<double, block_size>; // by columns

std::size_t entry(int row, int column, int ld) {
    return static_cast<std::size_t>(column) * ld + row;
}

// Columns updated at once from all before them: wide enough for a fast product, narrow enough for
// the columns to stay in the cache while their blocks are factored.
constexpr int strip = 128;
// From this many rows on the library's symmetric update is faster than strips of products.
constexpr int large_square = 384;
constexpr int square_strip = 48;

// c -= a b^T with c: m x n, a: m x k, b: n x k.
void subtract_product(double* c, int ldc, int m, int n, const double* a, const double* b, int ld,
                      int k) {
    cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, m, n, k, -1.0, a, ld, b, ld, 1.0, c, ldc);
}

// Cholesky in place, lower triangle, of the leading `size` rows.
BadPivot factor_block(Block& l, const double* floor, int size) {
    for (int j = 0; j < size; ++j) {
        double* column = &l[entry(0, j, block)];
        const double pivot = column[j];
        if (!(pivot > floor[j])) {
            return {j, pivot};
        }
        const double scale = 1 / std::sqrt(pivot);
        for (int i = 0; i < block; ++i) {
            column[i] *= scale;
        }
        for (int c = j + 1; c < size; ++c) {
            const double factor = column[c];
            double* next = &l[entry(0, c, block)];
            for (int i = 0; i < block; ++i) {
                next[i] -= factor * column[i];
            }
        }
    }
    return {};
}

// Inverse of the lower triangular l, zero above the diagonal: forward substitution of the unit
// matrix, all columns at once.
Block invert_block(const Block& l, int size) {
    Block rows{}; // the inverse by rows, so that the inner loop is contiguous
    for (int i = 0; i < size; ++i) {
        std::array<double, block> sum{};
        sum[i] = 1;
        for (int j = 0; j < i; ++j) {
            const double factor = l[entry(i, j, block)];
            for (int c = 0; c < block; ++c) {
                sum[c] -= factor * rows[entry(c, j, block)];
            }
        }
        const double scale = 1 / l[entry(i, i, block)];
        for (int c = 0; c < block; ++c) {
            rows[entry(c, i, block)] = sum[c] * scale;
        }
    }
    Block inverse{};
    for (int i = 0; i < size; ++i) {
        for (int c = 0; c <= i; ++c) {
            inverse[entry(i, c, block)] = rows[entry(c, i, block)];
        }
    }
    return inverse;
}

// Factors one diagonal block of the panel and divides the rows below by it.
BadPivot factor_block_column(double* a, int n, int at, int size, const double* floor,
                             double* work) {
    Block l{};
    double* diagonal = a + entry(at, at, n);
    for (int c = 0; c < size; ++c) {
        std::copy_n(diagonal + entry(c, c, n), size - c, &l[entry(c, c, block)]);
    }
    const BadPivot bad = factor_block(l, floor + at, size);
    if (bad.column >= 0) {
        return {at + bad.column, bad.value};
    }
    const Block inverse = invert_block(l, size);
    for (int c = 0; c < size; ++c) {
        std::copy_n(&inverse[entry(0, c, block)], size, diagonal + entry(0, c, n));
    }
    const int below = n - at - size;
    if (below > 0) {
        for (int c = 0; c < size; ++c) {
            std::copy_n(diagonal + entry(size, c, n), below, work + entry(0, c, below));
        }
        cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, below, size, size, 1.0, work, below,
                    inverse.data(), block, 0.0, diagonal + size, n);
    }
    return {};
}

// x <- w x or w^T x, w: an inverted diagonal block.
void multiply_block(const double* w, int n, int size, CBLAS_TRANSPOSE transpose, double* x, int ldx,
                    int columns) {
    constexpr int at_once = 16;
    std::array<double, std::size_t{block} * at_once> old{};
    for (int c = 0; c < columns; c += at_once) {
        const int count = std::min(at_once, columns - c);
        double* part = x + entry(0, c, ldx);
        for (int i = 0; i < count; ++i) {
            std::copy_n(part + entry(0, i, ldx), size, &old[entry(0, i, block)]);
        }
        cblas_dgemm(CblasColMajor, transpose, CblasNoTrans, size, count, size, 1.0, w, n,
                    old.data(), block, 0.0, part, ldx);
    }
}

} // namespace

BadPivot factor_columns(double* a, int n, int k, const double* floor, double* work) {
    const auto at = [&](int row, int column) { return a + entry(row, column, n); };
    for (int s = 0; s < k; s += strip) {
        const int end = std::min(s + strip, k);
        if (s > 0) {
            subtract_product(at(s, s), n, n - s, end - s, a + s, a + s, n, s);
        }
        for (int j = s; j < end; j += block) {
            const int size = std::min(block, end - j);
            if (j > s) {
                subtract_product(at(j, j), n, n - j, size, at(j, s), at(j, s), n, j - s);
            }
            const BadPivot bad = factor_block_column(a, n, j, size, floor, work);
            if (bad.column >= 0) {
                return bad;
            }
        }
    }
    return {};
}

void subtract_square(double* c, int m, const double* b, int ldb, int k) {
    if (m >= large_square) {
        cblas_dsyrk(CblasColMajor, CblasLower, CblasNoTrans, m, k, -1.0, b, ldb, 1.0, c, m);
        return;
    }
    for (int j = 0; j < m; j += square_strip) {
        const int size = std::min(square_strip, m - j);
        subtract_product(c + entry(j, j, m), m, m - j, size, b + j, b + j, ldb, k);
    }
}

void solve_lower(const double* panel, int n, int k, double* x, int ldx, int columns) {
    for (int j = 0; j < k; j += block) {
        const int size = std::min(block, k - j);
        const double* diagonal = panel + entry(j, j, n);
        multiply_block(diagonal, n, size, CblasNoTrans, x + j, ldx, columns);
        const int below = k - j - size;
        if (below > 0) {
            cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, below, columns, size, -1.0,
                        diagonal + size, n, x + j, ldx, 1.0, x + j + size, ldx);
        }
    }
}

void solve_lower_transposed(const double* panel, int n, int k, double* x, int ldx, int columns) {
    for (int j = (k - 1) / block * block; j >= 0; j -= block) {
        const int size = std::min(block, k - j);
        const double* diagonal = panel + entry(j, j, n);
        const int below = k - j - size;
        if (below > 0) {
            cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, size, columns, below, -1.0,
                        diagonal + size, n, x + j + size, ldx, 1.0, x + j, ldx);
        }
        multiply_block(diagonal, n, size, CblasTrans, x + j, ldx, columns);
    }
}

} // namespace vrid
