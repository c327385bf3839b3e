"""Skirts of the circle family: everything cut from sectors of a ring.

Millimetres and radians. Formulas are plane geometry: a sector of angle ``t`` and radius ``r``
has an arc of ``t * r``. Imports geometry, piece and the spec's words.
"""

import math
from dataclasses import dataclass

from drafting.allowance import Widths
from drafting.errors import GeometryError, MeasurementError
from drafting.geometry import Arc, Line, Path, Point, on_circle
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
    STROKES,
    first_seam,
    place_name,
    place_words,
    places_on_panel,
    seam_names,
)
from drafting.spec import Closure, Grain
from drafting.units import Mm

WIDEST_PANEL = math.pi
"""Half a circle: a wider panel cannot be laid on a fold and wastes cloth."""

ORIGIN = Point(0.0, 0.0)


def waistline(waist: Mm, *, ease: Mm = 0.0, gather_ratio: float = 1.0, stretch: float = 0.0) -> Mm:
    """Return the length of the flat waist seam.

    Source: (W + e) G / (1 + s); the cut edge grows by the fraction ``stretch`` when handled.

    Raises:
        MeasurementError: the waist with its ease is not a positive length.
    """
    if not waist + ease > 0:
        raise MeasurementError("waist", waist + ease, 1, 10_000)
    return (waist + ease) * gather_ratio / (1 + stretch)


def waist_radius(line: Mm, *, fullness: float = 1.0) -> Mm:
    """Return the radius of the waist seam of a skirt cut from ``fullness`` circles.

    Source: ``fullness`` circles of radius r have a rim of 2 pi r fullness; set it to ``line``.

    Raises:
        MeasurementError: ``line`` or ``fullness`` is not above 0.
    """
    if not line > 0:
        raise MeasurementError("waistline", line, 1, 10_000)
    if not fullness > 0:
        raise MeasurementError("fullness", fullness, 0.2, 4)
    return line / (math.tau * fullness)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flare:
    """One layer of a circle-family skirt, in numbers.

    Attributes:
        fullness: circles it is cut from.
        panels: equal sectors it is cut in.
        waistline: length of the flat waist seam all round.
        length: from the waist seam to the finished hem.
    """

    fullness: float
    panels: int
    waistline: Mm
    length: Mm

    @property
    def waist_radius(self) -> Mm:
        """Radius of the waist seam."""
        return waist_radius(self.waistline, fullness=self.fullness)

    @property
    def hem_radius(self) -> Mm:
        """Radius of the finished hem."""
        return self.waist_radius + self.length

    @property
    def panel_angle(self) -> float:
        """Angle of one panel, in radians."""
        return math.tau * self.fullness / self.panels

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        return self.girth_at(self.length)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam, measured along the panel."""
        return math.tau * self.fullness * (self.waist_radius + below)


def fewest_panels(fullness: float) -> int:
    """Return the fewest equal panels that keep each at half a circle or less."""
    return max(1, math.ceil(math.tau * fullness / WIDEST_PANEL - 1e-9))


def least_fullness(hip: Mm, *, line: Mm, hip_depth: Mm, ease: Mm) -> float:
    """Return the least fullness whose girth at hip depth takes the hip and its ease.

    Source: line + 2 pi F depth >= hip + ease, solved for F.
    """
    return max(0.0, (hip + ease - line) / (math.tau * hip_depth))


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelWishes:
    """How a layer's panels are to be drawn.

    Attributes:
        part: ``skirt`` or ``lining``; begins the piece's name and names its cloth.
        half: draw half of the panel, to a fold.
        opening: length of the slit below the waist seam, or 0 for none.
        seam: number of the seams between panels; ``waist_seam`` of the seam at the waist.
        ruffle_line: how far below the waist seam a ruffle is sewn, or None.
        ruffle_words: what is written along that line.
    """

    part: str
    allowances: Widths
    grain: Grain
    closure: Closure
    opening: Mm
    seam: str
    waist_seam: str
    half: bool = False
    fold_way: FoldWay = FoldWay.NONE
    ruffle_line: Mm | None = None
    ruffle_words: str = ""
    notes: tuple[str, ...] = ()


def panel(flare: Flare, wishes: PanelWishes) -> Piece:
    """Return the one pattern piece that all panels of a layer are cut from.

    The circle's centre is the origin and the first straight edge lies along +x. With two
    panels the straight edges have names of their own and the pair is mirrored; with more,
    every panel is alike and so are its two edges.

    Raises:
        GeometryError: the panel is a whole circle or more, or its allowances overlap.
    """
    angle = flare.panel_angle / (2 if wishes.half else 1)
    r, big, allowances = flare.waist_radius, flare.hem_radius, wishes.allowances
    require_room(wishes.part, flare.waist_radius, flare.panel_angle, wishes.allowances)
    begin, finish = _edge_names(flare, wishes)
    far = (on_circle(ORIGIN, big, angle), on_circle(ORIGIN, r, angle))
    if wishes.half:
        last = Edge(
            name="fold", path=(Line(start=far[0], end=far[1]),), allowance=0, kind=EdgeKind.FOLD
        )
    else:
        last = Edge(
            name=finish.replace(" ", "_"),
            path=(Line(start=far[0], end=far[1]),),
            allowance=allowances.side,
            words=_edge_words(flare, wishes, finish),
        )
    edges = (
        Edge(
            name=begin.replace(" ", "_"),
            path=(Line(start=Point(r, 0.0), end=Point(big, 0.0)),),
            allowance=allowances.side,
            words=_edge_words(flare, wishes, begin),
        ),
        Edge(
            name="hem",
            path=(Arc(centre=ORIGIN, radius=big, begin=0.0, finish=angle),),
            allowance=allowances.hem,
            kind=EdgeKind.HEM,
            words="hem",
        ),
        last,
        Edge(
            name="waist",
            path=(Arc(centre=ORIGIN, radius=r, begin=angle, finish=0.0),),
            allowance=allowances.waist,
            words="waist",
        ),
    )
    return Piece(
        name=f"{wishes.part} panel",
        edges=edges,
        grainline=grainline(r, big, angle, wishes, half=wishes.half),
        cloth=wishes.part,
        count=flare.panels,
        mirrored=flare.panels == 2 and not wishes.half,
        half=wishes.half,
        fold_way=wishes.fold_way if wishes.half else FoldWay.NONE,
        notches=_notches(flare, wishes, angle),
        inner_lines=_ruffle_lines(flare, wishes, angle),
        dots=_opening_dots(flare, wishes, angle),
        notes=wishes.notes,
    )


def require_room(part: str, waist: Mm, angle: float, allowances: Widths) -> None:
    """Make sure that the two side allowances of a panel do not run into each other.

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


def _edge_names(flare: Flare, wishes: PanelWishes) -> tuple[str, str]:
    names = seam_names(flare.panels, wishes.closure)
    if flare.panels == 1:
        return names[0], names[0]
    if flare.panels == 2 and not wishes.half:
        return names[0], names[1]
    return "panel seam", "panel seam"


def _edge_words(flare: Flare, wishes: PanelWishes, name: str) -> str:
    """Return what is written along a straight edge; half a panel stands for both its edges."""
    if flare.panels == 2 and wishes.half:
        return " or ".join(seam_names(2, wishes.closure))
    return name


def grainline(
    r: Mm, big: Mm, angle: float, wishes: PanelWishes, *, half: bool
) -> tuple[Point, Point]:
    """Return a grainline that stays inside the sector, at least 150 mm long where it can be."""
    long = min(max(0.45 * (big - r), 150.0), 350.0, 0.9 * (big - r))
    middle = (r + big) / 2
    if wishes.grain is Grain.CENTRE and not half:
        along, aside = angle / 2, 0.0
    elif wishes.grain is Grain.CENTRE:
        # Parallel to the fold, a little inside it.
        along, aside = angle, -min(45.0, 0.3 * middle * math.sin(min(angle, 1.0)))
    else:
        along, aside = 0.0, min(45.0, 0.3 * middle * math.sin(min(angle, 1.0)))
    ux, uy = math.cos(along), math.sin(along)

    def at(radial: Mm) -> Point:
        return Point(radial * ux - aside * uy, radial * uy + aside * ux)

    return at(middle - long / 2), at(middle + long / 2)


def side_notches(long: Mm) -> tuple[Mm, ...]:
    """Return how far below the waist seam a straight seam is notched: one mark, two if long."""
    return (0.6 * long,) if long <= 700 else (0.4 * long, 0.75 * long)


def _notches(flare: Flare, wishes: PanelWishes, angle: float) -> tuple[Notch, ...]:
    found: list[Notch] = []
    balance = NotchKind.BALANCE
    for order, below in enumerate(side_notches(flare.length)):
        count = order + 1
        found.append(Notch(edge=0, at=below, kind=balance, strokes=count, seam=wishes.seam))
        if not wishes.half:
            up = flare.length - below
            found.append(Notch(edge=2, at=up, kind=balance, strokes=count, seam=wishes.seam))
    waist = flare.waist_radius * angle
    whole = flare.waist_radius * flare.panel_angle
    for place in places_on_panel(flare.panels, wishes.closure, half=wishes.half):
        # The waist edge runs from the panel's far side back to its first edge.
        at = max(waist - place.share * whole, 0.0)
        same = {STROKES[name] for name in place.names}
        plain = len(same) == 1 and place.panels == flare.panels
        found.append(
            Notch(
                edge=3,
                at=at,
                kind=NotchKind.PLACE if plain else balance,
                strokes=same.pop() if plain else 1,
                seam=wishes.waist_seam,
                words=place_words(place, flare.panels),
            )
        )
    return tuple(found)


def _ruffle_lines(flare: Flare, wishes: PanelWishes, angle: float) -> tuple[InnerLine, ...]:
    if wishes.ruffle_line is None:
        return ()
    radius = flare.waist_radius + wishes.ruffle_line
    whole = radius * flare.panel_angle
    path: Path = (Arc(centre=ORIGIN, radius=radius, begin=0.0, finish=angle),)
    places = places_on_panel(flare.panels, wishes.closure, half=wishes.half)
    shares = [place.share for place in places]
    if all(
        place_name(first_seam(flare.panels, wishes.closure) + k / flare.panels)
        for k in range(flare.panels)
    ):
        # Every seam lies at a quarter of the body, so its own end of the line is a mark too.
        shares += [0.0, 1.0]
    ticks = sorted({s * whole for s in shares if s * whole <= radius * angle + 1e-9})
    return (
        InnerLine(
            kind=InnerKind.RUFFLE_LINE, path=path, words=wishes.ruffle_words, ticks=tuple(ticks)
        ),
    )


def _opening_dots(flare: Flare, wishes: PanelWishes, angle: float) -> tuple[Dot, ...]:
    if not wishes.opening:
        return ()
    at = flare.waist_radius + wishes.opening
    one_named = flare.panels == 1 or (flare.panels == 2 and not wishes.half)
    words = "opening ends" if one_named else "opening ends (closure seam)"
    dots = [Dot(at=Point(at, 0.0), words=words)]
    if flare.panels != 2 and not wishes.half:
        dots.append(Dot(at=on_circle(ORIGIN, at, angle), words=words))
    return tuple(dots)
