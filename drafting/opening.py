"""Openings: how long a slit must be for the hip to pass, and which zip that takes.

Millimetres and radians. Imports units and errors.
"""

import math

from drafting.errors import MeasurementError
from drafting.units import MM_PER_INCH, Mm, Units

PASSING_EASE: Mm = 40.0
"""Room for a hand and the underclothes when the hip passes the opening (20 to 80)."""

SHORTEST_SLIT: Mm = 170.0
"""A shorter opening strains at its end however small the hip."""

_INCHES = (6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 24)

PAST_THE_HIP: Mm = 60.0
"""How far below the hip an opening may reach before the loop alone must ask for it."""

SHORT_SHARE = 0.6
"""On a short layer habit gives way: it opens this share of its length if the hip passes."""

ZIPS: dict[Units, tuple[Mm, ...]] = {
    Units.CM: (150, 180, 200, 220, 250, 300, 350, 400, 500, 550, 600),
    Units.INCH: tuple(MM_PER_INCH * inches for inches in _INCHES),
}
"""Lengths in which skirt zips are sold, by the rule they are sold by."""


def loop(radius: Mm, slit: Mm, *, fullness: float) -> Mm:
    """Return the girth of a string pulled tight round a waist hole and over the slit's end.

    Source: the cloth laid out is a sector of angle 2 pi F. The shortest way round its hole
    from the slit's end and back is two tangents to the waist circle and the arc between
    them; where the sector is too narrow for both tangents it is a chord of radius r + z.
    """
    reach = radius + slit
    turn = math.acos(min(radius / reach, 1.0))
    if turn <= math.pi * fullness:
        return 2 * math.sqrt(reach**2 - radius**2) + radius * (math.tau * fullness - 2 * turn)
    return 2 * reach * math.sin(math.pi * fullness)


def least_slit(waist: Mm, girth: Mm, *, fullness: float) -> Mm:
    """Return the shortest slit whose taut loop lets ``girth`` through, to 0.001 mm.

    Args:
        waist: the smaller of the flat and the finished waist seam.

    Raises:
        MeasurementError: no slit lets it through.
    """
    radius = waist / (math.tau * fullness)
    if waist >= girth:
        return 0.0
    low, high = 0.0, 4 * girth
    if loop(radius, high, fullness=fullness) < girth:
        raise MeasurementError("hip with its passing ease", girth, 0, waist)
    while high - low > 1e-4:
        middle = (low + high) / 2
        low, high = (
            (middle, high) if loop(radius, middle, fullness=fullness) < girth else (low, middle)
        )
    return high


def slit_length(
    *,
    hip: Mm,
    hip_depth: Mm,
    finished_waist: Mm,
    line: Mm,
    fullness: float | None,
    gathered: bool,
    length: Mm = math.inf,
    scale: float = 1.0,
) -> Mm:
    """Return how long to leave a layer open below its waist seam.

    Source: the taut loop rules; never shorter than half the missing girth, nor than 17 cm on a
    layer long enough for it, and
    never past 6 cm below the hip unless the loop itself demands it. Over a gathered waist
    the opening also reaches the hip, or the gathers tear when it is drawn on.

    Args:
        fullness: circles that the layer's cone comes to above the hip; None for gathered
            lengths, where the waist and the two edges of the slit are the whole loop.
        length: the layer's: habit gives way on a short one, the loop never does.
        scale: of the draft, by which the habits' lengths shrink.
    """
    girth = hip + PASSING_EASE * scale
    simple = (girth - finished_waist) / 2
    taut = (
        max(simple, 0.0)
        if fullness is None
        else least_slit(min(line, finished_waist), girth, fullness=fullness)
    )
    habit = min(max(SHORTEST_SLIT * scale, hip_depth if gathered else 0), SHORT_SHARE * length)
    wanted = max(taut, habit, simple)
    return min(wanted, max(taut, hip_depth + PAST_THE_HIP * scale))


def zip_length(opening: Mm, units: Units = Units.CM) -> Mm | None:
    """Return the shortest zip sold that is at least ``opening`` long, or None if none is."""
    return next((length for length in ZIPS[units] if length >= opening - 1e-6), None)
