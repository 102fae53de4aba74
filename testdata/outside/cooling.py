"""Cooling in a power cut: the correlations written anew, the outer face by brentq, the curve by Radau."""
import math

import numpy as np
from record import answer, emit, q, version
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

SIGMA, G, P = 5.670374419e-8, 9.80665, 101325.0


def air(k):
    """Conductivity, kinematic viscosity, diffusivity of dry air (U.S. Standard Atmosphere 1976)."""
    cond = 2.64638e-3 * k**1.5 / (k + 245.4 * 10 ** (-12 / k))
    rho = P / (287.05 * k)
    return cond, 1.458e-6 * k**1.5 / (k + 110.4) / rho, cond / (rho * 1006)


def vapour(t):
    """Hyland and Wexler 1983 over water, Pa."""
    k = t + 273.15
    return math.exp(-5800.2206 / k + 1.3914993 - 0.048640239 * k + 4.1764768e-5 * k**2 - 1.4452093e-8 * k**3 + 6.5459673 * math.log(k))


def evaporates(water, room, rh):
    """Shah 2014, kg/(m2 h)."""
    pw, pa = vapour(water), rh * vapour(room)
    dry = lambda p, t: (P - p) / (287.042 * (t + 273.15))
    ratio = lambda p: 0.621945 * p / (P - p)
    rise = dry(pa, room) - dry(pw, water)
    natural = 35 * dry(pw, water) * rise ** (1 / 3) * (ratio(pw) - ratio(pa)) if rise > 0 else 0
    return max(0, natural, 5e-5 * (pw - pa))


def heat(c, water):
    """W from the water to the room."""
    l, w, h, wall, room, rh, lid = c["l"], c["w"], c["h"], c["wall"], c["room"], c["rh"], c["lid"]
    r = 1 / 150 + wall / 1.0

    def outer(s):
        cond, nu, alpha = air((s + room) / 2 + 273.15)
        ra = G / ((s + room) / 2 + 273.15) * abs(s - room) * h**3 / (nu * alpha)
        pr = nu / alpha
        nusselt = 0.68 + 0.670 * ra**0.25 / (1 + (0.492 / pr) ** (9 / 16)) ** (4 / 9)
        return nusselt * cond / h * (s - room) + 0.9 * SIGMA * ((s + 273.15) ** 4 - (room + 273.15) ** 4)

    if abs(water - room) < 1e-12:
        walls = 0.0
    else:
        face = brentq(lambda s: (water - s) / r - outer(s), min(water, room), max(water, room), xtol=1e-13)
        walls = (water - face) / r * 2 * (l + w) * h
    area = l * w
    vaporises = 1000 * (2500.8 - 2.36 * water + 0.0016 * water**2 - 0.00006 * water**3)
    wet = evaporates(water, room, rh) * area / 3600 * vaporises
    if lid:
        return walls + 2.0 * area * (water - room) + 0.15 * wet + area * (water - room) / (1 / 10 + 0.004 + 1 / 9)
    lc = area / (2 * (l + w))
    cond, nu, alpha = air((water + room) / 2 + 273.15)
    ra = G / ((water + room) / 2 + 273.15) * abs(water - room) * lc**3 / (nu * alpha)
    if water <= room:
        nusselt = 0.27 * ra**0.25
    else:
        nusselt = 0.54 * ra**0.25 if ra < 1e7 else 0.15 * ra ** (1 / 3)
    dry = nusselt * cond / lc * (water - room) + 0.95 * SIGMA * ((water + 273.15) ** 4 - (room + 273.15) ** 4)
    return walls + 2.0 * area * (water - room) + wet + dry * area


random = np.random.RandomState(4)
checks = []
for i in range(16):
    c = {"l": random.uniform(0.3, 1.2), "w": random.uniform(0.2, 0.5), "h": random.uniform(0.25, 0.5), "wall": random.uniform(0.004, 0.012),
         "room": random.uniform(8, 22), "rh": random.uniform(0.3, 0.8), "lid": i % 2 == 0}
    start, hours = random.uniform(23, 29), float(random.choice([6, 12, 24, 36]))
    litres = 0.85 * c["l"] * c["w"] * c["h"] * 1000
    glass = (2 * (c["l"] + c["w"]) * c["h"] + c["l"] * c["w"]) * c["wall"] * 2500 * 720
    capacity = litres / 1000 * 998 * 4180 + glass
    times = [hours * 3600 * f for f in (1 / 6, 1 / 2, 1)]
    got = solve_ivp(lambda _, y: [-heat(c, y[0]) / capacity], (0, hours * 3600), [start], method="Radau", rtol=1e-9, atol=1e-9, t_eval=times)
    box = {"length": q(c["l"], "m"), "width": q(c["w"], "m"), "height": q(c["h"], "m"), "wall": q(c["wall"], "m"), "material": "glass",
           "cover": "lid" if c["lid"] else "open", "support": "wood"}
    room, humid = q(c["room"], "degc"), q(c["rh"], "one")
    checks.append({"calculation": "heat.power_cut", "input": {"enclosure": box, "water_volume": q(litres, "l"), "start": q(start, "degc"), "room": room,
                   "humidity": humid, "lasts": q(hours, "h"), "watch": q(20, "degc")},
                   "answers": [answer("values.curve.%d.water.value" % k, y, absolute=1e-5) for k, y in zip((12, 36, 72), got.y[0])]})
    checks.append({"calculation": "heat.loss", "input": {"enclosure": box, "water": q(start, "degc"), "room": room, "humidity": humid},
                   "answers": [answer("result", heat(c, start), relative=1e-8)]})
emit(checks, {"scipy": version("scipy"), "numpy": version("numpy")}, "brentq for the outer face, solve_ivp Radau rtol 1e-9")
