"""Panels that differ from one another: each named for its place, its seams numbered apart.

Millimetres and radians; places are shares of a turn from centre back by way of the right side.
Panels that mirror each other are cut as a pair; those that differ never on one fold. Imports
geometry, outline, piece and places.
"""

import math
from dataclasses import dataclass, replace

from drafting.around import ALIKE
from drafting.geometry import path_length
from drafting.language import say
from drafting.outline import Cut, Outline, outline_of
from drafting.panel_marks import (
    balance_notches,
    check_room,
    dot_at,
    edge_name,
    gathering_rows,
    grainline,
    hem_middle,
    panel_edges,
    seam_marks,
    side_dots,
)
from drafting.panel_wishes import PanelWishes
from drafting.piece import Dot, Edge, FoldWay, InnerKind, InnerLine, Notch, NotchKind, Piece
from drafting.places import PANEL_SEAM, PLACES, STROKES, either, first_seam, place_name
from drafting.units import Mm


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


def differing_panels(cut: Cut, wishes: PanelWishes) -> tuple[Piece, ...]:
    """Return a piece for every panel that differs, mirrored pairs drawn once."""
    check_room(cut, wishes)
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
    first, last = _seam_names(span, mirror)
    edges = panel_edges(
        shape,
        wishes,
        (edge_name(*first), either(first)),
        None if half else (edge_name(*last), either(last)),
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
            *gathering_rows(shape, wishes),
        ),
        dots=(
            *_dots(cut, wishes, span, shape, half=half),
            *side_dots(shape, wishes, edges, cut),
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


def _seam_names(span: Span, mirror: Span | None) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what a panel's two straight edges are called, on its mirror image too."""

    def name(share: float) -> str:
        return place_name(share % 1) or PANEL_SEAM

    first, last = name(span.begin), name(span.finish)
    if mirror is None:
        return (first,), (last,)
    pairs = ((first, name(mirror.finish)), (last, name(mirror.begin)))
    one, other = (tuple(dict.fromkeys(pair)) for pair in pairs)
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
        found += balance_notches(edge, edges[edge].length, number, wishes.godet)
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
            names = [other for other in (name, place_name(twin % 1)) if other]
        found.append(
            Notch(
                edge=3,
                at=max(waist - share * whole, 0.0),
                strokes=STROKES[name],
                seam=wishes.waist_seam,
                words=either(names),
            )
        )
    found += hem_middle(wishes, edges[1].length, half=half)
    if wishes.hem_seam and wishes.hem_quarters:
        # What is sewn to an uneven edge is as long in each quarter: quarters by arc length.
        finish = span.middle if half else span.finish
        quarter = say("a quarter")
        found += [
            Notch(edge=1, at=at, kind=NotchKind.BALANCE, seam=wishes.hem_seam, words=quarter)
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
            shorter=wishes.ruffle_name,
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
        dot_at(shape, side, below, words) for below, words in seam_marks(wishes) for side in sides
    )
