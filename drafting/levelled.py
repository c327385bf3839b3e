"""A skirt whose hem is level on an uneven body: its length differs round the figure.

Millimetres and radians. The waist stays an arc; the hem is a smooth curve as far below it as
the body asks at each place. Panels that differ get names of their own and are never cut on
one fold; panels that mirror each other are cut as a pair. Imports circle, curve, geometry,
piece and places.
"""

import math
from dataclasses import dataclass, replace

from drafting.circle import ORIGIN, PanelWishes, grainline, require_room, side_notches, waist_radius
from drafting.curve import curve
from drafting.geometry import Arc, Path, Point, on_circle, path_length, straight
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
from drafting.places import PLACES, STROKES, first_seam, place_name
from drafting.units import Mm

ALIKE: Mm = 1e-6
"""Lengths that differ by less are the same length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """Lengths from the waist seam at four places of the body, and smoothly between them.

    Source: L = a0 + a1 cos p + a2 cos 2p + b1 sin p, p the angle round the body from centre
    front towards the left. Its slope is 0 at centre front and centre back when both sides are
    equally long.
    """

    front: Mm
    left: Mm
    back: Mm
    right: Mm

    def _terms(self) -> tuple[float, float, float, float]:
        side = (self.left + self.right) / 2
        a2 = ((self.front + self.back) / 2 - side) / 2
        return side + a2, (self.front - self.back) / 2, a2, (self.left - self.right) / 2

    def at(self, share: float) -> Mm:
        """Return the length at a share of a turn from centre back by way of the right side."""
        a0, a1, a2, b1 = self._terms()
        p = math.tau * (share - 0.5)
        return a0 + a1 * math.cos(p) + a2 * math.cos(2 * p) + b1 * math.sin(p)

    def slope(self, share: float) -> float:
        """Return how fast the length grows there, in mm for each radian round the body."""
        _, a1, a2, b1 = self._terms()
        p = math.tau * (share - 0.5)
        return -a1 * math.sin(p) - 2 * a2 * math.sin(2 * p) + b1 * math.cos(p)

    @property
    def least(self) -> Mm:
        """The least of the four lengths."""
        return min(self.front, self.left, self.back, self.right)

    @property
    def most(self) -> Mm:
        """The greatest of the four lengths."""
        return max(self.front, self.left, self.back, self.right)

    def less(self, by: Mm) -> "Around":
        """Return lengths that are all shorter by so much."""
        return Around(
            front=self.front - by, left=self.left - by, back=self.back - by, right=self.right - by
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Levelled:
    """One layer with a level hem, in numbers; the same figures as a plain flare, and more.

    Attributes:
        fullness: circles it is cut from.
        panels: how many panels, equal at the waist.
        waistline: length of the flat waist seam all round.
        around: lengths from the waist seam to the finished hem.
    """

    fullness: float
    panels: int
    waistline: Mm
    around: Around

    @property
    def waist_radius(self) -> Mm:
        """Radius of the waist seam."""
        return waist_radius(self.waistline, fullness=self.fullness)

    @property
    def length(self) -> Mm:
        """Least length of the four that were measured."""
        return self.around.least

    @property
    def longest(self) -> Mm:
        """Greatest length of the four that were measured."""
        return self.around.most

    @property
    def hem_radius(self) -> Mm:
        """Smallest radius of the hem."""
        return self.waist_radius + self.length

    @property
    def panel_angle(self) -> float:
        """Angle of one panel, in radians."""
        return math.tau * self.fullness / self.panels

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        return self.girth_above_hem(0.0)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam."""
        return math.tau * self.fullness * (self.waist_radius + below)

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""
        return path_length(self.line_above_hem(up, 0.0, 1.0))

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return the line ``up`` above the hem between two shares of a turn from centre back.

        In the frame of a panel that begins at the first of the two, at angle 0.
        """
        turn = math.tau * self.fullness

        def radius(angle: float) -> Mm:
            return self.waist_radius + self.around.at(begin + angle / turn) - up

        def place(angle: float) -> Point:
            return on_circle(ORIGIN, radius(angle), angle)

        def heading(angle: float) -> float:
            # dR/d(angle): the length's slope round the body, spread over the cloth's angle.
            grows = self.around.slope(begin + angle / turn) / self.fullness
            r, c, s = radius(angle), math.cos(angle), math.sin(angle)
            return math.atan2(grows * s + r * c, grows * c - r * s)

        return curve(place, heading, 0.0, (finish - begin) * turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Span:
    """A panel's place round the body: from share to share, and its number from the closure."""

    index: int
    begin: float
    finish: float


def panels(cut: Levelled, wishes: PanelWishes) -> tuple[Piece, ...]:
    """Return a piece for every panel that differs, mirrored pairs drawn once.

    Raises:
        GeometryError: a panel's allowances overlap.
    """
    require_room(wishes.part, cut.waist_radius, cut.panel_angle, wishes.allowances)
    start = first_seam(cut.panels, wishes.closure)
    spans = [
        _Span(index=k, begin=start + k / cut.panels, finish=start + (k + 1) / cut.panels)
        for k in range(cut.panels)
    ]
    pieces: list[Piece] = []
    while spans:
        span = spans.pop(0)
        mirror = next((other for other in spans if _mirrors(cut, span, other)), None)
        if mirror is not None:
            spans.remove(mirror)
        pieces.append(_panel(cut, wishes, span, mirror))
    return tuple(_named_apart(pieces))


def _mirrors(cut: Levelled, one: _Span, other: _Span) -> bool:
    return all(
        abs(
            cut.around.at(one.begin + share * (one.finish - one.begin))
            - cut.around.at(other.finish - share * (other.finish - other.begin))
        )
        < ALIKE
        for share in (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
    )


def _panel(cut: Levelled, wishes: PanelWishes, span: _Span, mirror: _Span | None) -> Piece:
    symmetrical = _mirrors(cut, span, span)
    half = wishes.half and symmetrical and mirror is None
    finish = (span.begin + span.finish) / 2 if half else span.finish
    angle = cut.panel_angle / (2 if half else 1)
    r, allowances = cut.waist_radius, wishes.allowances
    ends = (cut.around.at(span.begin), cut.around.at(finish))
    rim = tuple(
        on_circle(ORIGIN, r + long, at) for long, at in zip(ends, (0.0, angle), strict=True)
    )
    waist = tuple(on_circle(ORIGIN, r, at) for at in (0.0, angle))
    first, last = _seam_words(cut, span, mirror)
    begin_edge = Edge(
        name=first.replace(" ", "_"),
        path=straight(waist[0], rim[0]),
        allowance=allowances.side,
        words=first,
    )
    end_edge = (
        Edge(name="fold", path=straight(rim[1], waist[1]), allowance=0.0, kind=EdgeKind.FOLD)
        if half
        else Edge(
            name=last.replace(" ", "_"),
            path=straight(rim[1], waist[1]),
            allowance=allowances.side,
            words=last,
        )
    )
    edges = (
        begin_edge,
        Edge(
            name="hem",
            path=cut.line_above_hem(0.0, span.begin, finish),
            allowance=allowances.hem,
            kind=EdgeKind.HEM,
            words="hem, level with the floor",
        ),
        end_edge,
        Edge(
            name="waist",
            path=(Arc(centre=ORIGIN, radius=r, begin=angle, finish=0.0),),
            allowance=allowances.waist,
            words="waist",
        ),
    )
    return Piece(
        name=f"{wishes.part} {_side_of(span, apart=mirror is None and not symmetrical)}",
        edges=edges,
        grainline=grainline(r, r + min(ends), angle, wishes, half=half),
        cloth=wishes.part,
        count=2 if mirror is not None else 1,
        mirrored=mirror is not None,
        half=half,
        fold_way=wishes.fold_way if half else FoldWay.NONE,
        notches=_notches(cut, wishes, span, mirror, ends, half=half),
        inner_lines=_ruffle_lines(cut, wishes, span, finish),
        dots=_dots(cut, wishes, span, angle, half=half),
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


def _side_of(span: _Span, *, apart: bool) -> str:
    """Return where on the body a panel lies: front, back or side.

    Args:
        apart: it has no mirror image, and left must be told from right.
    """
    middle = (span.begin + span.finish) / 2 % 1
    forward = -math.cos(math.tau * middle)
    name = "side" if abs(forward) < 0.38 else "front" if forward > 0 else "back"
    if not apart or min(middle, 1 - middle, abs(middle - 0.5)) < 1e-9:
        return name
    return f"{name} {'right' if middle < 0.5 else 'left'}"


def _seam_words(cut: Levelled, span: _Span, mirror: _Span | None) -> tuple[str, str]:
    """Return what is written along a panel's two straight edges, for its mirror image too."""

    def name(share: float) -> str:
        return place_name(share % 1) or "panel seam"

    first, last = name(span.begin), name(span.finish)
    if mirror is None:
        return first, last
    pairs = ((first, name(mirror.finish)), (last, name(mirror.begin)))
    one, other = (" or ".join(dict.fromkeys(pair)) for pair in pairs)
    return one, other


def seam_number(cut: Levelled, number: str, share: float, start: float) -> str:
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
    cut: Levelled,
    wishes: PanelWishes,
    span: _Span,
    mirror: _Span | None,
    ends: tuple[Mm, Mm],
    *,
    half: bool,
) -> tuple[Notch, ...]:
    found: list[Notch] = []
    start = span.begin - span.index / cut.panels
    for edge, long, seam in ((0, ends[0], span.begin), (2, ends[1], span.finish)):
        if half and edge == 2:
            continue
        # Counted from the waist, where both sides of a seam begin together.
        for order, below in enumerate(side_notches(long)):
            found.append(
                Notch(
                    edge=edge,
                    at=below if edge == 0 else long - below,
                    kind=NotchKind.BALANCE,
                    strokes=order + 1,
                    seam=seam_number(cut, wishes.seam, seam, start),
                )
            )
    r, wide = cut.waist_radius, span.finish - span.begin
    drawn = cut.panel_angle / (2 if half else 1)
    for at, name in PLACES:
        share = ((at - span.begin) % 1) / wide
        if not 1e-9 < share < 1 - 1e-9 or share * cut.panel_angle > drawn + 1e-9:
            continue
        names = [name]
        if mirror is not None:
            twin = mirror.finish - share * wide
            names = list(dict.fromkeys((name, place_name(twin % 1))))
        found.append(
            Notch(
                edge=3,
                at=max(r * (drawn - share * cut.panel_angle), 0.0),
                strokes=STROKES[name],
                seam=wishes.waist_seam,
                words=" or ".join(names),
            )
        )
    return tuple(found)


def _ruffle_lines(
    cut: Levelled, wishes: PanelWishes, span: _Span, finish: float
) -> tuple[InnerLine, ...]:
    """Return the ruffle's line on a panel, as far above the hem everywhere; quarters by arc."""
    if wishes.ruffle_line is None:
        return ()
    up = cut.length - wishes.ruffle_line
    start = span.begin - span.index / cut.panels
    quarter = cut.girth_above_hem(up) / 4
    before = path_length(cut.line_above_hem(up, start, span.begin)) if span.index else 0.0
    path = cut.line_above_hem(up, span.begin, finish)
    reach = path_length(path)
    ticks = tuple(
        min(max(k * quarter - before, 0.0), reach)
        for k in range(5)
        if before - ALIKE <= k * quarter <= before + reach + ALIKE
    )
    return (
        InnerLine(kind=InnerKind.RUFFLE_LINE, path=path, words=wishes.ruffle_words, ticks=ticks),
    )


def _dots(
    cut: Levelled, wishes: PanelWishes, span: _Span, angle: float, *, half: bool
) -> tuple[Dot, ...]:
    """Return the end of the opening, on the edges that meet at the closure.

    The last panel round is the mirror image of the first, or has a dot of its own.
    """
    if not wishes.opening:
        return ()
    at = cut.waist_radius + wishes.opening
    dots = []
    if span.index == 0:
        dots.append(Dot(at=on_circle(ORIGIN, at, 0.0), words="opening ends"))
    if span.index == cut.panels - 1 and not half:
        dots.append(Dot(at=on_circle(ORIGIN, at, angle), words="opening ends"))
    return tuple(dots)
