"""A lay plan held against the cloth and the cut list. The one home of shapely in the drafts.

Millimetres. Imports lays and geometry.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from drafting.cloth.lays import Laid, Lay, Lies
from drafting.cloth.shapes import Shape
from drafting.geometry import MEETING, Point, distance, flattened
from drafting.units import Mm

OVERLAP = 0.01
"""Two pieces may share no more than this, in mm2: less than a pencil's point."""

BEYOND: Mm = 0.01
"""And none may reach further than this beyond the cloth."""

ALONG = 1e-6
"""Greatest angle between a grainline and the cloth's length, in radians."""


def faults(lay: Lay, wanted: Sequence[Shape] | None = None) -> tuple[str, ...]:
    """Return what is wrong with a plan, a sentence each; a sound plan has no fault.

    Args:
        wanted: every shape that it must lay; those that it does lay if None.
    """
    counts = _counts(lay, lay.shapes if wanted is None else wanted)
    return (*_overlaps(lay), *_outside(lay), *_off_grain(lay), *counts, *_on_folds(lay))


def _named(laid: Laid) -> str:
    return f"{laid.shape.name} {laid.copy}"


def _overlaps(lay: Lay) -> Iterator[str]:
    from shapely import STRtree
    from shapely.geometry import Polygon

    solids = [Polygon(_corners(one)) for one in lay.laid]
    for one, solid in zip(lay.laid, solids, strict=True):
        if not solid.is_valid:
            yield f"the outline of {_named(one)} crosses itself"
    if not solids or any(not solid.is_valid for solid in solids):
        return
    pairs = STRtree(solids).query(solids, predicate="intersects").T
    for k, m in sorted((int(k), int(m)) for k, m in pairs if k < m):
        shared = solids[k].intersection(solids[m]).area
        if shared > OVERLAP:
            yield f"{_named(lay.laid[k])} lies on {_named(lay.laid[m])}, {shared:.2f} mm2 of it"


def _corners(laid: Laid) -> list[Point]:
    """Return points along an outline, none twice: a joint of two curves is known to a hair."""
    points = flattened(laid.outline)
    return [one for one, other in pairwise(points) if distance(one, other) > MEETING]


def _outside(lay: Lay) -> Iterator[str]:
    for one in lay.laid:
        box = one.box
        low = min(box.left, box.bottom)
        if low < -BEYOND or box.right > lay.length + BEYOND or box.top > lay.usable + BEYOND:
            yield f"{_named(one)} lies beyond the cloth"


def _off_grain(lay: Lay) -> Iterator[str]:
    for one in lay.laid:
        turns = one.shape.turns
        if all(abs(math.remainder(one.extra - turn, math.tau)) > ALONG for turn in turns):
            yield f"{_named(one)} does not lie on the grain"


def _counts(lay: Lay, wanted: Sequence[Shape]) -> Iterator[str]:
    found = Counter(one.shape.number for one in lay.laid)
    images = Counter(one.shape.number for one in lay.laid if one.flipped)
    for shape in wanted:
        times, mirrored = found[shape.number], images[shape.number]
        if times != shape.count:
            yield f"{shape.name} lies {times} times, and is cut {shape.count} times"
        if shape.mirrored and mirrored != shape.count // 2:
            yield f"{mirrored} of {shape.count} of {shape.name} are mirrored"


def _on_folds(lay: Lay) -> Iterator[str]:
    """Yield what does not match its other layer over the fold."""
    middle = lay.usable / 2
    under = [one for one in lay.laid if one.lies is Lies.UNDER]
    for one in lay.laid:
        box = one.box
        if one.lies is Lies.ON_FOLD and abs(box.centre.y - middle) > BEYOND:
            yield f"{_named(one)} does not lie with its middle on the fold"
        if one.lies is Lies.UPPER and not any(_matches(one, other, middle) for other in under):
            yield f"{_named(one)} has nothing under it"


def _matches(one: Laid, other: Laid, middle: Mm) -> bool:
    return (
        one.shape.number == other.shape.number
        and one.flipped is not other.flipped
        and abs(one.x - other.x) < BEYOND
        and abs(one.y + other.y - 2 * middle) < BEYOND
        and abs(math.remainder(one.turn + other.turn, math.tau)) < ALONG
    )
