"""Geometrically exact shell on a mesh of large quads: energy, forces, tangent, linear and bent cases.

Unknowns of a node: u, v, w (m) along fixed axes, pitch and roll of the director (rad); plain
displacement form of high degree, nothing tied or reduced. Direct solution by MUMPS through petsc4py
where it is installed (Debian: python3-petsc4py), else by SciPy's SuperLU.
"""
import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spl

import shell_strain
from shell_laminate import inertia, stiffness
from shell_factor import factored
from shell_nodes import lagrange, lobatto

U, V, W, PITCH, ROLL = range(5)


def sides(xy, nodes):
    """The four sides of a quad: places and node numbers."""
    return [(xy[0], nodes[0]), (xy[-1], nodes[-1]), (xy[:, 0], nodes[:, 0]), (xy[:, -1], nodes[:, -1])]


class Shell:
    def __init__(self, board, mesh, flat=False, solid=False):
        self.board, self.mesh = board, mesh
        self.rest = None if flat else board.rest
        p = mesh.p
        gauss, weight = np.polynomial.legendre.leggauss(p + 1)
        N, D = lagrange(mesh.t, (gauss + 1) / 2)
        ne, n = len(mesh.xy), p + 1
        two = lambda a, b: np.einsum("qi,rj->qrij", a, b).reshape(len(gauss) ** 2, n * n)
        shape, along, across = two(N, N), two(D, N), two(N, D)
        xy = mesh.xy.reshape(ne, n * n, 2)
        J = np.stack([along @ xy, across @ xy], -1)  # (ne, Q, xy, xi eta)
        det = np.linalg.det(J)
        assert det.min() > 0, "a quad is turned inside out"
        inv = np.linalg.inv(J)
        self.phi = np.empty((ne, 3, det.shape[1], n * n))
        self.phi[:, 0] = shape
        for k in range(2):
            self.phi[:, 1 + k] = inv[:, :, 0, k, None] * along + inv[:, :, 1, k, None] * across
        self.w = det * (weight[:, None] * weight[None, :]).ravel() / 4
        at = (shape @ xy).reshape(-1, 2)
        near = np.repeat(xy[:, :, 0].mean(1), det.shape[1])
        self.theta, self.kap = np.zeros(len(at)), np.zeros(len(at))
        if self.rest:
            _, slope, bend = self.rest(at[:, 0], near)
            self.theta, self.kap = np.arcsin(slope), bend / np.sqrt(1 - slope**2)
        core = board.core(at[:, 0], near)[0]
        band = np.repeat(mesh.band, det.shape[1])
        self.C = np.empty((len(at), 11, 11))
        self.I = np.empty((len(at), 3))
        for b in np.unique(band):
            plies, here = board.plies(b), band == b
            self.C[here] = stiffness(plies, core[here], self.kap[here], solid)
            self.I[here] = inertia(plies, core[here])
        self.dofs = (mesh.nodes.reshape(ne, -1)[:, :, None] * 5 + np.arange(5)).reshape(ne, -1)
        self.size = 5 * len(mesh.points)
        m = self.dofs.shape[1]
        rows, cols = np.repeat(self.dofs, m, 1).ravel(), np.tile(self.dofs, (1, m)).ravel()
        code, self.place = np.unique(rows.astype(np.int64) * self.size + cols, return_inverse=True)
        counts = np.bincount(code // self.size, minlength=self.size)
        self.pattern = np.concatenate([[0], np.cumsum(counts)]), code % self.size
        x = mesh.points[:, 0]
        self.rest_z, self.rest_theta = np.zeros_like(x), np.zeros_like(x)
        if self.rest:
            z, slope, _ = self.rest(x, x)
            self.rest_z, self.rest_theta = z, np.arcsin(slope)

    def local(self, u):
        """Local values (points, 12) of shell_strain at nodal unknowns u."""
        ne = len(self.mesh.xy)
        parts = np.matmul(self.phi.reshape(ne, -1, self.phi.shape[-1]), u[self.dofs].reshape(ne, -1, 5))
        parts = parts.reshape(ne, 3, -1, 5).transpose(0, 2, 1, 3).reshape(-1, 15)
        out = parts[:, shell_strain.PLACES]
        out[:, 0] += np.cos(self.theta)
        out[:, 2] += np.sin(self.theta)
        out[:, 4] += 1
        out[:, 6] += self.theta
        out[:, 8] += self.kap
        return out

    def energy(self, u):
        q, _ = shell_strain.strains(self.local(u), self.kap)
        return np.einsum("pi,pij,pj,p->", q, self.C, q, self.w.ravel(), optimize=True) / 2

    def force(self, u, tangent=True):
        """Internal force and, on request, the tangent stiffness (CSR)."""
        ne, _, Q, nn = self.phi.shape
        local = self.local(u)
        q, J = shell_strain.strains(local, self.kap)
        sigma = np.einsum("pij,pj->pi", self.C, q)
        w = self.w.ravel()
        full = np.zeros((len(q), 15))
        full[:, shell_strain.PLACES] = np.einsum("pi,pij->pj", sigma, J) * w[:, None]
        full = full.reshape(ne, Q, 3, 5).transpose(0, 2, 1, 3).reshape(ne, 3 * Q, 5)
        fe = np.matmul(self.phi.reshape(ne, 3 * Q, nn).transpose(0, 2, 1), full)
        f = np.bincount(self.dofs.ravel(), fe.ravel(), self.size)
        if not tangent:
            return f
        H = np.matmul(J.transpose(0, 2, 1), np.matmul(self.C, J)) + shell_strain.second(local, sigma)
        H15 = np.zeros((len(q), 15, 15))
        H15[:, np.array(shell_strain.PLACES)[:, None], shell_strain.PLACES] = H * w[:, None, None]
        return f, self.matrix(H15.reshape(ne, Q, 3, 5, 3, 5))

    def matrix(self, H):
        ne, _, Q, nn = self.phi.shape
        K = np.empty((ne, nn, 5, nn, 5))
        for e in range(ne):
            P, h = self.phi[e], H[e]
            flat = P.reshape(3 * Q, nn)
            # h: (Q, c, i, d, j) -> for all i, j: sum over d of h * P_d
            T = np.einsum("qcidj,dqb->cqibj", h, P, optimize=True).reshape(3 * Q, 5 * nn * 5)
            K[e] = (flat.T @ T).reshape(nn, 5, nn, 5)
        data = np.bincount(self.place, K.ravel(), len(self.pattern[1]))
        return sp.csr_matrix((data, self.pattern[1], self.pattern[0]), shape=(self.size, self.size))

    # Lines, strips, supports

    def line(self, x):
        """Nodes on the line at x from right to left, and weights of the width mean of nodal values."""
        weights = {}
        t = self.mesh.p, *lobatto(self.mesh.p)
        for q, nodes in zip(self.mesh.xy, self.mesh.nodes):
            for side, number in sides(q, nodes):
                if np.abs(side[:, 0] - x).max() < 1e-8:
                    key = tuple(sorted((number[0], number[-1])))
                    weights[key] = number, abs(side[-1, 1] - side[0, 1]) * t[2]
        total = np.zeros(len(self.mesh.points))
        for number, w in weights.values():
            np.add.at(total, number, w)
        nodes = np.flatnonzero(total)
        assert len(nodes), f"no line at {x}"
        return nodes, total[nodes] / total[nodes].sum()

    def strip(self, x):
        """Nodes of the foot strip at x: the whole width."""
        return np.flatnonzero(np.abs(self.mesh.points[:, 0] - x) < self.board.foot[0] / 2 + 1e-8)

    def mean(self, x):
        nodes, weight = self.line(x)
        m = np.zeros(self.size)
        m[5 * nodes + W] = weight
        return m

    def rigid(self):
        """Supports against shift along X, Y and yaw: two nodes on the long axis."""
        on = np.flatnonzero(np.abs(self.mesh.points[:, 1]) < 1e-9)
        a, b = on[np.argmin(self.mesh.points[on, 0])], on[np.argmax(self.mesh.points[on, 0])]
        return [5 * a + U, 5 * a + V, 5 * b + V]

    def turned_bar(self, x, u):
        """Freedoms of a bar on the line at x and their motion by a turn of 1 rad about the long axis."""
        nodes, _ = self.line(x)
        return 5 * nodes + W, self.mesh.points[nodes, 1] + u[5 * nodes + V]

    def turned_strip(self, x, u):
        """The same of a foot strip; its u, v stay free."""
        nodes = self.strip(x)
        psi, roll = self.rest_theta[nodes] + u[5 * nodes + PITCH], u[5 * nodes + ROLL]
        d = np.concatenate([5 * nodes + k for k in (W, PITCH, ROLL)])
        return d, np.concatenate(
            [self.mesh.points[nodes, 1] + u[5 * nodes + V], -np.tan(roll) * np.sin(psi), -np.cos(psi)]
        )

    def fixed_strip(self, x):
        return (5 * self.strip(x)[:, None] + np.arange(5)).ravel()

    def flex(self, case):
        """Held freedoms and load pattern of a flex case (upwards); station of the loaded line."""
        half, (front, rear) = self.board.half, self.board.feet
        if case == "centre-flex":
            held = [*(5 * self.line(half)[0] + W), *(5 * self.line(-half)[0] + W), *self.rigid()]
            return np.unique(held), self.mean(0.0), 0.0
        foot, x = (front, half) if case == "nose-flex" else (rear, -half)
        return np.unique(self.fixed_strip(foot)), self.mean(x), x

    def twist(self, case, u):
        """Held freedoms, and freedoms turned with their motion per rad."""
        half, (front, rear) = self.board.half, self.board.feet
        if case == "stance-twist":
            return self.fixed_strip(rear), *self.turned_strip(front, u)
        if case == "full-twist":
            held = [*(5 * self.line(-half)[0] + W), *self.rigid()]
            return np.array(held), *self.turned_bar(half, u)
        foot, x = (front, half) if case == "nose-twist" else (rear, -half)
        return self.fixed_strip(foot), *self.turned_bar(x, u)

    def free(self, held):
        keep = np.ones(self.size, bool)
        keep[held] = False
        return np.flatnonzero(keep)

    # Answers

    def flex_stiffness(self, K, case):
        """Force over mean deflection, N/m."""
        held, m, _ = self.flex(case)
        free = self.free(held)
        return 1 / (m[free] @ factored(K[free][:, free])(m[free]))

    def twist_stiffness(self, K, case, u):
        """Torque over turn, N m/rad: twice the energy at unit turn, the tangent K held at u."""
        held, driven, motion = self.twist(case, u)
        x = np.zeros(self.size)
        x[driven] = motion
        free = self.free(np.concatenate([held, driven]))
        r = K @ x
        x[free] = -factored(K[free][:, free])(r[free])
        return x @ (K @ x)

    def linear(self, cases):
        u = np.zeros(self.size)
        K = self.force(u)[1]
        return {
            c: self.flex_stiffness(K, c) / 1e3 if c.endswith("flex") else self.twist_stiffness(K, c, u) * np.pi / 180
            for c in cases
        }

    def modes(self, count=6):
        """Lowest elastic frequencies of the free board at rest, Hz. Inertia of places r + z d: both move."""
        ne, _, Q, _ = self.phi.shape
        H = np.zeros((len(self.kap), 15, 15))
        sine, cosine = np.sin(self.theta), np.cos(self.theta)
        # d moves by -(cos, 0, sin) a unit of pitch, by the unit vector across a unit of roll
        pairs = ((U, PITCH, -cosine), (W, PITCH, -sine), (V, ROLL, 1 + 0 * sine))
        for k in (U, V, W):
            H[:, k, k] = self.I[:, 0]
        H[:, PITCH, PITCH] = H[:, ROLL, ROLL] = self.I[:, 2]
        for a, b, way in pairs:
            H[:, a, b] = H[:, b, a] = self.I[:, 1] * way
        H *= self.w.ravel()[:, None, None]
        M = self.matrix(H.reshape(ne, Q, 3, 5, 3, 5))
        K = self.force(np.zeros(self.size))[1]
        shift = -((2 * np.pi * 10.0) ** 2)
        solve = spl.LinearOperator(K.shape, factored(K - shift * M), dtype=float)
        found = spl.eigsh(K, count + 6, M, shift, OPinv=solve, return_eigenvectors=False)
        return np.sqrt(np.sort(found)[6:]) / (2 * np.pi)

    def bend(self, case, travels, twists, report=lambda text: None):
        """The flex case taken to travels (m; centre down, tips up): force N, tangent N/mm, flattening mm,
        and the twist stiffness (N m/deg) of `twists` while bent. Newton at prescribed mean travel."""
        held, m, x = self.flex(case)
        sign = -1.0 if case == "centre-flex" else 1.0
        free = self.free(held)
        mf = m[free]
        u, load, found = np.zeros(self.size), 0.0, []
        f, K = self.force(u)
        for travel in travels:
            steps = max(1, int(np.ceil((travel - sign * (m @ u)) / 0.0301)))
            start = sign * (m @ u)
            for step in range(1, steps + 1):
                goal = sign * (start + (travel - start) * step / steps)
                for turn in range(20):
                    solve = factored(K[free][:, free])
                    r = (load * m - f)[free]
                    a, b = solve(r), solve(mf)
                    change = (goal - m @ u - mf @ a) / (mf @ b)
                    du = a + change * b
                    u[free] += du
                    load += change
                    f, K = self.force(u)
                    work = abs((load * m - f)[free] @ du)
                    largest = np.abs(du).max()
                    report(f"{case} {travel * 1e3:g} mm step {step} turn {turn}: |du| {largest:.2e} work {work:.1e}")
                    if largest < 1e-8 and turn:
                        break
                else:
                    raise RuntimeError("Newton does not settle")
            nodes, _ = self.line(x)
            y, w = self.mesh.points[nodes, 1], u[5 * nodes + W]
            middle = w[np.argmin(np.abs(y))]
            answer = {
                "travel": travel, "force": sign * load, "stiffness": sign * load / travel / 1e3,
                "tangent": 1 / (mf @ factored(K[free][:, free])(mf)) / 1e3,
                "flattening": 1e3 * ((w[np.argmin(y)] + w[np.argmax(y)]) / 2 - middle),
            }  # fmt: skip
            for twist in twists:
                answer[twist] = self.twist_stiffness(K, twist, u) * np.pi / 180
            found.append(answer)
        self.u = u
        return found
