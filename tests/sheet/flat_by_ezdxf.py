#!/usr/bin/env python3
"""The locker's flat pattern as another program reads it: flat_by_ezdxf.py DATA

Audits DATA/golden/locker-body.dxf with ezdxf, which may find nothing to mend, and holds its size, area and bends
against the hand figures of DATA/flat_patterns.tsv. Exit code 77 without ezdxf.
"""
import csv
import sys

try:
    import ezdxf
except ImportError:
    sys.exit(77)

faults = 0


def hold(what, is_, should, slack):
    global faults
    if abs(is_ - should) > slack:
        print(f"ezdxf reads {what} {is_:.4f}, the hand has {should:.4f}")
        faults += 1


data = sys.argv[1]
drawing = ezdxf.readfile(data + "/golden/locker-body.dxf")
audit = drawing.audit()
for note in audit.errors + audit.fixes:
    print(f"ezdxf: {note.message}")
    faults += 1
if drawing.dxfversion != "AC1009":
    print(f"ezdxf: version {drawing.dxfversion}")
    faults += 1

hand = {}
with open(data + "/flat_patterns.tsv", encoding="utf-8") as table:
    for row in csv.DictReader((line for line in table if not line.startswith("#")), delimiter="\t"):
        if row["box"] == "locker":
            hand[row["quantity"], row["of"]] = float(row["value"]), float(row["tolerance"])

space = drawing.modelspace()
cuts = space.query('POLYLINE[layer=="CUT"]')
if len(cuts) != 1 or not cuts[0].is_closed:
    print("ezdxf: not one closed line to cut")
    sys.exit(1)
ring = [vertex.dxf.location for vertex in cuts[0].vertices]
twice = sum(a.x * b.y - b.x * a.y for a, b in zip(ring, ring[1:] + ring[:1]))
hold("a length of", max(p.x for p in ring) - min(p.x for p in ring), *hand["length", ""])
hold("a width of", max(p.y for p in ring) - min(p.y for p in ring), *hand["width", ""])
hold("an area of", 0.5 * twice, hand["area", ""][0], 0.5)
bends = space.query('LINE[layer=="BEND"]')
# By hand: four bends from tangent line to tangent line of the corners.
hold("bends of", sum((b.dxf.end - b.dxf.start).magnitude for b in bends), 2 * (392 + 592), 0.001)
for kind in {entity.dxftype() for entity in space} - {"POLYLINE", "LINE", "TEXT"}:
    print(f"ezdxf: {kind} in the drawing")
    faults += 1
sys.exit(1 if faults else 0)
