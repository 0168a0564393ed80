#!/usr/bin/env python3
"""Tacks by the finite elements of CalculiX, apart from our own code: tack_by_calculix.py DATA [ELEMENTS]

Holds those rows of DATA/formulas_tack.tsv that name this script against bricks C3D20R, about ELEMENTS through the sheet
(4 where not told). With --print it prints instead what finer meshes say, and a tolerance: twice what the mesh changes,
and what the formula leaves open of a tack's ends: 5 % in turning, 12 % along and across a butt, 50 % square to a sheet.
With --table it prints the table of core/formulas/tack.cpp. Exit code 77 without ccx.

A joint cut across is a slice in plane strain: what it gives under loads that act at the line where the middle surfaces
meet, less what two beams give that reach up to that line, is the compliance of a mm of seam. A tack joins two sheets by
nothing but its metal; half of it is meshed, x > 0. Its compliance, times its length, is that of line springs between
two shells that give as much as the bricks do beyond shells that are one over the tack's length. The shells are one
brick thick, their edges tied by mean and turn, element by element. Every load balances at the ends of the sheets.
"""
import csv
import functools
import itertools
import math
import os
import shutil
import subprocess
import sys
import tempfile

GAUSS = ((-math.sqrt(0.6), 5 / 9), (0.0, 8 / 9), (math.sqrt(0.6), 5 / 9))
# Corners (s, u) of a face, then middles of its sides; sides of a brick that stand on the section's lines.
CORNERS = ((-1, -1), (1, -1), (1, 1), (-1, 1), (0, -1), (1, 0), (0, 1), (-1, 0))
SIDES = [(i, (i + 1) % 4, (i + 1) % 4 + 4, i + 4, i + 8, (i + 1) % 4 + 16, i + 12, i + 16) for i in range(4)]
SPOTS = ((0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1))  # of a cell's nodes, in half steps
RIGID = 1e4  # springs per mm, times E: shells as one
UNITS = {"y": (0, 1, 0, 0), "z": (0, 0, 1, 0), "turn": (0, 0, 0, 1), "along": (1, 0, 0, 0)}


def rows_of(path):
    with open(path, encoding="utf-8") as file:
        lines = [line for line in file if line.strip() and not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t"))


def steps(*stops):
    """0, then up to each stop in so many steps, each r times the one before: (stop, steps[, r])."""
    at, made = 0.0, [0.0]
    for stop, n, *r in stops:
        if stop - at > 1e-9:
            widths = [(r or [1.0])[0] ** i for i in range(n)]
            made += [at + (stop - at) * w / sum(widths) for w in itertools.accumulate(widths)]
            at = stop
    return made


def about(t, n):
    return [z - t / 2 for z in steps((t, n))]


def sheet(body, ys, zs):
    ys, zs = sorted(ys), sorted(zs)
    made = []
    for y, z in itertools.product(zip(ys, ys[1:]), zip(zs, zs[1:])):
        made.append((body, [(sum(y) / 2 if i == 1 else y[i // 2], sum(z) / 2 if j == 1 else z[j // 2])
                            for i, j in SPOTS]))
    return made


def bead(root, up, out, m, flat):
    """A flat triangle or a quarter ellipse with legs up (z) and out (y) from the root, as three nets of m x m."""
    def surface(s):
        return (1 - s, s) if flat else (math.cos(s * math.pi / 2), math.sin(s * math.pi / 2))

    def straight(p, q):
        return lambda s: (p[0] + (q[0] - p[0]) * s, p[1] + (q[1] - p[1]) * s)

    o, p, q, h = (0.0, 0.0), (0.5, 0.0), (0.0, 0.5), surface(0.5)
    c = (1 / 3, 1 / 3) if flat else (0.45, 0.45)
    made = []
    for low, right, high, left in (
            (straight(o, p), straight(p, c), straight(q, c), straight(o, q)),
            (straight(p, (1, 0)), lambda s: surface(s / 2), straight(c, h), straight(p, c)),
            (straight(q, c), straight(c, h), lambda s: surface(1 - s / 2), straight(q, (0, 1)))):
        def at(i, j):  # transfinite
            s, u = i / (2 * m), j / (2 * m)
            y, z = ((1 - u) * low(s)[k] + u * high(s)[k] + (1 - s) * left(u)[k] + s * right(u)[k]
                    - (1 - u) * ((1 - s) * low(0)[k] + s * low(1)[k]) - u * ((1 - s) * high(0)[k] + s * high(1)[k])
                    for k in (0, 1))
            return root[0] + y * out, root[1] + z * up

        made += [("w", [at(i + a, j + b) for a, b in SPOTS])
                 for i, j in itertools.product(range(0, 2 * m, 2), repeat=2)]
    return made


class Joint:
    """Cut across: y, z from where the middle surfaces meet, the welder at z > 0 (of a tee y > 0). Sheet a lies along
    -y, of a tee along z. ends: body, axis (0: y, 1: z), place, thickness, share of the load."""

    def __init__(self, form, ta, tb):
        self.form, self.ta, self.tb = form, ta, tb
        self.a_axis, self.b_axis = int(form == "tee"), int(form not in ("butt", "tee"))

    def ends(self, reach):
        if self.form == "tee":
            return [("a", 1, reach, self.ta, 1), ("b", 0, -reach, self.tb, -0.5), ("b", 0, reach, self.tb, -0.5)]
        return [("a", 0, -reach, self.ta, 1), ("b", self.b_axis, -reach if self.b_axis else reach, self.tb, -1)]

    def shells(self, reach, n):
        ys = steps((max(self.ta, self.tb) / 2, n // 2), (reach, 2 + n, 1.3))
        down, a, b = [-y for y in ys], about(self.ta, 1), about(self.tb, 1)
        if self.form == "butt":
            return sheet("a", down, a) + sheet("b", ys, b)
        if self.form == "tee":
            return sheet("a", a, ys) + sheet("b", down[1:] + ys, b)
        return sheet("a", down, a) + sheet("b", b, down)

    def metal(self, throat, reach, n):
        """Its quads, and a function that tells where a and b are one metal."""
        ta, tb, m = self.ta, self.tb, max(1, n // 3)

        def split(first, whole, of):  # a length with a stop in it
            return steps((first, max(2, round(n * first / of))), (whole, max(2, round(n * (whole - first) / of))))

        def far(start, t):
            return [start + y for y in steps((t / 2, n // 2), (reach - start, 2 + n, 1.3))]

        if self.form == "butt":
            quads = [sheet(body, [sign * y for y in far(0.0, ta)], [ta / 2 - z for z in split(throat, ta, ta)])
                     for body, sign in (("a", -1), ("b", 1))]
            return sum(quads, []), lambda y, z: abs(y) < 1e-6 and z > ta / 2 - throat - 1e-6
        if self.form == "tee":
            leg = throat * math.sqrt(2)
            under, foot = about(ta, 2 * (n // 2)), steps((leg, 2 * m))
            quads = sheet("a", under, [tb / 2 + z for z in foot] + far(tb / 2 + leg, ta)[1:])
            right = [ta / 2 + y for y in foot] + far(ta / 2 + leg, tb)[1:]
            quads += sheet("b", [-y for y in far(ta / 2, tb)][1:] + under + right[1:], about(tb, n))
            quads += bead((ta / 2, tb / 2), leg, leg, m, True)
            return quads, lambda y, z: abs(y - ta / 2) < 1e-6 and abs(z - tb / 2) < 1e-6
        edge = {"open": -tb / 2, "half": 0.0, "lapped": tb / 2}[self.form]  # of a, over b's cut edge
        bare, on = tb / 2 - edge, tb / 2 + edge
        up, out = (min(throat, ta), min(throat, bare)) if bare else (0.0, 0.0)
        deep = max(0.0, throat - bare) if on else 0.0
        under = [edge - y for y in split(deep, on, tb)] if on else [edge]
        beside = [edge + y for y in steps((out, 2 * m), (bare, max(2, round(n * (bare - out) / tb))))]
        over = [-ta / 2 + z for z in steps((up, 2 * m), (ta, max(2, round(n * (ta - up) / ta))))]
        quads = sheet("a", under + [-y for y in far(tb / 2, ta)][1:], over)
        quads += sheet("b", under[:0:-1] + beside, [-z for z in far(ta / 2, tb)])
        quads += bead((edge, -ta / 2), up, out, m, False) if bare else []
        return quads, lambda y, z: abs(z + ta / 2) < 1e-6 and y > edge - deep - 1e-6


def gauss(places, axes):
    """Over a face, by its nodes' places along two axes: shapes, the second place, and area of each point."""
    for (s, ws), (u, wu) in itertools.product(GAUSS, GAUSS):
        N, ds, du = [], [], []
        for a, b in CORNERS:
            if a and b:
                N.append((1 + a * s) * (1 + b * u) * (a * s + b * u - 1) / 4)
                ds.append(a * (1 + b * u) * (2 * a * s + b * u) / 4)
                du.append(b * (1 + a * s) * (a * s + 2 * b * u) / 4)
            elif a:
                N.append((1 + a * s) * (1 - u * u) / 2)
                ds.append(a * (1 - u * u) / 2)
                du.append(-u * (1 + a * s))
            else:
                N.append((1 - s * s) * (1 + b * u) / 2)
                ds.append(-s * (1 + b * u))
                du.append(b * (1 - s * s) / 2)
        (xs, zs), (xu, zu) = [[sum(v * p[k] for v, p in zip(d, places)) for k in axes] for d in (ds, du)]
        yield N, *(sum(v * p[k] for v, p in zip(N, places)) for k in axes), abs(xs * zu - zs * xu) * ws * wu


class Model:
    def __init__(self, joint, reach):
        self.joint, self.ends = joint, joint.ends(reach)
        self.ids, self.places, self.bricks, self.springs, self.loose = {}, [], [], [], []

    def node(self, key, place=(-1.0, 0.0, 0.0)):
        if key not in self.ids:
            self.places.append(place)
            self.ids[key] = len(self.places)
        return self.ids[key]

    def extrude(self, quads, xs, tacked, one):
        """Layers between xs; the first `tacked` of them have the bead, and are one where `one` says."""
        def node(body, p, i):
            place = tuple(round(v, 6) for v in p)
            key = (body, place, i)
            if i <= 2 * tacked and (body == "w" or one(*p)):
                key = next(((b, place, i) for b in "ab" if (b, place, i) in self.ids), key)
            return self.node(key, ((xs[i // 2] + xs[(i + 1) // 2]) / 2, *p))

        for k, (body, quad) in itertools.product(range(len(xs) - 1), quads):
            if body != "w" or k < tacked:
                a, b = ([node(body, p, 2 * k + i) for p in quad] for i in (0, 2))
                between = [node(body, p, 2 * k + 1) for p in quad[:4]]
                self.bricks.append((body, a[:4] + b[:4] + a[4:] + b[4:] + between))

    def faces(self, body, axis, at):
        found = {}
        for nodes in ([brick[i] for i in side] for b, brick in self.bricks if b == body for side in SIDES):
            if all(abs(self.places[n - 1][1 + axis] - at) < 1e-6 for n in nodes):
                found[frozenset(nodes)] = nodes
        return list(found.values())

    def tractions(self, end, kind, flat, load):
        """On an end: force and moment at the origin of this kind; of a flat slice the load along is shear alone."""
        fx, fy, fz, mx = UNITS[kind]
        body, axis, at, _, share = end
        points = []
        for nodes in self.faces(body, axis, at):
            for N, x, z, area in gauss([self.places[n - 1] for n in nodes], (0, 2 - axis)):
                points += [(n, v * area, x, z) for n, v in zip(nodes, N)]
        area, ixx, izz = (sum(w * f(x, z) for _, w, x, z in points)
                          for f in (lambda x, z: 1, lambda x, z: x * x, lambda x, z: z * z))
        bend = mx - (at * fz if axis == 0 else -at * fy)
        for n, w, x, z in points:
            f = [fx / area, fy / area, fz / area]
            f[1 + axis] += (z if axis else -z) * bend / izz + (0 if flat else at * fx * x / ixx)
            for k in range(3):
                if f[k]:
                    load[n, k + 1] = load.get((n, k + 1), 0.0) + share * w * f[k]

    def tie(self, half, stiff):
        """Springs from a's edge to b's up to x = half, per mm: x, y, z, turn, twist of the edges."""
        for body, axis, t in (("a", self.joint.a_axis, self.joint.ta), ("b", self.joint.b_axis, self.joint.tb)):
            for nodes in self.faces(body, axis, 0.0):
                places = [self.places[n - 1] for n in nodes]
                if max(p[0] for p in places) > half + 1e-6:
                    continue
                points = list(gauss(places, (0, 2 - axis)))
                wide = sum(p[3] for p in points) / t
                mean = [sum(N[i] * w for N, _, _, w in points) / (wide * t) for i in range(8)]
                turn = [(1 if axis else -1) * sum(N[i] * z * w for N, _, z, w in points) * 12 / (wide * t**3)
                        for i in range(8)]
                cell = round(sum(p[0] for p in places) / 8, 6)
                moved, turned = self.node(("moved", body, cell)), self.node(("turned", body, cell))
                for to, k, d, weights in ((moved, 1, 1, mean), (moved, 2, 2, mean), (moved, 3, 3, mean),
                                          (turned, 1, 2 + axis, turn), (turned, 2, 1, turn)):
                    terms = [f"{to}, {k}, -1.0"]
                    terms += ["%d, %d, %.10g" % (n, d, c) for n, c in zip(nodes, weights) if abs(c) > 1e-12]
                    self.springs += ["*EQUATION", str(len(terms))]
                    self.springs += [", ".join(terms[i:i + 4]) for i in range(0, len(terms), 4)]
                self.loose.append((turned, 3))
                if body == "b":
                    for i, (k, s) in enumerate(zip((1, 2, 3, 1, 2), stiff)):
                        name = "moved" if i < 3 else "turned"
                        el = len(self.bricks) + 1 + sum(line.startswith("*SPRING") for line in self.springs)
                        self.springs += [f"*ELEMENT, TYPE=SPRING2, ELSET=S{el}",
                                         "%d, %d, %d" % (el, *(self.ids[(name, b, cell)] for b in "ab")),
                                         f"*SPRING, ELSET=S{el}", f"{k}, {k}", f"{s * wide:.9e}"]

    def compliance(self, E, nu, kinds, flat):
        """Work of each load on what each moves, of a whole tack or of a slice 1 mm wide."""
        along = kinds == ["along"]
        held = {(n, k) for n, p in enumerate(self.places, 1) if flat or abs(p[0]) < 1e-9
                for k in ((2, 3) if along else (1,)) if p[0] > -0.5} | set(self.loose)
        pins = []  # at the lowest x of the last end and of the first: both faces of the sheet
        for body, axis, at, *_ in (self.ends[-1], self.ends[0]):
            nodes = {n for face in self.faces(body, axis, at) for n in face if self.places[n - 1][0] == 0.0}
            pins += sorted(nodes, key=lambda n: self.places[n - 1][2 - axis])[::len(nodes) - 1]
        if along:
            held |= {(n, 1) for n in (pins[:1] if flat else pins[:3])}
        else:
            held |= {(pins[0], 2), (pins[0], 3), (pins[1], 2 + self.ends[-1][1])}
        loads = [{} for _ in kinds]
        for load, kind in zip(loads, kinds):
            for end in self.ends:
                self.tractions(end, kind, flat, load)
        moved = self.solve(E, nu, held, loads)
        whole = 1 / max(p[0] for p in self.places) if flat else 2.0  # a slice's or the half's load is 1
        work = [[sum(f * u[n][k - 1] for (n, k), f in load.items()) for u in moved] for load in loads]
        return [[v / whole for v in row] for row in work]

    def solve(self, E, nu, held, loads):
        asked = sorted({n for load in loads for n, _ in load})
        deck = ["*NODE, NSET=ALL"] + ["%d, %.9g, %.9g, %.9g" % (i, *p) for i, p in enumerate(self.places, 1)]
        deck += ["*ELEMENT, TYPE=C3D20R, ELSET=METAL"]
        for i, (_, brick) in enumerate(self.bricks, 1):
            deck += ["%d, " % i + ", ".join(map(str, brick[:10])) + ",", ", ".join(map(str, brick[10:]))]
        deck += ["*NSET, NSET=ASKED"] + ["%d," % n for n in asked]
        deck += ["*MATERIAL, NAME=METAL", "*ELASTIC", f"{E}, {nu}", "*SOLID SECTION, ELSET=METAL, MATERIAL=METAL"]
        deck += self.springs + ["*BOUNDARY"] + ["%d, %d, %d" % (n, k, k) for n, k in sorted(held)]
        for load in loads:
            deck += ["*STEP", "*STATIC", "*CLOAD, OP=NEW"]
            deck += ["%d, %d, %.12g" % (*at, f) for at, f in sorted(load.items())]
            deck += ["*NODE PRINT, NSET=ASKED", "U", "*END STEP"]
        with tempfile.TemporaryDirectory() as folder:
            with open(os.path.join(folder, "tack.inp"), "w", encoding="ascii") as file:
                file.write("\n".join(deck) + "\n")
            ran = subprocess.run(["ccx", "-i", "tack"], cwd=folder, env={**os.environ, "OMP_NUM_THREADS": "1"},
                                 stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
            try:
                with open(os.path.join(folder, "tack.dat"), encoding="ascii") as file:
                    lines = [line.split() for line in file]
                table = [line for line in lines if len(line) == 4 and line[0].isdigit()]
            except OSError:
                table = []
        if len(table) != len(loads) * len(asked):
            sys.exit("ccx did not solve it:\n" + ran.stdout.decode(errors="replace")[-2000:])
        return [{int(n): [float(v) for v in u] for n, *u in table[i:i + len(asked)]}
                for i in range(0, len(table), len(asked))]


def bears_flat(form, kind):
    """No sheet is pushed square to itself."""
    return kind == "along" or (form, kind) == ("butt", "y")


@functools.cache
def slice_of(form, ta, tb, throat, E, nu, n):
    """Compliance of 1 mm of seam: of y, z and turn, and along."""
    # Ends sheared evenly give other than beams; a whole sheet, of two ends, tells by how much.
    end = beyond_beams("butt", 1.0, 1.0, 1.0, 1.0, nu, n, 0.0)[0][1][1] / 2
    return beyond_beams(form, ta, tb, throat, E, nu, n, end)


@functools.cache
def beyond_beams(form, ta, tb, throat, E, nu, n, end):
    """The same with what each sheared end gives beyond a beam, for E = 1."""
    joint, reach = Joint(form, ta, tb), 4 * max(ta, tb) + (2 * throat if form == "tee" else 0)
    quads, one = joint.metal(throat, reach, n)
    model = Model(joint, reach)
    model.extrude(quads, [0.0, max(ta, tb) / 4], 1, one)
    C = model.compliance(E, nu, ["y", "z", "turn"], True)
    along = model.compliance(E, nu, ["along"], True)[0][0]
    G, plane = E / (2 * (1 + nu)), E / (1 - nu * nu)
    for _, axis, at, t, share in model.ends:
        L, level = abs(at), math.copysign(1, at) * (1 if axis else -1)
        pull, shear = ((1, 0, 0), (0, 1, 0)) if axis == 0 else ((0, 1, 0), (1, 0, 0))
        bend = [level * v for v in shear]  # moment for each mm from the line, beside that of the turn
        for i, j in itertools.product(range(3), repeat=2):
            turn_i, turn_j = float(i == 2), float(j == 2)
            C[i][j] -= share**2 * (L / (plane * t) * pull[i] * pull[j]
                                   + (1.2 * L / (G * t) + end / E) * shear[i] * shear[j]
                                   + 12 / (plane * t**3) * (L * turn_i * turn_j + L**3 / 3 * bend[i] * bend[j]
                                                            + L**2 / 2 * (turn_i * bend[j] + bend[i] * turn_j)))
        along -= share**2 * L / (G * t)
    return C, along


def tack(form, ta, tb, throat, length, E, nu, kind, n):
    """Its local compliance, times its length: what bricks give beyond shells that are one over its length, told by
    a spring between shells on the same mesh."""
    joint, reach, t = Joint(form, ta, tb), 12 * max(ta, tb), max(ta, tb)
    half, wide = length / 2, 12 * t
    near = half + 0.15 * (wide - half)
    xs = steps((half / 2, n // 2), (half, n // 2 + 1, 0.6), (near, n // 2 + 1, 1.5), (wide, n // 2 + 2, 1.4))
    tacked = next(i for i, x in enumerate(xs) if x > half - 1e-9)

    def moved(quads, one, springs):
        model = Model(joint, reach)
        model.extrude(quads, xs, tacked, one)
        if springs:
            model.tie(half, springs)
        return model.compliance(E, nu, [kind], False)[0][0]

    shells, none = joint.shells(reach, n), lambda y, z: False
    # The twist of a butt's edges is one: shells without shear have no other.
    rigid = [RIGID * E] * 3 + [RIGID * E * t * t] + [RIGID * E * t * t * (form == "butt")]
    give = {"turn": 20 / (E * t * t), "along": 2 / E}.get(kind, (2 if bears_flat(form, kind) else 40) / E)
    place = ("along", "y", "z", "turn").index(kind)
    bricks, fast = moved(*joint.metal(throat, reach, n), None), moved(shells, none, rigid)
    sprung = moved(shells, none, rigid[:place] + [1 / give] + rigid[place + 1:])
    return give * (bricks - fast) / (sprung - fast)


class Figures:
    """Of rows, by their function and arguments; n elements through the sheet of a tack, more of a slice."""

    def __init__(self, n):
        self.n = n

    def of(self, row):
        """The figure, and the share of it that the formula leaves open."""
        what, kind = row["function"].split("_", 1)
        form, *numbers = row["arguments"].split()
        form = ("butt", "open", "half", "lapped", "tee")[int(form)]
        ta, tb, throat, *more = map(float, numbers)
        E, nu = more[-2:]
        kind = {"into": "z" if form == "tee" else "y", "square": "y" if form == "tee" else "z"}.get(kind, kind)

        def local(n):
            C, along = slice_of(form, ta, tb, throat, E, nu, n)
            at = ("y", "z", "turn", "along").index(kind)
            return along if at == 3 else C[at][at]

        if what == "seam":
            return local(2 * self.n), 0.0
        # What the mesh changes it changes of the slice.
        got = tack(form, ta, tb, throat, more[0], E, nu, kind, self.n) + local(2 * self.n) - local(self.n)
        return got, 0.05 if kind == "turn" else 0.12 if bears_flat(form, kind) else 0.5


def table():
    for form in ("butt", "open", "half", "lapped", "tee"):
        print(form)
        for throat in (0.3, 0.4, 0.5, 0.6, 0.7, 0.85, 1.0):
            C, along = slice_of(form, 1.0, 1.0, throat, 1.0, 0.3, 14)
            i, j = (1, 0) if form == "tee" else (0, 1)
            levers = (C[0][2], -C[1][2]) if form == "tee" else (C[1][2], C[0][2])
            print("    {%.2f" % throat + ", %.3f" * 6 % (C[i][i], C[j][j], along, C[2][2], *levers) + "},")


def main():
    if shutil.which("ccx") is None:
        return 77
    if "--table" in sys.argv:
        return table()
    n = int(sys.argv[2]) if len(sys.argv) > 2 and sys.argv[2].isdigit() else 4
    rows = [row for row in rows_of(sys.argv[1] + "/formulas_tack.tsv") if "tack_by_calculix.py" in row["source"]]
    off, coarse, fine = 0, Figures(n), Figures(n + 2)
    for row in rows:
        got, _ = coarse.of(row)
        if "--print" in sys.argv:
            value, ends = fine.of(row)
            tolerance = 2 * abs(got - value) + ends * abs(value)
            print(f"{row['function']}\t{row['arguments']}\t{value:.5g}\t{tolerance:.2g}")
        elif not abs(got - float(row["value"])) <= float(row["tolerance"]):
            off += 1
            print(f"{row['function']} {row['arguments']}: {row['value']} in the table, {got:.6g} by CalculiX",
                  file=sys.stderr)
    return 1 if off or not rows else 0


if __name__ == "__main__":
    sys.exit(main())
