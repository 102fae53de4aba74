"""What the scripts of this folder share: inputs in JSON and the record on standard output."""
import datetime
import importlib
import json
import os
import platform
import sys


def q(value, unit, basis=None):
    """A quantity as the program takes it."""
    out = {"value": float(value), "unit": unit}
    if basis:
        out["basis"] = basis
    return out


def answer(at, want, absolute=0.0, relative=0.0):
    """A number that is expected at a place of the program's output."""
    return {"at": at, "want": float(want), "abs": absolute, "rel": relative}


def version(module):
    return importlib.import_module(module).__version__


def emit(checks, versions, method, key="checks"):
    """Writes the record: who answered, how, when, and what."""
    versions["python"] = platform.python_version()
    head = {
        "command": "python3 testdata/outside/" + os.path.basename(sys.argv[0]),
        "date": datetime.date.today().isoformat(),
        "versions": versions,
        "method": method,
    }
    lines = ",\n".join("  " + json.dumps(c, sort_keys=True) for c in checks)
    text = json.dumps(head, indent=1)
    sys.stdout.write(text[:-2] + ',\n "%s": [\n%s\n ]\n}\n' % (key, lines))
