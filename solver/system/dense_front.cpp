#include "solver/system/dense_front.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstring>

#include <cblas.h>

namespace vrid {

namespace {

constexpr int block = diagonal_block;
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

// Cholesky of a block x block matrix in place (lower triangle).
BadPivot factor_block(double* l, const double* floor, int size) {
    for (int j = 0; j < size; ++j) {
        double* column = l + j * block;
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
            double* next = l + c * block;
            for (int i = 0; i < block; ++i) {
                next[i] -= factor * column[i];
            }
        }
    }
    return {};
}

// w <- inverse of the lower triangular l; zero above the diagonal.
void invert_block(const double* l, double* w, int size) {
    std::fill(w, w + block * block, 0.0);
    // Rows of the inverse by forward substitution of the unit matrix, all columns at once:
    // w is built transposed so that the inner loop is contiguous.
    double rows[block * block] = {};
    for (int i = 0; i < size; ++i) {
        double sum[block] = {};
        sum[i] = 1;
        for (int j = 0; j < i; ++j) {
            const double factor = l[j * block + i];
            for (int c = 0; c < block; ++c) {
                sum[c] -= factor * rows[j * block + c];
            }
        }
        const double scale = 1 / l[i * block + i];
        for (int c = 0; c < block; ++c) {
            rows[i * block + c] = sum[c] * scale;
        }
    }
    for (int i = 0; i < size; ++i) {
        for (int c = 0; c <= i; ++c) {
            w[c * block + i] = rows[i * block + c];
        }
    }
}

// Factors one diagonal block of the panel and divides the rows below by it.
BadPivot factor_block_column(double* a, int n, int at, int size, const double* floor,
                             double* work) {
    double l[block * block] = {};
    double w[block * block];
    double* diagonal = a + static_cast<std::size_t>(at) * n + at;
    for (int c = 0; c < size; ++c) {
        std::memcpy(l + c * block + c, diagonal + static_cast<std::size_t>(c) * n + c,
                    sizeof(double) * (size - c));
    }
    const BadPivot bad = factor_block(l, floor + at, size);
    if (bad.column >= 0) {
        return {at + bad.column, bad.value};
    }
    invert_block(l, w, size);
    for (int c = 0; c < size; ++c) {
        std::memcpy(diagonal + static_cast<std::size_t>(c) * n, w + c * block,
                    sizeof(double) * size);
    }
    const int below = n - at - size;
    if (below > 0) {
        for (int c = 0; c < size; ++c) {
            std::memcpy(work + static_cast<std::size_t>(c) * below,
                        diagonal + static_cast<std::size_t>(c) * n + size, sizeof(double) * below);
        }
        cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, below, size, size, 1.0, work, below, w,
                    block, 0.0, diagonal + size, n);
    }
    return {};
}

} // namespace

BadPivot factor_columns(double* a, int n, int k, const double* floor, double* work) {
    const auto entry = [&](int row, int column) {
        return a + static_cast<std::size_t>(column) * n + row;
    };
    for (int s = 0; s < k; s += strip) {
        const int end = std::min(s + strip, k);
        if (s > 0) {
            subtract_product(entry(s, s), n, n - s, end - s, a + s, a + s, n, s);
        }
        for (int j = s; j < end; j += block) {
            const int size = std::min(block, end - j);
            if (j > s) {
                subtract_product(entry(j, j), n, n - j, size, entry(j, s), entry(j, s), n, j - s);
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
        subtract_product(c + static_cast<std::size_t>(j) * m + j, m, m - j, size, b + j, b + j, ldb,
                         k);
    }
}

void solve_lower(const double* panel, int n, int k, double* x, int ldx, int columns) {
    double part[block];
    for (int j = 0; j < k; j += block) {
        const int size = std::min(block, k - j);
        const double* diagonal = panel + static_cast<std::size_t>(j) * n + j;
        for (int c = 0; c < columns; ++c) {
            double* xc = x + static_cast<std::size_t>(c) * ldx + j;
            std::fill(part, part + block, 0.0);
            for (int i = 0; i < size; ++i) {
                for (int r = i; r < size; ++r) {
                    part[r] += diagonal[static_cast<std::size_t>(i) * n + r] * xc[i];
                }
            }
            std::memcpy(xc, part, sizeof(double) * size);
        }
        const int below = k - j - size;
        if (below > 0) {
            cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, below, columns, size, -1.0,
                        diagonal + size, n, x + j, ldx, 1.0, x + j + size, ldx);
        }
    }
}

void solve_lower_transposed(const double* panel, int n, int k, double* x, int ldx, int columns) {
    double part[block];
    for (int j = (k - 1) / block * block; j >= 0; j -= block) {
        const int size = std::min(block, k - j);
        const double* diagonal = panel + static_cast<std::size_t>(j) * n + j;
        const int below = k - j - size;
        if (below > 0) {
            cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, size, columns, below, -1.0,
                        diagonal + size, n, x + j + size, ldx, 1.0, x + j, ldx);
        }
        for (int c = 0; c < columns; ++c) {
            double* xc = x + static_cast<std::size_t>(c) * ldx + j;
            for (int i = 0; i < size; ++i) {
                double sum = 0;
                for (int r = i; r < size; ++r) {
                    sum += diagonal[static_cast<std::size_t>(i) * n + r] * xc[r];
                }
                part[i] = sum;
            }
            std::memcpy(xc, part, sizeof(double) * size);
        }
    }
}

} // namespace vrid
