"""A plain figure of the wearer's own height, waist and hip, in a thin dotted line.

Millimetres on the page, the middle of the skirt's waist seam at the origin. Imports the wearer,
the silhouette's widths and ink.
"""

import itertools
import math
from collections.abc import Iterator

from drafting.geometry import Point
from drafting.spec import Wearer
from drafting.units import Mm
from render.drawing import Drawing, together
from render.pictures.ink import BODY, line
from render.pictures.silhouette import HALF_OF_GIRTH, body_half

GROWN: Mm = 1700.0
"""A body of this height has the head of a grown one: an eighth of it."""

STEPS = 16


def figure(wearer: Wearer, by: float, seam_below: Mm, skirt: Mm) -> Drawing:
    """Return the figure: head, torso down to the hip, and the legs below the skirt's hem.

    Args:
        by: scale of the page.
        seam_below: from the natural waist to the skirt's waist seam.
        skirt: length of the skirt from there.
    """
    up = seam_below * by

    def place(x: Mm, y: Mm) -> Point:
        return Point(x * by, y * by + up)

    drawn = [line(*(place(x, y) for x, y in _head(wearer)), pen=BODY)]
    torso = list(_torso(wearer))
    for side in (-1, 1):
        drawn.append(line(*(place(side * x, y) for x, y in torso), pen=BODY))
        for leg in _legs(wearer):
            shown = _below(leg, -seam_below - skirt - 4 / by)
            if len(shown) > 1:
                drawn.append(line(*(place(side * x, y) for x, y in shown), pen=BODY))
    return together(*drawn)


def _head_height(wearer: Wearer) -> Mm:
    # A form at half scale is a grown body halved; a child's head is larger for its height.
    height = wearer.height if wearer.height > 700 or wearer.waist > 450 else wearer.height * 2
    share = 0.128 + 0.06 * min(max((GROWN - height) / GROWN, 0.0), 0.5)
    return share * wearer.height


def _crown(wearer: Wearer) -> Mm:
    """Return how high the top of the head lies above the natural waist."""
    return wearer.height - wearer.floor_side


def _head(wearer: Wearer) -> Iterator[tuple[Mm, Mm]]:
    high = _head_height(wearer)
    middle = _crown(wearer) - high / 2
    for k in range(2 * STEPS + 1):
        angle = math.pi * (k / STEPS - 0.5)
        yield 0.36 * high * math.cos(angle), middle + high / 2 * math.sin(angle)


def _torso(wearer: Wearer) -> Iterator[tuple[Mm, Mm]]:
    """Yield one side from the neck down to a little below the hip."""
    head, crown = _head_height(wearer), _crown(wearer)
    neck = crown - head
    shoulder = neck - 0.42 * head
    waist = wearer.waist * HALF_OF_GIRTH
    wide = max(0.105 * wearer.height, waist * 1.15)
    chest = max(0.082 * wearer.height, waist * 1.08)
    yield 0.2 * head, neck
    yield 0.22 * head, neck - 0.18 * head
    yield 0.75 * wide, shoulder + 0.1 * head
    yield wide, shoulder - 0.06 * head
    yield 0.93 * wide, shoulder - 0.4 * head
    yield chest, shoulder - 0.75 * head
    for k in range(1, STEPS + 1):
        share = k / STEPS
        eased = (1 - math.cos(math.pi * share)) / 2
        y = (shoulder - 0.75 * head) * (1 - share)
        yield chest + (waist - chest) * eased, y
    for k in range(1, STEPS + 1):
        down = wearer.hip_depth * 1.15 * k / STEPS
        yield body_half(wearer, down), -down


def _legs(wearer: Wearer) -> Iterator[list[tuple[Mm, Mm]]]:
    """Yield the outer and the inner line of one leg, from the hip to the foot."""
    high, hip = wearer.height, wearer.hip * HALF_OF_GIRTH
    foot = -(wearer.floor_side + wearer.heel)
    ankle, knee = foot + wearer.heel + 0.045 * high, -wearer.waist_to_knee
    calf = knee - 0.32 * (knee - ankle)
    leg = hip * 0.62  # middle of the knee's outer side
    yield _smooth(
        [(hip, -wearer.hip_depth), (leg, knee), (leg * 0.98, calf), (0.62 * leg, ankle),
         (0.75 * leg, foot)]
    )  # fmt: skip
    yield _smooth(
        [(0.02 * high, -wearer.hip_depth * 1.5), (0.22 * leg, knee), (0.16 * leg, calf),
         (0.2 * leg, ankle), (0.18 * leg, foot), (0.75 * leg, foot)]
    )  # fmt: skip


def _smooth(points: list[tuple[Mm, Mm]]) -> list[tuple[Mm, Mm]]:
    """Return a soft line through points, without a corner but at the ends."""
    found = [points[0]]
    for (ax, ay), (bx, by) in itertools.pairwise(points):
        for k in range(1, 9):
            share = k / 8
            eased = share * share * (3 - 2 * share)
            found.append((ax + (bx - ax) * eased, ay + (by - ay) * share))
    return found


def _below(points: list[tuple[Mm, Mm]], level: Mm) -> list[tuple[Mm, Mm]]:
    return [(x, y) for x, y in points if y < level]
