"""Sections of a laminated shell, written anew from the classical formulas, in numpy. SI units.

A, B, D about z = 0 at the running surface (Jones, Mechanics of Composite Materials, 1975, ch. 4);
transverse shear from the complementary energy of the equilibrium shear flow (Whitney 1973: shear
correction factors of laminates), leading stress of each pair kept; `solid` integrates the exact
strains of a curved layer, metric included, and is not what the program under test does.

Strains of the shell are q (11): e11 e22 e12 | k11 k22 k12 | m11 m22 m12 | g23 g13, with the
Green strain at height z  E = e + z k + z^2 m  along the blank's x, y (shell_strain.py).
"""
import numpy as np


class Ply:
    """One sheet: E1, E2, G12, G13, G23 in Pa, thickness in m or None for the core, angle in rad."""

    def __init__(self, material, thickness, angle):
        if "E_GPa" in material:
            E, nu = material["E_GPa"] * 1e9, material["nu"]
            E1, E2, nu12, G12, G13, G23 = E, E, nu, *(3 * [E / 2 / (1 + nu)])
        else:
            E1, E2, G12, G13, G23 = (material[k + "_GPa"] * 1e9 for k in ("E1", "E2", "G12", "G13", "G23"))
            nu12 = material["nu12"]
        self.thickness, self.density = thickness, material["density_kgm3"]
        c, s = np.cos(angle), np.sin(angle)
        plane = np.array([[1 / E1, -nu12 / E1, 0], [-nu12 / E1, 1 / E2, 0], [0, 0, 1 / G12]])
        # strains of the ply from those of the board: Voigt with engineering shear
        turn = np.array([[c * c, s * s, s * c], [s * s, c * c, -s * c], [-2 * s * c, 2 * s * c, c * c - s * s]])
        self.Q = turn.T @ np.linalg.inv(plane) @ turn
        # transverse: (g23, g13) of the ply from (yz, xz) of the board
        both = np.array([[c, -s], [s, c]])
        self.shear_compliance = both.T @ np.diag([1 / G23, 1 / G13]) @ both


def heights(plies, core):
    """Borders of the plies (points, plies + 1) over core thicknesses (points), in m."""
    t = np.stack([core if p.thickness is None else np.full_like(core, p.thickness) for p in plies], 1)
    return np.concatenate([np.zeros((len(core), 1)), np.cumsum(t, 1)], 1)


def abd(plies, z):
    """6 x 6 stiffness (points, 6, 6) of N, M against e, k."""
    M = np.zeros((len(z), 6, 6))
    for i, p in enumerate(plies):
        for k, (r, c) in ((1, (0, 0)), (2, (0, 3)), (2, (3, 0)), (3, (3, 3))):
            M[:, r : r + 3, c : c + 3] += ((z[:, i + 1] ** k - z[:, i] ** k) / k)[:, None, None] * p.Q
    return M


def shear(plies, z, ABD):
    """2 x 2 stiffness (points, 2, 2) of Q_yz, Q_xz."""
    inverse = np.linalg.inv(ABD)
    rates = inverse[:, :, 3], inverse[:, :, 4]  # e, k by unit Mx,x and unit My,y
    gauss, weight = np.polynomial.legendre.leggauss(4)
    flow = [np.zeros(len(z)), np.zeros(len(z))]  # at the lower border of the ply, xz and yz
    compliance = np.zeros((len(z), 2, 2))
    for i, p in enumerate(plies):
        lo, h = z[:, i], z[:, i + 1] - z[:, i]

        def tau(way, at):
            row = p.Q[way]
            rate = rates[way]
            return flow[way] - (rate[:, :3] @ row) * (at - lo) - (rate[:, 3:] @ row) * (at**2 - lo**2) / 2

        for g, w in zip(gauss, weight):
            at = lo + h * (1 + g) / 2
            pair = np.stack([tau(1, at), tau(0, at)], 1)  # yz, xz
            compliance += (w * h / 2)[:, None, None] * pair[:, :, None] * pair[:, None, :] * p.shear_compliance
        flow = [tau(0, z[:, i + 1]), tau(1, z[:, i + 1])]
    return np.linalg.inv(compliance)


def stiffness(plies, core, kap, solid=False):
    """C (points, 11, 11) of the strains q over core thickness and curvature kap (1/m) at the points.

    Plain: A, B, D on the bending strains of Koiter and Sanders, k11 + kap e11, k12 + kap e12 / 2.
    Solid: physical strains E11 / (1 - kap z)^2, E12 / (1 - kap z), E22 in plane stress, volume
    1 - kap z, quadratic terms m counted: the three-dimensional layer itself with a straight director.
    """
    z = heights(plies, core)
    ABD = abd(plies, z)
    C = np.zeros((len(core), 11, 11))
    C[:, 9:, 9:] = shear(plies, z, ABD)
    if not solid:
        T = np.zeros((len(core), 6, 9))
        T[:, range(6), range(6)] = 1
        T[:, 3, 0], T[:, 5, 2] = kap, kap / 2
        C[:, :9, :9] = np.transpose(T, (0, 2, 1)) @ ABD @ T
        return C
    gauss, weight = np.polynomial.legendre.leggauss(5)
    for i, p in enumerate(plies):
        lo, h = z[:, i], z[:, i + 1] - z[:, i]
        for g, w in zip(gauss, weight):
            at = lo + h * (1 + g) / 2
            metric = 1 - kap * at
            T = np.zeros((len(core), 3, 9))
            for k in range(3):
                T[:, 0, 3 * k], T[:, 1, 3 * k + 1], T[:, 2, 3 * k + 2] = at**k / metric**2, at**k, at**k / metric
            C[:, :9, :9] += (w * h / 2 * metric)[:, None, None] * (np.transpose(T, (0, 2, 1)) @ p.Q @ T)
    return C


def inertia(plies, core):
    """Mass, its first and second moment about z = 0 (points, 3): kg/m2, kg/m, kg."""
    z = heights(plies, core)
    return np.stack(
        [sum(p.density * (z[:, i + 1] ** k - z[:, i] ** k) / k for i, p in enumerate(plies)) for k in (1, 2, 3)], 1
    )
