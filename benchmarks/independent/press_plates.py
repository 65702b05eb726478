#!/usr/bin/env python3
"""Boards out of the press by a program of its own: what press.md compares with vrid.

    press_plates.py [--vrid PATH/TO/vrid] [--boards FOLDER]

Shares no code with vrid. A free, flat, shallow plate of first order (Mindlin, membrane coupled),
five fields of degree 10 on a few quads that follow y = eta b(x) exactly; Gauss rules of 14 x 14
points; plies by the classical formulas (Qbar, A B D, N and M of the free strains), shear by 5/6 of
the sum of G t. Six supports that take no force. Two degrees tell the digits. --boards writes the
board files; with --vrid they are solved and both answers stand side by side.
Needs numpy and scipy.
"""

import argparse
import json
import math
import pathlib
import subprocess
import sys

import numpy as np
import scipy.sparse
import scipy.sparse.linalg


# Materials: Pa, kg/m3, 1/K, strains. T0 None: that of the cure. All invented, of usual size.
def material(E1, E2, nu12, G12, G13, G23, a1, a2, shrink=(0, 0), swell=(0, 0), T0=None, slow=1, rho=1000):
    return dict(E1=E1, E2=E2, nu12=nu12, G12=G12, G13=G13, G23=G23, a1=a1, a2=a2, shrink=shrink,
                swell=swell, T0=T0, slow=slow, rho=rho)


def isotropic(E, nu, a, **more):
    G = E / 2 / (1 + nu)
    return dict(material(E, E, nu, G, G, G, a, a, **more), isotropic=True, nu=nu)


MATERIALS = {
    "plate-base": isotropic(0.82e9, 0.46, 171e-6, T0=52, slow=0.43, rho=940),
    "plate-top": isotropic(1.37e9, 0.39, 108e-6, T0=61, slow=0.55, rho=1020),
    "glass": material(37.4e9, 9.1e9, 0.27, 3.3e9, 3.3e9, 2.9e9, 8.1e-6, 27.3e-6,
                      shrink=(0.00011, 0.0013), rho=1850),
    "carbon": material(118e9, 7.9e9, 0.29, 4.1e9, 4.1e9, 2.8e9, -0.4e-6, 29.5e-6, rho=1520),
    "wood": material(9.3e9, 0.71e9, 0.36, 0.66e9, 0.69e9, 0.13e9, 3.4e-6, 29e-6,
                     swell=(0.00006, 0.0014), rho=430),
}


class Piecewise:
    """Values at stations, straight between them, level outside."""

    def __init__(self, points):
        self.x, self.v = np.array(points).T / 1000

    def __call__(self, x):
        return np.interp(x, self.x, self.v)


class Layer:
    def __init__(self, name, of, mm=0.0, angle=0.0, zone=None):
        self.name, self.of, self.t, self.angle, self.zone = name, of, mm / 1000, angle, zone  # zone in mm

    def there(self, x, y):
        if self.zone is None:
            return True
        (x0, x1), (y0, y1) = self.zone
        return x0 < 1000 * x < x1 and y0 < 1000 * y < y1


class Board:
    """half_width: of x [m]; rows: stations between quads [mm]; lines: y between quads [mm] or eta."""

    def __init__(self, name, length, half_width, core, layers, T0, room, cold, moisture, rows, etas):
        self.name, self.length, self.half_width, self.core = name, length / 1000, half_width, Piecewise(core)
        self.core_points, self.layers = core, layers
        self.T0, self.room, self.cold, self.moisture = T0, room, cold, moisture
        self.rows = np.array(sorted({-length / 2, length / 2, *rows})) / 1000
        self.etas = np.array(sorted({-1.0, 1.0, *etas}))


def board_list():
    biax = [Layer("base", "plate-base", 1.25), Layer("lower plus", "glass", 0.33, 45),
            Layer("lower minus", "glass", 0.33, -45), Layer("core", "wood"),
            Layer("upper plus", "glass", 0.33, 45), Layer("upper minus", "glass", 0.33, -45),
            Layer("top", "plate-top", 0.55)]
    waisted = [Layer("base", "plate-base", 1.1), Layer("lower", "glass", 0.45, 31), Layer("core", "wood"),
               Layer("along", "glass", 0.38, 0), Layer("aslant", "glass", 0.22, 67), Layer("top", "plate-top", 0.7)]
    patch = [Layer("base", "plate-base", 1.3), Layer("lower", "glass", 0.4, 12), Layer("core", "wood"),
             Layer("patch", "carbon", 0.3, 25, ((130, 370), (20, 95))), Layer("upper", "glass", 0.4, -17)]
    taper = [[-593.5, 2.9], [37, 7.7], [593.5, 3.4]]
    waist_core = [[-580, 2.6], [-300, 6.1], [110, 7.3], [330, 5.8], [580, 2.4]]
    return [
        Board("plank", 1187, lambda x: 0.1215 + 0 * x, taper, biax, 83, 19, -17, -1.3, [-400, -150, 37, 300], [0]),
        Board("waisted", 1160, lambda x: 0.124 + 0.019 * (x / 0.58) ** 2 + 0.003 * (x / 0.58) ** 3, waist_core,
              waisted, 88, 22, -15, -0.8, [-480, -300, -100, 110, 330, 480], [0]),
        Board("patched", 900, lambda x: 0.13 + 0 * x, [[-450, 5.2], [450, 4.1]], patch, 79, 20, -20, 0.6,
              [-250, -60, 130, 370], [20 / 130, 95 / 130]),
    ]


# Laminate


def ply(m, degrees, celsius, board):
    """Qbar, free strain (x, y, xy) and G (yz, xz) of a ply that has cooled."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    E1, E2, G12 = m["slow"] * m["E1"], m["slow"] * m["E2"], m["slow"] * m["G12"]
    n21 = m["nu12"] * E2 / E1
    d = 1 - m["nu12"] * n21
    Q = np.array([[E1 / d, m["nu12"] * E2 / d, 0], [m["nu12"] * E2 / d, E2 / d, 0], [0, 0, G12]])
    T = np.array([[c * c, s * s, s * c], [s * s, c * c, -s * c], [-2 * s * c, 2 * s * c, c * c - s * s]])
    T0 = board.T0 if m["T0"] is None else min(board.T0, m["T0"])
    f = np.array([m[a] * (celsius - T0) - m["shrink"][i] + m["swell"][i] * board.moisture
                  for i, a in enumerate(("a1", "a2"))] + [0.0])
    G13, G23 = m["slow"] * m["G13"], m["slow"] * m["G23"]
    G = np.array([[G23 * c * c + G13 * s * s, (G13 - G23) * s * c], [(G13 - G23) * s * c, G13 * c * c + G23 * s * s]])
    return T.T @ Q @ T, np.linalg.solve(T, f), G


def laminate(board, x, y, celsius):
    """8 x 8 stiffness (e, k, yz, xz) and N M of the free strains at a point, about z = 0 below."""
    C, F, z = np.zeros((8, 8)), np.zeros(8), 0.0
    for layer in board.layers:
        if not layer.there(x, y):
            continue
        t = layer.t if layer.t > 0 else float(board.core(x))
        Q, f, G = ply(MATERIALS[layer.of], layer.angle, celsius, board)
        z1, z2, z3 = t, ((z + t) ** 2 - z ** 2) / 2, ((z + t) ** 3 - z ** 3) / 3
        C[:3, :3] += Q * z1
        C[:3, 3:6] += Q * z2
        C[3:6, :3] += Q * z2
        C[3:6, 3:6] += Q * z3
        C[6:, 6:] += 5 / 6 * G * t
        F[:3] += Q @ f * z1
        F[3:6] += Q @ f * z2
        z += t
    return C, F


# Fields: nodal polynomials at Lobatto points


def lobatto(p):
    inner = np.polynomial.legendre.Legendre.basis(p).deriv().roots()
    return np.concatenate([[-1.0], np.sort(inner.real), [1.0]])


def lagrange(nodes, at):
    """Values and slopes, points x nodes."""
    V = np.polynomial.legendre.legvander(nodes, len(nodes) - 1)
    W = np.polynomial.legendre.legvander(at, len(nodes) - 1)
    D = np.column_stack([np.polynomial.legendre.Legendre.basis(k).deriv()(at) if k else 0 * at
                         for k in range(len(nodes))])
    return np.linalg.solve(V.T, W.T).T, np.linalg.solve(V.T, D.T).T


class Plate:
    def __init__(self, board, degree):
        self.board, self.p = board, degree
        self.nodes = lobatto(degree)
        p, rows, cols = degree, len(board.rows) - 1, len(board.etas) - 1
        self.nx, self.ny = rows * p + 1, cols * p + 1
        self.elements = [(i, j) for i in range(rows) for j in range(cols)]

    def node(self, i, j, a, b):
        return (i * self.p + a) * self.ny + j * self.p + b

    def solve(self, temperatures):
        g, weights = np.polynomial.legendre.leggauss(14)
        N, dN = lagrange(self.nodes, g)
        k = self.p + 1
        n = 5 * self.nx * self.ny
        rows, cols, values, force = [], [], [], np.zeros((n, len(temperatures)))
        for i, j in self.elements:
            x0, x1 = self.board.rows[i:i + 2]
            e0, e1 = self.board.etas[j:j + 2]
            dof = np.array([[5 * self.node(i, j, a, b) + c for c in range(5)] for a in range(k) for b in range(k)]).ravel()
            K, f = np.zeros((dof.size, dof.size)), np.zeros((dof.size, len(temperatures)))
            for gx in range(len(g)):
                x = (x0 + x1) / 2 + g[gx] * (x1 - x0) / 2
                w, dw = self.board.half_width(x), (self.board.half_width(x + 1e-6) - self.board.half_width(x - 1e-6)) / 2e-6
                for gy in range(len(g)):
                    eta = (e0 + e1) / 2 + g[gy] * (e1 - e0) / 2
                    shape = np.outer(N[gx], N[gy]).ravel()
                    by_x = np.outer(dN[gx], N[gy]).ravel() * 2 / (x1 - x0)
                    by_eta = np.outer(N[gx], dN[gy]).ravel() * 2 / (e1 - e0)
                    y = eta * w
                    Y = by_eta / w
                    X = by_x - Y * eta * dw  # at fixed y
                    B = np.zeros((8, dof.size))
                    B[0, 0::5], B[1, 1::5], B[2, 0::5], B[2, 1::5] = X, Y, Y, X
                    B[3, 3::5], B[4, 4::5], B[5, 3::5], B[5, 4::5] = X, Y, Y, X
                    B[6, 2::5], B[6, 4::5], B[7, 2::5], B[7, 3::5] = Y, shape, X, shape
                    area = weights[gx] * weights[gy] * (x1 - x0) / 2 * (e1 - e0) / 2 * w
                    for t, celsius in enumerate(temperatures):
                        C, F = laminate(self.board, x, y, celsius)
                        f[:, t] += area * B.T @ F
                    K += area * B.T @ C @ B
            rows.append(np.repeat(dof, dof.size))
            cols.append(np.tile(dof, dof.size))
            values.append(K.ravel())
            force[dof] += f
        K = scipy.sparse.coo_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(cols))), (n, n)).tocsc()
        low, high, far = 0, self.ny - 1, (self.nx - 1) * self.ny
        held = [5 * low, 5 * low + 1, 5 * low + 2, 5 * far + 1, 5 * far + 2, 5 * high + 2]
        free = np.setdiff1d(np.arange(n), held)
        u = np.zeros((n, len(temperatures)))
        u[free] = scipy.sparse.linalg.splu(K[free][:, free]).solve(force[free])
        self.reaction = np.abs((K @ u - force)[held]).max() / np.abs(force).max()
        return u

    def rise(self, u, x, eta):
        i = min(max(np.searchsorted(self.board.rows, x) - 1, 0), len(self.board.rows) - 2)
        j = min(max(np.searchsorted(self.board.etas, eta) - 1, 0), len(self.board.etas) - 2)
        at = lambda v, ends: lagrange(self.nodes, np.array([2 * (v - ends[0]) / (ends[1] - ends[0]) - 1]))[0][0]
        a, b = at(x, self.board.rows[i:i + 2]), at(eta, self.board.etas[j:j + 2])
        k = range(self.p + 1)
        return sum(a[m] * b[l] * u[5 * self.node(i, j, m, l) + 2] for m in k for l in k)


def numbers(plate, u):
    """In mm and degrees: camber, camber_edge, concavity@0, twist."""
    end = plate.board.length / 2
    w = lambda x, eta: plate.rise(u, x, eta)
    axis = lambda x: w(x, 0)
    chord = lambda x: (w(x, 1) + w(x, -1)) / 2
    slope = lambda x: (w(x, 1) - w(x, -1)) / (2 * plate.board.half_width(x))
    arch = lambda of: of(0) - (of(-end) + of(end)) / 2
    return {"camber": 1e3 * arch(axis), "camber_edge": 1e3 * arch(chord), "concavity": 1e3 * (axis(0) - chord(0)),
            "twist": math.degrees(slope(end) - slope(-end))}


# vrid's side


def board_file(board, folder):
    text = [f'# Of benchmarks/independent/press_plates.py.\nformat = 1\nname = "{board.name}"\n\n[planform]']
    straight = board.half_width(0.0) == board.half_width(board.length / 3)
    if straight:
        text.append(f"rectangle_mm = [{1000 * board.length:g}, {2000 * board.half_width(0.0):g}]")
    else:
        text.append(f'running_length_mm = {1000 * board.length:g}\noutline_csv = "{board.name}.csv"\noutline_tolerance_mm = 0')
        x = np.linspace(-board.length / 2, board.length / 2, 117)
        right = [(a, -board.half_width(a)) for a in x]
        left = [(a, board.half_width(a)) for a in x[::-1]]
        tip = [(x[-1], t * board.half_width(x[-1])) for t in np.linspace(-1, 1, 21)[1:-1]]
        tail = [(x[0], t * board.half_width(x[0])) for t in np.linspace(1, -1, 21)[1:-1]]
        lines = ["x_mm,y_mm"] + [f"{1000 * a:.6f},{1000 * b:.6f}" for a, b in right + tip + left + tail]
        (folder / f"{board.name}.csv").write_text("\n".join(lines) + "\n")
    text.append(f"\n[core]\ninterpolation = \"linear\"\nthickness_mm = {json.dumps(board.core_points)}\nstrips = [{{ material = \"wood\", width_mm = 20 }}]\n")
    for layer in board.layers:
        text.append(f'[[layer]]\nname = "{layer.name}"')
        text.append("core = true\n" if layer.t == 0 else
                    f'material = "{layer.of}"\nthickness_mm = {1000 * layer.t:g}\nangle_deg = {layer.angle:g}')
        if layer.zone:
            text.append(f"zone = {{ x_mm = {list(layer.zone[0])}, y_mm = {list(layer.zone[1])} }}")
        text.append("")
    for name in sorted({layer.of for layer in board.layers}):
        m = MATERIALS[name]
        text.append(f"[material.{name}]\ndensity_kgm3 = {m['rho']}")
        if "isotropic" in m:
            text.append(f"E_GPa = {m['E1'] / 1e9:g}\nnu = {m['nu']:g}\nalpha1_1e6K = {m['a1'] * 1e6:g}")
        else:
            text.append(f"E1_GPa = {m['E1'] / 1e9:g}\nE2_GPa = {m['E2'] / 1e9:g}\nnu12 = {m['nu12']:g}")
            text += [f"{G}_GPa = {m[G] / 1e9:g}" for G in ("G12", "G13", "G23")]
            text += [f"alpha{i}_1e6K = {m['a%d' % i] * 1e6:g}" for i in (1, 2)]
            text += [f"{kind}{i}_percent = {100 * m[kind][i - 1]:g}" for kind in ("shrink", "swell") for i in (1, 2)
                     if m[kind][i - 1]]
        text += [f"stress_free_C = {m['T0']:g}"] if m["T0"] is not None else []
        text += [f"slow = {m['slow']:g}"] if m["slow"] != 1 else []
        text.append("")
    text.append(f"[cure]\nstress_free_C = {board.T0:g}\nroom_C = {board.room:g}\ncold_C = {board.cold:g}"
                f"\nmoisture_percent = {board.moisture:g}")
    path = folder / f"{board.name}.toml"
    path.write_text("\n".join(text) + "\n")
    return path


def vrid_numbers(program, path):
    run = subprocess.run([program, "solve", path, "--case", "release", "--case", "cold", "--json"], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        sys.exit(run.stderr)
    found = {}
    for case, result in json.loads(run.stdout)["cases"].items():
        middle = next(c for c in result["concavity"] if c["x_mm"] == 0)
        found[case] = {**{name: result[name]["value"] for name in ("camber", "camber_edge", "twist")},
                       "concavity": middle["value"]}
    return found


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--vrid")
    arguments.add_argument("--boards", type=pathlib.Path, default=pathlib.Path(__file__).parent / "press_boards")
    arguments = arguments.parse_args()
    arguments.boards.mkdir(exist_ok=True)
    for board in board_list():
        path = board_file(board, arguments.boards)
        theirs = vrid_numbers(arguments.vrid, path) if arguments.vrid else {}
        answers = []
        for degree in (8, 10):
            plate = Plate(board, degree)
            u = plate.solve([board.room, board.cold])
            answers.append([numbers(plate, u[:, t]) for t in (0, 1)])
        print(f"{board.name}: reaction {plate.reaction:.1e} of the largest nodal load")
        for t, case in enumerate(("release", "cold")):
            for name, value in answers[1][t].items():
                line = f"  {case}.{name:12} {value:11.6f}   degree 8: {answers[0][t][name]:11.6f}"
                if case in theirs:
                    line += f"   vrid {theirs[case][name]:11.6f}  {100 * (theirs[case][name] / value - 1):+.4f} %"
                print(line, flush=True)


if __name__ == "__main__":
    main()
