"""How a lay plan is broken into runs, drawn one under the other, without cutting a piece apart.

Millimetres on the cloth. Imports lays.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.cloth.lays import Laid, Lay, Lies, Stretch
from drafting.geometry import Box
from drafting.units import Mm

HAIR: Mm = 0.01
"""Numbers that differ by less are the same place on the cloth."""

_STEPS = 18
"""Halvings of the longest run: twenty metres are then told to a tenth of a millimetre."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A length of the cloth that is drawn in one go.

    Where a piece reaches from one run into the next, it is drawn whole in one of them and as
    far as it goes in the other; the two runs then show some of the cloth twice.

    Attributes:
        start, end: along the cloth, from the cut end.
        low, high: across it; of folded cloth the upper layer alone is shown, from fold to selvages.
        whole: pieces that are drawn whole and named here.
        parts: pieces that only reach in here.
    """

    stretch: Stretch
    start: Mm
    end: Mm
    low: Mm
    high: Mm
    whole: tuple[Laid, ...]
    parts: tuple[Laid, ...] = ()

    @property
    def length(self) -> Mm:
        """How much of the cloth's length it shows."""
        return self.end - self.start

    @property
    def begins(self) -> bool:
        """Whether its stretch of cloth begins with it."""
        return self.start <= self.stretch.start + HAIR

    @property
    def ends(self) -> bool:
        """Whether its stretch of cloth ends with it."""
        return self.end >= self.stretch.start + self.stretch.length - HAIR


def shown(lay: Lay) -> tuple[Laid, ...]:
    """Return what a plan draws: everything but the under layer of folded cloth."""
    return tuple(one for one in lay.laid if one.lies is not Lies.UNDER)


def least_runs(lay: Lay) -> int:
    """Return how many runs there must be: folded cloth and single cloth are drawn apart."""
    return len(_stretches(lay))


def runs(lay: Lay, count: int) -> tuple[Run, ...]:
    """Return at most ``count`` runs, the longest as short as it can be.

    Args:
        count: no fewer than ``least_runs``.
    """
    stretches = _stretches(lay)
    boxed = sorted(
        ((one, one.box) for one in shown(lay)),
        key=lambda held: (held[1].centre.x, held[1].centre.y),
    )
    shares = [1] * len(stretches)
    found = [_broken(lay, boxed, stretch, 1) for stretch in stretches]
    while sum(shares) < count:
        # One run more goes where the longest is.
        k = max(range(len(found)), key=lambda k: max(run.length for run in found[k]))
        shares[k] += 1
        found[k] = _broken(lay, boxed, stretches[k], shares[k])
    return tuple(run for part in found for run in part)


Boxed = tuple[Laid, Box]


def _stretches(lay: Lay) -> tuple[Stretch, ...]:
    return tuple(stretch for stretch in lay.stretches if stretch.length > 0)


def _broken(lay: Lay, boxed: Sequence[Boxed], stretch: Stretch, count: int) -> tuple[Run, ...]:
    end = stretch.start + stretch.length
    here = [held for held in boxed if stretch.start <= held[1].centre.x < end]
    groups = _filled(here, stretch, _longest(here, stretch, count))
    starts = [stretch.start, *(min(box.left for _, box in group) for group in groups[1:])]
    ends = [*(max(box.right for _, box in group) for group in groups[:-1]), end]
    for k in range(len(ends) - 1):
        ends[k] = max(ends[k], starts[k + 1])
    found = []
    for k, (first, last) in enumerate(zip(starts, ends, strict=True)):
        others = (held for j, group in enumerate(groups) if j != k for held in group)
        found.append(
            Run(
                stretch=stretch,
                start=first,
                end=last,
                low=lay.usable / 2 if stretch.folded else 0.0,
                high=lay.usable,
                whole=tuple(one for one, _ in groups[k]),
                parts=tuple(
                    one
                    for one, box in others
                    if box.right > first + HAIR and box.left < last - HAIR
                ),
            )
        )
    return tuple(found)


def _longest(here: Sequence[Boxed], stretch: Stretch, count: int) -> Mm:
    """Return how long runs must be for no more than ``count`` of them, found by halving."""
    short, long = 0.0, stretch.length + HAIR
    if count == 1:
        return long
    for _ in range(_STEPS):
        middle = (short + long) / 2
        if len(_filled(here, stretch, middle)) <= count:
            long = middle
        else:
            short = middle
    return long


def _filled(here: Sequence[Boxed], stretch: Stretch, most: Mm) -> list[list[Boxed]]:
    """Return the pieces in runs that are filled one after the other up to a length."""
    groups: list[list[Boxed]] = [[]]
    left, right = stretch.start, stretch.start
    for k, held in enumerate(here):
        box = held[1]
        left, right = min(left, box.left), max(right, box.right)
        if k == len(here) - 1:
            right = max(right, stretch.start + stretch.length)
        if groups[-1] and right - left > most:
            groups.append([])
            left, right = box.left, box.right
        groups[-1].append(held)
    return groups
