"""Where the lines of a circle skirt's panel must lie, from school geometry and nothing else.

A panel is a sector of a ring: waist seam on the inner circle, hem on the outer one, the first
straight edge along +x. Millimetres, angles in radians. Lines are walked in short runs.
"""

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

Spot = tuple[float, float]
Walk = tuple[Spot, ...]

PACE = 0.5


@dataclass(frozen=True, slots=True)
class Sector:
    """A panel, or half of one drawn to a fold at its far edge.

    Attributes:
        hem: allowance below the outer circle; ``raw`` when that edge has none and is not sewn.
    """

    inner: float
    outer: float
    angle: float
    half: bool
    waist: float
    side: float
    hem: float
    raw: bool = False

    def stitched(self) -> dict[str, Walk]:
        """Return the lines that are sewn or turned up on, by what they are."""
        lines = {
            "first edge": straight((self.inner, 0.0), (self.outer, 0.0)),
            "waist": round_(self.inner, 0.0, self.angle),
        }
        if not self.raw:
            lines["hem"] = round_(self.outer, 0.0, self.angle)
        if not self.half:
            lines["far edge"] = turned(lines["first edge"], self.angle)
        return lines

    def cut(self) -> dict[str, Walk]:
        """Return the cutting line.

        A seam allowance ``s`` lies at y = -s below the first edge. It meets the circle of
        radius q at the angle -asin(s / q). A hem turned up along its circle brings the
        allowance from h outside to h inside: so below the hem the cutting line must spread
        to where it lies h above it, and runs there straight from the hem's own circle.
        """
        top, out = self.inner - self.waist, self.outer + self.hem
        meets_top, meets_hem = (-math.asin(self.side / q) for q in (top, self.outer))
        spread = -math.asin(self.side / (self.outer - self.hem))
        near = straight(polar(top, meets_top), polar(self.outer, meets_hem))
        corner = straight(polar(self.outer, meets_hem), polar(out, spread))
        if self.half:
            far = straight(polar(top, self.angle), polar(out, self.angle))
            return {
                "near": near,
                "corner": corner,
                "hem": round_(out, spread, self.angle),
                "far": far,
                "waist": round_(top, meets_top, self.angle),
            }
        return {
            "near": near,
            "corner": corner,
            "hem": round_(out, spread, self.angle - spread),
            "far": over(near, self.angle),
            "far corner": over(corner, self.angle),
            "waist": round_(top, meets_top, self.angle - meets_top),
        }


def polar(radius: float, angle: float) -> Spot:
    return radius * math.cos(angle), radius * math.sin(angle)


def straight(a: Spot, b: Spot) -> Walk:
    steps = max(1, math.ceil(math.dist(a, b) / PACE))
    return tuple(
        (a[0] + (b[0] - a[0]) * k / steps, a[1] + (b[1] - a[1]) * k / steps)
        for k in range(steps + 1)
    )


def round_(radius: float, begin: float, end: float) -> Walk:
    steps = max(1, math.ceil(radius * abs(end - begin) / PACE))
    return tuple(polar(radius, begin + (end - begin) * k / steps) for k in range(steps + 1))


def turned(walk: Iterable[Spot], angle: float, x: float = 0.0, y: float = 0.0) -> Walk:
    c, s = math.cos(angle), math.sin(angle)
    return tuple((px * c - py * s + x, px * s + py * c + y) for px, py in walk)


def over(walk: Iterable[Spot], angle: float) -> Walk:
    """Return a walk mirrored over the middle of a sector of that angle."""
    c, s = math.cos(angle), math.sin(angle)
    return tuple((px * c + py * s, px * s - py * c) for px, py in walk)


class Near:
    """Tells how far a point lies from the nearest of many short runs, if within a cell."""

    CELL = 4.0

    def __init__(self, runs: Iterable[tuple[Spot, Spot]]) -> None:
        self.cells: dict[tuple[int, int], list[tuple[Spot, Spot]]] = {}
        for a, b in runs:
            steps = max(1, math.ceil(math.dist(a, b) / (self.CELL / 2)))
            ends = [
                (a[0] + (b[0] - a[0]) * k / steps, a[1] + (b[1] - a[1]) * k / steps)
                for k in range(steps + 1)
            ]
            for one, other in itertools.pairwise(ends):
                for cell in self._cells(one, other):
                    self.cells.setdefault(cell, []).append((one, other))

    def _cells(self, a: Spot, b: Spot) -> set[tuple[int, int]]:
        """Return the cells within a quarter of a millimetre of a run."""
        r = 0.25
        low_x, high_x = sorted((a[0], b[0]))
        low_y, high_y = sorted((a[1], b[1]))
        return {
            (i, j)
            for i in range(int((low_x - r) // self.CELL), int((high_x + r) // self.CELL) + 1)
            for j in range(int((low_y - r) // self.CELL), int((high_y + r) // self.CELL) + 1)
        }

    def off(self, p: Spot) -> float:
        """Return the distance; anything over a quarter of a millimetre may come out as inf."""
        cell = (int(p[0] // self.CELL), int(p[1] // self.CELL))
        best = math.inf
        px, py = p
        for (ax, ay), (bx, by) in self.cells.get(cell, ()):
            dx, dy = bx - ax, by - ay
            square = dx * dx + dy * dy
            t = ((px - ax) * dx + (py - ay) * dy) / square if square else 0.0
            t = 0.0 if t < 0 else 1.0 if t > 1 else t
            off = math.hypot(px - ax - t * dx, py - ay - t * dy)
            if off < best:
                best = off
        return best


def runs(walks: Iterable[Walk]) -> Iterator[tuple[Spot, Spot]]:
    for walk in walks:
        yield from itertools.pairwise(walk)
