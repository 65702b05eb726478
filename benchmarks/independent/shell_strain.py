"""Strains of a geometrically exact shell with a straight unit director, and their two derivatives.

Blank x, y; place r(x, y) in space, director d by two angles: pitch psi (rest slope angle + unknown)
and roll beta,  d = (-sin psi cos beta, sin beta, cos psi cos beta), of unit length whatever the turn
(Naghdi's shell; Simo and Fox 1989 for the exact form). Of the point r + z d the Green strain is
    e_ab = (r_a . r_b - delta_ab) / 2,   k_ab = r_a . d_b (+ kap for 11),   m_ab = (d_a . d_b - rest) / 2,
    g_a = r_a . d,      shear as twice the tensor's component (e12 = r_1 . r_2 and so on),
because the rest surface, a cylinder over x, has unit metric along the blank and d_1 . r_1 = -kap there.
The derivatives are made by computer algebra, not by hand.
"""
import functools

import numpy as np
import sympy as sp

# local values: r,x (3), r,y (3), psi, beta, psi,x, beta,x, psi,y, beta,y
# their places among (value, d/dx, d/dy) x (u, v, w, pitch, roll)
PLACES = [5, 6, 7, 10, 11, 12, 3, 4, 8, 9, 13, 14]


@functools.lru_cache(None)
def functions():
    a1, a2 = sp.symbols("a1:4"), sp.symbols("b1:4")
    psi, beta, psi1, beta1, psi2, beta2, kap = sp.symbols("psi beta psi1 beta1 psi2 beta2 kap")
    local = [*a1, *a2, psi, beta, psi1, beta1, psi2, beta2]
    d = [-sp.sin(psi) * sp.cos(beta), sp.sin(beta), sp.cos(psi) * sp.cos(beta)]
    slope = lambda p, b: [sp.diff(f, psi) * p + sp.diff(f, beta) * b for f in d]
    d1, d2 = slope(psi1, beta1), slope(psi2, beta2)
    dot = lambda f, g: sum(x * y for x, y in zip(f, g))
    q = [
        (dot(a1, a1) - 1) / 2, (dot(a2, a2) - 1) / 2, dot(a1, a2),
        dot(a1, d1) + kap, dot(a2, d2), dot(a1, d2) + dot(a2, d1),
        (dot(d1, d1) - kap**2) / 2, dot(d2, d2) / 2, dot(d1, d2),
        dot(a2, d), dot(a1, d),
    ]  # fmt: skip
    sigma = sp.symbols("s0:11")
    first = [[sp.diff(f, x) for x in local] for f in q]
    energy = sum(s * f for s, f in zip(sigma, q))
    second = [[sp.diff(energy, x, y) for y in local[: i + 1]] for i, x in enumerate(local)]
    flat = lambda rows: [x for row in rows for x in row]
    strains = sp.lambdify([*local, kap], q + flat(first), "numpy", cse=True)
    bending = sp.lambdify([*local, *sigma], flat(second), "numpy", cse=True)
    return strains, bending


def strains(local, kap):
    """q (points, 11) and its derivative (points, 11, 12) of local values (points, 12)."""
    n = len(local)
    out = functions()[0](*local.T, kap)
    full = np.stack([np.broadcast_to(np.asarray(o, float), (n,)) for o in out], 1)
    return full[:, :11], full[:, 11:].reshape(n, 11, 12)


def second(local, sigma):
    """Sum of sigma_i d2 q_i (points, 12, 12)."""
    n = len(local)
    out = functions()[1](*local.T, *sigma.T)
    H = np.zeros((n, 12, 12))
    k = 0
    for i in range(12):
        for j in range(i + 1):
            H[:, i, j] = H[:, j, i] = out[k]
            k += 1
    return H
