#!/usr/bin/env python3
"""Hard supported rhombi under even load: the references of skew_plates.cpp.

Independent of vrid. On a convex polygon the thin plate falls into two membranes, and the first-order
plate adds a third term (Reissner's plate theory; Marcus' moment sum m = (Mx + My) / (1 + nu)):

    - lap m = q,   - D lap w = m,   both 0 on the outline;   w(h) = w + m / (kappa G h)

The membranes are solved with polynomials of degree p on lines that crowd at the corners, where the
membrane is smooth enough (r^1.2 at 150 degrees) for ten digits. Units: side 1, D = 1, nu = 0.3.
Needs numpy and scipy. Takes seconds.
"""

import numpy as np
import scipy.sparse as sparse
import scipy.sparse.linalg as linalg

from mindlin_rectangle import KAPPA, NU, Line, whole_line


def thin(degrees, p, layers):
    """w and m at the centre."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    line = Line(whole_line(1, layers), p)
    inner = np.arange(1, line.size - 1)
    M, K, C = (sparse.csr_matrix(a[np.ix_(inner, inner)]) for a in (line.M, line.K, line.C))
    # x = a + c b, y = s b: the gradient in a, b
    skew = sparse.kron(C, C.T) + sparse.kron(C.T, C)
    factor = linalg.splu(
        ((sparse.kron(K, M) + sparse.kron(M, K) - c * skew) / s).tocsc()
    )
    m = factor.solve(s * np.kron(line.load[inner], line.load[inner]))
    w = factor.solve(s * (sparse.kron(M, M) @ m))
    centre = inner.size * (inner.size // 2) + inner.size // 2
    return w[centre], m[centre]


def main():
    for degrees in (30, 60):
        for p, layers in ((8, 6), (10, 6), (10, 9)):
            w, m = thin(degrees, p, layers)
            thick = {h: w + m * h * h / (6 * KAPPA * (1 - NU)) for h in (0.001, 0.01, 0.1, 0.2)}
            text = ", ".join(f"h = {h}: {value:.9e}" for h, value in thick.items())
            print(f"{degrees} degrees: thin {w:.9e}, m {m:.9e}; {text}", flush=True)


if __name__ == "__main__":
    main()
