"""The panels of a layer as pieces, whatever the cut: one builder for every outline.

Millimetres and radians. A cut says how its panels are shaped and how long the layer is round
the body; here they get names, allowances, notches, the ruffle's line and the opening. Panels
that are all alike are one piece; panels that differ get names of their own and are never cut
on one fold, and those that mirror each other are cut as a pair. Imports geometry, outline,
piece, places and the spec's words.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Protocol, Self

from drafting.allowance import Widths, beside
from drafting.around import ALIKE, Around
from drafting.errors import GeometryError
from drafting.geometry import (
    Line,
    Path,
    Point,
    direction_along,
    distance,
    holds,
    path_length,
    point_along,
    sketched,
    stepped,
)
from drafting.outline import Outline
from drafting.piece import (
    Dot,
    Edge,
    EdgeKind,
    FoldWay,
    InnerKind,
    InnerLine,
    Notch,
    NotchKind,
    Piece,
)
from drafting.places import (
    PLACES,
    STROKES,
    first_seam,
    place_name,
    place_words,
    places_on_panel,
    seam_names,
)
from drafting.spec import Closure, Grain
from drafting.units import Mm


class Cut(Protocol):
    """A way of cutting a layer: its numbers, and the outline of any of its panels.

    Places round the body are shares of a turn from centre back by way of the right side.
    Radii are None where a cut has none.
    """

    def __hash__(self) -> int:
        """A cut is a value, and what was worked out for it once is kept."""

    @property
    def panels(self) -> int:
        """How many panels."""

    @property
    def waistline(self) -> Mm:
        """Length of the flat waist seam all round."""

    @property
    def around(self) -> Around:
        """Lengths from the waist seam to the finished hem."""

    @property
    def length(self) -> Mm:
        """Least of those lengths."""

    @property
    def alike(self) -> bool:
        """Whether all panels are cut from one pattern."""

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all round."""

    @property
    def fullness(self) -> float | None:
        """Circles it is cut from, or that its flare comes to."""

    @property
    def panel_angle(self) -> float | None:
        """Angle of one panel, where all have the same."""

    @property
    def waist_radius(self) -> Mm | None:
        """Smallest radius of the waist seam."""

    @property
    def hem_radius(self) -> Mm | None:
        """Smallest radius of the finished hem."""

    def divided(self, panels: int) -> Self:
        """Return the same layer in so many panels."""

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam."""

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return that line between two places, in the frame of the panel that begins there."""

    def outline(self, begin: float, finish: float) -> Outline:
        """Return the panel between two places."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelWishes:
    """How a layer's panels are to be drawn.

    Attributes:
        part: ``skirt`` or ``lining``; begins the piece's name and names its cloth.
        half: draw half of the panel, to a fold.
        hem_quarters: mark the hem at the quarters of the body, for what is gathered or joined
            to it all round; else in the middle of each panel.
        opening: length of the slit below the waist seam, or 0 for none.
        vent: length that the closure seam is left open up from the hem, or 0 for none.
        seam: number of the seams between panels; ``waist_seam`` of the seam at the waist,
            ``hem_seam`` of what is sewn to the hem, or empty for a hem that is turned.
        ruffle_line: how far below the waist seam a ruffle is sewn, at the least length, or None.
        ruffle_words: what is written along that line.
        hem_words: what is written along the hem.
        pocket: from where to where below the waist the side seams are left open for pockets.
        gathered: the waist edge is gathered; its rows are drawn.
        godet: how far up from the hem a godet is set into every seam, or 0.
        shape: what a panel that is like all others is called: panel, gore, length.
    """

    part: str
    allowances: Widths
    grain: Grain
    closure: Closure
    opening: Mm = 0.0
    vent: Mm = 0.0
    seam: str = ""
    waist_seam: str = ""
    hem_seam: str = ""
    hem_quarters: bool = False
    half: bool = False
    fold_way: FoldWay = FoldWay.NONE
    ruffle_line: Mm | None = None
    ruffle_words: str = ""
    waist_words: str = "waist"
    hem_words: str = "hem"
    pocket: tuple[Mm, Mm] | None = None
    godet: Mm = 0.0
    gathered: bool = False
    shape: str = "panel"
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A panel's place round the body: from share to share, and its number from the closure."""

    index: int
    begin: float
    finish: float

    @property
    def middle(self) -> float:
        """The share half way across."""
        return (self.begin + self.finish) / 2


def layer_pieces(cut: Cut, wishes: PanelWishes) -> tuple[Piece, ...]:
    """Return the pieces of one layer: one for panels that are all alike, else one for each kind.

    Raises:
        GeometryError: a panel cannot be drawn at these measures.
    """
    if cut.alike:
        return (panel(cut, wishes),)
    return _differing_panels(cut, wishes)


def _check_room(cut: Cut, wishes: PanelWishes) -> None:
    if cut.fullness is not None and cut.waist_radius is not None:
        # Panels under a tilted waist differ by a few degrees from an equal share.
        angle = cut.panel_angle or math.tau * cut.fullness / cut.panels
        require_room(wishes.part, cut.waist_radius, angle, wishes.allowances)


@lru_cache(maxsize=256)
def outline_of(cut: Cut, begin: float, finish: float) -> Outline:
    """Return the panel between two places, worked out once for all who ask for it.

    Raises:
        GeometryError: it cannot be drawn at these measures.
    """
    return cut.outline(begin, finish)


def require_room(part: str, waist: Mm, angle: float, allowances: Widths) -> None:
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


# --- edges, the same for every panel -------------------------------------------------------


def _edges(
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
        ),
        end,
        Edge(name="waist", path=shape.waist, allowance=widths.waist, words=wishes.waist_words),
    )


def _edge_name(words: str) -> str:
    return words.replace(" ", "_")


ROW_ABOVE: Mm = 3.0
ROW_BELOW: Mm = 4.0
"""Gathering rows straddle the waist seam: one in the allowance, one below, pulled out after."""


def _gathering_rows(shape: Outline, wishes: PanelWishes) -> tuple[InnerLine, ...]:
    """Return the rows that a gathered waist is drawn up by, told from its raw edge."""
    if not wishes.gathered:
        return ()
    return tuple(
        InnerLine(
            kind=InnerKind.GATHERING,
            path=beside(shape.waist, out),
            words=f"gathering row, {wishes.allowances.waist - out:.0f} mm from the raw edge",
        )
        for out in (min(ROW_ABOVE, wishes.allowances.waist / 2), -ROW_BELOW)
    )


def _side_dots(
    shape: Outline, wishes: PanelWishes, edges: tuple[Edge, ...], cut: Cut
) -> tuple[Dot, ...]:
    """Return where godets begin, on every seam, and pockets, on the seams at the sides."""
    found: list[Dot] = []
    folded = edges[2].kind is EdgeKind.FOLD
    for side in (0,) if folded else (0, 2):
        if wishes.godet:
            found.append(_dot_at(shape, side, -wishes.godet, "godet from here to the hem"))
        if wishes.pocket is None:
            continue
        where = _pocket_words(edges[side], wishes, cut, folded=folded)
        if where is not None:
            top, bottom = wishes.pocket
            found.append(_dot_at(shape, side, top, f"pocket from here{where}"))
            found.append(_dot_at(shape, side, bottom, f"pocket to here{where}"))
    return tuple(found)


def _pocket_words(edge: Edge, wishes: PanelWishes, cut: Cut, *, folded: bool) -> str | None:
    """Return what is added to a pocket's marks on an edge, or None where there is no pocket.

    Args:
        folded: the piece is a half, so that its edge stands for the one across the fold too.
    """
    seams = seam_names(cut.panels, wishes.closure)
    here = edge.words.split(" or ")
    if (cut.alike and cut.panels > 2) or (folded and cut.panels == 2):
        here = list(dict.fromkeys(seams))
    free = [name for name in ("right side", "left side") if name in here and name != wishes.closure]
    if not free:
        return None
    if len(free) == len(here):
        return ""
    return " (side seams only)" if len(free) == 2 else f" ({free[0]} only)"


def _is_rectangle(shape: Outline) -> bool:
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


def _balance(edge: int, long: Mm, seam: str, godet: Mm) -> list[Notch]:
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


# --- panels that are all alike -------------------------------------------------------------


def panel(cut: Cut, wishes: PanelWishes) -> Piece:
    """Return the one pattern piece that all panels of a layer are cut from.

    With two panels the straight edges have names of their own and the pair is mirrored; with
    more, every panel is alike and so are its two edges.

    Raises:
        GeometryError: the panel is a whole circle or more, or its allowances overlap.
    """
    _check_room(cut, wishes)
    begin = first_seam(cut.panels, wishes.closure)
    wide = 1 / cut.panels / (2 if wishes.half else 1)
    shape = outline_of(cut, begin, begin + wide)
    names = _alike_names(cut, wishes)
    words = [_alike_words(cut, wishes, name) for name in names]
    edges = _edges(
        shape,
        wishes,
        (_edge_name(names[0]), words[0]),
        None if wishes.half else (_edge_name(names[1]), words[1]),
    )
    return Piece(
        name=f"{wishes.part} {wishes.shape}",
        edges=edges,
        grainline=grainline(shape, wishes, half=wishes.half),
        cloth=wishes.part,
        count=cut.panels,
        mirrored=cut.panels == 2 and not wishes.half,
        half=wishes.half,
        fold_way=wishes.fold_way if wishes.half else FoldWay.NONE,
        rectangle=_is_rectangle(shape) and not wishes.half,
        notches=_alike_notches(cut, wishes, edges),
        inner_lines=(
            *_alike_ruffle_line(cut, wishes, begin, wide),
            *_gathering_rows(shape, wishes),
        ),
        dots=(*_alike_dots(cut, wishes, shape), *_side_dots(shape, wishes, edges, cut)),
        notes=wishes.notes,
    )


def _alike_names(cut: Cut, wishes: PanelWishes) -> tuple[str, str]:
    names = seam_names(cut.panels, wishes.closure)
    if cut.panels == 1:
        return names[0], names[0]
    if cut.panels == 2 and not wishes.half:
        return names[0], names[1]
    return "panel seam", "panel seam"


def _alike_words(cut: Cut, wishes: PanelWishes, name: str) -> str:
    """Return what is written along a straight edge; half a panel stands for both its edges."""
    if cut.panels == 2 and wishes.half:
        return " or ".join(seam_names(2, wishes.closure))
    return name


def _alike_notches(cut: Cut, wishes: PanelWishes, edges: tuple[Edge, ...]) -> tuple[Notch, ...]:
    sides = (0,) if wishes.half else (0, 2)
    found: list[Notch] = []
    rows = (_balance(side, edges[side].length, wishes.seam, wishes.godet) for side in sides)
    for pair in zip(*rows, strict=True):
        found += pair
    twice = 2 if wishes.half else 1
    waist, hem = edges[3].length, edges[1].length
    for place in places_on_panel(cut.panels, wishes.closure, half=wishes.half):
        same = {STROKES[name] for name in place.names}
        plain = len(same) == 1 and place.panels == cut.panels
        # The waist edge runs from the panel's far side back to its first edge.
        marks = [(3, max(waist - place.share * waist * twice, 0.0), wishes.waist_seam)]
        if wishes.hem_seam and wishes.hem_quarters:
            marks.append((1, min(place.share * hem * twice, hem), wishes.hem_seam))
        found += [
            Notch(
                edge=edge,
                at=at,
                kind=NotchKind.PLACE if plain and edge == 3 else NotchKind.BALANCE,
                strokes=STROKES[place.names[0]] if plain and edge == 3 else 1,
                seam=seam,
                words=place_words(place, cut.panels),
            )
            for edge, at, seam in marks
        ]
    return (*found, *_hem_middle(wishes, hem, half=wishes.half))


def _hem_middle(wishes: PanelWishes, hem: Mm, *, half: bool) -> tuple[Notch, ...]:
    """Return the mark where the middle of a panel's hem meets what is sewn to it."""
    if not wishes.hem_seam or wishes.hem_quarters:
        return ()
    at = hem if half else hem / 2
    return (Notch(edge=1, at=at, kind=NotchKind.BALANCE, seam=wishes.hem_seam),)


def _alike_ruffle_line(
    cut: Cut, wishes: PanelWishes, begin: float, wide: float
) -> tuple[InnerLine, ...]:
    if wishes.ruffle_line is None:
        return ()
    path = cut.line_above_hem(cut.length - wishes.ruffle_line, begin, begin + wide)
    drawn = path_length(path)
    whole = drawn * (2 if wishes.half else 1)
    shares = [p.share for p in places_on_panel(cut.panels, wishes.closure, half=wishes.half)]
    if all(place_name(begin + k / cut.panels) for k in range(cut.panels)):
        # Every seam lies at a quarter of the body, so its own end of the line is a mark too.
        shares += [0.0, 1.0]
    ticks = sorted({s * whole for s in shares if s * whole <= drawn + 1e-9})
    return (
        InnerLine(
            kind=InnerKind.RUFFLE_LINE, path=path, words=wishes.ruffle_words, ticks=tuple(ticks)
        ),
    )


def _alike_dots(cut: Cut, wishes: PanelWishes, shape: Outline) -> tuple[Dot, ...]:
    one_named = cut.panels == 1 or (cut.panels == 2 and not wishes.half)
    only = "" if one_named else " (closure seam)"
    sides = [0] if cut.panels == 2 or wishes.half else [0, 2]
    return tuple(
        dot
        for below, words in _seam_marks(wishes)
        for side in sides
        for dot in [_dot_at(shape, side, below, words + only)]
    )


def _seam_marks(wishes: PanelWishes) -> list[tuple[Mm, str]]:
    """Return what is marked on the closure seam: below the waist, or above the hem if negative."""
    marks = []
    if wishes.opening:
        marks.append((wishes.opening, "opening ends"))
    if wishes.vent:
        marks.append((-wishes.vent, "vent begins, open from here to the hem"))
    return marks


def _dot_at(shape: Outline, side: int, below: Mm, words: str) -> Dot:
    """Return a dot on the first edge (0) or the last (2), ``below`` its waist."""
    path = shape.begin if side == 0 else shape.finish
    long = path_length(path)
    down = below if below >= 0 else long + below
    return Dot(at=point_along(path, down if side == 0 else long - down), words=words)


# --- panels that differ --------------------------------------------------------------------


def _differing_panels(cut: Cut, wishes: PanelWishes) -> tuple[Piece, ...]:
    """Return a piece for every panel that differs, mirrored pairs drawn once."""
    _check_room(cut, wishes)
    start = first_seam(cut.panels, wishes.closure)
    spans = [
        Span(index=k, begin=start + k / cut.panels, finish=start + (k + 1) / cut.panels)
        for k in range(cut.panels)
    ]
    if cut.panels == 1:
        return (replace(_panel(cut, wishes, spans[0], None), name=f"{wishes.part} {wishes.shape}"),)
    pieces: list[Piece] = []
    while spans:
        span = spans.pop(0)
        mirror = next((other for other in spans if _mirrors(cut, span, other)), None)
        if mirror is not None:
            spans.remove(mirror)
        pieces.append(_panel(cut, wishes, span, mirror))
    return tuple(_named_apart(pieces))


def _mirrors(cut: Cut, one: Span, other: Span) -> bool:
    around = cut.around
    return all(
        abs(
            around.at(one.begin + share * (one.finish - one.begin))
            - around.at(other.finish - share * (other.finish - other.begin))
        )
        < ALIKE
        for share in (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
    )


def _panel(cut: Cut, wishes: PanelWishes, span: Span, mirror: Span | None) -> Piece:
    symmetrical = _mirrors(cut, span, span)
    half = wishes.half and symmetrical and mirror is None
    finish = span.middle if half else span.finish
    shape = outline_of(cut, span.begin, finish)
    first, last = _seam_words(span, mirror)
    edges = _edges(
        shape,
        wishes,
        (_edge_name(first), first),
        None if half else (_edge_name(last), last),
    )
    return Piece(
        name=f"{wishes.part} {_side_of(cut, span, apart=mirror is None and not symmetrical)}",
        edges=edges,
        grainline=grainline(shape, wishes, half=half),
        cloth=wishes.part,
        count=2 if mirror is not None else 1,
        mirrored=mirror is not None,
        half=half,
        fold_way=wishes.fold_way if half else FoldWay.NONE,
        notches=_notches(cut, wishes, span, mirror, edges, half=half),
        inner_lines=(
            *_ruffle_lines(cut, wishes, span, finish),
            *_gathering_rows(shape, wishes),
        ),
        dots=(
            *_dots(cut, wishes, span, shape, half=half),
            *_side_dots(shape, wishes, edges, cut),
        ),
        notes=wishes.notes,
    )


def _named_apart(pieces: list[Piece]) -> list[Piece]:
    """Return the pieces with a letter behind names that would stand twice."""
    names = [piece.name for piece in pieces]
    letters: dict[str, int] = {}
    found = []
    for piece in pieces:
        if names.count(piece.name) > 1:
            count = letters[piece.name] = letters.get(piece.name, 0) + 1
            piece = replace(piece, name=f"{piece.name} {chr(ord('A') + count - 1)}")
        found.append(piece)
    return found


def _side_of(cut: Cut, span: Span, *, apart: bool) -> str:
    """Return where on the body a panel lies: front, back or side, or between them if many.

    Args:
        apart: it has no mirror image, and left must be told from right.
    """
    middle = span.middle % 1
    forward = -math.cos(math.tau * middle)
    name = "side" if abs(forward) < 0.38 else "front" if forward > 0 else "back"
    if cut.panels > 6:
        # Those that meet the centres, those that meet the sides, and those between.
        near = [abs((middle - at + 0.5) % 1 - 0.5) * cut.panels for at, _ in PLACES]
        if min(near[0], near[2]) < 0.75:
            name = "centre back" if near[0] < near[2] else "centre front"
        elif min(near[1], near[3]) < 0.75:
            name = "side"
        else:
            name = "side front" if forward > 0 else "side back"
    if not apart or min(middle, 1 - middle, abs(middle - 0.5)) < 1e-9:
        return name
    return f"{name} {'right' if middle < 0.5 else 'left'}"


def _seam_words(span: Span, mirror: Span | None) -> tuple[str, str]:
    """Return what is written along a panel's two straight edges, for its mirror image too."""

    def name(share: float) -> str:
        return place_name(share % 1) or "panel seam"

    first, last = name(span.begin), name(span.finish)
    if mirror is None:
        return first, last
    pairs = ((first, name(mirror.finish)), (last, name(mirror.begin)))
    one, other = (" or ".join(dict.fromkeys(pair)) for pair in pairs)
    return one, other


def seam_number(cut: Cut, number: str, share: float, start: float) -> str:
    """Return a seam's own number: a letter for each seam whose edges differ from the others'.

    On a body with two like sides, seams that mirror each other across its middle share one.

    Args:
        share: where the seam lies, as a share of a turn; ``start`` is where the closure does.
    """
    alike = abs(cut.around.left - cut.around.right) < ALIKE

    def place(at: float) -> float:
        turned = round(at % 1, 9) % 1
        return min(turned, round(1 - turned, 9) % 1) if alike else turned

    places = sorted({place(start + k / cut.panels) for k in range(cut.panels)})
    nearest = min(range(len(places)), key=lambda k: abs(places[k] - place(share)))
    return f"{number}{chr(ord('a') + nearest)}"


def _notches(
    cut: Cut,
    wishes: PanelWishes,
    span: Span,
    mirror: Span | None,
    edges: tuple[Edge, ...],
    *,
    half: bool,
) -> tuple[Notch, ...]:
    found: list[Notch] = []
    start = span.begin - span.index / cut.panels
    for edge, seam in ((0, span.begin), (2, span.finish)):
        if half and edge == 2:
            continue
        number = seam_number(cut, wishes.seam, seam, start)
        found += _balance(edge, edges[edge].length, number, wishes.godet)
    wide = span.finish - span.begin
    waist = edges[3].length
    whole = waist * (2 if half else 1)
    for at, name in PLACES:
        share = ((at - span.begin) % 1) / wide
        if not 1e-9 < share < 1 - 1e-9 or share * whole > waist + 1e-9:
            continue
        names = [name]
        if mirror is not None:
            twin = mirror.finish - share * wide
            names = list(dict.fromkeys((name, place_name(twin % 1))))
        found.append(
            Notch(
                edge=3,
                at=max(waist - share * whole, 0.0),
                strokes=STROKES[name],
                seam=wishes.waist_seam,
                words=" or ".join(names),
            )
        )
    found += _hem_middle(wishes, edges[1].length, half=half)
    if wishes.hem_seam and wishes.hem_quarters:
        # What is sewn to an uneven edge is as long in each quarter: quarters by arc length.
        finish = span.middle if half else span.finish
        found += [
            Notch(edge=1, at=at, kind=NotchKind.BALANCE, seam=wishes.hem_seam, words="a quarter")
            for at in _quarters(cut, span, finish, 0.0)
        ]
    return tuple(found)


NEAR: Mm = 0.05
"""A quarter this near the end of a panel's part of a curve lies at its seam."""


def _quarters(cut: Cut, span: Span, finish: float, up: Mm) -> tuple[Mm, ...]:
    """Return where the quarters of the line ``up`` above the hem fall on a panel's part of it."""
    start = span.begin - span.index / cut.panels
    quarter = cut.girth_above_hem(up) / 4
    before = math.fsum(
        path_length(cut.line_above_hem(up, start + k / cut.panels, start + (k + 1) / cut.panels))
        for k in range(span.index)
    )
    reach = path_length(cut.line_above_hem(up, span.begin, finish))
    return tuple(
        min(max(k * quarter - before, 0.0), reach)
        for k in range(5)
        if before - NEAR <= k * quarter <= before + reach + NEAR
    )


def _ruffle_lines(
    cut: Cut, wishes: PanelWishes, span: Span, finish: float
) -> tuple[InnerLine, ...]:
    """Return the ruffle's line on a panel, as far above the hem everywhere; quarters by arc."""
    if wishes.ruffle_line is None:
        return ()
    up = cut.length - wishes.ruffle_line
    return (
        InnerLine(
            kind=InnerKind.RUFFLE_LINE,
            path=cut.line_above_hem(up, span.begin, finish),
            words=wishes.ruffle_words,
            ticks=_quarters(cut, span, finish, up),
        ),
    )


def _dots(
    cut: Cut, wishes: PanelWishes, span: Span, shape: Outline, *, half: bool
) -> tuple[Dot, ...]:
    """Return the marks on the edges that meet at the closure.

    The last panel round is the mirror image of the first, or has marks of its own.
    """
    sides = [0] if span.index == 0 else []
    if span.index == cut.panels - 1 and not half:
        sides.append(2)
    return tuple(
        _dot_at(shape, side, below, words) for below, words in _seam_marks(wishes) for side in sides
    )
