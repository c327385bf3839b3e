"""The edges of a panel and what is marked on any of them: grain, notches, rows and dots.

Millimetres and radians. Imports geometry, outline, piece and the spec's words.
"""

import math
from itertools import pairwise

from drafting.allowance import Widths, beside
from drafting.errors import GeometryError
from drafting.geometry import (
    Arc,
    Line,
    Point,
    Segment,
    direction_along,
    distance,
    holds,
    path_length,
    point_along,
    sketched,
    stepped,
)
from drafting.language import say
from drafting.outline import Cut, Outline, outline_of
from drafting.panel_wishes import PanelWishes
from drafting.piece import Dot, Edge, EdgeKind, InnerKind, InnerLine, Mark, Notch, NotchKind
from drafting.places import first_seam, seam_names
from drafting.spec import Grain
from drafting.units import Mm


def panel_edges(
    shape: Outline, wishes: PanelWishes, first: tuple[str, str], last: tuple[str, str] | None
) -> tuple[Edge, ...]:
    """Return a panel's four edges.

    Args:
        first, last: name and words of its straight edges; a last of None is a fold.
    """
    widths = wishes.allowances
    if last is None:
        end = Edge(name="fold", path=shape.finish, allowance=0.0, kind=EdgeKind.FOLD)
    else:
        end = Edge(name=last[0], path=shape.finish, allowance=widths.side, words=last[1])
    return (
        Edge(name=first[0], path=shape.begin, allowance=widths.side, words=first[1]),
        Edge(
            name="hem",
            path=shape.hem,
            allowance=widths.hem + widths.spare,
            kind=EdgeKind.SEAM if wishes.hem_seam else EdgeKind.HEM,
            words=wishes.hem_words,
            goes_on=wishes.hem_goes_on,
        ),
        end,
        Edge(name="waist", path=shape.waist, allowance=widths.waist, words=wishes.waist_words),
    )


_OR = "_or_"


def edge_name(*names: str) -> str:
    """Return the name of an edge that is one or another seam: ``right_side_or_left_side``."""
    return _OR.join(names).replace(" ", "_")


def seams_at(edge: Edge) -> tuple[str, ...]:
    """Return the seams that an edge's name was made from."""
    return tuple(name.replace("_", " ") for name in edge.name.split(_OR))


ROW_ABOVE: Mm = 3.0
ROW_BELOW: Mm = 4.0
"""Gathering rows straddle the waist seam: one in the allowance, one below, pulled out after."""


def gathering_rows(shape: Outline, wishes: PanelWishes) -> tuple[InnerLine, ...]:
    """Return the rows that a gathered waist is drawn up by, told from its raw edge."""
    if not wishes.gathered:
        return ()
    return tuple(
        InnerLine(
            kind=InnerKind.GATHERING,
            path=beside(shape.waist, out),
            words=say(
                "gathering row, {distance} mm from the raw edge",
                distance=f"{wishes.allowances.waist - out:.0f}",
            ),
            shorter=(say("gathering row"),),
        )
        for out in (min(ROW_ABOVE, wishes.allowances.waist / 2), -ROW_BELOW)
    )


def side_dots(
    shape: Outline, wishes: PanelWishes, edges: tuple[Edge, ...], cut: Cut
) -> tuple[Dot, ...]:
    """Return where godets begin, on every seam, and pockets, on the seams at the sides."""
    found: list[Dot] = []
    folded = edges[2].kind is EdgeKind.FOLD
    for side in (0,) if folded else (0, 2):
        if wishes.godet:
            words = say("godet from here to the hem")
            found.append(dot_at(shape, side, -wishes.godet, words, Mark.GODET_BEGINS))
        if wishes.pocket is None:
            continue
        words_of = _pocket_words(edges[side], wishes, cut, folded=folded)
        if words_of is not None:
            (top, bottom), (first, last) = wishes.pocket, words_of
            found.append(dot_at(shape, side, top, first, Mark.POCKET_BEGINS))
            found.append(dot_at(shape, side, bottom, last, Mark.POCKET_ENDS))
    return tuple(found)


def _pocket_words(
    edge: Edge, wishes: PanelWishes, cut: Cut, *, folded: bool
) -> tuple[str, str] | None:
    """Return what is written beside a pocket's two marks on an edge, or None where it has none.

    Args:
        folded: the piece is a half, so that its edge stands for the one across the fold too.
    """
    seams = seam_names(cut.panels, wishes.closure)
    here = seams_at(edge)
    if (cut.alike and cut.panels > 2) or (folded and cut.panels == 2):
        here = tuple(dict.fromkeys(seams))
    free = [name for name in ("right side", "left side") if name in here and name != wishes.closure]
    if not free:
        return None
    if len(free) == len(here):
        return say("pocket from here"), say("pocket to here")
    if len(free) == 2:
        return say("pocket from here (side seams only)"), say("pocket to here (side seams only)")
    if free[0] == "right side":
        return say("pocket from here (right side only)"), say("pocket to here (right side only)")
    return say("pocket from here (left side only)"), say("pocket to here (left side only)")


def is_rectangle(shape: Outline) -> bool:
    """Tell whether a panel is four straight edges at right angles, which a rule draws as well."""
    edges = (shape.begin, shape.hem, shape.finish, shape.waist)
    if any(len(edge) != 1 or not isinstance(edge[0], Line) for edge in edges):
        return False
    turns = [direction_along(edge, 0.0) for edge in edges]
    return all(
        abs(math.cos(one - other)) < 1e-9
        for one, other in zip(turns, turns[1:] + turns[:1], strict=True)
    )


def grainline(shape: Outline, wishes: PanelWishes, *, half: bool) -> tuple[Point, Point]:
    """Return a grainline that stays inside the panel, at least 150 mm long where it can be."""
    outline = sketched((*shape.begin, *shape.hem, *shape.finish, *shape.waist))
    deep = min(path_length(shape.begin), path_length(shape.finish))
    long = min(max(0.45 * deep, 150.0), 350.0, 0.9 * deep)
    share = 1.0
    while True:
        ends = _grain_ends(shape, wishes, deep, long * share, share, half=half)
        if share < 0.1 or all(holds(outline, end) for end in ends):
            return ends
        share *= 0.85


def _grain_ends(
    shape: Outline, wishes: PanelWishes, deep: Mm, long: Mm, near: float, *, half: bool
) -> tuple[Point, Point]:
    """Return the ends of a grainline; ``near`` of 1 sets it 45 mm inside its edge, less nearer."""
    other = path_length(shape.finish)
    wide = distance(point_along(shape.begin, deep / 2), point_along(shape.finish, other - deep / 2))
    aside = min(45.0, 0.3 * wide) * near
    if wishes.grain is Grain.EDGE:
        along = direction_along(shape.begin, deep / 2)
        middle = stepped(point_along(shape.begin, deep / 2), along + math.pi / 2, aside)
    elif half:
        # Parallel to the fold, a little inside it.
        along = direction_along(shape.finish, other - deep / 2) + math.pi
        fold = point_along(shape.finish, other - deep / 2)
        middle = stepped(fold, along - math.pi / 2, aside)
    else:
        top = point_along(shape.waist, path_length(shape.waist) / 2)
        low = point_along(shape.hem, path_length(shape.hem) / 2)
        along = math.atan2(low.y - top.y, low.x - top.x)
        middle = stepped(top, along, deep / 2)
    return stepped(middle, along, -long / 2), stepped(middle, along, long / 2)


GODET_SEAM = "6"
"""Number of the seams that godets are set in by."""


def side_notches(long: Mm) -> tuple[Mm, ...]:
    """Return how far below the waist seam a straight seam is notched: one mark, two if long."""
    # Both edges of a seam must agree, though their lengths differ in the last bits.
    return (0.6 * long,) if round(long, 3) <= 700 else (0.4 * long, 0.75 * long)


def balance_notches(edge: int, long: Mm, seam: str, godet: Mm) -> list[Notch]:
    """Return the balance notches of a side edge, counted from the waist on both its seams.

    Below the top of a godet they meet the godet's, and bear its seam's number.
    """
    sewn = long - godet
    marks = [(below, order, seam) for order, below in enumerate(side_notches(sewn), start=1)]
    if godet:
        marks += [(sewn + b, k, GODET_SEAM) for k, b in enumerate(side_notches(godet), start=1)]
    return [
        Notch(
            edge=edge,
            at=below if edge == 0 else long - below,
            kind=NotchKind.BALANCE,
            strokes=order,
            seam=number,
        )
        for below, order, number in marks
    ]


def hem_middle(wishes: PanelWishes, hem: Mm, *, half: bool) -> tuple[Notch, ...]:
    """Return the mark where the middle of a panel's hem meets what is sewn to it."""
    if not wishes.hem_seam or wishes.hem_quarters:
        return ()
    at = hem if half else hem / 2
    return (Notch(edge=1, at=at, kind=NotchKind.BALANCE, seam=wishes.hem_seam),)


def seam_marks(wishes: PanelWishes, *, alike: bool = False) -> list[tuple[Mm, str]]:
    """Return what is marked on the closure seam: below the waist, or above the hem if negative.

    Args:
        alike: other seams bear the mark too, so that it says which one is meant.
    """
    marks = []
    if wishes.opening:
        words = say("opening ends (closure seam)") if alike else say("opening ends")
        marks.append((wishes.opening, words))
    if wishes.vent:
        words = (
            say("vent begins, open from here to the hem (closure seam)")
            if alike
            else say("vent begins, open from here to the hem")
        )
        marks.append((-wishes.vent, words))
    return marks


def dot_at(shape: Outline, side: int, below: Mm, words: str, mark: Mark | None = None) -> Dot:
    """Return a dot on the first edge (0) or the last (2), ``below`` its waist."""
    path = shape.begin if side == 0 else shape.finish
    long = path_length(path)
    down = below if below >= 0 else long + below
    return Dot(at=point_along(path, down if side == 0 else long - down), words=words, mark=mark)


def check_room(cut: Cut, wishes: PanelWishes) -> None:
    """Make sure that a layer's panels have room for their side allowances at the waist.

    Raises:
        GeometryError: they have not.
    """
    if cut.fullness is not None and cut.waist_radius is not None:
        _require_room(wishes.part, cut.waist_radius, _widest(cut, wishes), wishes.allowances)


def _widest(cut: Cut, wishes: PanelWishes) -> float:
    """Return the angle of the widest panel: under a tilted waist they differ by a few degrees."""
    if cut.panel_angle is not None:
        return cut.panel_angle
    start = first_seam(cut.panels, wishes.closure)
    seams = [start + k / cut.panels for k in range(cut.panels + 1)]
    hems = [outline_of(cut, begin, finish).hem for begin, finish in pairwise(seams)]
    return max(math.fsum(_turned(part) for part in hem) for hem in hems)


def _turned(segment: Segment) -> float:
    """Return the angle an arc goes through; a line goes straight on."""
    return abs(segment.finish - segment.begin) if isinstance(segment, Arc) else 0.0


def _require_room(part: str, waist: Mm, angle: float, allowances: Widths) -> None:
    """Make sure that the two side allowances of a sector do not run into each other.

    Raises:
        GeometryError: they do, at the panel's waist.
    """
    cut, side = waist - allowances.waist, allowances.side
    taken = 2 * math.asin(min(side / cut, 1.0)) if cut > side else math.tau
    if not angle + taken < math.tau:
        raise GeometryError(
            f"at a waist cut on a radius of {cut:.1f} mm, a {part} panel of"
            f" {math.degrees(angle):.0f} degrees has no room for side allowances of {side:g} mm"
        )
