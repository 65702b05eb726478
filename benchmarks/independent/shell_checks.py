#!/usr/bin/env python3
"""The independent shell against what is known exactly. Prints one line a check, exit 1 if one fails.

Rigid turn of a curved strip (no energy); quarter circle under a vertical end force (Castigliano);
elastica of a cantilever (end deflection 0.301721 L at P L^2 / E I = 1, by elliptic integrals);
force and tangent against differences of the energy.
"""
import sys

import numpy as np

from shell_laminate import Ply
from shell_mesh import Mesh
from shell_solver import PITCH, U, V, W, Shell

E = 70e9
SHEET = {"E_GPa": E / 1e9, "nu": 0.0, "density_kgm3": 1000.0}


class Strip:
    """One sheet of thickness h on a strip 0 <= x <= length, its underside an arc of this radius or flat."""

    bands, data = [], {}

    def __init__(self, length, width, h, radius=None):
        self.length, self.width, self.h, self.name = length, width, h, "strip"
        self.core = lambda x, near: (0 * x, 0 * x, 0 * x)
        self.rest = None
        if radius:
            arc = lambda x: (radius * (1 - np.cos(x / radius)), np.sin(x / radius), np.cos(x / radius) / radius)
            self.rest = lambda x, near: arc(np.minimum(x, 0.5 * np.pi * radius - 1e-9))

    def plies(self, band):
        return [Ply(SHEET, self.h, 0.0)]


class Cantilever(Shell):
    def flex(self, case):
        root = np.flatnonzero(np.abs(self.mesh.points[:, 0]) < 1e-9)
        m = self.mean(self.board.length)
        if self.rest:  # the end of a quarter circle: the middle lies h / 2 along the director, which turns down
            m[PITCH::5] -= self.board.h / 2 * m[W::5]
        return (5 * root[:, None] + np.arange(5)).ravel(), m, self.board.length


def shell_on(strip, p, n, solid=False):
    mesh = Mesh(p)
    xs = np.linspace(0, strip.length, n + 1)
    half = strip.width / 2
    level = lambda y: (lambda x: np.full_like(x, y))
    mesh.columns(list(xs), [(level(-half), 0), (level(0.0), 0), (level(half), 0)])
    return Cantilever(strip, mesh.join(), solid=solid)


def rigid_turn():
    strip = Strip(0.5, 0.2, 0.004, 0.4)
    shell = shell_on(strip, 8, 3)
    about, angle = np.array([0.3, 0.5, -0.2]) / np.linalg.norm([0.3, 0.5, -0.2]), 0.8
    cross = np.cross(np.eye(3), about).T @ np.eye(3)
    turn = np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * cross @ cross
    x, y = shell.mesh.points.T
    at = np.stack([0.4 * np.sin(x / 0.4), y, shell.rest_z], 1)
    d = np.stack([-np.sin(x / 0.4), 0 * x, np.cos(x / 0.4)], 1) @ turn.T
    u = np.zeros(shell.size)
    for k, move in zip((U, V, W), (at @ turn.T - at).T):
        u[k::5] = move
    u[4::5] = np.arcsin(d[:, 1])
    u[PITCH::5] = np.arctan2(-d[:, 0], d[:, 2]) - x / 0.4
    return shell.energy(u) / (E * strip.h * strip.width * strip.length)


def quarter_circle():
    """End deflection per force over Castigliano's; the strip's middle, not its underside, has R."""
    R, h, b = 0.4, 0.004, 0.02
    under = R + h / 2
    shell = shell_on(Strip(np.pi / 2 * under, b, h, under), 8, 4, solid=True)
    held, m, _ = shell.flex("")
    K = shell.force(np.zeros(shell.size))[1]
    found = 1 / shell.flex_stiffness(K, "")
    EI, EA, GA = E * b * h**3 / 12, E * b * h, E / 2 * b * h
    return found / ((0.75 * np.pi - 2) * R**3 / EI + np.pi * R / 4 * (1 / EA + 6 / 5 / GA)) - 1


def elastica():
    strip = Strip(1.0, 0.05, 0.0005)
    shell = shell_on(strip, 6, 6)
    force = shell.bend("nose-flex", [0.301721], [])[0]["force"]
    return force * 12 / (E * 0.05 * 0.0005**3) - 1


def slopes():
    shell = shell_on(Strip(0.3, 0.1, 0.004, 0.4), 3, 1)
    random = np.random.default_rng(1)
    u, du = random.normal(size=(2, shell.size)) * 1e-3
    f, K = shell.force(u)
    h = 1e-4
    first = (shell.energy(u + h * du) - shell.energy(u - h * du)) / (2 * h) / (f @ du) - 1
    difference = (shell.force(u + h * du, False) - shell.force(u - h * du, False)) / (2 * h)
    return max(abs(first), np.abs(difference - K @ du).max() / np.abs(difference).max())


if __name__ == "__main__":
    bad = 0
    for name, check, bound in (
        ("rigid turn, energy over E h b L", rigid_turn, 1e-18),
        ("quarter circle, relative", quarter_circle, 2e-4),
        ("elastica, relative", elastica, 5e-4),
        ("force and tangent by differences", slopes, 1e-6),
    ):
        miss = check()
        bad += not abs(miss) < bound
        print(f"{name}: {miss:.2e} (bound {bound:g})")
    sys.exit(bad > 0)
