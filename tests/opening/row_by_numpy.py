#!/usr/bin/env python3
"""Rows of boxes drawn by numpy, apart from our own code: row_by_numpy.py DATA [DRAWS]

Reads DATA/row_causes.tsv and holds the figures of DATA/row_numpy.tsv against what numpy draws; with --print it
prints them instead. Exit code 77 without numpy.
"""
import csv
import sys

try:
    import numpy as np
except ImportError:
    sys.exit(77)

NINETY_FIVE = 1.6448536269514722
SEED = 5


def rows_of(path):
    with open(path, encoding="utf-8") as file:
        lines = [line for line in file if line.strip() and not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t"))


def standard(rng, draws, spread, common, shared):
    """A draw of each cause, its common part from those that share it."""
    if spread == "normal":
        own = rng.standard_normal(draws)
        return np.sqrt(common) * shared["normal"] + np.sqrt(1.0 - common) * own if common > 0 else own
    own = rng.random(draws)
    if common > 0:
        return np.where(rng.random(draws) < np.sqrt(common), shared["even"], own)
    return own


def value(cause, s):
    under, over = float(cause["under"]), float(cause["over"])
    if cause["spread"] == "normal":
        off = np.where(s < 0, s * under, s * over) / NINETY_FIVE
    elif cause["spread"] == "uniform":
        off = -under + s * (under + over)
    else:  # inverse of the triangular distribution
        wide = under + over
        if wide == 0:
            off = np.zeros_like(s)
        else:
            off = np.where(s < under / wide, np.sqrt(s * wide * under) - under,
                           over - np.sqrt((1 - s) * wide * over))
    return float(cause["middle"]) + off


def draw(causes, draws, rng):
    """What the row takes beyond its nominals: widths, and racks by where neighbours touch."""
    shared = {}
    stands = max(int(c["stand"]) for c in causes) + 1
    sizes, lean, tall = np.zeros((stands, draws)), np.zeros((stands, draws)), np.ones(stands)
    for cause in causes:
        key = (cause["key"], cause["order"])
        if key not in shared:
            shared[key] = {"normal": rng.standard_normal(draws), "even": rng.random(draws)}
        mm = value(cause, standard(rng, draws, cause["spread"], float(cause["common"]), shared[key]))
        stand = int(cause["stand"])
        tall[stand] = float(cause["tall"])
        if cause["key"] == "rack":
            lean[stand] += mm / tall[stand]
        else:
            sizes[stand] += mm
    # Slide box after box to the right until it touches its neighbour at the foot or at the top of the lower one.
    x = np.zeros(draws)  # foot of the left side of the next one
    before, before_tall = np.zeros(draws), np.inf
    for i in range(stands):
        h = min(before_tall, tall[i])
        x = np.maximum(x, x + h * (before - lean[i])) + sizes[i]
        before, before_tall = lean[i], tall[i]
    return np.maximum(x, x + before_tall * before)


def figures(causes, draws):
    total = draw(causes, draws, np.random.default_rng(SEED))
    yield "mean", total.mean()
    yield "deviation", total.std()
    for p in (0.05, 0.5, 0.95, 0.99):
        yield f"quantile {p}", np.quantile(total, p)


def main():
    data = sys.argv[1]
    draws = int(sys.argv[2]) if len(sys.argv) > 2 and sys.argv[2].isdigit() else 4_000_000
    rows = {}
    for cause in rows_of(data + "/row_causes.tsv"):
        rows.setdefault(cause["row"], []).append(cause)
    wanted = {} if "--print" in sys.argv else {
        (r["row"], r["figure"]): (float(r["value"]), float(r["tolerance"])) for r in rows_of(data + "/row_numpy.tsv")}
    off = 0
    for name, causes in rows.items():
        for figure, got in figures(causes, draws):
            if not wanted:
                print(f"{name}\t{figure}\t{got:.4f}")
                continue
            said, tolerance = wanted.pop((name, figure))
            if abs(got - said) > tolerance:
                off += 1
                print(f"{name}, {figure}: {said} in the table, {got:.4f} by numpy", file=sys.stderr)
    if wanted:
        off += 1
        print(f"not drawn: {sorted(wanted)}", file=sys.stderr)
    return 1 if off else 0


if __name__ == "__main__":
    sys.exit(main())
