"""Reads the lines out of a written PDF, operator by operator, with pikepdf alone.

Millimetres, each page in its own frame. Knows nothing of how the file was written: the
imaging model is that of ISO 32000 (graphics state, clip, dashes), and whatever operator it
does not know makes it fail.
"""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path

import pikepdf

MM = 25.4 / 72
"""Millimetres to a point: 1/72 in, and an inch is 25.4 mm."""

Spot = tuple[float, float]
Run = tuple[Spot, Spot]
Rect = tuple[float, float, float, float]

FINENESS = 1.0
"""Curves are walked in straight runs of about this length; a run of 1 mm lies 0.0025 mm off
a circle of 50 mm radius."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """One stroked subpath as the file holds it, curves walked in short runs."""

    points: tuple[Spot, ...]
    closed: bool
    width: float
    dash: tuple[float, ...]
    phase: float
    clip: Rect

    def is_drawn_with(self, width: float, dash: tuple[float, ...] = ()) -> bool:
        return (
            abs(self.width - width) < 0.002
            and len(self.dash) == len(dash)
            and all(abs(a - b) < 0.002 for a, b in zip(self.dash, dash, strict=True))
        )

    def ink(self) -> Iterator[Run]:
        """Yield what a printer inks: the dashes, cut off at the clip."""
        for one, other in self._dashes():
            kept = cut_to(one, other, self.clip)
            if kept is not None:
                yield kept

    def _dashes(self) -> Iterator[Run]:
        ends = (*self.points, self.points[0]) if self.closed else self.points
        pairs = itertools.pairwise(ends)
        if not self.dash:
            yield from pairs
            return
        period = math.fsum(self.dash)
        at = self.phase % period
        index = 0
        while at >= self.dash[index] - 1e-9:
            at -= self.dash[index]
            index = (index + 1) % len(self.dash)
        left = self.dash[index] - at
        for (ax, ay), (bx, by) in pairs:
            long = math.hypot(bx - ax, by - ay)
            walked = 0.0
            while walked < long:
                go = min(left, long - walked)
                if index % 2 == 0 and go > 0:
                    s, t = walked / long, (walked + go) / long
                    yield (
                        (ax + (bx - ax) * s, ay + (by - ay) * s),
                        (ax + (bx - ax) * t, ay + (by - ay) * t),
                    )
                walked += go
                left -= go
                if left <= 1e-9:
                    index = (index + 1) % len(self.dash)
                    left = self.dash[index]


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page: its size, what it lets through, its strokes."""

    width: float
    height: float
    window: Rect
    strokes: tuple[Stroke, ...]
    texts: int


def cut_to(one: Spot, other: Spot, rect: Rect) -> Run | None:
    """Return the part of a straight run inside a rectangle."""
    (ax, ay), (bx, by) = one, other
    begin, end = 0.0, 1.0
    for a, b, low, high in ((ax, bx, rect[0], rect[2]), (ay, by, rect[1], rect[3])):
        if a == b:
            if not low <= a <= high:
                return None
            continue
        enter, leave = sorted(((low - a) / (b - a), (high - a) / (b - a)))
        begin, end = max(begin, enter), min(end, leave)
    if begin >= end:
        return None
    return (
        (ax + (bx - ax) * begin, ay + (by - ay) * begin),
        (ax + (bx - ax) * end, ay + (by - ay) * end),
    )


@dataclass(slots=True)
class _State:
    matrix: tuple[float, float, float, float, float, float] = (1, 0, 0, 1, 0, 0)
    width: float = 1.0
    dash: tuple[float, ...] = ()
    phase: float = 0.0
    clip: Rect = (-1e9, -1e9, 1e9, 1e9)

    def copied(self) -> "_State":
        return _State(self.matrix, self.width, self.dash, self.phase, self.clip)

    def spot(self, x: float, y: float) -> Spot:
        a, b, c, d, e, f = self.matrix
        return (a * x + c * y + e) * MM, (b * x + d * y + f) * MM

    def scale(self) -> float:
        a, b, c, d, _, _ = self.matrix
        return math.sqrt(abs(a * d - b * c)) * MM


@dataclass(slots=True)
class _Path:
    parts: list[list[Spot]] = field(default_factory=list)
    closed: list[bool] = field(default_factory=list)
    here: Spot = (0.0, 0.0)


PLAIN = {"J", "j", "g", "G", "BT", "ET", "Tf", "TL", "Tm", "BMC", "EMC", "BDC"}
TEXT = {"Tj", "TJ", "'", '"'}


def leaves(file: Path) -> tuple[Leaf, ...]:
    """Return every page of a file."""
    with pikepdf.open(file) as pdf:
        return tuple(_leaf(page) for page in pdf.pages)


def _leaf(page: pikepdf.Page) -> Leaf:
    assert int(page.get("/Rotate", 0)) == 0
    assert "/UserUnit" not in page
    left, bottom, right, top = (float(Decimal(str(side))) for side in page.mediabox.as_list())
    assert (left, bottom) == (0, 0)
    state, stack = _State(), list[_State]()
    path, strokes, texts = _Path(), list[Stroke](), 0
    windows: set[Rect] = set()
    clipping = False
    for instruction in pikepdf.parse_content_stream(page):
        assert isinstance(instruction, pikepdf.ContentStreamInstruction), "a picture in the line"
        operands, op = instruction.operands, str(instruction.operator)
        if op == "q":
            stack.append(state.copied())
        elif op == "Q":
            state = stack.pop()
        elif op == "cm":
            state.matrix = _times(_numbers(operands), state.matrix)
        elif op == "w":
            state.width = float(operands[0]) * state.scale()
        elif op == "d":
            state.dash = tuple(float(n) * state.scale() for n in operands[0])
            state.phase = float(operands[1]) * state.scale()
        elif op in {"m", "l", "c", "re", "h"}:
            _walk(path, op, _numbers(operands), state)
        elif op in {"W", "W*"}:
            clipping = True
        elif op in {"S", "n"}:
            if op == "S":
                strokes += [
                    Stroke(tuple(part), shut, state.width, state.dash, state.phase, state.clip)
                    for part, shut in zip(path.parts, path.closed, strict=True)
                ]
            if clipping:
                xs = [x for part in path.parts for x, _ in part]
                ys = [y for part in path.parts for _, y in part]
                state.clip = (min(xs), min(ys), max(xs), max(ys))
                windows.add(state.clip)
            path, clipping = _Path(), False
        elif op in TEXT:
            texts += 1
        else:
            assert op in PLAIN, f"an operator that no pattern needs: {op}"
    assert not stack, "a saved state is never given back"
    assert len(windows) == 1, "a page has one window"
    return Leaf(right * MM, top * MM, windows.pop(), tuple(strokes), texts)


def _numbers(operands: object) -> list[float]:
    return [float(n) for n in operands]  # type: ignore[attr-defined]


def _times(
    m: list[float], n: tuple[float, float, float, float, float, float]
) -> tuple[float, float, float, float, float, float]:
    a, b, c, d, e, f = m
    return (
        a * n[0] + b * n[2],
        a * n[1] + b * n[3],
        c * n[0] + d * n[2],
        c * n[1] + d * n[3],
        e * n[0] + f * n[2] + n[4],
        e * n[1] + f * n[3] + n[5],
    )


def _walk(path: _Path, op: str, n: list[float], state: _State) -> None:
    if op == "m":
        path.parts.append([state.spot(*n)])
        path.closed.append(False)
    elif op == "l":
        path.parts[-1].append(state.spot(*n))
    elif op == "h":
        path.closed[-1] = True
    elif op == "re":
        x, y, w, h = n
        corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        path.parts.append([state.spot(*corner) for corner in corners])
        path.closed.append(True)
    else:
        _curve(path.parts[-1], state.spot(*n[:2]), state.spot(*n[2:4]), state.spot(*n[4:]))


def _curve(part: list[Spot], b: Spot, c: Spot, d: Spot) -> None:
    a = part[-1]
    reach = math.dist(a, b) + math.dist(b, c) + math.dist(c, d)
    steps = max(4, math.ceil(reach / FINENESS))
    for k in range(1, steps + 1):
        t = k / steps
        s = 1 - t
        w = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
        part.append((
            w[0] * a[0] + w[1] * b[0] + w[2] * c[0] + w[3] * d[0],
            w[0] * a[1] + w[1] * b[1] + w[2] * c[1] + w[3] * d[1],
        ))  # fmt: skip
