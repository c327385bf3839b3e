"""A turned outline as rows of cells that it may touch. Millimetres and radians."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.units import Mm

_HAIR: Mm = 0.05
"""Outlines keep clear of the edges of cells: one that lies on a page's edge touches two pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Raster:
    """Cells a turned piece touches, a whole number a row; where its first cell begins."""

    turn: float
    rows: tuple[int, ...]
    columns: int
    left: Mm
    bottom: Mm


def raster(outline: Sequence[Point], turn: float, wide: Mm, high: Mm, spread: Mm) -> Raster:
    """Return the cells within ``spread`` of a turned outline or inside it.

    The cells start a hair outside the outline's left and bottom edges; with a spread, which is
    less than a cell, one cell further out.
    """
    c, s = math.cos(turn), math.sin(turn)
    points = [(p.x * c - p.y * s, p.x * s + p.y * c) for p in outline]
    left, bottom = min(x for x, _ in points) - _HAIR, min(y for _, y in points) - _HAIR
    right, top = max(x for x, _ in points) + _HAIR, max(y for _, y in points) + _HAIR
    columns, count = math.ceil((right - left) / wide), math.ceil((top - bottom) / high)
    border = 1 if spread else 0
    rows = [0] * (count + 2 * border)
    shifted = [((x - left) / wide + border, (y - bottom) / high + border) for x, y in points]
    _edge(rows, shifted, spread / wide, spread / high)
    _inside(rows, shifted)
    return Raster(turn=turn, rows=tuple(rows), columns=columns, left=left, bottom=bottom)


def _edge(rows: list[int], points: list[tuple[float, float]], dx: float, dy: float) -> None:
    ax, ay = points[-1]
    last = len(rows) - 1
    for x, y in points:
        (lx, ly), (ux, uy) = ((ax, ay), (x, y)) if ay <= y else ((x, y), (ax, ay))
        slope = (ux - lx) / (uy - ly) if uy - ly > 1e-9 else 0.0
        for row in range(max(int(ly - dy), 0), min(int(uy + dy), last) + 1):
            if slope:
                low = lx + (max(row - dy, ly) - ly) * slope
                high = lx + (min(row + 1 + dy, uy) - ly) * slope
            else:
                low, high = lx, ux
            if low > high:
                low, high = high, low
            rows[row] |= (2 << int(high + dx)) - (1 << max(int(low - dx), 0))
        ax, ay = x, y


def _inside(rows: list[int], points: list[tuple[float, float]]) -> None:
    crossings: list[list[float]] = [[] for _ in rows]
    ax, ay = points[-1]
    for x, y in points:
        lower, upper = (ay, y) if ay <= y else (y, ay)
        for k in range(math.ceil(lower - 0.5), math.ceil(upper - 0.5)):
            crossings[k].append(ax + (x - ax) * (k + 0.5 - ay) / (y - ay))
        ax, ay = x, y
    for k, xs in enumerate(crossings):
        xs.sort()
        for begin, end in zip(xs[::2], xs[1::2], strict=False):
            rows[k] |= (2 << int(max(end - 1e-6, 0.0))) - (1 << int(begin))
