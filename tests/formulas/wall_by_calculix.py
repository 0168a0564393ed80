#!/usr/bin/env python3
"""Walls off square by the finite elements of CalculiX, apart from our own code: wall_by_calculix.py DATA [ELEMENTS]

Holds those rows of DATA/formulas_wall.tsv that name this script against bricks C3D20R, one through the sheet and
ELEMENTS along half the bend. With --print it prints instead what twice as many say and a tolerance: what the finer
mesh changed, and twice what a sheet half as thick changes, since bricks shear and the thin plates of our formulas do
not (near free edges that goes with the thickness). Exit code 77 without ccx.

Half of the wall is meshed, from its middle x = 0 to its end; the bend is y = 0, the wall y > 0. A bend that gives has
its base sheet laid flat, y < 0, one and a half times as wide as the bend is long, its three edges held: the bend line
stays where it is, so that only turns about it go over. Held walls start from the lean as it comes from the brake: the
ends are pressed back by lean x y, the belly is what is left of the lean.
"""
import csv
import math
import os
import shutil
import subprocess
import sys
import tempfile

# Corners below and above, edges below, above and upright, in half steps of an element.
BRICK = ((0, 0, 0), (2, 0, 0), (2, 2, 0), (0, 2, 0), (0, 0, 2), (2, 0, 2), (2, 2, 2), (0, 2, 2),
         (1, 0, 0), (2, 1, 0), (1, 2, 0), (0, 1, 0), (1, 0, 2), (2, 1, 2), (1, 2, 2), (0, 1, 2),
         (0, 0, 1), (2, 0, 1), (2, 2, 1), (0, 2, 1))


def rows_of(path):
    with open(path, encoding="utf-8") as file:
        lines = [line for line in file if line.strip() and not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t"))


class Plate:
    """0..half along x, -base..tall along y; elements get shorter towards the end, the bend and the rim."""

    def __init__(self, half, tall, base, t, elements):
        self.half, self.tall, self.base, self.t = half, tall, base, t
        self.across, self.up, self.under = elements, 2 * elements, elements if base else 0
        self.ids, self.fixed, self.bricks = {}, {}, []
        for i in range(self.across):
            for j in range(-self.under, self.up):
                self.bricks.append([self.node(2 * i + a, 2 * j + b, c) for a, b, c in BRICK])

    def node(self, i, j, k):
        return self.ids.setdefault((i, j, k), len(self.ids) + 1)

    def place(self, i, j, k):
        """Of a node numbered in half steps of an element: x, y, z."""
        def along(n):
            return self.half * (1 - (1 - n / self.across) ** 2)

        def up(n):
            if n < 0:
                return -self.base * (n / self.under) ** 2
            return self.tall * math.sin(math.pi / 2 * n / self.up) ** 2

        return (along(i // 2) + along((i + 1) // 2)) / 2, (up(j // 2) + up((j + 1) // 2)) / 2, (k - 1) * self.t / 2

    def where(self, i=None, j=None):
        return [at for at in self.ids if i in (None, at[0]) and j in (None, at[1])]

    def hold(self, nodes, **how):
        """u, v, w: a number, or what gives one from x, y, z. What is held first stays."""
        for at in nodes:
            for axis, value in how.items():
                said = value(*self.place(*at)) if callable(value) else value
                self.fixed.setdefault((self.ids[at], "uvw".index(axis) + 1), said)

    def solve(self, E, nu, asked, what):
        """What moves the nodes asked for along z, by number (what: U), or the sum of their reactions (RF)."""
        deck = ["*NODE, NSET=ALL"]
        deck += ["%d, %.9g, %.9g, %.9g" % (n, *self.place(*at)) for at, n in self.ids.items()]
        deck += ["*ELEMENT, TYPE=C3D20R, ELSET=SHEET"]
        for n, brick in enumerate(self.bricks, 1):
            deck += ["%d, " % n + ", ".join(map(str, brick[:10])) + ",", ", ".join(map(str, brick[10:]))]
        deck += ["*NSET, NSET=ASKED"] + ["%d," % self.ids[at] for at in asked]
        deck += ["*MATERIAL, NAME=METAL", "*ELASTIC", f"{E}, {nu}", "*SOLID SECTION, ELSET=SHEET, MATERIAL=METAL"]
        deck += ["*STEP", "*STATIC", "*BOUNDARY"]
        deck += ["%d, %d, %d, %.9g" % (n, axis, axis, value) for (n, axis), value in self.fixed.items()]
        deck += ["*NODE PRINT, NSET=ASKED" + (", TOTALS=ONLY" if what == "RF" else ""), what, "*END STEP", ""]
        with tempfile.TemporaryDirectory() as folder:
            with open(os.path.join(folder, "wall.inp"), "w", encoding="ascii") as file:
                file.write("\n".join(deck))
            ran = subprocess.run(["ccx", "-i", "wall"], cwd=folder, env={**os.environ, "OMP_NUM_THREADS": "1"},
                                 stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
            try:
                with open(os.path.join(folder, "wall.dat"), encoding="ascii") as file:
                    lines = [line.split() for line in file]
                table = [[float(word) for word in line] for line in lines if line and line[0][-1].isdigit()]
            except OSError:
                table = []
        if len(table) != (1 if what == "RF" else len(asked)):
            sys.exit("ccx did not solve it:\n" + ran.stdout.decode(errors="replace")[-2000:])
        return table[0][2] if what == "RF" else {int(n): w for n, _, _, w in table}


def held(tall, deep, lean, t, E, nu, gives, elements):
    """Belly of a held wall: at the middle of the rim, and the largest of the middle line."""
    plate = Plate(deep / 2, tall, 1.5 * deep if gives else 0, t, elements)
    plate.hold(plate.where(j=0), w=0)
    if gives:
        plate.hold([at for at in plate.where(j=0) if at[2] == 1], v=0)
        plate.hold(plate.where(j=-2 * plate.under), w=0)
    else:
        plate.hold(plate.where(j=0), u=0, v=0)
    # The ends stay square: pressed back by the lean, and turned back by it.
    plate.hold(plate.where(i=2 * plate.across), w=lambda x, y, z: -lean * max(y, 0),
               v=lambda x, y, z: lean * z if y > 0 else 0)
    plate.hold(plate.where(i=0), u=0)
    line = [at for at in plate.where(i=0) if at[1] >= 0 and at[2] == 0]
    moved = plate.solve(E, nu, line, "U")
    belly = {at[1]: lean * plate.place(*at)[1] + moved[plate.ids[at]] for at in line}
    return belly[2 * plate.up], max(belly.values())


def pulled(tall, deep, t, E, nu, mm, whole, against, elements):
    """Force in N that moves a rim corner, or the whole rim of the half, by mm."""
    plate = Plate(deep / 2, tall, 0, t, elements)
    plate.hold(plate.where(j=0), u=0, v=0, w=0)
    rim = plate.where(None if whole else 2 * plate.across, 2 * plate.up)
    plate.hold(rim, w=mm)
    plate.hold(plate.where(i=0), **({"v": 0, "w": 0} if against else {"u": 0}))
    return plate.solve(E, nu, rim, "RF")


class Figures:
    """Of rows, by their function and arguments."""

    def __init__(self, elements, thinner=1):
        self.elements, self.thinner, self.known = elements, thinner, {}

    def of(self, row):
        numbers = [float(word) for word in row["arguments"].split()]
        if row["function"] == "pull":  # the strip has no Poisson's ratio
            tall, deep, t, E, mm = numbers
            return 2 * self.pull(tall, deep, t, E, 0, mm, True, False)
        if row["function"].startswith("corner_"):
            return self.pull(*numbers, 1, False, row["function"] == "corner_against")
        place, foot = row["function"].split("_")  # held or largest, firm or gives
        if (foot, *numbers) not in self.known:
            tall, deep, lean, t, E, nu = numbers
            t /= self.thinner
            self.known[(foot, *numbers)] = held(tall, deep, lean, t, E, nu, foot == "gives", self.elements)
        return self.known[(foot, *numbers)][("held", "largest").index(place)]

    def pull(self, tall, deep, t, *rest):
        """Of a thinner sheet times what it is softer."""
        return pulled(tall, deep, t / self.thinner, *rest, self.elements) * self.thinner**3


def main():
    if shutil.which("ccx") is None:
        return 77
    elements = int(sys.argv[2]) if len(sys.argv) > 2 and sys.argv[2].isdigit() else 10
    rows = [row for row in rows_of(sys.argv[1] + "/formulas_wall.tsv") if "wall_by_calculix.py" in row["source"]]
    off, coarse, fine, thin = 0, Figures(elements), Figures(2 * elements), Figures(2 * elements, 2)
    for row in rows:
        got = coarse.of(row)
        if "--print" in sys.argv:
            value = fine.of(row)
            tolerance = math.ceil(1e4 * (abs(got - value) + 2 * abs(thin.of(row) - value))) / 1e4
            print(f"{row['function']}\t{row['arguments']}\t{value:.6g}\t{tolerance:.4f}")
        elif not abs(got - float(row["value"])) <= float(row["tolerance"]):
            off += 1
            print(f"{row['function']} {row['arguments']}: {row['value']} in the table, {got:.6g} by CalculiX",
                  file=sys.stderr)
    return 1 if off or not rows else 0


if __name__ == "__main__":
    sys.exit(main())
