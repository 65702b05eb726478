"""Meshes of few large quads of high degree on boards. SI units.

Outline keys (sidecut circle, one cubic Bezier a tip side), rectangles and drawn outlines that are
known as functions. Quads follow contact lines, foot strips and patches, stations of
core and rest shape and the bands of edge and sidewall, and are graded towards lines where a support
ends and towards the free edge (boundary layer of the twisting moment, about h / sqrt 10 wide).
"""
import math

import numpy as np
from scipy.optimize import brentq
from scipy.spatial import cKDTree

from shell_board import DRAWN
from shell_nodes import lobatto


def gaps(marks, grade, longest):
    """Lines of a mesh through marks (place: graded or not), none further apart than `longest`."""
    places = sorted(marks)
    lines = [places[0]]
    for a, b in zip(places, places[1:]):
        near = [g for g in grade if 3 * g < b - a] if marks[a] else []
        far = [g for g in grade if 3 * g < b - a] if marks[b] else []
        lo, hi = a + max(near, default=0), b - max(far, default=0)
        n = max(1, math.ceil((hi - lo) / longest - 1e-6))
        inner = list(np.linspace(lo, hi, n + 1))
        lines += sorted({*[a + g for g in near], *inner, *[b - g for g in far], b} - {a})
    return [x for k, x in enumerate(lines) if k == 0 or x - lines[k - 1] > 1e-7]


class Mesh:
    """x, y (elements, n, n) at Lobatto nodes of degree p (first index along xi), band of each element,
    node numbers of each element, place of each node."""

    def __init__(self, p):
        self.p, self.t = p, lobatto(p)[0]
        self.quads, self.band = [], []

    def add(self, x, y, band):
        self.quads.append(np.stack([x, y], -1))
        self.band.append(band)

    def columns(self, xs, rows):
        """Quads between lines x = const and curves y = rows[j][0](x); rows[j][1] the band above."""
        for a, b in zip(xs, xs[1:]):
            x = a + (b - a) * self.t
            y = [f(x) for f, _ in rows]
            for j in range(len(rows) - 1):
                grid = y[j][:, None] + (y[j + 1] - y[j])[:, None] * self.t[None, :]
                self.add(np.repeat(x[:, None], len(x), 1), grid, rows[j][1])

    def block(self, bottom, right, top, left, us, vs, band):
        """Coons' surface of four curves ([0, 1] -> (..., 2); bottom, top along u; left, right along v)."""
        for u0, u1 in zip(us, us[1:]):
            for v0, v1 in zip(vs, vs[1:]):
                u, v = u0 + (u1 - u0) * self.t, v0 + (v1 - v0) * self.t
                B, T, L, R = bottom(u)[:, None], top(u)[:, None], left(v)[None], right(v)[None]
                U, V = u[:, None, None], v[None, :, None]
                c = [f(np.array([w]))[0] for f in (bottom, top) for w in (0.0, 1.0)]
                xy = (1 - V) * B + V * T + (1 - U) * L + U * R
                xy = xy - (1 - U) * (1 - V) * c[0] - U * (1 - V) * c[1] - (1 - U) * V * c[2] - U * V * c[3]
                self.add(xy[..., 0], xy[..., 1], band)

    def mirror(self):
        for q, band in list(zip(self.quads, self.band)):
            self.quads.append((q * [1, -1])[:, ::-1])
            self.band.append(band)

    def join(self):
        xy = np.array(self.quads)
        for e, q in enumerate(xy):  # positive orientation
            a, b = q[-1, 0] - q[0, 0], q[0, -1] - q[0, 0]
            c, d = q[-1, -1] - q[0, -1], q[-1, -1] - q[-1, 0]
            if a[0] * b[1] - a[1] * b[0] + c[0] * d[1] - c[1] * d[0] < 0:
                xy[e] = q[::-1]
        self.xy, self.band = xy, np.array(self.band)
        points = xy.reshape(-1, 2)
        owner = np.arange(len(points))
        pairs = cKDTree(points).query_pairs(2e-9, output_type="ndarray")
        while True:  # groups of equal places, by their least number
            least = owner.copy()
            np.minimum.at(least, pairs[:, 0], owner[pairs[:, 1]])
            np.minimum.at(least, pairs[:, 1], owner[pairs[:, 0]])
            if (least == owner).all():
                break
            owner = least
        kept, number = np.unique(owner, return_inverse=True)
        self.nodes = number.reshape(xy.shape[:3])
        self.points = points[kept]
        self.check_sides()
        return self

    def check_sides(self):
        """Quads that have the ends of a side in common must have all its nodes in common."""
        between = {}
        for n in self.nodes:
            for side in (n[0], n[-1], n[:, 0], n[:, -1]):
                ends = tuple(sorted((side[0], side[-1])))
                assert between.setdefault(ends, set(side)) == set(side), "quads do not meet"


def sidecut(plan, half):
    """y and slope dy/dx of the circle through tail, waist, nose half widths."""
    P = np.array(
        [[-half, plan["tail_width_mm"] / 2], [plan.get("waist_x_mm", 0), plan["waist_width_mm"] / 2],
         [half, plan["nose_width_mm"] / 2]]
    )  # fmt: skip
    A = np.column_stack([2 * P, np.ones(3)])
    cx, cy, c = np.linalg.solve(A, (P**2).sum(1))
    R = math.sqrt(c + cx * cx + cy * cy)
    y = lambda x: cy - np.sqrt(R * R - (x - cx) ** 2)
    return y, lambda x: (x - cx) / np.sqrt(R * R - (x - cx) ** 2)


def parallel_of(y, slope, offset, lo, hi):
    """y(x) of the curve at a distance inside y = y(x)."""
    if offset == 0:
        return y

    def at(x):
        def place(s):
            return s + offset * slope(s) / math.hypot(1, slope(s)) - x

        s = brentq(place, lo - 0.2, hi + 0.2, xtol=1e-15, rtol=1e-15)
        return float(y(s)) - offset / math.hypot(1, slope(s))

    return lambda x: np.array([at(float(v)) for v in x])


def tip(mesh, plan, end, half, offsets, bands, inner, along, across, outward):
    """Half of a tip (y >= 0) as a fan: a block at the long axis (up to y = `inner` on the contact line),
    two blocks around it, rings between parallels of the outline at `offsets` (outermost first).
    `along`, `across`, `outward`: shares at which blocks are cut along x, around y, and towards the rings."""
    side = 1 if end == "nose" else -1
    y, slope = sidecut(plan, half)
    xe = side * half
    ye = float(y(xe))
    T = side * np.array([1.0, float(slope(xe))]) / math.hypot(1, slope(xe))
    L, f = plan[end + "_length_mm"], plan.get(end + "_fullness", 0.55)
    b = np.array([[xe, ye], [xe, ye] + f * L * T, [xe + side * L, f * ye], [xe + side * L, 0]])

    def parallel(o):
        def at(t):
            t = np.asarray(t, float)[..., None]
            P = (1 - t) ** 3 * b[0] + 3 * t * (1 - t) ** 2 * b[1] + 3 * t * t * (1 - t) * b[2] + t**3 * b[3]
            d = (1 - t) ** 2 * (b[1] - b[0]) + 2 * t * (1 - t) * (b[2] - b[1]) + t * t * (b[3] - b[2])
            n = np.stack([d[..., 1], -d[..., 0]], -1) * side
            return P + o * n / np.linalg.norm(n, axis=-1, keepdims=True)

        if o == 0:
            return at, 0.0
        # on the contact line, where the cubic goes on before its first point: some 1e-7 m are given
        # to the parallel of the sidecut there, so that nodes meet
        start = brentq(lambda t: float(at(t)[0]) - xe, -0.3, 0.3, xtol=1e-15)
        miss = parallel_of(y, slope, o, -half, half)([xe])[0] - at(start)[1]
        fade = lambda t: np.stack([0 * t, miss * np.clip((split - t) / (split - start), 0, 1)], -1)
        return (lambda t: at(t) + fade(np.asarray(t, float))), start

    split = 0.62
    curves = [parallel(o) for o in offsets]
    piece = lambda k, from_: (lambda u: curves[k][0](from_ + ((split if from_ < split else 1.0) - from_) * u))
    line = lambda a, c: (lambda u: np.asarray(a) + (np.asarray(c) - np.asarray(a)) * np.asarray(u)[:, None])
    for k, band in enumerate(bands):
        (out, t_out), (ins, t_in) = curves[k], curves[k + 1]
        for from_out, from_in, to, cuts in ((t_out, t_in, split, along), (split, split, 1.0, across[::-1])):
            mesh.block(piece(k + 1, from_in), line(ins(to), out(to)), piece(k, from_out),
                       line(ins(from_in), out(from_out)), cuts, [0, 1], band)  # fmt: skip
    at, start = curves[-1]
    E, Q, P, I = at(start), at(split), at(1.0), np.array([xe, inner])
    J = np.array([xe + 0.5 * (P[0] - xe), 0.9 * inner])
    Z, O = np.array([J[0], 0.0]), np.array([xe, 0.0])
    mesh.block(line(O, Z), line(Z, J), line(I, J), line(O, I), along, across, 0)
    mesh.block(line(I, J), line(J, Q), piece(len(bands), start), line(I, E), along, outward, 0)
    round_ = lambda u: curves[-1][0](1.0 + (split - 1.0) * u)
    mesh.block(line(Z, J), line(J, Q), round_, line(Z, P), across, outward, 0)


def board_mesh(board, p, longest=0.11, grade=(0.004, 0.016), rim=(0.003, 0.013), cut=1):
    """Mesh of a rectangle, of a board drawn by the outline keys, or of one of DRAWN. `rim`: distances of
    the grading lines from the outline (m); `cut`: pieces of every wide row."""
    mesh, foot = Mesh(p), board.foot
    half, rectangle, drawn = board.half, board.rectangle, DRAWN.get(board.name)
    end = rectangle[0] / 2 if rectangle else half
    ends = drawn[0] if drawn else (-end, end)
    marks = {}
    stations = [x for profile in (board.core, board.rest) if profile for x in profile.x]
    for x, graded in [(x, False) for x in stations] + [
        (-half, True), (half, True), (0.0, False), (ends[0], True), (ends[1], True),
        *((x + s * foot[0] / 2, True) for x in board.feet for s in (1, -1)),
    ]:  # fmt: skip
        if ends[0] - 1e-9 < x < ends[1] + 1e-9:
            x = next((m for m in marks if abs(m - x) < 1e-7), x)
            marks[x] = graded or marks.get(x, False)
    xs = gaps(marks, grade, longest)
    offsets = [0.0, *sorted({*board.bands, *(r for r in rim if r > max(board.bands, default=0) + 2e-3)})]
    if board.bands and not any(o < 5e-3 for o in offsets[1:]):
        offsets = sorted({*offsets, rim[0]})
    ends_at = lambda o: [k + 1 for k, b in enumerate(board.bands) if b > o + 1e-9]  # bands that go on inside o
    number = [min(ends_at(o), default=0) for o in offsets[:-1]]
    shares = list(np.linspace(0, 1, cut + 1))
    inner = foot[1] / 2
    if drawn:
        _, left, right = drawn
        level = lambda y: (lambda x: np.full_like(x, y))
        rows = [(right, 0)] + [((lambda x, o=o: right(x) + o), 0) for o in offsets[1:]]
        rows += [(level(y), 0) for y in (-inner, 0.0, inner)]
        rows += [((lambda x, o=o: left(x) - o), 0) for o in offsets[:0:-1]] + [(left, 0)]
        mesh.columns(xs, rows)
        return mesh.join()
    if rectangle:
        outline = lambda o: (lambda x: np.full_like(x, rectangle[1] / 2 - o))
    else:
        y, slope = sidecut(board.plan, half)
        outline = lambda o: parallel_of(y, slope, o, -half, half)
    edge = outline(offsets[-1])
    rows = [((lambda x, s=s: np.full_like(x, s * inner)), 0) for s in shares[:-1]]
    rows += [((lambda x, s=s: inner + s * (edge(x) - inner)), 0) for s in shares[:-1]]
    rows += [(outline(offsets[k + 1]), number[k]) for k in range(len(number) - 1, -1, -1)] + [(outline(0.0), 0)]
    mesh.columns(xs, rows)
    if not rectangle:
        for name in ("nose", "tail"):
            tip(mesh, board.plan, name, half, offsets, number, inner, [0, 0.12, 0.5, 1.0], shares, shares)
    mesh.mirror()
    return mesh.join()
