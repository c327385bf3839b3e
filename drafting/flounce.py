"""A circular flounce at the hem: slit rings whose inner edge is as long as the hem they meet.

Millimetres and radians. Imports circle, panels and piece.
"""

import math
from dataclasses import replace

from drafting.circle import Flare
from drafting.errors import GeometryError
from drafting.language import say
from drafting.panel_wishes import PanelWishes
from drafting.panels import panel
from drafting.piece import NotchKind, Piece
from drafting.units import Mm

SMALLEST_RING: Mm = 25.0
"""A ring whose inner edge is cut on a smaller radius cannot be clipped to lie flat."""

MOST_RINGS = 60
"""More rings than this is not a flounce that anyone cuts."""


def inner_radius(depth: Mm, ratio: float) -> Mm:
    """Return the radius of the edge that is sewn: D / (k - 1), k the outer over the inner edge."""
    return depth / (ratio - 1)


def ring_count(length: Mm, radius: Mm, *, join: Mm, inner: Mm) -> int:
    """Return how many slit rings reach round ``length``.

    Source: a ring gives 2 pi r less its two joins; the joins, parallel to the slit, must also
    find room where the inner edge is cut, on radius r - ``inner``.

    Raises:
        GeometryError: the inner edge is too tight to be cut at all.
    """
    cut = radius - inner
    if not cut > max(join, SMALLEST_RING):
        raise GeometryError(
            f"a flounce whose inner edge is cut on a radius of {max(cut, 0):.1f} mm cannot be sewn;"
            " make it deeper, or its ratio less"
        )
    by_length = length / (math.tau * radius - 2 * join)
    widest = math.tau - 2 * math.asin(join / cut) - 1e-3
    return math.ceil(max(by_length, length / (radius * widest)) - 1e-9)


def flounce_flare(length: Mm, *, depth: Mm, ratio: float, join: Mm, inner: Mm) -> Flare:
    """Return a flounce in numbers: equal rings, trimmed so that together they are ``length``.

    Args:
        length: of the hem it is sewn to.
        join, inner: allowances at the ends of a ring and at its inner edge.

    Raises:
        GeometryError: the inner edge is too tight to be cut.
    """
    radius = inner_radius(depth, ratio)
    count = ring_count(length, radius, join=join, inner=inner)
    if count > MOST_RINGS:
        raise GeometryError(f"a flounce of {count} rings is more than anyone cuts")
    return Flare(
        fullness=length / (math.tau * radius), panels=count, waistline=length, length=depth
    )


def flounce_piece(flare: Flare, wishes: PanelWishes) -> Piece:
    """Return the one ring that all rings of a flounce are cut from; half of it to a fold."""
    drawn = panel(
        flare,
        replace(
            wishes,
            shape="flounce",
            hem_quarters=False,
            waist_words=say("seam 5: sewn to the skirt's edge"),
        ),
    )
    join = say("seam 5a: flounce join")
    edges = tuple(
        replace(edge, name="inner")
        if edge.name == "waist"
        else edge
        if edge.name in ("hem", "fold")
        else replace(edge, name="join", words=join)
        for edge in drawn.edges
    )
    # Its quarters meet the skirt's, whichever place of the body lies there.
    notches = tuple(
        replace(notch, kind=NotchKind.BALANCE, strokes=1) if notch.edge == 3 else notch
        for notch in drawn.notches
    )
    return replace(drawn, name="flounce ring", edges=edges, notches=notches)
