#!/usr/bin/env python3
"""Mindlin rectangles by Ritz's method: the references of thick_plates.cpp and vibration.cpp.

Independent of vrid: plain displacement functions (no tied shear), tensor products of Lobatto
polynomials of high degree on lines that crowd at the sides, into the layer as wide as the plate is
thick. At degree 7 and more nothing locks. All frequencies are upper bounds; two discretisations are
printed so that the digits they share can be read off. Units: short side 1, D = 1, kappa = 5/6.
Needs numpy and scipy. Takes about two minutes.
"""

import numpy as np
import scipy.sparse as sparse
import scipy.sparse.linalg as linalg
from numpy.polynomial import legendre

NU, KAPPA = 0.3, 5 / 6
FREE, CLAMPED, HARD, SOFT = (0, 0, 0), (1, 1, 1), (1, 0, 1), (1, 0, 0)  # w, across, along the side


class Line:
    """Functions of one coordinate: nodal polynomials of degree p between the given points.

    M, K, C: integrals of f g, f' g', f' g; load: of f; slope_first, slope_last: f' at the ends.
    """

    def __init__(self, points, p):
        inner = np.sort(legendre.Legendre.basis(p).deriv().roots().real)
        nodes = np.concatenate([[-1], inner, [1]])
        to_nodal = np.linalg.inv(legendre.legvander(nodes, p))
        gauss, weight = legendre.leggauss(p + 2)
        slopes = [legendre.legder(row) for row in np.eye(p + 1)]

        def slope(x):
            return np.array([legendre.legval(x, s) for s in slopes]).T @ to_nodal

        value, change = legendre.legvander(gauss, p) @ to_nodal, slope(gauss)
        self.size = p * (len(points) - 1) + 1
        self.M, self.K, self.C = (np.zeros((self.size, self.size)) for _ in range(3))
        self.load, self.slope_first, self.slope_last = (np.zeros(self.size) for _ in range(3))
        for e, half in enumerate(np.diff(points) / 2):
            s = slice(e * p, e * p + p + 1)
            self.M[s, s] += (value.T * weight) @ value * half
            self.K[s, s] += (change.T * weight) @ change / half
            self.C[s, s] += (change.T * weight) @ value
            self.load[s] += value.T @ weight * half
        self.slope_first[: p + 1] = slope(-1.0) * 2 / (points[1] - points[0])
        self.slope_last[-p - 1 :] = slope(1.0) * 2 / (points[-1] - points[-2])


def half_line(length, layers, ratio=0.2):
    """0..length, crowded at 0."""
    return [0] + [length / 2 * ratio**k for k in range(layers - 1, -1, -1)] + [length]


def whole_line(length, layers):
    left = half_line(length / 2, layers)
    return left + [length - x for x in left[-2::-1]]


class Plate:
    """K, M and the even load of x times y; fixed[field] = ((first, last) in x, (first, last) in y)."""

    def __init__(self, x, y, h, fixed):
        self.x, self.y = x, y
        self.kept = {
            field: tuple(
                np.arange(int(ends[0]), line.size - int(ends[1]))
                for ends, line in zip(fixed[field], (x, y))
            )
            for field in "wxy"
        }
        shear, half = KAPPA * 6 * (1 - NU) / h**2, (1 - NU) / 2

        def product(a, b, f, g):
            (fx, fy), (gx, gy) = self.kept[f], self.kept[g]
            return sparse.kron(
                sparse.csr_matrix(a[np.ix_(fx, gx)]), sparse.csr_matrix(b[np.ix_(fy, gy)])
            )

        ww = shear * (product(x.K, y.M, "w", "w") + product(x.M, y.K, "w", "w"))
        xx = product(x.K, y.M, "x", "x") + half * product(x.M, y.K, "x", "x")
        yy = product(x.M, y.K, "y", "y") + half * product(x.K, y.M, "y", "y")
        xx += shear * product(x.M, y.M, "x", "x")
        yy += shear * product(x.M, y.M, "y", "y")
        wx, wy = shear * product(x.C, y.M, "w", "x"), shear * product(x.M, y.C, "w", "y")
        xy = NU * product(x.C, y.C.T, "x", "y") + half * product(x.C.T, y.C, "x", "y")
        self.K = sparse.bmat([[ww, wx, wy], [wx.T, xx, xy], [wy.T, xy.T, yy]]).tocsc()
        turn = h * h / 12
        self.M = sparse.block_diag(
            [product(x.M, y.M, f, f) * (1 if f == "w" else turn) for f in "wxy"]
        ).tocsc()
        w = np.kron(x.load[self.kept["w"][0]], y.load[self.kept["w"][1]])
        self.load = np.concatenate([w, np.zeros(self.K.shape[0] - w.size)])

    def fields(self, u):
        start, out = 0, {}
        for field, (i, j) in self.kept.items():
            out[field] = np.zeros((self.x.size, self.y.size))
            out[field][np.ix_(i, j)] = u[start : start + i.size * j.size].reshape(i.size, j.size)
            start += i.size * j.size
        return out


def even_load(b, h, side, p, layers):
    """1 x b, by quarters: w, Mx, My at the centre, Mx and My at the middles of the sides."""
    w, across, along = side
    x, y = Line(half_line(0.5, layers), p), Line(half_line(b / 2, layers), p)
    fixed = {"w": ((w, 0), (w, 0)), "x": ((across, 1), (along, 0)), "y": ((along, 0), (across, 1))}
    plate = Plate(x, y, h, fixed)
    f = plate.fields(linalg.spsolve(plate.K, plate.load))
    kx, ky = x.slope_last @ f["x"][:, -1], f["y"][-1, :] @ y.slope_last
    side_x = x.slope_first @ f["x"][:, -1] + NU * f["y"][0, :] @ y.slope_last
    side_y = f["y"][-1, :] @ y.slope_first + NU * x.slope_last @ f["x"][:, 0]
    return np.array([f["w"][-1, -1], kx + NU * ky, ky + NU * kx, side_x, side_y])


def frequencies(h, side, p, layers, cantilever=False, count=6):
    """Square: by symmetry classes of x and y (a cantilever, clamped at x = 0, by those of y)."""
    w, across, along = side
    y = Line(half_line(0.5, layers), p)
    x = Line(whole_line(1, layers), p) if cantilever else y
    squares = []
    for odd_x in [None] if cantilever else [0, 1]:
        for odd_y in [0, 1]:
            if cantilever:
                in_x = {field: (1, 0) for field in "wxy"}
            else:
                in_x = {"w": (w, odd_x), "x": (across, 1 - odd_x), "y": (along, odd_x)}
            in_y = {"w": (w, odd_y), "x": (along, odd_y), "y": (across, 1 - odd_y)}
            plate = Plate(x, y, h, {field: (in_x[field], in_y[field]) for field in "wxy"})
            squares += list(
                linalg.eigsh(plate.K, count, plate.M, sigma=-1.0, return_eigenvectors=False)
            )
    found = np.sqrt(np.maximum(np.sort(squares), 0))
    return found[found > 0.1][:count]


def main():
    np.set_printoptions(precision=9, linewidth=120)
    for name, side in (("soft", SOFT), ("clamped", CLAMPED)):
        for h in (0.01, 0.05, 0.1, 0.2):
            for p, layers in ((8, 4), (10, 6)):
                print(name, "square, h =", h, even_load(1, h, side, p, layers), flush=True)
    for b in (1.5, 2):
        for p, layers in ((8, 4), (10, 6)):
            print("clamped 1 x", b, "h = 2e-4", even_load(b, 2e-4, CLAMPED, p, layers), flush=True)
    np.set_printoptions(precision=6, suppress=True)
    sides = (("free", FREE), ("hard", HARD), ("clamped", CLAMPED), ("cantilever", FREE))
    for name, side in sides:
        for h in (0.01, 0.1, 0.2):
            for p, layers in ((7, 4), (9, 5)):
                lam = frequencies(h, side, p, layers, name == "cantilever")
                print(name, "square, h =", h, lam, flush=True)


if __name__ == "__main__":
    main()
