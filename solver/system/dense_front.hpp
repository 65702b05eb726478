#pragma once

namespace vrid {

/// Width of the diagonal blocks that factor_columns stores inverted. Small, so that multiplying by
/// the inverse is as good as substitution; wide enough for the matrix product to run near its
/// speed.
inline constexpr int diagonal_block = 16;

/// A pivot that is not safely positive.
struct BadPivot {
    int column = -1; ///< -1: none
    double value = 0;
};

/// Cholesky of the first k columns of a symmetric matrix with n rows (by columns, leading dimension
/// n, only the lower triangle is read; the upper one is overwritten by anything). Off the
/// diagonal blocks the result is L; the blocks hold the inverses of L's blocks, zero above the
/// diagonal. A pivot must exceed floor[column]. work: diagonal_block * n numbers.
BadPivot factor_columns(double* a, int n, int k, const double* floor, double* work);

/// c -= b b^T, lower triangle (m x m, leading dimension m; b: m x k, leading dimension ldb). Up to
/// some numbers above the diagonal are overwritten.
void subtract_square(double* c, int m, const double* b, int ldb, int k);

/// x <- L^-1 x for the leading k rows of a factored panel; x: k x columns, leading dimension ldx.
void solve_lower(const double* panel, int n, int k, double* x, int ldx, int columns);

/// x <- L^-T x.
void solve_lower_transposed(const double* panel, int n, int k, double* x, int ldx, int columns);

} // namespace vrid
