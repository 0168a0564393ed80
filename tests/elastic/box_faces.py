"""Faces of stated boxes and their nets, for boxes_by_calculix.py."""
import functools
import itertools
import math

NET = 50.0  # mm: sides are cut into parts of about this length, and these into halves or quarters
NEAR = 1e-4  # mm: one place; the file has points to 1e-7


def add(p, q, times=1.0):
    return tuple(a + times * b for a, b in zip(p, q))


def sub(p, q):
    return add(p, q, -1.0)


def dot(p, q):
    return sum(a * b for a, b in zip(p, q))


def cross(p, q):
    return p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]


def unit(p):
    return tuple(a / math.sqrt(dot(p, p)) for a in p)


def mean(points):
    return tuple(sum(axis) / len(points) for axis in zip(*points))


def normal(corners):
    return unit(cross(sub(corners[1], corners[0]), sub(corners[2], corners[0])))


def parts(p, q):
    return round(math.dist(p, q) / NET)


def three_sided(a, b, c, ab, bc, ca):
    """Three nets that meet inside a triangle, its sides cut into so many parts."""
    x, y, z = (bc + ca - ab) // 2, (ab + ca - bc) // 2, (ab + bc - ca) // 2  # parts of the lines to the middle
    on_ab, on_bc, on_ca = add(a, sub(b, a), z / ab), add(b, sub(c, b), x / bc), add(c, sub(a, c), y / ca)
    g = mean((a, b, c))
    return [((a, on_ab, g, on_ca), z, x), ((b, on_bc, g, on_ab), x, y), ((c, on_ca, g, on_bc), y, z)]


def nets(corners):
    """Four-sided nets of a rectangle, of a trapezoid whose first side is its shorter base, of a regular hexagon: their
    corners, and parts of NET along the first and the second side."""
    if len(corners) == 6:
        c = mean(corners)
        n = parts(corners[0], corners[1])
        return [((corners[i], corners[i + 1], corners[(i + 2) % 6], c), n, n) for i in (0, 2, 4)]
    p, q, r, s = corners
    if math.dist(p, q) > math.dist(r, s) - NEAR:
        return [((p, q, r, s), parts(p, q), parts(q, r))]
    along = unit(sub(q, p))
    below_s, below_r = add(s, along, dot(sub(p, s), along)), add(r, along, dot(sub(q, r), along))
    up, slope = parts(p, below_s), parts(p, s)
    return ([((p, q, below_r, below_s), parts(p, q), up)] + three_sided(p, below_s, s, up, slope, slope)
            + three_sided(q, r, below_r, slope, slope, up))


class Face:
    def __init__(self, corners):
        self.corners, self.holes, self.n = corners, [], normal(corners)
        self.ids, self.cells = {}, []  # of nodes by place, of elements by nodes

    def mesh(self, size, ids):
        for (p, q, r, s), along, up in nets(self.corners):
            along, up = round(along * NET / size), round(up * NET / size)

            def node(i, j):
                x, y = i / (2 * along), j / (2 * up)
                at = add(add(p, sub(q, p), x), sub(add(s, sub(r, s), x), add(p, sub(q, p), x)), y)
                key = tuple(round(1e3 * a) for a in at)
                if key not in self.ids:
                    self.ids[key] = (next(ids), at)
                return self.ids[key][0]

            for i, j in itertools.product(range(0, 2 * along, 2), range(0, 2 * up, 2)):
                x, y = (i + 1) / (2 * along), (j + 1) / (2 * up)
                if not any(inside(add(add(p, sub(q, p), x), sub(s, p), y), hole, self.n) for hole in self.holes):
                    self.cells.append([node(i + a, j + b) for a, b in ((0, 0), (2, 0), (2, 2), (0, 2),
                                                                      (1, 0), (2, 1), (1, 2), (0, 1))])

    @functools.cache
    def at(self, point):
        """The node there, or None."""
        return next((n for n, at in self.ids.values() if math.dist(at, point) < NEAR), None)

    @functools.cache
    def line(self, p, q):
        """Nodes on the line through p and q in order, as pairs: mm along it from p, node."""
        e = unit(sub(q, p))
        places = [(dot(sub(at, p), e), n, at) for n, at in self.ids.values()]
        return sorted((s, n) for s, n, at in places if math.dist(at, add(p, e, s)) < NEAR)

    def into(self, p, q):
        """Unit vector in the face, square to its side p q, away from it; None where p q is none of its sides."""
        d = cross(self.n, unit(sub(q, p)))
        heights = [dot(sub(corner, p), d) for corner in self.corners]
        if min(heights) > -NEAR:
            return d
        return tuple(-a for a in d) if max(heights) < NEAR else None


def inside(point, hole, n):
    sides = [dot(cross(sub(q, p), sub(point, p)), n) for p, q in zip(hole, hole[1:] + hole[:1])]
    return min(sides) > 0 or max(sides) < 0
