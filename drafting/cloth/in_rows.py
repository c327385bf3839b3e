"""Rows of boxes: what a teacher draws by hand, and an upper bound for every other plan.

Millimetres. Imports shapes and lays.
"""

import math
from collections.abc import Sequence

from drafting.cloth.boxes import rows_of_boxes
from drafting.cloth.lays import Laid
from drafting.cloth.shapes import HAIR, Shape
from drafting.geometry import Box, path_length
from drafting.units import Mm


def copies(shape: Shape) -> tuple[bool, ...]:
    """Return, for every shape that is cut, whether it is a mirror image."""
    images = shape.count // 2 if shape.mirrored else 0
    return (False,) * (shape.count - images) + (True,) * images


def at(shape: Shape, copy: int, extra: float, x: Mm, y: Mm, *, flipped: bool) -> Laid:
    """Return a shape laid with the lower left corner of its box at a place.

    Args:
        extra: how it is turned besides lying with its grain along the cloth.
    """
    box = shape.box(extra, flipped=flipped)
    return Laid(
        shape=shape,
        copy=copy,
        x=x - box.left,
        y=y - box.bottom,
        turn=shape.turn(extra, flipped=flipped),
        flipped=flipped,
    )


def in_rows(shapes: Sequence[Shape], width: Mm) -> tuple[tuple[Laid, ...], Mm]:
    """Return every shape in rows across the width, and the length that the rows take.

    The longest boxes go first; each goes into the first row that has room beside the others
    (trade habit). A shape wider than the cloth makes a row of its own.
    """
    plain = [(shape.box(shape.first_turn(width)), shape) for shape in shapes if not shape.bias]
    waiting = sorted(plain, key=lambda each: (-each[0].width, -each[0].height))
    rows: list[tuple[Mm, Mm, Mm]] = []  # where it begins, its length, how much is taken
    found: list[Laid] = []
    for box, shape in waiting:
        first, extra = 0, shape.first_turn(width)
        for copy, flipped in enumerate(copies(shape), start=1):
            # Boxes that are alike fill the rows in order: those that were full stay full.
            while first < len(rows) and not _fits(rows[first], box, width):
                first += 1
            if first == len(rows):
                rows.append((_end(rows), box.width, 0.0))
            start, long, taken = rows[first]
            found.append(at(shape, copy, extra, start, taken, flipped=flipped))
            rows[first] = (start, long, taken + box.height)
    for shape in shapes:
        if not shape.bias:
            continue
        # Slanting lengths lie close to each other, as one block.
        start, box = _end(rows), shape.box()
        apart = bias_step(shape)
        found += [
            at(shape, copy, 0.0, start + apart * (copy - 1), 0.0, flipped=False)
            for copy in range(1, shape.count + 1)
        ]
        rows.append((start, box.width + apart * (shape.count - 1), width))
    return tuple(found), _end(rows)


def bias_step(shape: Shape) -> Mm:
    """Return how much of the cloth's length each further length of a bias strip takes."""
    return path_length(shape.outline[:1])


def rows_length(shapes: Sequence[Shape], width: Mm) -> Mm:
    """Return the length that rows take, without laying each shape: a net may take thousands."""
    boxes = [
        (shape.box(shape.first_turn(width)), shape.count) for shape in shapes if not shape.bias
    ]
    slanting = (
        shape.box().width + bias_step(shape) * (shape.count - 1) for shape in shapes if shape.bias
    )
    return rows_of_boxes(boxes, width) + math.fsum(slanting)


def _end(rows: Sequence[tuple[Mm, Mm, Mm]]) -> Mm:
    return rows[-1][0] + rows[-1][1] if rows else 0.0


def _fits(row: tuple[Mm, Mm, Mm], box: Box, width: Mm) -> bool:
    return row[2] + box.height <= width + HAIR
