"""Direct solution of symmetric sparse systems: MUMPS through petsc4py where installed, else SuperLU."""
import numpy as np
import scipy.sparse.linalg as spl

try:
    from petsc4py import PETSc
except ImportError:
    PETSc = None


def factored(K):
    """Solver of a symmetric sparse matrix."""
    if PETSc is None:
        symmetric = {"permc_spec": "MMD_AT_PLUS_A", "options": {"SymmetricMode": True}, "diag_pivot_thresh": 0.0}
        return spl.splu(K.tocsc(), **symmetric).solve
    K = K.tocsr()
    A = PETSc.Mat().createAIJ(size=K.shape, csr=(K.indptr, K.indices, K.data))
    A.setOption(PETSc.Mat.Option.SYMMETRIC, True)
    pc = PETSc.PC().create()
    pc.setOperators(A)
    pc.setType("cholesky")
    pc.setFactorSolverType("mumps")
    pc.setUp()

    def solve(b):
        if b.ndim == 2:
            return np.column_stack([solve(c) for c in b.T])
        x, y = A.createVecs()
        y.setArray(b)
        pc.apply(y, x)
        return x.getArray().copy()

    return solve
