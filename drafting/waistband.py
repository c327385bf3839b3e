"""What the waist seam is sewn to: a straight band, a facing, or a casing for elastic.

Millimetres. Imports circle, geometry and piece.
"""

import math
from dataclasses import dataclass, replace

from drafting.circle import Flare
from drafting.geometry import Line, Point, stepped
from drafting.language import say
from drafting.outline import Cut
from drafting.panel_wishes import PanelWishes
from drafting.panels import panel
from drafting.piece import EdgeKind, FoldWay, InnerKind, InnerLine, Notch, Piece
from drafting.places import PLACES, STROKES, either
from drafting.spec import Closure, Grain
from drafting.strips import rectangle
from drafting.units import Mm

OVERLAP: Mm = 30.0
"""How far a band laps over its opening, for a hook and bar (20 to 40)."""

CASING_ROOM: Mm = 5.0
"""Room above the elastic so that it slides in its casing."""

ELASTIC_SHARE = 0.90
"""Elastic is cut to this share of the waist, then joined (0.82 to 0.95)."""

ELASTIC_JOIN: Mm = 25.0
"""Length of elastic that its own join takes."""


BINDING: Mm = 35.0
"""Width of a bias strip as cut (28 to 45)."""

BINDING_END: Mm = 10.0
"""Turned in at each end of a binding."""

NEARLY_STRAIGHT: Mm = 2.0
"""Least difference between the edges of a contour band."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A rectangle to cut: outer measures, and the allowance inside them all round."""

    cut_length: Mm
    cut_width: Mm
    allowance: Mm


def band_strip(finished_waist: Mm, *, height: Mm, allowance: Mm, closure: Closure) -> Strip:
    """Return the cutting measures of a straight band folded along its upper edge.

    Source: W + e + overlap + 2a by 2b + 2a; a band that never opens has no overlap.
    """
    overlap = 0.0 if closure is Closure.NONE else OVERLAP
    return Strip(
        cut_length=finished_waist + overlap + 2 * allowance,
        cut_width=2 * height + 2 * allowance,
        allowance=allowance,
    )


def casing_strip(line: Mm, *, elastic: Mm, allowance: Mm) -> Strip:
    """Return the cutting measures of a separate casing, as long as the flat waist seam.

    A casing turned over from the skirt itself works on straight edges only: on a circle the
    cloth above the waist is too short to lie on what is below it.
    """
    return Strip(
        cut_length=line + 2 * allowance,
        cut_width=2 * (elastic + CASING_ROOM) + 2 * allowance,
        allowance=allowance,
    )


def bias_strip(finished_waist: Mm) -> Strip:
    """Return the cutting measures of a bias strip that binds the waist.

    Source: W + e and an allowance to turn in at each end, by the width of a bias binding.
    """
    return Strip(
        cut_length=finished_waist + 2 * BINDING_END, cut_width=BINDING, allowance=BINDING_END
    )


def contour_flare(*, top: Mm, bottom: Mm, height: Mm) -> Flare:
    """Return a band shaped to the body in numbers: a ring of the cone from hip to waist.

    Its waistline is the upper edge, its hem the lower one that the skirt is sewn to. A body
    with no cone to speak of gets a nearly straight band.
    """
    lean = max(bottom - top, NEARLY_STRAIGHT)
    return Flare(
        fullness=lean / (math.tau * height), panels=1, waistline=bottom - lean, length=height
    )


def contour_piece(flare: Flare, wishes: PanelWishes) -> Piece:
    """Return half of a contour band, to the fold opposite its opening; outside and inside alike.

    Args:
        wishes: its ``waist_seam`` numbers the upper edge, its ``hem_seam`` the skirt's.
    """
    drawn = panel(
        flare,
        replace(
            wishes, grain=Grain.CENTRE, half=True, fold_way=FoldWay.LENGTHWISE, opening=0.0,
            vent=0.0, ruffle_line=None, waist_words=say("upper edge"),
            hem_words=say("seam 2: waist, sewn to the skirt"), hem_goes_on=False,
        ),
    )  # fmt: skip
    names = {"waist": "upper", "hem": "waist"}
    edges = tuple(
        replace(
            edge,
            name=names.get(edge.name, edge.name),
            kind=EdgeKind.FOLD if edge.kind is EdgeKind.FOLD else EdgeKind.SEAM,
            allowance=0.0 if edge.kind is EdgeKind.FOLD else wishes.allowances.waist,
        )
        for edge in drawn.edges
    )
    # Its lower edge bears the marks of the skirt's waist, place for place.
    places = {notch.words: notch for notch in drawn.notches if notch.edge == 3}
    notches = tuple(
        replace(places[notch.words], edge=1, at=notch.at, seam=notch.seam)
        if notch.edge == 1 and notch.words in places
        else notch
        for notch in drawn.notches
        if notch.edge in (1, 3)
    )
    return replace(
        drawn,
        name="band",
        edges=edges,
        count=2,
        notches=notches,
        notes=(
            say("one for the outside, one for the inside"),
            say("the zip runs to its upper edge"),
        ),
    )


def stay_piece(*, long: Mm, wide: Mm) -> Piece:
    """Return a strip of interfacing for one side of an opening, without allowances."""
    rim = ("edge", 0.0, EdgeKind.RAW, "")
    edges = rectangle(long, wide, (rim, rim, rim, rim))
    return Piece(
        name="opening stay",
        edges=edges,
        grainline=(Point(0.1 * long, wide / 2), Point(0.9 * long, wide / 2)),
        cloth="interfacing",
        count=2,
        rectangle=True,
        notes=(say("one for each edge of the skirt's opening"),),
    )


def bias_piece(strip: Strip, *, name: str, seam: str, notes: tuple[str, ...] = ()) -> Piece:
    """Return a bias strip as a piece; its grain lies at half a right angle to its length."""
    end = strip.allowance
    long, high = strip.cut_length - 2 * end, strip.cut_width
    turned = ("end", end, EdgeKind.SEAM, "")
    rims = ("waist", 0.0, EdgeKind.RAW, ""), turned, ("long edges", 0.0, EdgeKind.RAW, ""), turned
    edges = rectangle(long, high, rims)
    reach = 0.7 * high
    return Piece(
        name=name,
        edges=edges,
        grainline=(
            Point(long / 4, 0.15 * high),
            Point(long / 4 + reach, 0.15 * high + reach),
        ),
        cloth="binding",
        count=1,
        rectangle=True,
        notes=(
            say("seam {seam}: cut on the bias, in lengths that are joined to this one", seam=seam),
            *notes,
        ),
    )


def elastic_length(waist: Mm) -> Mm:
    """Return how long to cut the elastic for a waist, its join included."""
    return ELASTIC_SHARE * waist + ELASTIC_JOIN


def strip_piece(
    strip: Strip,
    *,
    name: str,
    around: Mm,
    closure: Closure,
    seam: str,
    across: bool = False,
    notes: tuple[str, ...] = (),
) -> Piece:
    """Return a band or casing as a piece, marked where the places of the body meet it.

    Args:
        across: it is cut across the cloth, which suits a strip that need not hold its length.
        around: length of the waist that the strip closes round, from its first mark.
        seam: number of the waist seam that its notches match.
    """
    a, long, high = strip.allowance, strip.cut_length, strip.cut_width
    end = ("end", a, EdgeKind.SEAM, "")
    edges = rectangle(
        long - 2 * a,
        high - 2 * a,
        (
            ("waist", a, EdgeKind.SEAM, say("waist seam")),
            end,
            ("waist_inside", a, EdgeKind.SEAM, ""),
            end,
        ),
    )
    start = 0.75 if closure is Closure.LEFT_SIDE else 0.0
    notches = [
        Notch(
            edge=0,
            at=((at - start) % 1) * around,
            strokes=STROKES[place],
            seam=seam,
            words=either((place,)),
        )
        for at, place in PLACES
    ]
    if around < long - 2 * a - 1e-6:
        # The waist closes here; what lies beyond laps over.
        closes = next(place for at, place in PLACES if at == start)
        words = either((closes,))
        notches.append(Notch(edge=0, at=around, strokes=STROKES[closes], seam=seam, words=words))
    middle = (high - 2 * a) / 2
    fold = InnerLine(
        kind=InnerKind.FOLD_LINE,
        path=(Line(start=Point(0.0, middle), end=Point(long - 2 * a, middle)),),
        words=say("fold"),
    )
    quarter = middle / 2
    return Piece(
        name=name,
        edges=edges,
        grainline=(
            (Point(0.1 * long, 0.4 * quarter), Point(0.1 * long, 3.6 * quarter))
            if across
            else (Point(0.1 * long, quarter), Point(min(0.1 * long + 200, 0.6 * long), quarter))
        ),
        cloth="skirt",
        count=1,
        rectangle=True,
        notches=tuple(notches),
        inner_lines=(fold,),
        notes=notes,
    )


def facing_flare(skirt: Cut, *, finished: Mm, hip_fullness: float, depth: Mm) -> Flare:
    """Return the facing of a skirt's waist in numbers: its finished seam, ``depth`` deep.

    A facing of a plain flare has the flare's own shape; over gathers it keeps the skirt's
    fullness. Straight lengths have none, and get the cone from waist to hip.
    """
    fullness = skirt.fullness if isinstance(skirt, Flare) else None
    return Flare(
        fullness=fullness or hip_fullness,
        panels=skirt.panels,
        waistline=finished,
        length=depth,
    )


def facing_piece(flare: Flare, wishes: PanelWishes) -> Piece:
    """Return the facing's one piece: the panel's shape at the waist with a neatened outer edge."""
    shaped = panel(flare, wishes)
    neatened = say("neatened edge")
    edges = tuple(
        replace(edge, name="outer", allowance=0.0, kind=EdgeKind.RAW, words=neatened, goes_on=False)
        if edge.kind is EdgeKind.HEM
        else edge
        for edge in shaped.edges
    )
    waist_only = tuple(n for n in shaped.notches if n.edge == len(edges) - 1)
    middle = (flare.waist_radius + flare.hem_radius) / 2
    angle = flare.panel_angle / (2 if wishes.half else 1)
    return replace(
        shaped,
        name="facing",
        cloth="skirt",
        edges=edges,
        notches=waist_only,
        grainline=_along_facing(middle, angle, flare.length, wishes),
        fold_way=_facing_fold(flare, wishes),
    )


def _facing_fold(flare: Flare, wishes: PanelWishes) -> FoldWay:
    """Return the fold that takes a facing's half: its middle may lie otherwise than its panel's.

    Beside straight gathered panels a facing is curved, and its middle is on the bias unless it
    lies on the grain or square to it.
    """
    if not wishes.half or wishes.fold_way is FoldWay.NONE:
        return FoldWay.NONE
    if wishes.grain is Grain.CENTRE:
        return FoldWay.LENGTHWISE
    half_circle = abs(flare.panel_angle - math.pi) < 1e-9
    return FoldWay.CROSSWISE if half_circle else FoldWay.NONE


def _along_facing(middle: Mm, angle: float, depth: Mm, wishes: PanelWishes) -> tuple[Point, Point]:
    """Return a grainline inside the facing that runs as the panel's does."""
    inside = min(angle / 2, math.atan2(0.2 * depth, middle) * 2)
    at, along = inside, 0.0
    if wishes.grain is Grain.CENTRE:
        at, along = (angle - inside, angle) if wishes.half else (angle / 2, angle / 2)
    centre = Point(middle * math.cos(at), middle * math.sin(at))
    half = 0.4 * depth
    return stepped(centre, along, -half), stepped(centre, along, half)
