#!/usr/bin/env python3
"""What a first box teaches, by numpy and apart from our own code: first_off_by_numpy.py DATA [--print]

Reads DATA/first_off_causes.tsv; writes the causes of the measured box and of the next one as one normal vector, and
conditions it on all readings at once. Holds DATA/first_off_numpy.tsv against that. Exit code 77 without numpy.
"""
import csv
import sys

try:
    import numpy as np
except ImportError:
    sys.exit(77)

NINETY_FIVE = 1.6448536269514722
NOT_YET = {"blank": None, "dry-fit": {"weld", "belly", "grinding"}, "as-welded": {"grinding"}, "ground": set()}


def rows_of(path):
    with open(path, encoding="utf-8") as file:
        lines = [line for line in file if line.strip() and not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t"))


def moments(row):
    middle, under, over = (float(row[k]) for k in ("middle", "under", "over"))
    if row["spread"] == "uniform":
        return middle + (over - under) / 2, (under + over) ** 2 / 12
    off = (over - under) / NINETY_FIVE / np.sqrt(2 * np.pi)
    return middle + off, (under**2 + over**2) / (2 * NINETY_FIVE**2) - off**2


def figures(data):
    rows = rows_of(data + "/first_off_causes.tsv")
    causes = [r for r in rows if r["what"] == "cause"]
    readings = [r for r in rows if r["what"] == "read"]
    n = len(causes)
    mean = np.array([moments(c)[0] for c in causes] * 2)
    sd = np.array([np.sqrt(moments(c)[1]) for c in causes])
    rho = np.array([float(c["common"]) for c in causes])
    same = np.array([[a["key"] == b["key"] and a["order"] == b["order"] for b in causes] for a in causes])
    common = np.where(same, np.outer(sd * np.sqrt(rho), sd * np.sqrt(rho)), 0.0)
    own = np.diag(sd**2 * (1 - rho))
    cov = np.block([[common + own, common], [common, common + own]])
    h, y, r = [], [], []
    for read in readings:
        skip = NOT_YET[read["key"]]
        counts = [c["key"] == read["key"] if skip is None else c["key"] not in skip for c in causes]
        h.append(counts + [False] * n)
        y.append(float(read["reading"]))
        r.append(float(read["error"]) ** 2)
    h = np.array(h, dtype=float)
    gain = np.linalg.solve(h @ cov @ h.T + np.diag(r), h @ cov).T
    after = mean + gain @ (np.array(y) - h @ mean)
    left = cov - gain @ h @ cov
    found = {}
    for key in dict.fromkeys(c["key"] for c in causes):
        w = np.array([c["key"] == key for c in causes], dtype=float)
        box = np.concatenate([w, 0 * w])
        found[key, "mean"] = box @ after
        found[key, "deviation"] = np.sqrt(box @ left @ box)
    for name, w in (("box", [1.0] * n + [0.0] * n), ("rest", [0.0] * n + [1.0] * n)):
        w = np.array(w)
        found[name, "mean"] = w @ after
        found[name, "deviation"] = np.sqrt(w @ left @ w)
    return found


found = figures(sys.argv[1])
if "--print" in sys.argv:
    for (what, figure), value in found.items():
        print(f"{what}\t{figure}\t{value:.9f}\t1e-8\tnumpy 1.24 of Debian 12, tests/opening/first_off_by_numpy.py\tderived")
    sys.exit(0)
faults = 0
table = rows_of(sys.argv[1] + "/first_off_numpy.tsv")
for row in table:
    value = found[row["what"], row["figure"]]
    if abs(value - float(row["value"])) > float(row["tolerance"]):
        print(f"{row['what']} {row['figure']}: numpy says {value:.9f}, the table {row['value']}")
        faults += 1
sys.exit(1 if faults or len(table) != len(found) else 0)
