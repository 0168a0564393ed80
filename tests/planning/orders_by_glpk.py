"""Best orders out of tables of sets by a mixed integer program, GLPK (Debian: glpk-utils): orders_by_glpk.py DATA [--make].

An order is a path through sets of units, from none to all; a step is an arc. The program chooses arcs that make a path
and the least mean, over scenarios, of the largest absolute row of the sums. Each row of DATA/order_problems.tsv is
solved and held against its value; --make prints the table anew. Ends with 77 where glpsol is missing.
"""

import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

HEAD = "units\trows\tscenarios\tstart\tsteps\tamounts\tvalue\ttolerance\tsource\tmark"


def arcs_of(units):
    return [(s, n) for s in range(1 << units) for n in range(units) if not s >> n & 1]


def program(units, rows, scenarios, start, steps, amounts):
    """CPLEX LP text. steps: [(set * units + next) * rows + row], amounts: [unit * scenarios + scenario]."""
    arcs = arcs_of(units)
    lines = ["Minimize", " mean: " + " + ".join(f"{1 / scenarios:.17g} t{c}" for c in range(scenarios)), "Subject To"]
    for s in range(1 << units):
        inward = [f"+ x_{s & ~(1 << n)}_{n}" for n in range(units) if s >> n & 1]
        outward = [f"- x_{s}_{n}" for n in range(units) if not s >> n & 1]
        right = -1 if s == 0 else 1 if s == (1 << units) - 1 else 0
        lines.append(f" set{s}: " + " ".join(inward + outward) + f" = {right}")
    for c in range(scenarios):
        for r in range(rows):
            terms = [
                f"{steps[(s * units + n) * rows + r] * amounts[n * scenarios + c]:+.17g} x_{s}_{n}"
                for s, n in arcs
                if steps[(s * units + n) * rows + r]
            ]
            begin = start[r * scenarios + c]
            lines.append(f" up{c}_{r}: " + " ".join(terms) + f" - t{c} <= {-begin:.17g}")
            lines.append(f" down{c}_{r}: " + " ".join(terms) + f" + t{c} >= {-begin:.17g}")
    lines += ["Binary"] + [f" x_{s}_{n}" for s, n in arcs] + ["End"]
    return "\n".join(lines) + "\n"


def solve(*problem):
    with tempfile.TemporaryDirectory() as folder:
        lp, out = Path(folder, "order.lp"), Path(folder, "order.txt")
        lp.write_text(program(*problem))
        subprocess.run(["glpsol", "--lp", lp, "-o", out, "--cuts"], check=True, capture_output=True)
        text = out.read_text()
        assert "INTEGER OPTIMAL" in text, text
        line = next(line for line in text.splitlines() if line.startswith("Objective:"))
        return float(line.split("=")[1].split("(")[0])


def numbers(text):
    return [float(each) for each in text.split()]


def make():
    source = random.Random(20261127)
    print("# Random steps, start and amounts; value: the best order by GLPK 5.0, tests/planning/orders_by_glpk.py.")
    print(HEAD)
    for units, rows, scenarios in ((3, 1, 1), (4, 2, 1), (4, 3, 2), (5, 2, 2), (5, 3, 3), (6, 2, 1)):
        whole = lambda n: [source.randint(-99, 99) / 100 for _ in range(n)]
        start, steps = whole(rows * scenarios), whole((1 << units) * units * rows)
        amounts = [source.randint(50, 150) / 100 for _ in range(units * scenarios)]
        value = solve(units, rows, scenarios, start, steps, amounts)
        text = lambda values: " ".join(f"{v:g}" for v in values)
        print(units, rows, scenarios, text(start), text(steps), text(amounts), f"{value:.6g}", "1e-5",
              "GLPK 5.0, mixed integer program of the row", "derived", sep="\t")


def main():
    if not shutil.which("glpsol"):
        sys.exit(77)
    if "--make" in sys.argv:
        make()
        return
    lines = [line for line in Path(sys.argv[1], "order_problems.tsv").read_text().splitlines() if not line.startswith("#")]
    at = {name: i for i, name in enumerate(lines[0].split("\t"))}
    wrong = 0
    for row in lines[1:]:
        cell = row.split("\t")
        whole = [int(cell[at[name]]) for name in ("units", "rows", "scenarios")]
        value = solve(*whole, *(numbers(cell[at[name]]) for name in ("start", "steps", "amounts")))
        if abs(value - float(cell[at["value"]])) > float(cell[at["tolerance"]]):
            print(f"{whole}: GLPK says {value}, the table {cell[at['value']]}")
            wrong += 1
    sys.exit(1 if wrong else 0)


main()
