"""The nitrogen cycle by two stiff solvers: both preset schedules and twenty random sets of figures."""
import json
import math
import sys
import time

import numpy as np
from record import answer, emit, q, version
from scipy.integrate import solve_ivp

DEFAULTS = {
    "growth_a": 0.78, "growth_n": 0.78, "decay_a": 0.096, "decay_n": 0.096, "yield_a": 0.18, "yield_n": 0.06, "half_a": 0.5, "half_n": 0.5,
    "oxygen_a": 0.6, "oxygen_n": 1.2, "inhibit": 0.2, "energy_a": 68000.0, "energy_n": 44000.0, "theta": 1.029, "half_alk": 0.05,
    "seed_a": 1e-5, "seed_n": 3e-6,
}
RANGES = {
    "growth_a": (0.5, 1.5), "growth_n": (0.4, 1.05), "decay_a": (0.05, 0.2), "decay_n": (0.05, 0.2), "yield_a": (0.12, 0.21), "yield_n": (0.03, 0.09),
    "half_a": (0.14, 1.5), "half_n": (0.1, 2), "oxygen_a": (0.2, 1.2), "oxygen_n": (0.4, 1.5), "inhibit": (0.05, 0.8), "energy_a": (45000, 90000),
    "energy_n": (30000, 80000), "theta": (1.0, 1.1), "half_alk": (0.01, 0.2), "seed_a": (1e-6, 1e-2), "seed_n": (1e-6, 1e-2),
}
NAMES = ("ammonia", "nitrite", "nitrate", "eaters_a", "eaters_n", "alkalinity")
MEQ = (40.078 + 12.011 + 3 * 15.999) / 2  # mg CaCO3
TAP = (0.0, 0.0, 1.0, 2.14)  # TAN, NO2, NO3 as N, alkalinity


def slope(p, t, co2, oxygen, production, returns):
    """The right-hand side at a temperature t in degrees C."""
    k = t + 273.15
    pk1 = 356.3094 + 0.06091964 * k - 21834.37 / k - 126.8339 * math.log10(k) + 1684915 / k**2
    pka = 0.09018 + 2729.92 / k
    warm = lambda rate, energy: rate * math.exp(energy * (k - 293.15) / (8.314462618 * k * 293.15))
    mu_a, mu_n = warm(p["growth_a"], p["energy_a"]), warm(p["growth_n"], p["energy_n"])
    b_a, b_n = (p[d] * p["theta"] ** (t - 20) for d in ("decay_a", "decay_n"))

    def f(_, y):
        a, b, alk = max(0.0, y[0]), max(0.0, y[1]), max(0.0, y[5])
        ph = pk1 + math.log10(max(alk, 0.02) / (co2 / 44.0095))
        free = a / (1 + 10 ** (pka - ph))
        g = 0.0 if ph >= 9.5 else 2.35 ** (min(ph, 7.2) - 7.2) * 1.13 * (9.5 - ph) / (9.8 - ph)
        r_a = mu_a * g * alk / (p["half_alk"] + alk) * a / (p["half_a"] + a) * oxygen / (p["oxygen_a"] + oxygen) * y[3]
        r_n = mu_n * g * b / (p["half_n"] + b) * oxygen / (p["oxygen_n"] + oxygen) * p["inhibit"] / (p["inhibit"] + free) * y[4]
        return [production - r_a / p["yield_a"], r_a / p["yield_a"] - r_n / p["yield_n"], r_n / p["yield_n"],
                r_a - b_a * y[3], r_n - b_n * y[4], (returns * production - 2 * r_a / p["yield_a"]) / 14.007]

    return f


def run(case, method, rtol, atol, grid):
    """The states just after each time of the grid; events are doses (t, 'dose', mg/L) and changes (t, 'change', share)."""
    f = slope(case["p"], case["t"], 3.0, 7.5, case["production"], case["returns"])
    y, now, out = list(case["start"]), 0.0, {0.0: list(case["start"])}
    events = sorted(case["events"], key=lambda e: e[0])
    stops = sorted(set(e[0] for e in events) | {case["until"]})
    for stop in stops:
        if stop > now:
            asked = [g for g in grid if now < g <= stop]
            got = solve_ivp(f, (now, stop), y, method=method, rtol=rtol, atol=atol, max_step=0.25 if rtol < 1e-7 else np.inf,
                            t_eval=sorted(set(asked) | {stop}))
            for i, g in enumerate(got.t):
                out[float(g)] = [float(c[i]) for c in got.y]
            y, now = [float(c[-1]) for c in got.y], stop
        for _, kind, x in [e for e in events if e[0] == stop]:
            if kind == "dose":
                y[0] += x
            else:
                for i, tap in zip((0, 1, 2, 5), TAP):
                    y[i] = (1 - x) * y[i] + x * tap
            out[stop] = list(y)
    return out


def fishless():
    doses = [(d, "dose", 1.0) for d in (14, 17, 20, 23, 26, 29, 32, 35, 38)]
    return {"p": DEFAULTS, "t": 26.0, "production": 0.0, "returns": 0.0, "start": [2, 0, 1, 1e-5, 3e-6, 2.14], "events": doses + [(42, "change", 0.75)], "until": 45.0}


def with_fish(until=70.0):
    changes = [(7.0 * i, "change", 0.25) for i in range(1, 10) if 7 * i <= until]
    return {"p": DEFAULTS, "t": 25.0, "production": 0.09315, "returns": 1.0, "start": [0, 0, 1, 1e-5, 3e-6, 2.14], "events": changes, "until": until}


def anything(random):
    p = {}
    for name, (low, high) in RANGES.items():
        p[name] = float(10 ** random.uniform(math.log10(low), math.log10(high)) if name.startswith("seed") else random.uniform(low, high))
    start = [random.uniform(0, 4), random.uniform(0, 2), random.uniform(0, 10), p["seed_a"], p["seed_n"], random.uniform(1.5, 6)]
    events = [(float(d), "change", float(random.uniform(0.1, 0.6))) for d in range(7, 50, 7)] + [(10.0, "dose", float(random.uniform(0.5, 2)))]
    return {"p": p, "t": float(random.uniform(16, 29)), "production": float(random.uniform(0, 0.3)), "returns": 1.0, "start": [float(x) for x in start],
            "events": events, "until": 50.0}


def given(case):
    """The input of nitrogen.run; NH3 of a dose gives no alkalinity."""
    tap = {n: q(x, "mg/l", "n") for n, x in zip(NAMES, TAP[:3])}
    tap["alkalinity"] = q(TAP[3] * MEQ, "mg/l_caco3")
    state = {n: q(x, "mg/l", "n") for n, x in zip(NAMES[:3], case["start"])}
    state.update({n: q(x, "mg/l") for n, x in zip(NAMES[3:5], case["start"][3:5])})
    state["alkalinity"] = q(case["start"][5] * MEQ, "mg/l_caco3")
    events = []
    for t, kind, x in case["events"]:
        what = {"dose": {"ammonia": q(x, "mg/l", "n"), "returns": 0}} if kind == "dose" else {"change": {"fraction": q(x, "one"), "tap": tap}}
        events.append({"at": q(t, "d"), **what})
    return {"figures": case["p"], "start": {"state": state, "temperature": q(case["t"], "degc"),
            "production": {"rate": q(case["production"], "mg/l/d", "n"), "returns": case["returns"]}},
            "events": events, "until": q(case["until"], "d"), "sample_step": q(2.5, "d")}


def places(case, grid):
    """Where the program's samples stand: one at the start, one a step, and two for each time of events instead."""
    times = sorted(set(grid) | {float(e[0]) for e in case["events"]})
    at, out, busy = 1, {0.0: 0}, {float(e[0]) for e in case["events"]}
    for t in times:
        if t == 0:
            continue
        at += 1 if t in busy else 0
        out[t] = at
        at += 1
    return out


def check(case):
    grid = [2.5 * i for i in range(int(case["until"] / 2.5) + 1)]
    exact = run(case, "Radau", 1e-11, 1e-13, grid)
    other = run(case, "LSODA", 1e-10, 1e-13, grid)
    for t, y in exact.items():  # the two solvers agree, or there is no answer
        for a, b in zip(y, other[t]):
            if abs(a - b) > 2e-7 * abs(a) + 1e-8:
                raise SystemExit("Radau %r, LSODA %r at day %r" % (y, other[t], t))
    where, answers = places(case, grid), []
    for t, i in sorted(where.items()):
        if t % 5 == 0 and t > 0:
            for name, x in zip(NAMES, exact[t]):
                scale = MEQ if name == "alkalinity" else 1
                answers.append(answer("values.samples.%d.state.%s.value" % (i, name), x * scale, absolute=2e-5 * scale, relative=2e-4))
    return {"calculation": "nitrogen.run", "input": given(case), "answers": answers}


def race():
    """Time and error of LSODA at rtol 1e-6 over sixty days with fish, and the exact end."""
    case = with_fish(60.0)
    grid = [0.5 * i for i in range(121)]
    exact = run(case, "Radau", 1e-11, 1e-13, grid)[60.0]
    best, y = math.inf, None
    for _ in range(5):
        begin = time.perf_counter()
        y = run(case, "LSODA", 1e-6, 1e-9, grid)[60.0]
        best = min(best, time.perf_counter() - begin)
    begin = time.perf_counter()
    run(case, "Radau", 1e-11, 1e-13, grid)
    radau = time.perf_counter() - begin
    json.dump({"lsoda_seconds": best, "lsoda": y, "radau_seconds": radau, "radau": exact}, sys.stdout)


if __name__ == "__main__":
    if sys.argv[1:] == ["race"]:
        race()
    else:
        source = np.random.RandomState(6)
        cases = [fishless(), with_fish()] + [anything(source) for _ in range(20)]
        emit([check(c) for c in cases], {"scipy": version("scipy"), "numpy": version("numpy")}, "solve_ivp Radau rtol 1e-11, LSODA rtol 1e-10 agreeing within 2e-7")
