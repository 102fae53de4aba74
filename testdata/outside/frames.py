"""Frames without a stiffness matrix: portals as a boundary value problem, columns by their transfer matrix."""
import math

import numpy as np
from record import emit, version
from scipy.integrate import solve_bvp
from scipy.linalg import expm
from scipy.optimize import brentq


def portal(e, a, leg, beam, span, height, held, load, push):
    """Sway (m) of the left corner, sag at mid beam, moments (N m) at the left corner and at the right foot, thrust.

    Each member has axial u, across w, slope, N, V, M along its own x; all three run over s from 0 to 1.
    Legs go up, the beam to the right; across is to the left of the way along.
    """
    lengths, inertia, down = (height, span, height), (leg, beam, leg), (0.0, -load, 0.0)

    def f(s, y):
        out = np.empty_like(y)
        for i in range(3):
            u, w, th, n, v, m = y[6 * i : 6 * i + 6]
            l = lengths[i]
            out[6 * i : 6 * i + 6] = [l * n / (e * a), l * th, l * m / (e * inertia[i]), 0 * n, -l * down[i] + 0 * v, -l * v]
        return out

    def ends(p, r):
        """Left leg 0, beam 1, right leg 2 (from its foot up); forces are those on a cut that looks along x."""
        res = []
        for i in (0, 2):
            res += [p[6 * i], p[6 * i + 1], p[6 * i + 2] if held else p[6 * i + 5]]
        # Left corner: global x is -across of the leg and along of the beam; global y the other way about.
        res += [p[6] + r[1], p[7] - r[0], p[8] - r[2]]
        # Right corner: end of the beam, end of the right leg.
        res += [r[6] + r[13], r[7] - r[12], r[8] - r[14]]
        # Balance. A member's end acts on the node by -N along and -V across, its start by +N and +V; moments -M and +M.
        res += [r[4] + p[9] + push, -r[3] + p[10], -r[5] + p[11]]
        res += [-r[9] + r[16], -r[10] - r[15], -r[11] - r[17]]
        return np.array(res)

    s = np.linspace(0, 1, 41)
    got = solve_bvp(f, ends, s, np.zeros((18, s.size)), tol=1e-10, max_nodes=20000)
    if got.status != 0:
        raise SystemExit(got.message)
    first, mid, last = got.sol(0), got.sol(0.5), got.sol(1)
    return {"sway": -last[1], "sag": -mid[7], "corner": abs(last[5]), "foot": abs(got.sol(0)[17]), "thrust": abs(first[4])}


def column(pieces, ends):
    """Least force (N) that buckles an upright of pieces (EI, length), by the transfer matrix of w, slope, M, H."""

    def chain(p):
        whole = np.eye(4)
        for ei, l in pieces:
            # w' = th, th' = M/EI, M' = H - P th, H' = 0, H the shear square to the upright
            a = np.array([[0, 1, 0, 0], [0, 0, 1 / ei, 0], [0, -p, 0, 1], [0, 0, 0, 0]], dtype=float)
            whole = expm(a * l) @ whole
        return whole

    free = {"held": (2, 3), "hinged": (1, 3)}[ends[0]]  # unknown at the foot
    nil = {"free": (2, 3), "hinged": (0, 2), "guided": (0, 1), "sliding": (1, 3)}[ends[1]]  # nothing at the top
    det = lambda p: np.linalg.det(chain(p)[np.ix_(nil, free)])
    length = sum(l for _, l in pieces)
    scale = min(ei for ei, _ in pieces) / length**2
    grid = np.linspace(0.05, 400, 8000) * scale
    for low, high in zip(grid, grid[1:]):
        if det(low) * det(high) < 0:
            return brentq(det, low, high, xtol=1e-12 * high, rtol=1e-14)
    raise SystemExit("no buckling force")


random = np.random.RandomState(3)
checks = []
for i in range(12):
    given = {"e": float(random.choice([11e9, 210e9])), "a": random.uniform(2e-4, 2e-3), "leg": random.uniform(2e-8, 4e-7), "beam": random.uniform(2e-8, 4e-7),
             "span": random.uniform(0.4, 1.5), "height": random.uniform(0.5, 0.9), "held": bool(i % 2), "load": random.uniform(500, 3000), "push": random.uniform(0, 200)}
    given = {k: (v if isinstance(v, bool) else float(v)) for k, v in given.items()}
    checks.append({"portal": given, "want": {k: float(v) for k, v in portal(**given).items()}})
for ends in (("held", "free"), ("hinged", "hinged"), ("held", "hinged"), ("held", "guided"), ("held", "sliding")):
    for pieces in ([[1.0, 1.0]], [[2.5, 0.4], [1.0, 0.8]], [[1.0, 0.5], [6.0, 0.7]]):
        checks.append({"column": {"pieces": pieces, "foot": ends[0], "top": ends[1]}, "want": {"force": float(column(pieces, ends))}})
emit(checks, {"scipy": version("scipy"), "numpy": version("numpy")}, "solve_bvp tol 1e-10; expm and brentq")
