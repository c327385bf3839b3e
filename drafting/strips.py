"""Strips: how many a length takes, how long each is cut, and the four edges of one.

Millimetres. Imports geometry and piece.
"""

import math

from drafting.geometry import Point, straight
from drafting.piece import Edge, EdgeKind
from drafting.units import Mm

END_HEM: Mm = 10.0
"""Hem at each end of a joined strip that does not close to a ring."""

JOINT: Mm = 20.0
"""What each further joint of a bias strip takes."""


def strip_count(flat: Mm, usable_width: Mm, *, join_allowance: Mm, ring: bool) -> tuple[int, Mm]:
    """Return how many strips across the cloth a ruffle takes, and the cut length of each.

    Strips are trimmed alike, so the ratio stays what was asked for. A cloth too narrow for
    one join and its hems gives 0 strips. Source: a ring of N strips gives N (cut - 2a); an
    open ruffle has N - 1 joins and a hem at each end.
    """
    a = join_allowance
    if usable_width <= 2 * max(a, END_HEM):
        return 0, 0.0
    if ring:
        count = max(1, math.ceil(flat / (usable_width - 2 * a) - 1e-9))
        return count, flat / count + 2 * a
    count = max(1, math.ceil((flat - 2 * a + 2 * END_HEM) / (usable_width - 2 * a) - 1e-9))
    return count, (flat + 2 * a * (count - 1) + 2 * END_HEM) / count


Rim = tuple[str, Mm, EdgeKind, str]
"""Name, allowance, kind and words of one edge."""


def rectangle(long: Mm, high: Mm, rims: tuple[Rim, Rim, Rim, Rim]) -> tuple[Edge, ...]:
    """Return the stitching line of a strip: its lower edge from the origin, then round to it."""
    corners = (Point(0.0, 0.0), Point(long, 0.0), Point(long, high), Point(0.0, high))
    return tuple(
        Edge(name=name, path=straight(one, other), allowance=width, kind=kind, words=words)
        for (name, width, kind, words), one, other in zip(
            rims, corners, corners[1:] + corners[:1], strict=True
        )
    )
