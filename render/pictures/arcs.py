"""How the arcs of a skirt panel are swung by hand: its centre, its radii, its straight edges.

Millimetres on the booklet's page; the circle's centre is the origin, the panel's own shape is
drawn smaller. Imports the pattern, its pieces and the inks of pictures.
"""

import math
from dataclasses import dataclass

from drafting.figures import LayerFigures
from drafting.geometry import (
    Path,
    Point,
    bounds,
    direction_along,
    moved,
    moved_point,
    on_circle,
    path_length,
    point_along,
    scaled,
)
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.piece import Edge, EdgeKind, Piece, cutting_line, edge_named
from drafting.piece_names import piece_words
from drafting.units import Mm, Units, length_text, radius_text
from render.drawing import Drawing, Pen, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.legend import clear_numbers, legend
from render.pictures.picture import SMALL_TYPE, WIDE, Picture
from render.style import LEADING

ACROSS: Mm = 100.0
HIGH: Mm = 74.0
"""Most that the panel takes of the page, across and up."""

STITCHED = Pen(width=0.35, dash=(3.0, 1.5))
"""A stitching line, its rhythm half as large as on a pattern piece."""

_LEAD: Mm = SMALL_TYPE * LEADING


@dataclass(frozen=True, slots=True, kw_only=True)
class Swung:
    """A panel drawn small with its last straight edge level, to the right of the centre.

    Attributes:
        scale: of the drawing.
        angle: between its straight edges.
        turn: that it was turned by from its own frame.
    """

    piece: Piece
    scale: float
    angle: float
    turn: float

    def path(self, path: Path) -> Path:
        """Return a path of the piece in the picture."""
        return moved(scaled(path, self.scale), turn=self.turn)

    def point(self, point: Point) -> Point:
        """Return a point of the piece in the picture."""
        small = Point(point.x * self.scale, point.y * self.scale)
        return moved_point(small, turn=self.turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Radius:
    """A radius to swing: where it ends in the picture, and what is said of it."""

    end: Mm
    words: str


@in_its_language
def arcs_picture(pattern: Pattern) -> Picture | None:
    """Return how the first skirt panel's arcs are swung; None where it has no arcs to swing."""
    skirt = pattern.figures.skirt
    piece = _panel(pattern)
    if piece is None:
        return None
    swung, units = _swung(piece), pattern.spec.units
    waist, hem = edge_named(piece, "waist"), edge_named(piece, "hem")
    radii = _radii(swung, skirt, waist, hem, units)
    drawn = together(
        ink.along(swung.path(cutting_line(piece)), pen=ink.OUTLINE),
        *(
            ink.along(swung.path(edge.path), pen=STITCHED)
            for edge in piece.edges
            if edge.kind is not EdgeKind.FOLD
        ),
        _string(swung),
        _measured(swung, radii),
    )
    changes = skirt.waist_radius_max is not None or skirt.hem_radius_max is not None
    numbers, rows = _numbered(swung, units, drawn, changes=changes)
    shown = together(drawn, numbers)
    box = ink.extent(shown)
    left = min(box.left, 0.0)
    across = max(box.right - left, WIDE - 4.0)
    degrees = f"{math.degrees(swung.angle):.0f}"
    return ink.framed(
        "arcs",
        together(shown, legend(rows, left, box.bottom - 2.0, across, 2)),
        caption=say(
            "Every arc is swung from one centre. Solid: cut here; dashed: sewn here. Cut the"
            " waist small rather than large. The panel may be drawn straight on the cloth so."
        ),
        alt=say(
            "The panel ({name}) lies between two straight edges {angle} degrees apart. From their"
            " meeting point the waist seam is swung at {waist} and the finished hem at {hem}.",
            name=piece_words(piece.name),
            angle=degrees,
            waist=_range(skirt.waist_radius, skirt.waist_radius_max, units),
            hem=_range(skirt.hem_radius, skirt.hem_radius_max, units),
        ),
    )


def _panel(pattern: Pattern) -> Piece | None:
    """Return the first panel that is cut from arcs about one centre."""
    skirt = pattern.figures.skirt
    if skirt.cut not in ("circle", "gored") or skirt.waist_radius is None:
        return None
    if skirt.hem_radius is None:
        return None
    names = ("skirt panel", "skirt gore", "skirt front", "skirt back", "skirt side")
    found = (p for p in pattern.pieces if p.cloth == "skirt" and p.name.startswith(names))
    return next(found, None)


def _swung(piece: Piece) -> Swung:
    begin, finish = piece.edges[0].path, piece.edges[-2].path
    first = direction_along(begin, 0.0)
    last = direction_along(finish, 0.0) + math.pi  # it runs from the hem up to the waist
    angle = (last - first) % math.tau or math.tau
    turn = -last
    box = bounds(moved(cutting_line(piece), turn=turn))
    hem = edge_named(piece, "hem")
    reach = math.hypot(*hem.path[-1].end) + hem.allowance
    across = max(box.right, reach) - min(box.left, 0.0)
    high = max(box.top, 0.0) - min(box.bottom, 0.0)
    return Swung(piece=piece, scale=min(ACROSS / across, HIGH / high), angle=angle, turn=turn)


def _range(least: Mm | None, most: Mm | None, units: Units) -> str:
    assert least is not None
    if most is None:
        return radius_text(least, units)
    return say("{least} to {most}", least=radius_text(least, units), most=radius_text(most, units))


def _radii(
    swung: Swung, skirt: LayerFigures, waist: Edge, hem: Edge, units: Units
) -> tuple[Radius, ...]:
    """Return the four radii from the smallest up, as they end at the last straight edge."""
    assert skirt.waist_radius is not None and skirt.hem_radius is not None
    at_waist = swung.point(waist.path[0].start).x
    # A pieced corner ends the panel's own hem before its straight edge, but not the arc.
    at_hem = math.hypot(*swung.point(hem.path[-1].end))
    a, h = waist.allowance, hem.allowance

    def shifted(least: Mm, most: Mm | None, by: Mm) -> str:
        return _range(least + by, None if most is None else most + by, units)

    w, wm, r, rm = (
        skirt.waist_radius, skirt.waist_radius_max, skirt.hem_radius, skirt.hem_radius_max
    )  # fmt: skip
    return (
        Radius(
            end=at_waist - a * swung.scale,
            words=say("waist, cut: {radius}", radius=shifted(w, wm, -a)),
        ),
        Radius(end=at_waist, words=say("waist seam: {radius}", radius=shifted(w, wm, 0.0))),
        Radius(end=at_hem, words=say("hem, finished: {radius}", radius=shifted(r, rm, 0.0))),
        Radius(
            end=at_hem + h * swung.scale,
            words=say("hem, cut: {radius}", radius=shifted(r, rm, h)),
        ),
    )


def _measured(swung: Swung, radii: tuple[Radius, ...]) -> Drawing:
    """Return each radius as a dimension line above the panel, its words along it."""
    y = max(bounds(swung.path(cutting_line(swung.piece))).top, 0.0) + 3.0
    drawn: list[Drawing] = []
    farthest, beyond = radii[-1].end, radii[1].end + 1.8
    for radius in radii:
        short = radius.end <= radii[1].end
        most = farthest - beyond - 4.0 if short else radius.end - 4.0
        rows = len(wrapped(radius.words, SMALL_TYPE, most))
        block = rows * _LEAD
        line = y + (block / 2 if short else 0.0)
        drawn.append(ink.dimension(Point(0.0, line), Point(radius.end, line), ""))
        drawn.append(ink.line(Point(radius.end, 0.5), Point(radius.end, line)))
        foot = y + (rows - 1) * _LEAD + 0.8
        x = beyond if short else 3.0
        drawn.append(ink.words(radius.words, Point(x, foot + (0.0 if short else 0.6)), most=most))
        y += block + (1.2 if short else 2.2)
    drawn.append(ink.line(Point(0.0, 0.5), Point(0.0, y - 1.0)))
    return together(*drawn)


def _along_string(swung: Swung) -> float:
    """Return the angle of the string, well away from the grain's arrow."""
    hem = swung.path(edge_named(swung.piece, "hem").path)
    grain = [swung.point(end) for end in swung.piece.grainline]
    middle = Point((grain[0].x + grain[1].x) / 2, (grain[0].y + grain[1].y) / 2)
    at_grain = math.atan2(middle.y, middle.x)

    def angle(share: float) -> float:
        return math.atan2(*reversed(point_along(hem, share * path_length(hem))))

    usual, other = angle(0.45), angle(0.25)
    return usual if abs(usual - at_grain) > abs(other - at_grain) else other


def _chalk(swung: Swung) -> tuple[Point, float]:
    """Return where the chalk at the string's end stands, and the angle of the string."""
    hem = edge_named(swung.piece, "hem")
    along = _along_string(swung)
    reach = (math.hypot(*hem.path[-1].end) + hem.allowance) * swung.scale
    return on_circle(Point(0.0, 0.0), reach, along), along


def _string(swung: Swung) -> Drawing:
    """Return the centre's pin and a taut string with the chalk at the hem's cutting line."""
    tip, along = _chalk(swung)
    chalk = [
        on_circle(tip, 2.0, along + 0.5),
        on_circle(tip, 7.0, along + 0.14),
        on_circle(tip, 7.0, along - 0.14),
        on_circle(tip, 2.0, along - 0.5),
        tip,
    ]
    return together(
        ink.line(Point(0.0, 0.0), tip, pen=ink.EDGE),
        ink.outline(chalk, pen=ink.EDGE),
        ink.dot(Point(0.0, 0.0), 1.0),
    )


def _numbered(
    swung: Swung, units: Units, drawn: Drawing, *, changes: bool
) -> tuple[Drawing, list[tuple[str, str]]]:
    """Return the numbers in the picture, and what they stand for.

    Args:
        drawn: everything else in it, which no number may stand on.
    """
    piece = swung.piece
    first, last = piece.edges[0], piece.edges[-2]
    hem = swung.path(edge_named(piece, "hem").path)
    reach = math.hypot(*hem[-1].end)
    inner = math.hypot(*swung.point(first.path[0].start))
    tip, string = _chalk(swung)
    chalk = on_circle(tip, 5.0, string)
    grain = tuple(swung.point(end) for end in piece.grainline)
    middle = Point((grain[0].x + grain[1].x) / 2, (grain[0].y + grain[1].y) / 2)
    at = {
        "1": (Point(-4.0, 6.0), Point(0.0, 0.0)),
        "2": (on_circle(chalk, 5.0, string + math.pi / 2), chalk),
        "3": _beside(
            on_circle(Point(0.0, 0.0), inner + 0.3 * (reach - inner), -swung.angle),
            -swung.angle,
            -6.0,
        ),
        "4": _beside(Point(inner + 0.72 * (reach - inner), 0.0), 0.0, -5.0),
        "5": _beside(middle, math.atan2(grain[1].y - grain[0].y, grain[1].x - grain[0].x), 5.0),
    }
    allowance = length_text(first.allowance, units)
    if last.kind is EdgeKind.FOLD:
        last_words = say("fold: half of the panel is drawn, nothing is added here")
    else:
        last_words = say(
            "the other straight edge, {allowance} added outside it",
            allowance=length_text(last.allowance, units),
        )
    rows = [
        ("1", say("centre: pin the end of a string or a tape here")),
        ("2", say("string held taut, chalk at its end: swing one arc for each radius")),
        ("3", say("straight edge, {allowance} added outside it", allowance=allowance)),
        ("4", last_words),
        ("5", say("grain, parallel to the selvage")),
    ]
    if changes:
        rows.append(
            (
                "",
                say(
                    "Where two radii stand, the radius grows from the one to the other round the"
                    " body: chalk points from ray to ray and join them in one even curve."
                ),
            )
        )
    if any(edge.pieced for edge in piece.edges):
        rows.append(
            ("", say("The cloth is too narrow for the whole arc: its corners are pieced on first."))
        )
    arrow = ink.double_arrow(*grain, pen=ink.EDGE)
    return together(arrow, clear_numbers(at, together(drawn, arrow))), rows


def _beside(point: Point, along: float, by: Mm) -> tuple[Point, Point]:
    """Return a place beside a point of a line, to its left for ``by`` above 0, and the point."""
    return on_circle(point, by, along + math.pi / 2 + 0.4), point
