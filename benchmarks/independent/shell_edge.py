#!/usr/bin/env python3
"""Edge hold by the independent shell, left edge on snow: small motion from the rest shape, or large.

    shell_edge.py BOARD.toml [--degree 5] [--flat] [--bent] [--angle 45] [--force 1200] [--hardness 5] [--share 0.5]

Least energy of board and snow by Newton's method with contact points inside, no compliance method.
Feet: rigid patches; both heave and pitch, the front one slides along x; roll, yaw and sideways held.
Height of the loaded outline over the snow H = (z0 + w) cos t - (y + v) sin t; where H < 0 the snow
pushes back by the volume displaced, q = hardness d^2 / sin 2t. Angle in degrees, force in N,
hardness in N/mm3; answers in N/mm, mm, degrees, N m.
"""
import argparse
import json

import numpy as np
import scipy.sparse as sp

from shell_answers import shell_of
from shell_nodes import lagrange
from shell_solver import PITCH, ROLL, U, V, W, factored, sides


def outline(shell, count=48):
    """Gauss points of the left outline: x, y, z0, arc weights; sparse rows of v and w there."""
    mesh, known = shell.mesh, {}
    for xy, n in zip(mesh.xy, mesh.nodes):
        for at, number in sides(xy, n):
            known.setdefault(tuple(sorted(number)), []).append((at, number))
    gauss, weight = np.polynomial.legendre.leggauss(count)
    N, D = lagrange(mesh.t, (gauss + 1) / 2)
    end = np.abs(mesh.points[:, 0]).max()
    x, y, ds, rows, cols, vals, k = [], [], [], [], [], [], 0
    for found in known.values():
        at, number = found[0]
        upright = np.ptp(at[:, 0]) < 1e-9 and abs(at[0, 0]) > end - 0.3  # the ends of a rectangle
        if len(found) > 1 or at[:, 1].mean() < 0 or upright:
            continue
        x.append(N @ at[:, 0]), y.append(N @ at[:, 1])
        ds.append(np.hypot(*(D @ at).T) * weight / 2)
        rows.append(np.repeat(np.arange(k, k + count), len(number)))
        cols.append(np.tile(number, count)), vals.append(N.ravel())
        k += count
    x, y, ds = map(np.concatenate, (x, y, ds))
    rows, cols, vals = map(np.concatenate, (rows, cols, vals))
    take = lambda dof: sp.csr_matrix((vals, (rows, 5 * cols + dof)), shape=(k, shell.size))
    z0 = shell.board.rest(x, x)[0] if shell.board.rest else 0 * x  # counts on the flat plate too
    return x, y, z0, ds, take(V), take(W)


class Feet:
    """Rigid foot patches. Coordinates: the free nodal unknowns, then slide u, heave w, pitch of the front
    foot and heave, pitch of the rear one; pitch turns a patch about its centre at rest height."""

    def __init__(self, shell, bent):
        self.shell, self.bent, self.patches, self.arms = shell, bent, [], []
        points, (length, width) = shell.mesh.points, shell.board.foot
        gauss, weight = np.polynomial.legendre.leggauss(12)
        for xf in shell.board.feet:
            nodes = np.flatnonzero(
                (np.abs(points[:, 0] - xf) < length / 2 + 1e-8) & (np.abs(points[:, 1]) < width / 2 + 1e-8)
            )
            dx, dz = points[nodes, 0] - xf, np.zeros(len(nodes))
            if shell.rest:  # horizontal place: the cosine of the slope summed up from the foot's middle
                at = xf + dx[:, None] * (1 + gauss) / 2
                dz = shell.rest_z[nodes] - float(shell.rest(np.array(xf), np.array(xf))[0])
                dx = dx * (np.sqrt(1 - shell.rest(at, at)[1] ** 2) @ weight) / 2
            self.patches.append(nodes), self.arms.append((dx, dz))
        held = np.concatenate([(5 * n[:, None] + np.arange(5)).ravel() for n in self.patches])
        self.free = shell.free(held)
        self.n = len(self.free) + 5

    def motion(self, a):
        """Nodal unknowns u, their derivative T by the coordinates, and d2u/dpitch2 of both feet."""
        shell, u = self.shell, np.zeros(self.shell.size)
        u[self.free] = a[:-5]
        columns, twice = [], []
        moves = (a[-5], a[-4], a[-3]), (0.0, a[-2], a[-1])
        for nodes, (dx, dz), (slide, heave, pitch) in zip(self.patches, self.arms, moves):
            along, up, turn, second = (np.zeros(shell.size) for _ in range(4))
            along[5 * nodes + U], up[5 * nodes + W] = 1, 1
            c, s = (np.cos(pitch), np.sin(pitch)) if self.bent else (1.0, 0.0)
            turn[5 * nodes + U], turn[5 * nodes + W], turn[5 * nodes + PITCH] = -dx * s - dz * c, dx * c - dz * s, 1
            u[5 * nodes + U] = slide + (dx * (c - 1) - dz * s if self.bent else -dz * pitch)
            u[5 * nodes + W] = heave + (dx * s + dz * (c - 1) if self.bent else dx * pitch)
            u[5 * nodes + PITCH] = pitch
            if self.bent:
                second[5 * nodes + U], second[5 * nodes + W] = -dx * c + dz * s, -dx * s - dz * c
            columns += [along, up, turn] if not columns else [up, turn]
            twice.append(second)
        n = len(self.free)
        ones = sp.csr_matrix((np.ones(n), (self.free, np.arange(n))), shape=(shell.size, n))
        return u, sp.hstack([ones, sp.csr_matrix(np.column_stack(columns))]).tocsr(), twice


def settle(shell, feet, a, snow, load):
    """Least energy of board and snow from coordinates a on: Newton's method, steps cut where energy rises."""
    H0, R, ds, hard = snow
    K0 = None if feet.bent else shell.force(np.zeros(shell.size))[1]

    def state(a):
        u, T, twice = feet.motion(a)
        d = np.maximum(0, -(H0 + R @ u))
        inner = shell.energy(u) if feet.bent else u @ (K0 @ u) / 2
        return inner + hard / 3 * (ds @ d**3) - load @ a, u, T, twice, d

    now = state(a)
    for _ in range(80):
        energy, u, T, twice, d = now
        f, K = shell.force(u) if feet.bent else (K0 @ u, K0)
        pull = f - R.T @ (hard * d**2 * ds)
        r = T.T @ pull - load
        stiff = (T.T @ (K + R.T @ sp.diags(2 * hard * d * ds) @ R) @ T).tolil()
        for foot, k in ((0, -3), (1, -1)):
            stiff[feet.n + k, feet.n + k] += pull @ twice[foot]
        step = -factored(stiff.tocsr())(r)
        size = 1.0
        while True:
            now = state(a + size * step)
            if now[0] <= energy + 1e-4 * size * (r @ step) or size < 1e-6 or np.abs(step).max() < 1e-8:
                break
            size /= 2
        a = a + size * step
        if np.abs(step).max() * size < 1e-8 and size == 1:
            return a, now[1], now[4]
    raise RuntimeError("no equilibrium found")


def hold(shell, angle, force, hardness, share, bent=False):
    t = np.radians(angle)
    hard = hardness * 1e9 / np.sin(2 * t)
    x, y, z0, ds, rv, rw = outline(shell)
    R = (rw * np.cos(t) - rv * np.sin(t)).tocsr()
    H0 = z0 * np.cos(t) - y * np.sin(t)
    feet = Feet(shell, False)
    load, a = np.zeros(feet.n), np.zeros(feet.n)
    load[-4], load[-2] = -force * share, -force * (1 - share)
    # pressed down without bending until the outline between the contact lines touches
    sunk = np.max(H0[np.abs(x) < shell.board.half]) / np.cos(t) + 2e-3
    a[:-5][feet.free % 5 == W] = -sunk
    a[-4] = a[-2] = -sunk
    a, u, d = settle(shell, feet, a, (H0, R, ds, hard), load)
    if bent:
        feet = Feet(shell, True)
        a, u, d = settle(shell, feet, a, (H0, R, ds, hard), load)
    q = hard * d**2
    patches = feet.patches
    line = q * ds
    total = line.sum()
    front, rear = shell.board.feet
    order = np.argsort(x)  # share of the force behind a station, half of a point's own behind the point
    before = lambda at: np.interp(at, x[order], (np.cumsum(line[order]) - line[order] / 2) / total)
    out = {
        "peak": q.max() / 1e3, "contact_length": ds[d > 0].sum() * 1e3,
        "effective_length": total**2 / (q**2 @ ds) * 1e3,
        "share_nose": 1 - before(front), "share_tail": before(rear),
        "max_depth": d.max() * 1e3, "balance": total * np.cos(t) / force - 1,
    }  # fmt: skip
    out["share_middle"] = 1 - out["share_nose"] - out["share_tail"]
    for name, station in (("loss_nose", shell.board.half), ("loss_tail", -shell.board.half)):
        mesh = shell.mesh
        top = max(
            (side for xy, n in zip(mesh.xy, mesh.nodes) for side in sides(xy, n)
             if np.abs(side[0][:, 0] - station).max() < 1e-8),
            key=lambda side: side[0][:, 1].max(),
        )  # fmt: skip
        order = np.argsort(top[0][:, 1])
        ys, ws = top[0][order, 1], u[5 * top[1][order] + W]
        slope = lagrange(mesh.t, [1.0])[1][0] @ ws / (ys[-1] - ys[0])
        out[name] = np.degrees(slope)
    # what the feet must give: the board's forces on their patches, turned about the long axis
    f = shell.force(u, False) if bent else shell.force(np.zeros(shell.size))[1] @ u
    for name, nodes, xf in (("front", patches[0], front), ("rear", patches[1], rear)):
        zf = float(shell.rest(np.array(xf), np.array(xf))[0]) if shell.rest else 0.0
        z, psi = shell.rest_z[nodes] - zf, shell.rest_theta[nodes]
        if bent:  # places as moved, from the patch's moved centre; roll of the patch is zero
            heave = a[-4] if name == "front" else a[-2]
            z, psi = z + u[5 * nodes + W] - heave, psi + u[5 * nodes + PITCH]
        moment = f[5 * nodes + W] @ shell.mesh.points[nodes, 1] - f[5 * nodes + V] @ z
        moment -= f[5 * nodes + ROLL] @ np.cos(psi)
        out["roll_moment_" + name] = -moment
    return out


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("board")
    parser.add_argument("--degree", type=int, default=5)
    parser.add_argument("--flat", action="store_true")
    parser.add_argument("--bent", action="store_true", help="in large motion")
    for name, value in (("angle", 45.0), ("force", 1200.0), ("hardness", 5.0), ("share", 0.5)):
        parser.add_argument("--" + name, type=float, default=value)
    asked = parser.parse_args()
    shell = shell_of(asked.board, asked.degree, flat=asked.flat)
    print(json.dumps(hold(shell, asked.angle, asked.force, asked.hardness, asked.share, asked.bent), indent=1))


if __name__ == "__main__":
    main()
