"""Shapes slid up against each other, one after the other: our own way of laying.

The cloth is looked at in narrow bands along its length. Each band knows how far it is taken;
a shape is pushed along the cloth until one of its bands meets what lies there. A shape that
belongs on a fold is pushed along the fold alone, which the solver cannot do. A number of
orders is tried, always the same ones, and the shortest plan is kept.

Millimetres. The one home of numpy. Imports shapes, lays, in_rows and geometry.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from typing import Any

from drafting.cloth.in_rows import copies
from drafting.cloth.lays import Laid, Lies
from drafting.cloth.shapes import HAIR, Shape
from drafting.geometry import Point, above_level, flattened
from drafting.units import Mm

BAND: Mm = 3.0
"""Width of the bands at most. A plan loses about so much of the width where shapes lie side by
side, and nothing of the truth: a shape takes the whole of every band that it touches."""

STEP: Mm = 9.0
"""A shape is tried at every so much of the width, and at both edges of the cloth."""

OVER: Mm = 0.05
"""The points that bands are filled from lie this far outside a shape at most."""

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
        leftmost, reach, middle: least x, greatest x, and mean of ``right``.
        fixed: the one band it must begin in, or None for any.
    """

    extra: float
    flipped: bool
    left: _Array
    right: _Array
    leftmost: Mm
    reach: Mm
    middle: Mm
    base: Mm
    fixed: int | None


def jobs(shapes: Sequence[Shape]) -> tuple[Job, ...]:
    """Return every copy of the shapes, to be cut from a single layer."""
    return tuple(
        Job(shape=shape, copy=copy, flipped=flipped, lies=Lies.SINGLE)
        for shape in shapes
        for copy, flipped in enumerate(copies(shape), start=1)
    )


def slid(tasks: Sequence[Job], width: Mm, *, trials: int) -> tuple[tuple[Laid, ...], Mm]:
    """Return every job slid along a cloth of that width, and the length that they take.

    Jobs on a fold, and pairs, lie with y counted from the fold.

    Args:
        trials: how many shapes are placed in all; the first order is always tried.
    """
    if not tasks:
        return (), 0.0
    bench = _Bench(width, tasks)
    best: tuple[Mm, list[Laid]] | None = None
    rounds = min(max(1, trials // len(tasks)), len(WAYS) * _different(tasks))
    kept = _Try(order=tuple(_Placing(job=job) for job in tasks), greedy=1.0, tie=0.0)
    for one in _firsts(tasks, bench)[:rounds]:
        plan = bench.place(one, limit=best[0] if best else math.inf)
        if plan is not None and (best is None or plan[0] < best[0] - HAIR):
            best, kept = plan, one
    chance, seen = _Chance(), {kept.told}
    for _ in range(rounds - len(WAYS) * 3):
        one = _changed(kept, chance)
        if one.told in seen:
            continue  # copies are alike, and few shapes have few orders
        seen.add(one.told)
        plan = bench.place(one, limit=best[0] + SAME if best else math.inf)
        if plan is not None:
            kept = one
            if best is None or plan[0] < best[0] - HAIR:
                best = plan
    assert best is not None
    number = {(job.shape.name, job.copy): k for k, job in enumerate(tasks)}
    found = sorted(best[1], key=lambda laid: number[laid.shape.name, laid.copy])
    return tuple(found), best[0]


def _different(tasks: Sequence[Job]) -> int:
    """Return how many ways to begin differ: n! orders over that of each kind, in every turn."""
    kinds = Counter(_key(job) for job in tasks)
    orders = math.factorial(len(tasks)) // math.prod(math.factorial(n) for n in kinds.values())
    return orders * math.prod(len(job.shape.turns) + 1 for job in tasks)


WAYS = ((1.0, 0.0), (0.2, 0.0), (3.0, 0.02))
"""How greedily a shape is placed: what its own end counts for against the cloth that it shuts
off, and what lying low counts for, which keeps like shapes together."""

SAME: Mm = 0.05
"""A plan so little longer than the best is gone on from all the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placing:
    """A job in its turn; ``extra`` is how it must lie, or None for whatever is best."""

    job: Job
    extra: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Try:
    """An order of placing, and how greedily."""

    order: tuple[_Placing, ...]
    greedy: float
    tie: float

    @property
    def told(self) -> tuple[object, ...]:
        """What tells it from others: copies of a shape are all alike."""
        return tuple((_key(p.job), p.extra) for p in self.order), self.greedy, self.tie


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
            if job.lies is Lies.ON_FOLD and abs(math.sin(extra)) > 0.5:
                continue  # its own fold would lie across the cloth's
            points = flattened(job.shape.lying(extra, flipped=job.flipped), outside=True)
            low = min(p.y for p in points)
            high = max(p.y for p in points)
            half = 2 if job.lies is Lies.ON_FOLD else 1
            if (high - low) / half > self.width + OVER:
                continue
            if job.lies is Lies.ON_FOLD:
                middle = (low + high) / 2
                left, right = _in_bands(above_level(points, middle), middle, self.band)
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
            extra=extra,
            flipped=job.flipped,
            left=left,
            right=right,
            leftmost=float(left.min()),
            reach=float(right.max()),
            middle=float(right.mean()),
            base=base,
            fixed=fixed,
        )

    def place(self, tried: "_Try", *, limit: Mm) -> tuple[Mm, list[Laid]] | None:
        """Return a plan that places the jobs in order, or None where it grows beyond a limit."""
        import numpy as np

        front = np.zeros(self.count)
        end, found = 0.0, []
        for placing in tried.order:
            job = placing.job
            best: tuple[float, Mm, int, _Form] | None = None
            forms = self.forms[_key(job)]
            # A turn in which it is too wide for the cloth has no form, and is not asked for.
            asked = [form for form in forms if form.extra == placing.extra]
            for form in asked or forms:
                size = len(form.left)
                if form.fixed is None:
                    last = self.count - size
                    starts = np.arange(0, last + 1, self.step)
                    views = np.lib.stride_tricks.sliding_window_view(front, size)[:: self.step]
                else:
                    starts = np.array([form.fixed])
                    views = front[None, form.fixed : form.fixed + size]
                gaps = views - form.left
                x = np.maximum(gaps.max(axis=1), -form.leftmost)
                shut = (x * size - gaps.sum(axis=1)) / self.count
                reach = np.maximum(x + form.reach, end)
                score = reach * 4 + (x + form.middle) * tried.greedy + shut + starts * tried.tie
                k = int(score.argmin())
                if best is None or score[k] < best[0] - HAIR:
                    best = float(score[k]), float(x[k]), int(starts[k]), form
            assert best is not None
            _, where, start, form = best
            size = len(form.left)
            front[start : start + size] = where + form.right
            end = max(end, where + form.reach)
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


def _firsts(tasks: Sequence[Job], bench: _Bench) -> list["_Try"]:
    """Return the most promising ways to begin with: by area, by length and by width."""
    sizes = {key: _size(forms[0]) for key, forms in bench.forms.items()}
    base = [_by_size(tasks, [sizes[_key(job)][by] for job in tasks]) for by in range(3)]
    return [
        _Try(order=tuple(_Placing(job=job) for job in order), greedy=greedy, tie=tie)
        for order, (greedy, tie) in product(base, WAYS)
    ]


def _changed(tried: "_Try", chance: "_Chance") -> "_Try":
    """Return a way that differs in a place or two, a turn, or how greedily it goes on."""
    order = list(tried.order)
    for _ in range(1 + chance.below(3)):
        k = chance.below(len(order))
        placing = order.pop(k)
        what = chance.below(4)
        if what == 0:
            turns = (None, *placing.job.shape.turns)
            placing = replace(placing, extra=turns[chance.below(len(turns))])
            order.insert(k, placing)
        else:
            order.insert(chance.below(len(order) + 1), placing)
    greedy, tie = (
        WAYS[chance.below(len(WAYS))] if chance.below(6) == 0 else (tried.greedy, tried.tie)
    )
    return _Try(order=tuple(order), greedy=greedy, tie=tie)


class _Chance:
    """Numbers that look like chance and are the same every time: a classic recipe, no library."""

    def __init__(self) -> None:
        self._state = 12345

    def below(self, count: int) -> int:
        """Return a number from 0 up to below ``count``."""
        self._state = (self._state * 1103515245 + 12345) % 2**31
        return self._state // 65536 % count
