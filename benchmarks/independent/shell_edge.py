#!/usr/bin/env python3
"""Edge hold by the independent shell, small motion from the rest shape, left edge on snow.

    shell_edge.py BOARD.toml [--degree 5] [--flat] [--angle 45] [--force 1200] [--hardness 5] [--share 0.5]

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
from shell_solver import PITCH, ROLL, U, V, W, factored, lagrange


def outline(shell, count=16):
    """Gauss points of the left outline: x, y, z0, arc weights; sparse rows of v and w there."""
    mesh, sides = shell.mesh, {}
    for xy, n in zip(mesh.xy, mesh.nodes):
        for at, number in ((xy[0], n[0]), (xy[-1], n[-1]), (xy[:, 0], n[:, 0]), (xy[:, -1], n[:, -1])):
            sides.setdefault(tuple(sorted(number)), []).append((at, number))
    gauss, weight = np.polynomial.legendre.leggauss(count)
    N, D = lagrange(mesh.t, (gauss + 1) / 2)
    end = np.abs(mesh.points[:, 0]).max()
    x, y, ds, rows, cols, vals, k = [], [], [], [], [], [], 0
    for found in sides.values():
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


def feet(shell):
    """T: full freedoms from free ones and (w, pitch, u) front, (w, pitch) rear; nodes of the patches."""
    points, (length, width) = shell.mesh.points, shell.board.foot
    patches, columns = [], []
    for number, xf in enumerate(shell.board.feet):
        nodes = np.flatnonzero((np.abs(points[:, 0] - xf) < length / 2 + 1e-8) & (np.abs(points[:, 1]) < width / 2 + 1e-8))
        patches.append(nodes)
        zf = float(shell.rest(np.array(xf), np.array(xf))[0]) if shell.rest else 0.0
        heave, pitch = np.zeros(shell.size), np.zeros(shell.size)
        heave[5 * nodes + W] = 1
        # on the blank's x: place and station differ by 1e-4 of the distance from the foot's middle
        pitch[5 * nodes + W] = points[nodes, 0] - xf
        pitch[5 * nodes + U] = -(shell.rest_z[nodes] - zf)
        pitch[5 * nodes + PITCH] = 1
        columns += [heave, pitch]
        if number == 0:
            slide = np.zeros(shell.size)
            slide[5 * nodes + U] = 1
            columns.append(slide)
    held = np.concatenate([(5 * n[:, None] + np.arange(5)).ravel() for n in patches])
    free = shell.free(held)
    select = sp.csr_matrix((np.ones(len(free)), (free, np.arange(len(free)))), shape=(shell.size, len(free)))
    return sp.hstack([select, sp.csr_matrix(np.column_stack(columns))]).tocsr(), patches


def hold(shell, angle, force, hardness, share):
    t, hard = np.radians(angle), hardness * 1e9
    K = shell.force(np.zeros(shell.size))[1]
    T, patches = feet(shell)
    Kt = (T.T @ K @ T).tocsr()
    x, y, z0, ds, rv, rw = outline(shell)
    R = ((rw * np.cos(t) - rv * np.sin(t)) @ T).tocsr()
    H0 = z0 * np.cos(t) - y * np.sin(t)
    load = np.zeros(T.shape[1])
    load[-5], load[-2] = -force * share, -force * (1 - share)  # heave front, heave rear

    def parts(a):
        d = np.maximum(0, -(H0 + R @ a))
        energy = a @ (Kt @ a) / 2 + hard / 3 / np.sin(2 * t) * (ds @ d**3) - load @ a
        q = hard * d**2 / np.sin(2 * t)
        return energy, Kt @ a - R.T @ (q * ds) - load, d, q

    a = np.zeros(T.shape[1])  # pressed down without bending until the whole outline touches
    a[: T.shape[1] - 5] = T.T[:-5] @ np.tile([0, 0, 1.0, 0, 0], len(shell.mesh.points))
    a[-5] = a[-2] = 1
    a *= -(np.max(H0) / np.cos(t) + 2e-3)
    energy, r, d, q = parts(a)
    for _ in range(80):
        stiff = Kt + R.T @ sp.diags(2 * hard * d / np.sin(2 * t) * ds) @ R
        step = -factored(stiff)(r)
        size = 1.0
        while True:
            new = parts(a + size * step)
            if new[0] <= energy + 1e-4 * size * (r @ step) or size < 1e-6 or np.abs(step).max() < 1e-9:
                break
            size /= 2
        a = a + size * step
        energy, r, d, q = new
        if np.abs(step).max() * size < 1e-11 and size == 1:
            break
    else:
        raise RuntimeError("no equilibrium found")
    u = T @ a
    line = q * ds
    total = line.sum()
    front, rear = shell.board.feet
    out = {
        "peak": q.max() / 1e3, "contact_length": ds[d > 0].sum() * 1e3,
        "effective_length": total**2 / (q**2 @ ds) * 1e3,
        "share_nose": line[x > front].sum() / total, "share_tail": line[x < rear].sum() / total,
        "max_depth": d.max() * 1e3, "balance": total * np.cos(t) / force - 1,
    }  # fmt: skip
    out["share_middle"] = 1 - out["share_nose"] - out["share_tail"]
    for name, station in (("loss_nose", shell.board.half), ("loss_tail", -shell.board.half)):
        mesh = shell.mesh
        top = max(
            (side for xy, n in zip(mesh.xy, mesh.nodes) for side in
             ((xy[0], n[0]), (xy[-1], n[-1]), (xy[:, 0], n[:, 0]), (xy[:, -1], n[:, -1]))
             if np.abs(side[0][:, 0] - station).max() < 1e-8),
            key=lambda side: side[0][:, 1].max(),
        )  # fmt: skip
        order = np.argsort(top[0][:, 1])
        ys, ws = top[0][order, 1], u[5 * top[1][order] + W]
        slope = lagrange(mesh.t, [1.0])[1][0] @ ws / (ys[-1] - ys[0])
        out[name] = np.degrees(slope)
    # what the feet must give: the board's forces on their patches, turned about the long axis
    f = K @ u
    for name, nodes, xf in (("front", patches[0], front), ("rear", patches[1], rear)):
        zf = float(shell.rest(np.array(xf), np.array(xf))[0]) if shell.rest else 0.0
        z = shell.rest_z[nodes] - zf
        moment = f[5 * nodes + W] @ shell.mesh.points[nodes, 1] - f[5 * nodes + V] @ z
        moment -= f[5 * nodes + ROLL] @ np.cos(shell.rest_theta[nodes])
        out["roll_moment_" + name] = -moment
    return out


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("board")
    parser.add_argument("--degree", type=int, default=5)
    parser.add_argument("--flat", action="store_true")
    for name, value in (("angle", 45.0), ("force", 1200.0), ("hardness", 5.0), ("share", 0.5)):
        parser.add_argument("--" + name, type=float, default=value)
    asked = parser.parse_args()
    shell = shell_of(asked.board, asked.degree, flat=asked.flat)
    print(json.dumps(hold(shell, asked.angle, asked.force, asked.hardness, asked.share), indent=1))


if __name__ == "__main__":
    main()
