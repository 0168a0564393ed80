"""A stiff body that holds a stated box from within by springs, for boxes_by_calculix.py.

What it touches is tied to it by SPRING2 along an axis. It has nodes of its own there, and moves as a whole in the plane
of its springs: equations of these nodes with one that moves and one that turns.
"""
from box_faces import cross, dot, sub


def only(axis, value=1.0):
    return tuple(value if k == axis else 0.0 for k in range(3))


class Former:
    def __init__(self, stiffness, *words):
        self.stiffness, self.at, self.out = float(stiffness), words[0::2], words[1::2]
        self.axes = [max(range(3), key=lambda k, v=v: abs(v[k])) for v in self.out]
        (self.across,) = {0, 1, 2} - set(self.axes)  # square to its plane
        self.centre = tuple(sum(axis) / len(self.at) for axis in zip(*self.at))

    def read_by(self, place, motion):
        """What its spring sees of its motion as a whole: along either axis of its plane (1 mm), in it (1 rad)."""
        turned = cross(only(self.across), sub(self.at[place], self.centre))
        return dot(turned if motion == self.across else only(motion), self.out[place])

    def patterns(self):
        """Of each place: forces on all places along v, 1 N there and as little elsewhere as puts them in equilibrium.
        Forces that are in equilibrium, F, are the sum of these times F."""
        places = range(len(self.at))
        motions = []  # orthonormal
        for motion in range(3):
            column = [self.read_by(i, motion) for i in places]
            for m in motions:
                along = dot(column, m)
                column = [a - along * b for a, b in zip(column, m)]
            motions.append([a / dot(column, column) ** 0.5 for a in column])
        return [[float(i == j) - sum(m[i] * m[j] for m in motions) for j in places] for i in places]

    def deck(self, walls, node, element):
        """Lines of the deck, and its own nodes; `walls`: nodes that it touches; numbers of nodes, elements from here."""
        own = [node + i for i in range(len(self.at))]
        moves, turns = own[-1] + 1, own[-1] + 2
        lines = ["*NODE"] + ["%d, %.9g, %.9g, %.9g" % (n, *p) for n, p in zip(own, self.at)]
        lines += ["%d, %.9g, %.9g, %.9g" % (n, *self.centre) for n in (moves, turns)]
        for axis in sorted(set(self.axes)):
            lines += [f"*ELEMENT, TYPE=SPRING2, ELSET=SPRINGS{axis + 1}"]
            lines += ["%d, %d, %d" % (element + i, walls[i], own[i]) for i, a in enumerate(self.axes) if a == axis]
            lines += [f"*SPRING, ELSET=SPRINGS{axis + 1}", f"{axis + 1}, {axis + 1}", f"{self.stiffness:.1f}"]
        for i, (n, axis) in enumerate(zip(own, self.axes)):
            turn = self.read_by(i, self.across) * self.out[i][axis]
            lines += ["*EQUATION", "3", "%d, %d, 1, %d, %d, -1, %d, %d, %.9g"
                      % (n, axis + 1, moves, axis + 1, turns, self.across + 1, -turn)]
        # All that no spring and no equation holds: CalculiX gives a node with a spring all three freedoms.
        still = [(n, k) for n, axis in zip(own, self.axes) for k in range(3) if k != axis]
        still += [(moves, self.across)] + [(turns, k) for k in range(3) if k != self.across]
        lines += ["*BOUNDARY"] + ["%d, %d, %d" % (n, k + 1, k + 1) for n, k in still]
        return lines, own

    def pulls(self, walls, own, moved):
        """Of each place: how hard it pulls the wall back, against v."""
        return [self.stiffness * dot(sub(moved[wall], moved[n]), v) for wall, n, v in zip(walls, own, self.out)]
