"""Laying cloth folded selvage to selvage: halves on the fold, pairs beside them.

Millimetres. A shape that is the same on both sides, or that is cut in mirrored pairs, is cut
from two layers at once; a half drawn to a lengthwise fold is cut on it; whatever is left over
is laid on a single layer behind. Imports shapes, lays, in_rows and sliding.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from drafting.cloth.in_rows import at, copies
from drafting.cloth.lays import Laid, Lies
from drafting.cloth.shapes import HAIR, Shape
from drafting.cloth.sliding import Job, jobs, slid
from drafting.geometry import bounds, flattened, mirrored, moved
from drafting.piece import FoldWay
from drafting.units import Mm

ALIKE: Mm = 0.5
"""Two outlines whose points lie no further apart than this are cut as one."""


def wants_fold(shapes: Sequence[Shape]) -> bool:
    """Tell whether a lengthwise fold serves a cloth: a half of it is drawn to one."""
    return any(shape.fold_way is FoldWay.LENGTHWISE for shape in shapes)


def folded_jobs(shapes: Sequence[Shape], width: Mm) -> tuple[tuple[Job, ...], tuple[Shape, ...]]:
    """Return what is cut from the folded cloth, and what is left for a single layer.

    Of a pair the job is the one in the upper layer. What is left of a shape are its last copies.

    Args:
        width: between the selvages; folded, half of it is left.
    """
    folded: list[Job] = []
    single: list[Shape] = []
    for shape in shapes:
        tall = shape.box().height
        if shape.fold_way is FoldWay.LENGTHWISE and tall <= width:
            folded += [replace(job, lies=Lies.ON_FOLD) for job in jobs([shape])]
            continue
        doubles = tall <= width / 2 and (shape.mirrored or _same_over(shape))
        pairs = shape.count // 2 if doubles else 0
        folded += [
            Job(shape=shape, copy=2 * k + 1, flipped=False, lies=Lies.UPPER) for k in range(pairs)
        ]
        left = shape.count - 2 * pairs
        if left:
            single.append(replace(shape, count=left, mirrored=shape.mirrored and not pairs))
    return tuple(folded), tuple(single)


def alone(left: Sequence[Shape], fit: Sequence[Shape], width: Mm) -> tuple[Job, ...]:
    """Return what is left for a single layer as jobs for the upper one of the folded cloth.

    Args:
        left: shapes with the count that is left of them; ``fit`` has them whole.
        width: between the selvages; folded, half of it is left.
    """
    whole = {shape.number: shape for shape in fit}
    return tuple(
        Job(
            shape=whole[shape.number],
            copy=whole[shape.number].count - shape.count + copy,
            flipped=flipped,
            lies=Lies.ALONE,
        )
        for shape in left
        if shape.box().height <= width / 2
        for copy, flipped in enumerate(copies(shape), start=1)
    )


def on_fold(folded: Sequence[Job], width: Mm, *, trials: int) -> tuple[tuple[Laid, ...], Mm, Mm]:
    """Return both layers of the folded cloth, opened out, their length, and that of rows."""
    rows = rows_on_fold(folded, width / 2)
    upper, length = min(slid(folded, width / 2, trials=trials), rows, key=lambda plan: plan[1])
    found: list[Laid] = []
    for one in upper:
        found.append(replace(one, y=one.y + width / 2))
        if one.lies is Lies.UPPER:
            found.append(
                replace(
                    one,
                    copy=one.copy + 1,
                    y=width / 2 - one.y,
                    turn=-one.turn,
                    flipped=not one.flipped,
                    lies=Lies.UNDER,
                )
            )
    return tuple(found), length, rows[1]


def rows_on_fold(folded: Sequence[Job], width: Mm) -> tuple[tuple[Laid, ...], Mm]:
    """Return the upper layer in rows of boxes, and their length; y is counted from the fold.

    What lies on the fold begins a row; pairs go where there is room beside it.

    Args:
        width: of the folded cloth.
    """
    found: list[Laid] = []
    rows: list[tuple[Mm, Mm, Mm]] = []
    first_on_fold = sorted(
        folded, key=lambda job: (job.lies is not Lies.ON_FOLD, -job.shape.box().width)
    )
    for job in first_on_fold:
        box, on_fold = job.shape.box(), job.lies is Lies.ON_FOLD
        high = box.height / 2 if on_fold else box.height
        k = next(
            (
                k
                for k, (_, long, taken) in enumerate(rows)
                if not on_fold and box.width <= long + HAIR and taken + high <= width + HAIR
            ),
            len(rows),
        )
        if k == len(rows):
            start = rows[-1][0] + rows[-1][1] if rows else 0.0
            rows.append((start, box.width, 0.0))
        start, long, taken = rows[k]
        low = -high if on_fold else taken
        laid = at(job.shape, job.copy, 0.0, start, low, flipped=job.flipped)
        found.append(replace(laid, lies=job.lies))
        rows[k] = (start, long, taken + high)
    return tuple(found), rows[-1][0] + rows[-1][1] if rows else 0.0


def _same_over(shape: Shape) -> bool:
    """Tell whether a shape is the same when it is mirrored over the length of the cloth.

    Its mirror image may be turned end for end where the cloth allows it.
    """
    own = shape.lying()
    box = bounds(own)
    image = mirrored(own, through=box.centre, along=0.0)
    points = flattened(own, error=1.0)
    for extra in shape.turns:
        if abs(math.sin(extra)) > 1e-9:
            continue
        turned = moved(moved(image, x=-box.centre.x, y=-box.centre.y), turn=extra)
        turned = moved(turned, x=box.centre.x, y=box.centre.y)
        corners = flattened(turned, error=1.0)
        if all(min(math.hypot(p.x - q.x, p.y - q.y) for q in corners) < ALIKE for p in points):
            return True
    return False
