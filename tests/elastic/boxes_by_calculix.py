#!/usr/bin/env python3
"""Tacked and welded boxes by the shells of CalculiX, apart from our own code: boxes_by_calculix.py DATA [SIZE]

Solves all that DATA/elastic_boxes.txt asks for, whose head tells what its lines mean, on nets of SIZE mm (25 where not
told, or 12.5). It holds the rows of that size of DATA/elastic_calculix.tsv to 1e-4 of the largest measure of the box's
sum, or of the case where that is no step; rows of mesh_mm 0, closed forms, to their tolerance of the same; and the
decks to the SHA-256 in DATA/elastic_decks.txt. With --print it prints the rows instead, with --decks the hashes without
solving; --times tells the time of each deck as it goes. With --cpu=BOX it only solves that box's steps, three times,
and prints the CPU seconds of CalculiX on all of them, each step's least, for bench_elastic. Exit code 77 without ccx.

Elements S8R, eight nodes: S4 bends too stiffly. Each face has nodes of its own; what is joined has one node in the
place of two or three, and so all six freedoms in common: CalculiX ties the turns of shells that meet in a node, but
does not heed equations between turns.
"""
import collections
import csv
import hashlib
import itertools
import math
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time

from box_faces import NEAR, NET, Face, add, cross, dot, mean, normal, sub, unit
from box_former import Former

SOURCE = "CalculiX 2.20 of Debian 12, S8R, by tests/elastic/boxes_by_calculix.py"
TOLERANCES = {"held": "0.05", "twist": "0.01", "racking": "0.02", "membrane": "0.03"}  # relative; sequences 0.06

# forces: (node, vector); couples: (node, value) about the axis, a unit vector square to `across`.
Load = collections.namedtuple("Load", "forces couples axis across")
# Its text; the node of the deck that stands for a node of a face; how many are asked for; nodes of the former; forces on
# the nodes that are held, N; the largest force or couple.
Deck = collections.namedtuple("Deck", "text of asked own on_held largest")


class Box:
    def __init__(self, name, *numbers):
        self.name, (self.t, self.E, self.nu) = name, map(float, numbers)
        self.faces, self.bends, self.seams, self.tacks = {}, [], {}, []
        self.steps, self.cases, self.measures = [], {}, {}
        self.nodes = {}  # of all faces: places by number
        self.former = None

    def read(self, word, *rest):
        words = [tuple(map(float, w.split(","))) if "," in w else w for w in rest]
        if word == "face":
            self.faces[words[0]] = Face(words[1:])
        elif word == "hole":
            self.faces[words[0]].holes.append(words[1:])
        elif word == "bend":
            self.bends.append(words)
        elif word == "seam":
            self.seams[words[0]] = words[1:]
        elif word == "tack":
            at, length = map(float, words[1:])
            self.tacks.append((words[0], at - length / 2, at + length / 2))
        elif word == "step":
            self.steps.append((words[0], *map(float, words[1:])))
        elif word == "load":
            case = self.cases.setdefault(words[0], ([], []))
            if words[1] == "weld":
                case[0].append((words[2], *map(float, words[3:])))
            else:
                case[1].append(words[2:])
        elif word == "former":
            self.former = Former(*words)
        elif word == "measure":
            self.measures[words[0]] = words[1:]
        else:
            sys.exit(f"elastic_boxes.txt: no such word: {word}")

    def mesh(self, size):
        ids = itertools.count()
        for face in self.faces.values():
            face.mesh(size, ids)
            self.nodes.update(face.ids.values())

    def join(self, welds):
        """Of each node the one that stands for it, with all bends and those parts of seams joined."""
        stands = {n: n for n in self.nodes}

        def root(n):
            while stands[n] != n:
                n = stands[n]
            return n

        lines = [(a, b, p, q, 0.0, math.dist(p, q)) for a, b, p, q in self.bends]
        lines += [(*self.seams[seam], begin, end) for seam, begin, end in welds]
        for a, b, p, q, begin, end in lines:
            ours, others = ([(s, n) for s, n in self.faces[name].line(p, q) if begin - NEAR < s < end + NEAR]
                            for name in (a, b))
            apart = [abs(s - z) for (s, _), (z, _) in zip(ours, others)]
            if len(ours) < 2 or len(ours) != len(others) or max(apart) > NEAR:
                sys.exit(f"{self.name}: nodes of {a} and {b} do not meet")
            for (_, m), (_, n) in zip(ours, others):
                low, high = sorted((root(m), root(n)))
                stands[high] = low
        return {n: root(n) for n in self.nodes}

    def having(self, point):
        return [n for n in (face.at(point) for face in self.faces.values()) if n is not None]

    def step_load(self, seam, begin, end, force, moment):
        a, b, p, q = self.seams[seam]
        e = unit(sub(q, p))
        d_b = self.faces[b].into(p, q)
        d_a = self.faces[a].into(p, q) or self.faces[b].n
        load = Load([], [], unit(cross(d_a, d_b)), d_a)
        for face, d, sign in ((self.faces[a], d_a, 1.0), (self.faces[b], d_b, -1.0)):
            if force:
                load.forces.append((face.at(add(p, e, begin + NET)), add((0, 0, 0), e, force / 2)))
                load.forces.append((face.at(add(p, e, end - NET)), add((0, 0, 0), e, -force / 2)))
            for k in range(math.floor(begin / NET) + 1, math.ceil(end / NET)) if moment else ():
                load.couples.append((face.at(add(add(p, e, k * NET), d, NET)), sign * moment))
        return load

    def case_load(self, forces):
        shared = [(self.having(point), force) for point, force in forces]
        return Load([(n, add((0, 0, 0), force, 1 / len(at))) for at, force in shared for n in at], [], None, None)

    def balanced(self, load):
        force, moment = (0, 0, 0), (0, 0, 0)
        for n, vector in load.forces:
            force, moment = add(force, vector), add(moment, cross(self.nodes[n], vector))
        for _, value in load.couples:
            moment = add(moment, load.axis, value)
        size = sum(math.hypot(*vector) for _, vector in load.forces) + sum(abs(value) for _, value in load.couples)
        if math.hypot(*force) > 1e-6 * size or math.hypot(*moment) > 1e-3 * size:
            sys.exit(f"{self.name}: loads are not in equilibrium: {force} N, {moment} N mm")

    def hold(self):
        """Six freedoms as (point, axis): three of the first face's corners, the axes that hold best."""
        points = next(iter(self.faces.values())).corners[:3]
        best = None
        for free, axis in itertools.product(range(3), range(3)):
            held = [(points[0], 0), (points[0], 1), (points[0], 2)]
            held += [(points[1], k) for k in range(3) if k != free] + [(points[2], axis)]
            # Small turns r move a point by r x (point - points[0]): how far from none the three last can be none.
            rows = [cross(sub(point, points[0]), [float(i == k) for i in range(3)]) for point, k in held[3:]]
            size = abs(dot(rows[0], cross(rows[1], rows[2])))
            if best is None or size > best[0] * (1 + 1e-6):
                best = (size, held)
        return best[1]

    def touched(self, of):
        """Nodes that the former touches."""
        return [of[self.having(point)[0]] for point in self.former.at]

    def deck(self, joined, load, former=None):
        self.balanced(load)
        number = {n: k for k, n in enumerate(sorted(set(joined.values())), 1)}
        of = {n: number[m] for n, m in joined.items()}
        held = [(of[self.having(point)[0]], axis + 1) for point, axis in self.hold()]
        points = itertools.chain.from_iterable(points_of(words) for words in self.measures.values())
        asked = sorted({of[n] for point in points for n in self.having(point)})
        deck = ["*NODE"] + ["%d, %.9g, %.9g, %.9g" % (k, *map(tidy, self.nodes[n])) for n, k in number.items()]
        cells = [cell for face in self.faces.values() for cell in face.cells]
        deck += ["*ELEMENT, TYPE=S8R, ELSET=SHEET"]
        deck += ["%d, " % k + ", ".join(str(of[n]) for n in cell) for k, cell in enumerate(cells, 1)]
        own = []
        if former:
            walls = self.touched(of)
            lines, own = former.deck(walls, len(number) + 1, len(cells) + 1)
            deck, asked = deck + lines, sorted({*asked, *walls, *own})
        deck += ["*NSET, NSET=ASKED"] + ["%d," % n for n in asked]
        deck += ["*NSET, NSET=HELD"] + ["%d," % n for n in sorted({n for n, _ in held})]
        deck += ["*MATERIAL, NAME=METAL", "*ELASTIC", f"{self.E:g}, {self.nu:g}"]
        deck += ["*SHELL SECTION, ELSET=SHEET, MATERIAL=METAL", f"{self.t:g}"]
        deck += ["*BOUNDARY"] + ["%d, %d, %d" % (n, axis, axis) for n, axis in held]
        if load.couples:  # about one axis in the sheet: CalculiX fails on a turn about the normal, though it be 0
            deck += ["*NSET, NSET=TURNED"] + ["%d," % n for n in sorted(of[n] for n, _ in load.couples)]
            deck += ["*TRANSFORM, NSET=TURNED, TYPE=R"]
            deck += [", ".join("%.9g" % tidy(a) for a in load.axis + load.across)]
        sums = {}
        for n, vector in load.forces:
            for axis, value in enumerate(vector, 1):
                sums[of[n], axis] = sums.get((of[n], axis), 0.0) + value
        cloads = [(n, axis, value) for (n, axis), value in sorted(sums.items()) if abs(value) > 1e-9]
        cloads += [(of[n], 4, value) for n, value in load.couples]
        deck += ["*STEP", "*STATIC", "*CLOAD"] + ["%d, %d, %.9g" % line for line in cloads]
        deck += ["*NODE PRINT, NSET=ASKED, GLOBAL=YES", "U", "*NODE PRINT, NSET=HELD, GLOBAL=YES", "RF"]
        deck += ["*END STEP", ""]
        on_held = {n: [sums.get((n, axis), 0.0) for axis in (1, 2, 3)] for n, _ in held}
        return Deck("\n".join(deck), of, len(asked), own, on_held, max(abs(value) for _, _, value in cloads))

    def measured(self, of, moved):
        def u(point):
            return mean([moved[of[n]] for n in self.having(point)])

        return {name: measure(words[0], words[1:], u) for name, words in self.measures.items()}

    def decks(self):
        """All cases and their decks: steps, single cases, then forces of the former, that has come off."""
        for k, (seam, *step) in enumerate(self.steps, 1):
            welds = self.tacks + [part[:3] for part in self.steps[:k]]
            yield str(k), self.deck(self.join(welds), self.step_load(seam, *step), self.former)
        for case, (welds, forces) in self.cases.items():
            yield case, self.deck(self.join(welds), self.case_load(forces))
        if self.former:
            welded = self.join(self.tacks + [step[:3] for step in self.steps])
            for place, pattern in enumerate(self.former.patterns(), 1):
                forces = [(at, add((0, 0, 0), v, force))
                          for at, v, force in zip(self.former.at, self.former.out, pattern)]
                yield f"place_{place}", self.deck(welded, self.case_load(forces))

    def results(self, hear):
        """Measures by case: each step, their sum, each single case; pulls of the former while it is on, what changes when
        it comes off. `hear` is told each deck when it is solved."""
        results, pulls = {}, []
        for case, deck in self.decks():
            began = time.monotonic()
            moved = solve(deck)
            results[case] = self.measured(deck.of, moved)
            hear(self.name, case, deck, time.monotonic() - began)
            if deck.own:
                pulls.append(self.former.pulls(self.touched(deck.of), deck.own, moved))
            if case == str(len(self.steps)):
                results["sum"] = {name: sum(got[name] for got in results.values()) for name in self.measures}
        if self.former:
            pulled = [sum(place) for place in zip(*pulls)]
            answers = [results.pop(f"place_{k}") for k in range(1, len(pulled) + 1)]
            results["pull"] = {f"place_{k}": force for k, force in enumerate(pulled, 1)}
            results["release"] = {name: sum(force * answer[name] for force, answer in zip(pulled, answers))
                                  for name in self.measures}
        return results


def tidy(a):
    return round(a, 9) + 0.0  # no -0


def points_of(words):
    return words[1:-1] if words[0] == "edge_bow" else words[1:]


def measure(kind, p, u):
    if kind == "diagonal":
        return dot(unit(sub(p[2], p[0])), sub(u(p[2]), u(p[0]))) - dot(unit(sub(p[3], p[1])), sub(u(p[3]), u(p[1])))
    if kind == "twist":
        return dot(normal(p), add(sub(u(p[0]), u(p[1])), sub(u(p[2]), u(p[3]))))
    if kind == "bow":
        return dot(normal(p), sub(u(p[-1]), mean([u(corner) for corner in p[:-1]])))
    if kind == "edge_bow":
        return dot(p[3], sub(u(p[1]), mean([u(p[0]), u(p[2])])))
    if kind == "length":
        return dot(unit(sub(p[1], p[0])), sub(u(p[1]), u(p[0])))
    return sys.exit(f"elastic_boxes.txt: no such measure: {kind}")


def solve(deck):
    """Movements of the nodes asked for, by number. Loads are in equilibrium: what holds the box must feel none."""
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "box.inp"), "w", encoding="ascii") as file:
            file.write(deck.text)
        ran = subprocess.run(["ccx", "-i", "box"], cwd=folder, env={**os.environ, "OMP_NUM_THREADS": "1"},
                             stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
        try:
            with open(os.path.join(folder, "box.dat"), encoding="ascii") as file:
                lines = [line.split() for line in file]
            table = [[float(word) for word in line] for line in lines if line and line[0].isdigit()]
        except OSError:
            table = []
    if len(table) != deck.asked + len(deck.on_held):
        sys.exit("ccx did not solve it:\n" + ran.stdout.decode(errors="replace")[-2000:])
    felt = max(math.dist(force, deck.on_held[n]) for n, *force in table[deck.asked:])  # RF: reactions and loads
    if felt > 1e-6 * deck.largest:
        sys.exit(f"what holds the box feels {felt} N")
    return {int(n): tuple(u) for n, *u in table[:deck.asked]}


def cpu_seconds(box):
    """Of CalculiX on the decks of the box's steps, the least of three of each."""
    def once(deck):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        solve(deck)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

    return sum(min(once(deck) for _ in range(3)) for case, deck in box.decks() if case.isdigit())


def read_boxes(path):
    boxes = []
    with open(path, encoding="ascii") as file:
        for words in (line.split() for line in file):
            if words and words[0] == "box":
                boxes.append(Box(*words[1:]))
            elif words and not words[0].startswith("#"):
                boxes[-1].read(*words)
    return boxes


def sha(deck):
    return hashlib.sha256(deck.text.encode("ascii")).hexdigest()


def lines_of(path):
    with open(path, encoding="utf-8") as file:
        return [line for line in file if line.strip() and not line.startswith("#")]


def off_by(rows, results):
    """How many rows are not what was solved now, closed forms by their own tolerance; each of them is told."""
    largest = {}
    for box, case, name in results:
        largest[box, case] = max(largest.get((box, case), 0.0), abs(results[box, case, name]))
    off, missing = 0, set(results)
    for row in rows:
        key = row["box"], row["case"], row["measure"]
        got, said, closed_form = results.get(key, math.nan), float(row["value"]), row["mesh_mm"] == "0"
        of = largest.get((row["box"], "sum" if row["case"].isdigit() else row["case"]), math.nan)
        if not abs(got - said) <= of * (float(row["tolerance"]) if closed_form else 1e-4):
            off += 1
            print(*key, f"{said} in the table, {got:.6g} by CalculiX", file=sys.stderr)
        if not closed_form:
            missing.discard(key)
    for key in sorted(missing):
        print(*key, "is not in the table", file=sys.stderr)
    return off + len(missing)


def main():
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    data, size = words[0], float(words[1]) if len(words) > 1 else 25.0
    boxes = read_boxes(data + "/elastic_boxes.txt")
    for box in boxes:
        box.mesh(size)
    if "--decks" in sys.argv:
        for box, (case, deck) in ((box, found) for box in boxes for found in box.decks()):
            print(sha(deck), box.name, case, f"{size:g}")
        return 0
    if shutil.which("ccx") is None:
        return 77
    for name in (word.removeprefix("--cpu=") for word in sys.argv if word.startswith("--cpu=")):
        print("%.2f" % next(cpu_seconds(box) for box in boxes if box.name == name))
        return 0
    shas = {}

    def hear(box, case, deck, seconds):
        shas[box, case, f"{size:g}"] = sha(deck)
        if "--times" in sys.argv:
            print(f"{box} {case}: {seconds:.1f} s", file=sys.stderr)

    results = {(box.name, case, name): value for box in boxes for case, got in box.results(hear).items()
               for name, value in got.items()}
    if "--print" in sys.argv:
        for (box, case, name), value in results.items():
            said = f"{round(value, 6) + 0.0:.6g}"  # to a nanometre: the rest is noise of the solver
            tolerance = TOLERANCES.get(box, TOLERANCES.get(case, "0.06"))
            print(box, case, f"{size:g}", name, said, tolerance, SOURCE, "derived", sep="\t")
        return 0
    stored = {tuple(rest): there for there, *rest in map(str.split, lines_of(data + "/elastic_decks.txt"))}
    wanted = {*shas, *(key for key in stored if key[2] == f"{size:g}")}
    others = sorted(key for key in wanted if shas.get(key) != stored.get(key))
    for key in others:
        print(*key, "mm: the deck is not the one of elastic_decks.txt", file=sys.stderr)
    rows = csv.DictReader(lines_of(data + "/elastic_calculix.tsv"), delimiter="\t")
    return 1 if off_by([row for row in rows if float(row["mesh_mm"]) in (size, 0)], results) or others else 0


if __name__ == "__main__":
    sys.exit(main())
