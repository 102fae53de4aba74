"""Density by IAPWS-95, oxygen by the fit of Garcia and Gordon in gsw, and oxygen in a power cut by LSODA."""
import subprocess

import gsw
import numpy as np
from iapws import IAPWS95
from record import answer, emit, q, version
from scipy.integrate import solve_ivp

checks = []
for t in np.arange(0.5, 40.25, 0.5):
    rho = IAPWS95(T=t + 273.15, P=0.101325).rho
    checks.append({"calculation": "water.density", "input": {"temperature": q(t, "degc")}, "answers": [answer("result", rho, absolute=0.005)]})
    checks.append({"calculation": "tank.water_density", "input": {"water": q(t, "degc")}, "answers": [answer("result", rho, absolute=0.005)]})


def saturation(t):
    """mg/L in fresh water under one atmosphere."""
    micromol = gsw.O2sol_SP_pt(0.0, t)  # a kilogram
    return float(micromol * 1e-6 * 31.9988e3 * gsw.rho_t_exact(0.0, t, 0.0) / 1000)


for t in np.arange(0.0, 40.25, 1.0):
    given = {"temperature": q(t, "degc"), "pressure": q(1, "atm"), "salinity": q(0, "mg/l")}
    checks.append({"calculation": "water.oxygen", "input": given, "answers": [answer("result", saturation(t), absolute=0.003)]})


# The well mixed tank: dC/dt = k (C* - C) - R/V, stopped where C is critical.
def hours(v, a, kl, sat, demand, start, critical):
    k = kl * a / v * 1000  # 1/d, v in L
    fall = lambda _, c: [k * (sat - c[0]) - demand / v]
    reached = lambda _, c: c[0] - critical
    reached.terminal = True
    got = solve_ivp(fall, (0, 400), [start * sat], method="LSODA", rtol=1e-11, atol=1e-12, events=reached)
    return got.t_events[0][0] if len(got.t_events[0]) else None


random = np.random.RandomState(20)
cases = 0
while cases < 25:
    v, a = random.uniform(20, 300), random.uniform(0.05, 0.6)
    t, fish, other = random.uniform(20, 30), random.uniform(100, 4000), random.uniform(0.2, 3)
    start, critical = random.uniform(0.7, 1.0), random.uniform(2, 4.5)
    # C* by the polynomial itself, so that the record tests the equation of the tank alone.
    k = t + 273.15
    sat = np.exp(-139.34411 + 1.575701e5 / k - 6.642308e7 / k**2 + 1.2438e10 / k**3 - 8.621949e11 / k**4)
    given = {"water": q(v, "l"), "surface": q(a, "m2"), "temperature": q(t, "degc"), "pressure": q(1, "atm"), "fish": q(fish, "mg/d"),
             "other": q(other, "mg/l/d"), "start": q(start, "one"), "critical": q(critical, "mg/l")}
    answers = []
    for name, kl in (("low", 0.2), ("likely", 0.5), ("high", 1.0)):
        when = hours(v, a, kl, sat, fish + other * v, start, critical)
        if when is not None:
            answers.append(answer("values.%s.at.value" % name, when * 86400, relative=1e-7))
    if answers:
        cases += 1
        checks.append({"calculation": "water.power_cut", "input": given, "answers": answers})
# The package does not say its version itself.
installed = subprocess.run(["dpkg-query", "-W", "-f=${Version}", "python3-iapws"], capture_output=True, text=True, check=False).stdout
emit(checks, {"iapws": installed or version("iapws"), "gsw": version("gsw"), "scipy": version("scipy"), "numpy": version("numpy")},
     "IAPWS95 at 0.101325 MPa; gsw.O2sol_SP_pt at salinity 0; solve_ivp LSODA rtol 1e-11")
