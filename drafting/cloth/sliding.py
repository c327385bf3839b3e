"""Shapes slid up against each other, one after the other: our own way of laying.

The cloth is looked at in narrow bands along its length. Each band knows how far it is taken;
a shape is pushed along the cloth until one of its bands meets what lies there. A shape that
belongs on a fold is pushed along the fold alone, which the solver cannot do. A number of
orders is tried, always the same ones, and the shortest plan is kept.

Millimetres. The one home of numpy. Imports shapes, lays, in_rows and geometry.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from drafting.cloth.in_rows import HAIR, copies
from drafting.cloth.lays import Laid, Lies
from drafting.cloth.shapes import Shape
from drafting.geometry import Point, flattened
from drafting.units import Mm

BAND: Mm = 3.0
"""Width of the bands at most. A plan loses about so much of the width where shapes lie side by
side, and nothing of the truth: a shape takes the whole of every band that it touches."""

STEP: Mm = 9.0
"""A shape is tried at every so much of the width, and at both edges of the cloth."""

TRIALS = 1200
"""Shapes placed in all trials together; few shapes are tried in many orders."""

_Array = Any  # numpy is loaded where it is used, and typed by itself there


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One thing to place: a shape's copy, a pair of copies in two layers, or one on a fold."""

    shape: Shape
    copy: int
    flipped: bool
    lies: Lies


@dataclass(frozen=True, slots=True, kw_only=True)
class _Form:
    """A shape as it may lie, in bands.

    Attributes:
        left, right: least and greatest x in each band, about the shape's own origin.
        base: y of the shape's origin when its lowest band is the cloth's first.
        fixed: the one band it must begin in, or None for any.
    """

    extra: float
    flipped: bool
    left: _Array
    right: _Array
    base: Mm
    fixed: int | None


def jobs(shapes: Sequence[Shape]) -> tuple[Job, ...]:
    """Return every copy of the shapes, to be cut from a single layer."""
    return tuple(
        Job(shape=shape, copy=copy, flipped=flipped, lies=Lies.SINGLE)
        for shape in shapes
        for copy, flipped in enumerate(copies(shape), start=1)
    )


def slid(tasks: Sequence[Job], width: Mm, *, trials: int = TRIALS) -> tuple[tuple[Laid, ...], Mm]:
    """Return every job slid along a cloth of that width, and the length that they take.

    Jobs on a fold, and pairs, lie with y counted from the fold.

    Args:
        trials: how many shapes are placed in all; the first order is always tried.
    """
    if not tasks:
        return (), 0.0
    bench = _Bench(width, tasks)
    best: tuple[Mm, list[Laid]] | None = None
    tried: set[object] = set()
    for order, (greedy, tie) in _orders(tasks, bench, max(1, trials // len(tasks))):
        # Copies are alike, and few shapes have few orders: none is laid a second time.
        known, before = (tuple(map(_key, order)), greedy, tie), len(tried)
        tried.add(known)
        if len(tried) == before:
            continue
        plan = bench.place(order, greedy=greedy, tie=tie, limit=best[0] if best else math.inf)
        if plan is not None and (best is None or plan[0] < best[0] - HAIR):
            best = plan
    assert best is not None
    number = {(job.shape.name, job.copy): k for k, job in enumerate(tasks)}
    found = sorted(best[1], key=lambda laid: number[laid.shape.name, laid.copy])
    return tuple(found), best[0]


class _Bench:
    """The bands of a cloth, and every shape in bands of the same width."""

    def __init__(self, width: Mm, tasks: Sequence[Job]) -> None:
        self.width = width
        self.count = max(1, math.ceil(width / BAND - 1e-9))
        self.band = width / self.count
        self.step = max(1, round(STEP / self.band))
        self.forms: dict[tuple[int, bool, Lies], tuple[_Form, ...]] = {}
        for job in tasks:
            key = _key(job)
            if key not in self.forms:
                self.forms[key] = tuple(self._forms(job))

    def _forms(self, job: Job) -> Iterator[_Form]:
        for extra in job.shape.turns:
            points = flattened(job.shape.lying(extra, flipped=job.flipped), outside=True)
            low = min(p.y for p in points)
            high = max(p.y for p in points)
            if job.lies is Lies.ON_FOLD:
                middle = (low + high) / 2
                left, right = _in_bands(_above(points, middle), middle, self.band)
                yield self._form(job, extra, left, right, -middle, 0)
                continue
            left, right = _in_bands(points, low, self.band)
            yield self._form(job, extra, left, right, -low, None)
            # Against the other edge of the cloth its bands begin elsewhere.
            start = math.floor((self.width - (high - low)) / self.band + 1e-9)
            base = self.width - high
            left, right = _in_bands(points, start * self.band - base, self.band)
            if start > 0 and start + len(left) <= self.count:
                yield self._form(job, extra, left, right, base - start * self.band, start)

    def _form(
        self, job: Job, extra: float, left: _Array, right: _Array, base: Mm, fixed: int | None
    ) -> _Form:
        # What is a hair wider than the cloth has one band too many, which nothing else needs.
        left, right = left[: self.count], right[: self.count]
        return _Form(
            extra=extra, flipped=job.flipped, left=left, right=right, base=base, fixed=fixed
        )

    def place(
        self, order: Sequence[Job], *, greedy: float, tie: float, limit: Mm
    ) -> tuple[Mm, list[Laid]] | None:
        """Return a plan that places the jobs in order, or None where it grows beyond a limit.

        Args:
            greedy: how much a shape's own end counts against the cloth that it shuts off.
            tie: how much lying low counts, to keep like shapes together.
        """
        import numpy as np

        front = np.zeros(self.count)
        end, found = 0.0, []
        for job in order:
            best: tuple[float, Mm, int, _Form] | None = None
            for form in self.forms[_key(job)]:
                size = len(form.left)
                if form.fixed is None:
                    last = self.count - size
                    starts = np.arange(0, last + 1, self.step)
                    views = np.lib.stride_tricks.sliding_window_view(front, size)[:: self.step]
                else:
                    starts = np.array([form.fixed])
                    views = front[None, form.fixed : form.fixed + size]
                x = np.maximum((views - form.left).max(axis=1), -form.left.min())
                shut = (x[:, None] + form.left - views).sum(axis=1) / self.count
                reach = np.maximum(x + form.right.max(), end)
                score = reach * 4 + (x + form.right.mean()) * greedy + shut + starts * tie
                k = int(score.argmin())
                if best is None or score[k] < best[0] - HAIR:
                    best = float(score[k]), float(x[k]), int(starts[k]), form
            assert best is not None
            _, where, start, form = best
            size = len(form.left)
            front[start : start + size] = where + form.right
            end = max(end, where + float(form.right.max()))
            if end >= limit:
                return None
            found.append(
                Laid(
                    shape=job.shape,
                    copy=job.copy,
                    x=where,
                    y=start * self.band + form.base,
                    turn=job.shape.turn(form.extra, flipped=form.flipped),
                    flipped=form.flipped,
                    lies=job.lies,
                )
            )
        return end, found


def _key(job: Job) -> tuple[int, bool, Lies]:
    return job.shape.number, job.flipped, job.lies


def _above(points: Sequence[Point], level: Mm) -> list[Point]:
    """Return a polygon with what lies below a level cut off."""
    found = []
    for one, other in pairwise((*points, points[0])):
        if one.y >= level:
            found.append(one)
        if (one.y - level) * (other.y - level) < 0:
            share = (level - one.y) / (other.y - one.y)
            found.append(Point(one.x + share * (other.x - one.x), level))
    return found


def _in_bands(points: Sequence[Point], low: Mm, band: Mm) -> tuple[_Array, _Array]:
    """Return the least and greatest x of a polygon in each band from ``low`` upwards."""
    import numpy as np

    count = max(1, math.ceil((max(p.y for p in points) - low) / band - 1e-6))
    left, right = np.full(count, math.inf), np.full(count, -math.inf)

    def enter(k: int, x: Mm) -> None:
        left[k], right[k] = min(left[k], x), max(right[k], x)

    for one, other in pairwise((*points, points[0])):
        if one.y > other.y:
            one, other = other, one
        first = min(max(math.floor((one.y - low) / band + 1e-9), 0), count - 1)
        last = min(max(math.ceil((other.y - low) / band - 1e-9) - 1, first), count - 1)
        enter(first, one.x)
        enter(last, other.x)
        for k in range(first, last):
            share = (low + (k + 1) * band - one.y) / (other.y - one.y)
            x = one.x + share * (other.x - one.x)
            enter(k, x)
            enter(k + 1, x)
    return left, right


def _size(form: _Form) -> tuple[float, Mm, int]:
    """Return about how much room a shape takes, how long it is, and how wide."""
    spread = form.right - form.left
    return float(spread.sum()), float(form.right.max() - form.left.min()), len(form.left)


def _by_size(tasks: Sequence[Job], sizes: Sequence[float]) -> list[Job]:
    order = sorted(range(len(tasks)), key=lambda k: -sizes[k])
    return [tasks[k] for k in order]


def _orders(
    tasks: Sequence[Job], bench: _Bench, rounds: int
) -> Iterator[tuple[list[Job], tuple[float, float]]]:
    """Yield orders in which to place the jobs, with how greedily, the most promising first."""
    sizes = {key: _size(forms[0]) for key, forms in bench.forms.items()}
    base = [_by_size(tasks, [sizes[_key(job)][by] for job in tasks]) for by in range(3)]
    ways = [(1.0, 0.0), (0.2, 0.0), (3.0, 0.02)]
    found = 0
    for order in base:
        for way in ways:
            if found == rounds:
                return
            found += 1
            yield order, way
    # The same shuffles every time: a counter that a classic recipe stirs, and no chance.
    state = 12345
    while found < rounds:
        order = list(base[found % len(base)])
        for _ in range(1 + found % 4):
            state = (state * 1103515245 + 12345) % 2**31
            one = state // 7 % len(order)
            state = (state * 1103515245 + 12345) % 2**31
            order.insert(state // 7 % len(order), order.pop(one))
        found += 1
        yield order, ways[found % len(ways)]
