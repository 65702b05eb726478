#!/usr/bin/env python3
"""Thin rectangles by Ritz's method: the references of thin_plates.cpp and vibration.cpp.

Independent of vrid: tensor products of functions with a continuous slope (Hermite's cubics and
bubbles (1 - x^2)^2 P_k) on lines that crowd at the sides and under a point force. Two
discretisations each, so that the digits they share can be read off. Units: short side 1, D = 1,
nu = 0.3. Needs numpy and scipy. Takes less than a minute.
"""

import numpy as np
import scipy.sparse as sparse
import scipy.sparse.linalg as linalg
from numpy.polynomial import legendre, polynomial

NU = 0.3
HERMITE = [[0.5, -0.75, 0, 0.25], [0.25, -0.25, -0.25, 0.25], [0.5, 0.75, 0, -0.25],
           [-0.25, -0.25, 0.25, 0.25]]  # value and slope at -1, at 1


class Line:
    """Unknowns: value and slope at each point, then the bubbles. M, K, S, C: integrals of f g,
    f' g', f'' g'', f'' g; load: of f."""

    def __init__(self, points, p):
        bubbles = [
            polynomial.polymul([1, 0, -2, 0, 1], legendre.leg2poly([0] * k + [1]))
            for k in range(p - 3)
        ]
        self.functions = HERMITE + bubbles
        self.points = points
        cells = len(points) - 1
        gauss, weight = legendre.leggauss(p + 3)
        self.size = 2 * (cells + 1) + cells * (p - 3)
        self.M, self.K, self.S, self.C = (np.zeros((self.size, self.size)) for _ in range(4))
        self.load = np.zeros(self.size)
        self.cells = []
        for e, half in enumerate(np.diff(points) / 2):
            where = [2 * e + k for k in range(4)]
            where += [2 * (cells + 1) + e * (p - 3) + k for k in range(p - 3)]
            self.cells.append((where, half))
            f, df, ddf = (self.values(gauss, d, half) for d in range(3))
            place, w = np.ix_(where, where), weight * half
            self.M[place] += (f.T * w) @ f
            self.K[place] += (df.T * w) @ df
            self.S[place] += (ddf.T * w) @ ddf
            self.C[place] += (ddf.T * w) @ f
            self.load[where] += f.T @ w

    def values(self, x, derivative, half):
        rows = [polynomial.polyval(x, polynomial.polyder(f, derivative)) for f in self.functions]
        scale = np.ones(len(rows))
        scale[[1, 3]] = half
        scale[4:] = half**1.5
        return np.array(rows).T * scale / half**derivative

    def at_end(self, last, derivative):
        where, half = self.cells[-1 if last else 0]
        row = np.zeros(self.size)
        row[where] = self.values(np.array([1.0 if last else -1.0]), derivative, half)[0]
        return row


def half_line(length, layers, inner=0, ratio=0.2):
    """0..length, crowded at 0 and, with `inner` layers, at the other end."""
    half = length / 2
    left = [0] + [half * ratio**k for k in range(layers - 1, -1, -1)]
    return left + [length - half * ratio**k for k in range(1, inner + 1)] + [length]


def whole_line(length, layers):
    left = half_line(length / 2, layers)
    return left + [length - x for x in left[-2::-1]]


def stiffness(x, y, keep_x, keep_y):
    def product(a, b):
        a, b = a[np.ix_(keep_x, keep_x)], b[np.ix_(keep_y, keep_y)]
        return sparse.kron(sparse.csr_matrix(a), sparse.csr_matrix(b))

    K = product(x.S, y.M) + product(x.M, y.S) + 2 * (1 - NU) * product(x.K, y.K)
    K += NU * (product(x.C, y.C.T) + product(x.C.T, y.C))
    return K.tocsc(), product(x.M, y.M).tocsc()


def clamped(b, force, p, layers, inner):
    """1 x b under even load or a central force, by quarters: w, Mx, My at the centre, Mx and My at
    the middles of the sides."""
    x, y = Line(half_line(0.5, layers, inner), p), Line(half_line(b / 2, layers, inner), p)
    keep = []
    for line in (x, y):  # the side clamped, no slope at the centre
        out = {0, 1, 2 * len(line.cells) + 1}
        keep.append(np.array([i for i in range(line.size) if i not in out]))
    K, _ = stiffness(x, y, *keep)
    middle = x.at_end(True, 0), y.at_end(True, 0)
    loads = tuple(m / 2 for m in middle) if force else (x.load, y.load)
    load = np.kron(loads[0][keep[0]], loads[1][keep[1]])
    scale = 1 / np.sqrt(K.diagonal())
    scaled = (sparse.diags(scale) @ K @ sparse.diags(scale)).tocsc()
    factor = linalg.splu(scaled)
    u = factor.solve(scale * load)
    u += factor.solve(scale * load - scaled @ u)
    U = np.zeros((x.size, y.size))
    U[np.ix_(*keep)] = (scale * u).reshape(keep[0].size, keep[1].size)
    kx, ky = -x.at_end(True, 2) @ U @ middle[1], -middle[0] @ U @ y.at_end(True, 2)
    side_x, side_y = -x.at_end(False, 2) @ U @ middle[1], -middle[0] @ U @ y.at_end(False, 2)
    return np.array([middle[0] @ U @ middle[1], kx + NU * ky, ky + NU * kx, side_x, side_y])


def frequencies(sides, p, layers, length=1, count=9):
    """length x 1, clamped at x = 0 if a cantilever; on the length squared."""
    x, y = Line(whole_line(length, layers), p), Line(whole_line(1, layers), p)
    keep_x, keep_y = np.arange(x.size), np.arange(y.size)
    if sides == "cantilever":
        keep_x = keep_x[2:]
    elif sides == "clamped":
        last = 2 * len(x.cells)
        keep_x = keep_y = np.array([i for i in keep_x if i not in (0, 1, last, last + 1)])
    K, M = stiffness(x, y, keep_x, keep_y)
    squares = linalg.eigsh(K, count, M, sigma=-50.0, return_eigenvectors=False)
    found = np.sqrt(np.maximum(np.sort(squares), 0))
    return (found[found > 0.1] * length**2)[:6]


def main():
    np.set_printoptions(precision=9, linewidth=120)
    for b in (1, 1.5, 2):
        for p, layers in ((9, 3), (10, 3)):
            print("clamped 1 x", b, "even load", clamped(b, False, p, layers, 0), flush=True)
        for p, inner in ((6, 3), (7, 3)):
            w = clamped(b, True, p, 3, inner)[0]
            print("clamped 1 x", b, "central force", w, flush=True)
    np.set_printoptions(precision=6, suppress=True)
    for sides in ("free", "cantilever", "clamped"):
        for p, layers in ((6, 3), (7, 3)):
            print(sides, "square", frequencies(sides, p, layers), flush=True)
    for sides, length in (("free", 2), ("cantilever", 2), ("cantilever", 5)):
        for p, layers in ((7, 3), (7, 4)):
            print(sides, f"{length}:1", frequencies(sides, p, layers, length), flush=True)


if __name__ == "__main__":
    main()
