#!/usr/bin/env python3
"""Navier's series of first-order theory: references of nafems.cpp and ply_stress.cpp.

Independent of vrid: closed-form 3 x 3 system for each term. Symmetric cross-ply plates on hard
supports. Needs numpy. Takes seconds.
"""

import numpy as np


def Q(E1, E2, nu12, G12, turned=False):
    nu21 = nu12 * E2 / E1
    q = np.array([[E1, nu12 * E2, 0], [nu12 * E2, E2, 0], [0, 0, 0]]) / (1 - nu12 * nu21)
    q[2, 2] = G12
    return q[np.ix_([1, 0, 2], [1, 0, 2])] if turned else q


def terms(a, b, D, S, loads):
    """loads: {(m, n): amplitude of sin sin}. Yields alpha, beta and W, X, Y of w, bx, by."""
    for (m, n), q in loads.items():
        x, y = m * np.pi / a, n * np.pi / b
        K = np.array(
            [
                [S[0] * x * x + S[1] * y * y, S[0] * x, S[1] * y],
                [S[0] * x, D[0, 0] * x * x + D[2, 2] * y * y + S[0], (D[0, 1] + D[2, 2]) * x * y],
                [S[1] * y, (D[0, 1] + D[2, 2]) * x * y, D[2, 2] * x * x + D[1, 1] * y * y + S[1]],
            ]
        )
        yield x, y, *np.linalg.solve(K, [q, 0, 0])


def sandwich():
    """NAFEMS R0031 test 3 with S = G d2 / c: psi and in."""
    a, t, c = 10.0, 0.028, 0.75
    d = c + t
    face = Q(10e6, 4e6, 0.3, 1.875e6)
    D = face * 2 * (t * d * d / 4 + t**3 / 12)
    S = np.array([3e4, 1.2e4]) * d * d / c
    for last in (199, 399, 799):
        odd = range(1, last + 1, 2)
        loads = {(m, n): 16 * 100 / (np.pi**2 * m * n) for m in odd for n in odd}
        w, k, twist = 0.0, np.zeros(3), 0.0
        for x, y, W, X, Y in terms(a, a, D, S, loads):
            peak = np.sin(x * a / 2) * np.sin(y * a / 2)
            w += W * peak
            k += np.array([-x * X, -y * Y, 0]) * peak
            twist += (y * X + x * Y) * np.cos(x * a / 4) * np.cos(y * a / 4)
        stress = face @ k * d / 2
        print("sandwich,", last, "terms: w %.6f" % w, "sx %.2f sy %.2f" % tuple(stress[:2]),
              "txy at the quarter point %.2f" % (face[2, 2] * twist * d / 2))


def sine_load():
    """Pagano's material, a = b = 1, kappa = 5/6, stresses over q S2."""
    for name, turned in (("0/90/0", [0, 1, 0]), ("0/90/90/0", [0, 1, 1, 0])):
        for ratio in (4, 10, 100):
            h = 1 / ratio
            edges = np.linspace(-h / 2, h / 2, len(turned) + 1)
            plies = [Q(25, 1, 0.25, 0.5, bool(r)) for r in turned]
            D = sum(q * (e1**3 - e0**3) / 3 for q, e0, e1 in zip(plies, edges, edges[1:]))
            shear = np.array([[0.2, 0.5] if r else [0.5, 0.2] for r in turned])
            S = 5 / 6 * shear.sum(axis=0) * h / len(turned)
            ((x, y, W, X, Y),) = terms(1, 1, D, S, {(1, 1): 1.0})
            k, twist, scale = np.array([-x * X, -y * Y, 0]), y * X + x * Y, ratio**2
            inner = edges[-2]
            print(name, "S =", ratio, "wbar %.5f" % (100 * W * h**3),
                  "sx(h/2) %.5f" % (plies[-1] @ k * h / 2 / scale)[0],
                  "sy(inner ply, z = %.4f h) %.5f" % (inner / h, (plies[-2] @ k * inner / scale)[1]),
                  "txy(h/2) %.5f" % (0.5 * twist * h / 2 / scale))


if __name__ == "__main__":
    sandwich()
    sine_load()
