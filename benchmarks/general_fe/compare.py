#!/usr/bin/env python3
"""The same laminated plate by vrid and by a general finite element library, time at equal error.

    compare.py PATH/TO/general_fe_ours [rounds] [squares|strips|all] [FILE]

FILE gets the ratios in solving as JSON: [{"plate", "error", "any": [a run each], ...}].

Their side: DOLFINx with PETSc's Cholesky (MUMPS or CHOLMOD) on the displacement form of the same
first-order theory: all five unknowns of degree 3 or 4 on quads, or of degree 2 with the shear
integrated by 2 x 2 points, which is faster but leaves w a spurious mode that only supports stop; the
ratios are given without it and with it. Both sides get the same family of mesh lines and each
may choose degree, number of quads (theirs: solver and ordering too): first every choice is run,
then the fastest in solving of each side that meets the error, in turns. Time is that of the process on one
thread; compiling the forms, starting the process and reading input are not counted on either side.

Without DOLFINx: says so and ends with 0.
"""

import json
import os
import statistics
import subprocess
import sys
import time

for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ[name] = "1"
# The C library keeps freed memory on both sides, as vrid does (freed_memory.cpp). It reads these when it starts.
kept = {"MALLOC_MMAP_THRESHOLD_": 32 << 20, "MALLOC_TRIM_THRESHOLD_": 256 << 20, "MALLOC_TOP_PAD_": 4 << 20}
if not all(name in os.environ for name in kept):
    os.environ.update({name: str(size) for name, size in kept.items()})
    os.execv(sys.executable, [sys.executable, *sys.argv])

try:
    import dolfinx
    import ufl
    from dolfinx import fem, mesh
    from dolfinx.fem import petsc
    from mpi4py import MPI
    from petsc4py import PETSc
except ImportError as missing:
    print(f"skipped: this comparison needs DOLFINx (Debian: python3-dolfinx): {missing}")
    sys.exit(0)

import numpy as np

SOLVERS = [("mumps", None), ("mumps", 3), ("mumps", 5), ("cholmod", None)]  # (package, ordering)


# The plates


def turned(E1, E2, nu12, G12, degrees):
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    nu21 = nu12 * E2 / E1
    q = np.array([[E1, nu12 * E2, 0], [nu12 * E2, E2, 0], [0, 0, 0]]) / (1 - nu12 * nu21)
    q[2, 2] = G12
    turn = np.array([[c * c, s * s, s * c], [s * s, c * c, -s * c], [-2 * s * c, 2 * s * c, c * c - s * s]])
    return turn.T @ q @ turn


def laminate(angles, h):
    """E1 25, E2 1, nu12 0.25, G12 = G13 0.5, G23 0.2, kappa = 5/6: ABD, S (yz, xz)."""
    edges = np.linspace(-h / 2, h / 2, len(angles) + 1)
    A, B, D, S = np.zeros((3, 3)), np.zeros((3, 3)), np.zeros((3, 3)), np.zeros((2, 2))
    for angle, lo, hi in zip(angles, edges, edges[1:]):
        q = turned(25, 1, 0.25, 0.5, angle)
        A, B, D = A + q * (hi - lo), B + q * (hi**2 - lo**2) / 2, D + q * (hi**3 - lo**3) / 3
        c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
        yz, xz, both = 0.2 * c * c + 0.5 * s * s, 0.2 * s * s + 0.5 * c * c, 0.3 * s * c
        S = S + 5 / 6 * np.array([[yz, both], [both, xz]]) * (hi - lo)
    return np.block([[A, B], [B, D]]), S


def navier(ABD, S, terms=401):
    """Compliance of the unit square, antisymmetric angle-ply on SS-2, even load: double series."""
    cosines, sines = [0, 1, 5], [2, 3, 4]  # e_x e_y k_xy go like cos cos, e_xy k_x k_y like sin sin
    total = 0.0
    for m in range(1, terms, 2):
        n = np.arange(1, terms, 2)
        x, y = np.full(n.size, m * np.pi), n * np.pi
        rows = np.zeros((n.size, 8, 5))
        rows[:, 0, 0], rows[:, 1, 1], rows[:, 2, 3], rows[:, 2, 4] = x, y, y, x
        rows[:, 3, 0], rows[:, 3, 1], rows[:, 4, 3], rows[:, 5, 4] = -y, -x, -x, -y
        rows[:, 6, 2], rows[:, 6, 4], rows[:, 7, 2], rows[:, 7, 3] = y, 1, x, 1
        C = np.zeros((8, 8))
        C[:3, :3], C[3:6, 3:6], C[6:, 6:] = ABD[np.ix_(cosines, cosines)], ABD[np.ix_(sines, sines)], S
        q = 16 / (np.pi**2 * m * n)
        load = np.zeros((n.size, 5, 1))
        load[:, 2, 0] = q
        K = np.einsum("kai,ab,kbj->kij", rows, C, rows)
        total += np.sum(np.linalg.solve(K, load)[:, 2, 0] * q) / 4
    return total


def even_lines(n):
    return np.linspace(0, 1, n + 1)


def strip_lines(layers, nx, ny):
    """1.2 x 0.25: so many gaps crowded at the clamp, the end and the free sides, nx x ny between."""
    near = {1: [0, 0.012], 2: [0, 0.005, 0.02], 3: [0, 0.002, 0.007, 0.02]}[layers]
    near = np.array(near)
    lines = []
    for length, n in ((1.2, nx), (0.25, ny)):
        inner = np.linspace(near[-1], length - near[-1], n + 1)
        lines.append(np.concatenate([near[:-1], inner, length - near[-2::-1]]))
    return tuple(lines)


# Their side


class Theirs:
    def __init__(self, case, degree, lines, solver, ABD=None, S=None):
        self.case, self.degree, self.lines, self.solver = case, degree, lines, solver
        self.ABD, self.S = ABD, S

    def grid(self):
        x, y = self.lines
        g = mesh.create_rectangle(
            MPI.COMM_SELF, [[0, 0], [1, 1]], [len(x) - 1, len(y) - 1], mesh.CellType.quadrilateral
        )
        at = g.geometry.x
        for k, line in ((0, x), (1, y)):
            at[:, k] = line[np.rint(at[:, k] * (len(line) - 1)).astype(int)]
        return g

    def section(self, g):
        if self.case == "square":
            matrix = lambda M: fem.Constant(g, np.ascontiguousarray(M, dtype=PETSc.ScalarType))
            M = self.ABD
            return matrix(M[:3, :3]), matrix(M[:3, 3:]), matrix(M[3:, 3:]), matrix(self.S)
        # faces t on a tapered core c, plane at the bottom; ours: general_fe/ours.cpp
        share = ufl.SpatialCoordinate(g)[0] / 1.2
        t, c = 1e-3, 8e-3 - 6e-3 * share**2
        face, core = turned(40e9, 12e9, 0.3, 5e9, 0), turned(10e9, 0.5e9, 0.4, 0.6e9, 0)
        z, q = [0, t, t + c, 2 * t + c], [face, core, face]
        moment = lambda k: sum(
            (z[i + 1] ** k - z[i] ** k) / k * ufl.as_matrix(q[i].tolist()) for i in range(3)
        )
        stretch = (c + t) ** 2 / c
        S = ufl.as_matrix([[0.1e9 * stretch, 0], [0, 0.6e9 * stretch]])
        return moment(1), moment(2), moment(3), S

    def forms(self, g, V):
        (A, B, D, S), p = self.section(g), self.degree
        u, v = ufl.TrialFunction(V), ufl.TestFunction(V)

        def strains(f):
            d = ufl.grad(f)
            e = ufl.as_vector([d[0, 0], d[1, 1], d[0, 1] + d[1, 0]])
            k = ufl.as_vector([d[3, 0], d[4, 1], d[3, 1] + d[4, 0]])
            return e, k, ufl.as_vector([d[2, 1] + f[4], d[2, 0] + f[3]])

        (e, k, s), (de, dk, ds) = strains(u), strains(v)
        # the taper adds up to three degrees; one point more than the degree is as good as more here
        full = ufl.dx(metadata={"quadrature_degree": 2 * p})
        shear = ufl.dx(metadata={"quadrature_degree": 2 if p == 2 else 2 * p})
        a = (ufl.inner(A * e + B * k, de) + ufl.inner(B * e + D * k, dk)) * full
        a += ufl.inner(S * s, ds) * shear
        w, y = v[2], ufl.SpatialCoordinate(g)[1]
        if self.case == "square":
            return a, [fem.Constant(g, PETSc.ScalarType(1)) * w * full]
        where = [mesh.locate_entities(g, 1, lambda x, at=at: np.isclose(x[0], at)) for at in (0, 0.6, 1.2)]
        facets = np.concatenate(where)
        marks = np.repeat(np.arange(3, dtype=np.int32), [len(f) for f in where])
        order = np.argsort(facets)
        tags = mesh.meshtags(g, 1, facets[order], marks[order])
        ends, inside = ufl.ds(subdomain_data=tags), ufl.dS(subdomain_data=tags)
        loads = [f * w * ends(mark) for mark in (2, 0) for f in (1.0, y - 0.125)]
        return a, loads + [w("+") * inside(1)]

    def supports(self, g, V):
        """Per set of supports: its conditions and which loads it serves."""

        def held(where, components):
            facets = mesh.locate_entities_boundary(g, 1, where)
            for c in components:
                dofs = fem.locate_dofs_topological(V.sub(c), 1, facets)
                yield fem.dirichletbc(PETSc.ScalarType(0), dofs, V.sub(c))

        at = lambda k, value: lambda x: np.isclose(x[k], value)
        sides = lambda k: lambda x: np.isclose(x[k], 0) | np.isclose(x[k], 1)
        if self.case == "square":
            return [([*held(sides(0), (0, 2, 4)), *held(sides(1), (1, 2, 3))], [0])]
        return [([*held(at(0, 0), range(5))], [0, 1]), ([*held(at(0, 1.2), range(5))], [2, 3]),
                ([*held(at(0, 0), range(3)), *held(at(0, 1.2), [2])], [4])]

    def solver_of(self):
        ksp = PETSc.KSP().create(MPI.COMM_SELF)
        ksp.setType("preonly")
        pc = ksp.getPC()
        pc.setType("cholesky")
        pc.setFactorSolverType(self.solver[0])
        return ksp

    def run(self):
        """One assembly and one analysis for all supports, one numerical factor for each."""
        clock = time.process_time
        start = clock()
        g = self.grid()
        V = fem.VectorFunctionSpace(g, ("CG", self.degree), dim=5)
        sets = self.supports(g, V)
        compiling = clock()
        a, loads = self.forms(g, V)
        fast = {"cffi_extra_compile_args": ["-O3", "-march=native"]}
        a, *loads = (fem.form(f, jit_params=fast) for f in (a, *loads))
        compiled = clock()
        free = petsc.create_matrix(a)
        ready = clock()
        petsc.assemble_matrix(free, a)
        free.assemble()
        free.setOption(PETSc.Mat.Option.KEEP_NONZERO_PATTERN, True)
        forces = []
        for load in loads:
            forces.append(petsc.create_vector(load))
            petsc.assemble_vector(forces[-1], load)
        phases = {"assemble": clock() - ready, "factor": 0.0, "solve": 0.0}
        compliance = [0.0] * len(loads)
        ksp, K, u = self.solver_of(), None, forces[0].duplicate()
        for bcs, served in sets:
            begin = clock()
            last = bcs is sets[-1][0]
            if K is None:
                K = free if last else free.copy()
                K.setOption(PETSc.Mat.Option.KEEP_NONZERO_PATTERN, True)
            else:
                free.copy(K, structure=PETSc.Mat.Structure.SAME_NONZERO_PATTERN)
            K.zeroRowsColumnsLocal(np.unique(np.concatenate([bc.dof_indices()[0] for bc in bcs])))
            K.setOption(PETSc.Mat.Option.SPD, True)
            ksp.setOperators(K)
            if self.solver[1] is not None and phases["factor"] == 0:
                ksp.getPC().setFactorSetUpSolverType()
                ksp.getPC().getFactorMatrix().setMumpsIcntl(7, self.solver[1])
            ksp.setUp()
            phases["factor"] += clock() - begin
            begin = clock()
            for k in served:
                petsc.set_bc(forces[k], bcs)
                ksp.solve(forces[k], u)
                compliance[k] = forces[k].dot(u)
            phases["solve"] += clock() - begin
        done = clock()
        for thing in (ksp, K, free, u, *forces):
            thing.destroy()
        return {"unknowns": V.dofmap.index_map.size_global * 5, "compliance": compliance,
                "set_up": ready - start - (compiled - compiling), "solving": done - ready,
                "phases": phases}

    def __str__(self):
        package, ordering = self.solver
        by = package if ordering is None else f"{package} ordering {ordering}"
        return f"degree {self.degree}, {len(self.lines[0]) - 1} x {len(self.lines[1]) - 1} quads, {by}"


class Ours:
    def __init__(self, program, case, degree, lines, ABD=None, S=None):
        self.program, self.degree, self.lines = program, degree, lines
        words = [case, degree, 2]
        for line in lines:
            words += [len(line), *(repr(float(v)) for v in line)]
        if ABD is not None:
            words += [repr(float(v)) for v in np.concatenate([ABD.ravel(), S.ravel()])]
        self.task = " ".join(str(w) for w in words)

    def run(self):
        done = subprocess.run([self.program], input=self.task, capture_output=True, text=True)
        if done.returncode != 0:
            raise RuntimeError(done.stderr)
        return json.loads(done.stdout)

    def __str__(self):
        return f"degree {self.degree}, {len(self.lines[0]) - 1} x {len(self.lines[1]) - 1} quads"


# The comparison


def survey(choices, reference):
    """[(choice, largest relative error of a compliance, best of three results)]."""
    found = []
    for choice in choices:
        result = min((choice.run() for _ in range(3)), key=solving)
        apart = np.abs(np.array(result["compliance"]) / np.array(reference) - 1)
        found.append((choice, apart.max(), result))
    return found


def solving(result):
    return result["solving"]


def total(result):
    return result["set_up"] + result["solving"]


def fastest(found, error):
    good = [one for one in found if one[1] <= error]
    # by solving: their set-up jitters by more than small plates take to solve
    return min(good, key=lambda one: one[2]["solving"]) if good else None


def in_turns(ours, theirs, rounds):
    # a run of ours is the better of two in a new process; so is one of theirs
    pairs = [(ours.run(), min((theirs.run() for _ in range(2)), key=solving)) for _ in range(rounds)]
    middle = statistics.median
    print("   ours %.2f ms set-up + %.2f ms solving; theirs %.2f + %.2f (assembly %.2f, factor %.2f, "
          "solve %.2f)" % (
              *(1e3 * middle(p[0][k] for p in pairs) for k in ("set_up", "solving")),
              *(1e3 * middle(p[1][k] for p in pairs) for k in ("set_up", "solving")),
              *(1e3 * middle(p[1]["phases"][k] for p in pairs) for k in ("assemble", "factor", "solve"))))
    whole = sorted(total(t) / total(o) for o, t in pairs)
    alone = sorted(solving(t) / solving(o) for o, t in pairs)
    print("   theirs / ours: all %.1f (%.1f to %.1f), solving %.1f (%.1f to %.1f)" % (
        middle(whole), whole[0], whole[-1], middle(alone), alone[0], alone[-1]), flush=True)
    return alone


def compare(title, ours, theirs, reference, errors, rounds):
    """A dict for each error: ratios by what the other side may choose from."""
    rows = []
    print(f"\n{title}: compliance " + ", ".join(f"{one:.9g}" for one in reference), flush=True)
    whole = [one for one in theirs if one[0].degree > 2]
    for error in errors:
        print(f" error at most {error:g}")
        rows.append({"plate": title.split(",")[0], "error": error})
        mine = fastest(ours, error)
        print(f"  ours: {described(mine)}")
        for name, choices in (("degrees 3 and 4", whole), ("any", theirs)):
            one = fastest(choices, error)
            print(f"  theirs, {name}: {described(one)}")
            if mine is not None and one is not None:
                rows[-1][name] = in_turns(mine[0], one[0], rounds)
    return rows


def described(one):
    if one is None:
        return "no choice reaches it"
    return f"{one[0]}, {one[2]['unknowns']} unknowns, error {one[1]:.1e}"


def with_best_solver(case, degree, lines, **section):
    """The solver and ordering that is fastest on a middling mesh."""
    timed = []
    for solver in SOLVERS:
        try:
            one = Theirs(case, degree, lines, solver, **section)
            one.run()
            timed.append((min(solving(one.run()) for _ in range(3)), solver))
        except PETSc.Error:
            continue  # not in this build
    print(f"  degree {degree}: " + ", ".join("%s %s %.0f ms" % (*s, 1e3 * t) for t, s in timed))
    return min(timed)[1]


def squares(program, rounds):
    rows = []
    print("their solvers and orderings, square:")
    lines = lambda n: (even_lines(n), even_lines(n))
    for name, angles in (("-45/45", [-45, 45]), ("(-45/45)4", [-45, 45] * 4), ("0/90/0", [0, 90, 0])):
        ABD, S = laminate(angles, 1 / 50)
        section = {"ABD": ABD, "S": S}
        reference = [navier(ABD, S)]
        solver = {p: with_best_solver("square", p, lines(16), **section) for p in (2, 3, 4)}
        theirs = [Theirs("square", p, lines(n), solver[p], **section)
                  for p, cuts in ((2, (4, 6, 8, 12, 16, 24, 32, 48)), (3, (2, 3, 4, 6, 8, 12, 16, 24)),
                                  (4, (1, 2, 3, 4, 6, 8, 12, 16))) for n in cuts]
        ours = [Ours(program, "square", p, lines(n), **section)
                for p, cuts in ((2, (2, 3, 4, 6, 8, 12)), (3, (1, 2, 3, 4, 6, 8, 12)),
                                (4, (1, 2, 3, 4, 6, 8)), (5, (1, 2, 3, 4)), (6, (1, 2, 3, 4)))
                for n in cuts]
        rows += compare(f"square ({name}), a/h = 50, hard supported, even load (Navier's series)",
                        survey(ours, reference), survey(theirs, reference), reference,
                        (1e-3, 1e-5, 1e-7), rounds)
    return rows


def strips(program, rounds):
    print("\ntheir solvers and orderings, strip:")
    solver = {p: with_best_solver("strip", p, strip_lines(2, 8, 6)) for p in (2, 3, 4)}
    references = [Ours(program, "strip", 6, strip_lines(3, 16, 8)).run()["compliance"],
                  Theirs("strip", 4, strip_lines(3, 24, 12), solver[4]).run()["compliance"]]
    apart = np.abs(np.array(references[0]) / np.array(references[1]) - 1).max()
    print(f"references, ours of degree 6 and theirs of degree 4: apart by {apart:.1e}")
    meshes = lambda layers, cuts: [strip_lines(k, *cut) for k in layers for cut in cuts]
    coarse, fine = [(2, 2), (4, 2), (4, 4), (6, 4), (8, 4)], [(8, 6), (12, 6), (16, 8), (24, 12)]
    theirs = [Theirs("strip", p, lines, solver[p])
              for p, layers, cuts in ((2, (2, 3), coarse[2:] + fine), (3, (1, 2, 3), coarse + fine[:2]),
                                      (4, (1, 2, 3), coarse)) for lines in meshes(layers, cuts)]
    ours = [Ours(program, "strip", p, lines)
            for p, layers, cuts in ((2, (1, 2, 3), coarse + fine[:3]), (3, (1, 2, 3), coarse + fine[:2]),
                                    (4, (1, 2, 3), coarse), (5, (1, 2, 3), coarse[:3]),
                                    (6, (1, 2), coarse[:3])) for lines in meshes(layers, cuts)]
    return compare("tapered sandwich strip, five cases on three sets of supports",
                   survey(ours, references[0]), survey(theirs, references[0]), references[0],
                   (2e-3, 5e-4, 1e-4), rounds)


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 7
    print(f"DOLFINx {dolfinx.__version__}, PETSc {'.'.join(map(str, PETSc.Sys.getVersion()))}, "
          "one thread, process seconds")
    rows = []
    for part in (squares, strips):
        if len(sys.argv) < 4 or sys.argv[3] in ("all", part.__name__):
            rows += part(sys.argv[1], rounds)
    if len(sys.argv) > 4:
        with open(sys.argv[4], "w", encoding="utf-8") as file:
            json.dump(rows, file)


if __name__ == "__main__":
    main()
