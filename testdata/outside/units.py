"""Every unit of the program in the base unit of its kind, by GNU units.

Atomic weights of the hardness units are those that GNU units knows itself, older by a few parts in a million than those of the program.
"""
import re
import subprocess

from record import emit

CACO3 = "(calcium+carbon+3oxygen) g/mol"
DEGREE = "(10 mg/L * (calcium+carbon+3oxygen)/(calcium+oxygen))"
# unit of the program: expression of GNU units, base unit of the kind in GNU units
UNITS = {
    "piece": ("1", "1"), "one": ("1", "1"), "percent": ("percent", "1"),
    "m": ("m", "m"), "cm": ("cm", "m"), "mm": ("mm", "m"), "in": ("inch", "m"), "ft": ("foot", "m"),
    "m2": ("m^2", "m^2"), "cm2": ("cm^2", "m^2"), "ft2": ("ft^2", "m^2"), "in2": ("in^2", "m^2"), "mm2": ("mm^2", "m^2"),
    "m3": ("m^3", "m^3"), "l": ("liter", "m^3"), "ml": ("milliliter", "m^3"), "gal_us": ("usgallon", "m^3"), "gal_imp": ("brgallon", "m^3"),
    "qt_us": ("usquart", "m^3"), "floz_us": ("usfluidounce", "m^3"), "floz_imp": ("brfluidounce", "m^3"),
    "tsp_us": ("usteaspoon", "m^3"), "tbsp_us": ("ustablespoon", "m^3"), "drop": ("milliliter/20", "m^3"),
    "kg": ("kg", "kg"), "g": ("g", "kg"), "mg": ("mg", "kg"), "lb": ("pound", "kg"), "oz": ("ounce", "kg"),
    "kg/m3": ("kg/m^3", "kg/m^3"), "g/cm3": ("g/cm^3", "kg/m^3"),
    "n": ("newton", "newton"), "kn": ("kilonewton", "newton"), "lbf": ("lbf", "newton"),
    "n.m": ("newton m", "newton m"), "lbf.ft": ("lbf ft", "newton m"),
    "pa": ("Pa", "Pa"), "kpa": ("kPa", "Pa"), "mpa": ("MPa", "Pa"), "gpa": ("GPa", "Pa"), "psi": ("psi", "Pa"), "psf": ("lbf/ft^2", "Pa"),
    "bar": ("bar", "Pa"), "mmhg": ("mmHg", "Pa"), "atm": ("atm", "Pa"),
    "n/m": ("newton/m", "newton/m"), "lbf/ft": ("lbf/ft", "newton/m"),
    "w": ("watt", "watt"), "kw": ("kilowatt", "watt"), "j": ("joule", "joule"), "kj": ("kilojoule", "joule"), "kwh": ("kilowatt hour", "joule"),
    "s": ("second", "second"), "min": ("minute", "second"), "h": ("hour", "second"), "d": ("day", "second"), "wk": ("week", "second"),
    "mo": ("gregorianyear/12", "second"), "yr": ("gregorianyear", "second"),
    "m3/s": ("m^3/s", "m^3/s"), "l/min": ("liter/minute", "m^3/s"), "l/h": ("liter/hour", "m^3/s"), "ml/min": ("ml/minute", "m^3/s"),
    "gph_us": ("usgallon/hour", "m^3/s"), "gph_imp": ("brgallon/hour", "m^3/s"),
    "k_diff": ("kelvin", "kelvin"), "f_diff": ("degF", "kelvin"),
    "w/k": ("watt/kelvin", "watt/kelvin"), "w/m2k": ("watt/m^2 kelvin", "watt/m^2 kelvin"),
    "mg/l": ("mg/liter", "mg/liter"), "ug/l": ("microgram/liter", "mg/liter"), "g/l": ("g/liter", "mg/liter"),
    "mg/l_caco3": ("mg/liter", "mg/liter"), "dh": (DEGREE, "mg/liter"), "dkh": (DEGREE, "mg/liter"), "dgh": (DEGREE, "mg/liter"),
    "meq/l": ("(mmol/liter) " + CACO3 + "/2", "mg/liter"), "mmol/l": ("(mmol/liter) " + CACO3, "mg/liter"),
    "degf_fr": ("10 mg/liter", "mg/liter"), "clark": ("grain/brgallon", "mg/liter"), "gpg": ("grain/usgallon", "mg/liter"),
    "mg/l/d": ("mg/liter/day", "mg/liter/day"), "g/d": ("g/day", "g/day"), "mg/d": ("mg/day", "g/day"),
    "rad": ("radian", "radian"), "deg": ("degree", "radian"),
    "m4": ("m^4", "m^4"), "mm4": ("mm^4", "m^4"), "m3_section": ("m^3", "m^3"), "mm3_section": ("mm^3", "m^3"),
    "v": ("volt", "volt"), "a": ("ampere", "ampere"), "m/s": ("m/s", "m/s"), "m/d": ("m/day", "m/s"), "kg/m2h": ("kg/m^2 hour", "kg/m^2 hour"),
    "us/cm": ("microsiemens/cm", "microsiemens/cm"), "ms/cm": ("millisiemens/cm", "microsiemens/cm"),
}
# Readings of a thermometer, which have a zero of their own.
POINTS = {"degc": "tempC", "degf": "tempF"}


def ask(have, want):
    run = subprocess.run(["units", "-1", "-t", "-d", "16", have, want], capture_output=True, text=True, check=False)
    if run.returncode != 0:
        raise SystemExit("units: %s in %s: %s %s" % (have, want, run.stdout, run.stderr))
    return float(run.stdout.split()[0])


checks = []
for code, (have, want) in UNITS.items():
    checks.append({"unit": code, "x": 1.0, "base": ask(have, want), "rel": 2e-5 if "calcium" in have else 1e-13})
for code, name in POINTS.items():
    for x in (-40.0, 0.0, 32.0, 77.0, 98.6):
        checks.append({"unit": code, "x": x, "base": ask("%s(%r)" % (name, x), "tempC"), "rel": 1e-12})
first = subprocess.run(["units", "--version"], capture_output=True, text=True, check=True).stdout
emit(checks, {"units": re.search(r"\d+\.\d+", first).group(0)}, "units -1 -t -d 16 HAVE WANT")
