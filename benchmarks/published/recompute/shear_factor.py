#!/usr/bin/env python3
"""Shear correction factors along x of laminates: the references of sections.cpp.

Independent of vrid: the shear flow and its energy by Gauss points through the thickness. Two rules:
bent to a cylinder (Whitney, 1973: no curvature across) and bent by M_x alone (free across), which is
vrid's. Material of Pagano. Needs numpy. Takes no time.
"""

import numpy as np

from navier import Q


def factors(angles):
    edges = np.linspace(-0.5, 0.5, len(angles) + 1)
    plies = [Q(25, 1, 0.25, 0.5, angle == 90) for angle in angles]
    shear = [0.2 if angle == 90 else 0.5 for angle in angles]
    layers = list(zip(plies, shear, edges, edges[1:]))
    stiffness = [sum(q * (b**k - a**k) / k for q, _, a, b in layers) for k in (1, 2, 3)]
    ABD = np.block([[stiffness[0], stiffness[1]], [stiffness[1], stiffness[2]]])
    free = np.linalg.solve(ABD, [0, 0, 0, 1, 0, 0])
    flat = np.zeros(6)  # only e_x and k_x
    flat[[0, 3]] = np.linalg.solve(ABD[np.ix_([0, 3], [0, 3])], [0, 1])
    point, weight = np.polynomial.legendre.leggauss(6)
    found = []
    for strain in (flat, free):
        flow, energy = 0.0, 0.0
        for q, G, a, b in layers:
            z = (a + b) / 2 + point * (b - a) / 2
            tau = flow - q[0] @ (np.outer(strain[:3], z - a) + np.outer(strain[3:], z**2 - a**2) / 2)
            energy += weight @ tau**2 / G * (b - a) / 2
            flow -= q[0] @ (strain[:3] * (b - a) + strain[3:] * (b**2 - a**2) / 2)
        found.append(1 / energy / sum(G * (b - a) for _, G, a, b in layers))
    return found


if __name__ == "__main__":
    for angles in ([0, 90, 0], [90, 0, 90], [0, 90], [0, 90, 90, 0], [0, 90] * 4):
        print(angles, "bent to a cylinder %.7f, free across %.7f" % tuple(factors(angles)))
