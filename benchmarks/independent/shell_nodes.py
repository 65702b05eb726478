"""Nodes on [0, 1] and the polynomials through them."""
import numpy as np


def lobatto(p):
    """Nodes on [0, 1] and weights."""
    P = np.polynomial.legendre.Legendre.basis(p)
    x = np.concatenate([[-1], np.sort(P.deriv().roots().real), [1]])
    return (x + 1) / 2, 1 / (p * (p + 1) * P(x) ** 2)


def lagrange(nodes, at):
    """Values and slopes (points, nodes) of the polynomials through nodes."""
    n = len(nodes)
    weight = np.array([1 / np.prod(nodes[i] - np.delete(nodes, i)) for i in range(n)])
    D = weight[None, :] / weight[:, None] / (nodes[:, None] - nodes[None, :] + np.eye(n))
    D[np.diag_indices(n)] = 0
    D[np.diag_indices(n)] = -D.sum(1)
    others = [np.delete(nodes, i) for i in range(n)]
    values = np.array([[np.prod((x - others[i]) / (nodes[i] - others[i])) for i in range(n)] for x in at])
    return values, values @ D
