"""Shelves under a tank by the unit load theorem: moments and sag by numerical integration."""
import numpy as np
from record import answer, emit, q, version
from scipy.integrate import quad

G = 9.80665
# Birch plywood across its face grain: modulus (Pa) and the density of the sheet (kg/m3), as the program's table has them.
E, DENSITY = 7452e6, 680.0


def shelf(span, depth, thick, mass, length, width, framed):
    """Moment at the middle, shear at the support, sag at the middle: the load lies even, or under a rim."""
    weight, own = mass * G, DENSITY * depth * thick * G
    c, begin = min(length, span), (span - min(length, span)) / 2
    if framed and length < span:
        q_rim = weight / (2 * (length + width))
        even, ends = 2 * q_rim, q_rim * width
    else:
        even, ends = weight / length, 0.0
    total = own * span + even * c + (2 * ends if ends else 0)
    support = total / 2

    def moment(x):  # from statics, left half and right half alike
        x = min(x, span - x)
        m = support * x - own * x * x / 2
        if x > begin:
            m -= even * (x - begin) ** 2 / 2 + ends * (x - begin)
        return m

    unit = lambda x: min(x, span - x) / 2
    breaks = [begin, span / 2, span - begin] if begin > 0 else [span / 2]
    stiff = E * depth * thick**3 / 12
    sag, _ = quad(lambda x: moment(x) * unit(x) / stiff, 0, span, points=breaks, epsabs=1e-16, epsrel=1e-12, limit=200)
    return moment(span / 2), support, sag


random = np.random.RandomState(9)
checks = []
for i in range(24):
    span, depth = random.uniform(0.45, 1.1), random.uniform(0.35, 0.6)
    thick = float(random.choice([0.015, 0.018, 0.021]))
    length, width = random.uniform(0.3, span), random.uniform(0.2, depth)
    mass, framed = random.uniform(30, 250), i % 2 == 0
    m, v, w = shelf(span, depth, thick, mass, length, width, framed)
    load = {"mass": q(mass, "kg"), "usual": q(mass * 0.85, "kg"), "empty": q(mass * 0.1, "kg"), "length": q(length, "m"), "width": q(width, "m"),
            "height": q(0.35, "m"), "centre": q(0.15, "m"), "framed": framed}
    top = {"top": "plywood", "thickness": q(thick, "m"), "depth": q(depth, "m"), "span": q(span, "m"), "support": "sides", "middle": "no"}
    given = {"kind": "furniture", "load": load, "furniture": top, "height": q(0.75, "m"), "back": "yes", "anchored": "yes", "wetted": "no"}
    checks.append({"calculation": "stand.check", "input": given, "answers": [
        answer("working.ask.load.bending.M", m, relative=1e-6), answer("working.ask.load.shear.V", v, relative=1e-6),
        answer("working.ask.load.sag.w_0", w, relative=1e-6)]})
emit(checks, {"scipy": version("scipy"), "numpy": version("numpy")}, "quad over moment times unit moment")
