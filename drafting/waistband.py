"""What the waist seam is sewn to: a straight band, a facing, or a casing for elastic.

Millimetres. Imports circle, geometry and piece.
"""

import math
from dataclasses import dataclass, replace

from drafting.circle import (
    Flare,
    PanelWishes,
    panel,
)
from drafting.geometry import Line, Point, stepped
from drafting.levelled import Levelled
from drafting.piece import Edge, EdgeKind, InnerKind, InnerLine, Notch, Piece
from drafting.places import PLACES, STROKES
from drafting.spec import Closure, Grain
from drafting.units import Mm

OVERLAP: Mm = 30.0
"""How far a band laps over its opening, for a hook and bar (20 to 40)."""

CASING_ROOM: Mm = 5.0
"""Room above the elastic so that it slides in its casing."""

ELASTIC_SHARE = 0.90
"""Elastic is cut to this share of the waist, then joined (0.82 to 0.95)."""

ELASTIC_JOIN: Mm = 25.0
"""Length of elastic that its own join takes."""


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
    notes: tuple[str, ...] = (),
) -> Piece:
    """Return a band or casing as a piece, marked where the places of the body meet it.

    Args:
        around: length of the waist that the strip closes round, from its first mark.
        seam: number of the waist seam that its notches match.
    """
    a, long, high = strip.allowance, strip.cut_length, strip.cut_width
    corners = (
        Point(0.0, 0.0),
        Point(long - 2 * a, 0.0),
        Point(long - 2 * a, high - 2 * a),
        Point(0.0, high - 2 * a),
    )
    names = ("waist", "end", "waist_inside", "end")
    edges = tuple(
        Edge(name=name, path=(Line(start=one, end=other),), allowance=a, words=words)
        for name, words, one, other in zip(
            names,
            ("waist seam", "", "", ""),
            corners,
            corners[1:] + corners[:1],
            strict=True,
        )
    )
    start = 0.75 if closure is Closure.LEFT_SIDE else 0.0
    notches = [
        Notch(
            edge=0,
            at=((at - start) % 1) * around,
            strokes=STROKES[place],
            seam=seam,
            words=place,
        )
        for at, place in PLACES
    ]
    if around < long - 2 * a - 1e-6:
        # The waist closes here; what lies beyond laps over.
        closes = next(place for at, place in PLACES if at == start)
        notches.append(Notch(edge=0, at=around, strokes=STROKES[closes], seam=seam, words=closes))
    middle = (high - 2 * a) / 2
    fold = InnerLine(
        kind=InnerKind.FOLD_LINE,
        path=(Line(start=Point(0.0, middle), end=Point(long - 2 * a, middle)),),
        words="fold",
    )
    quarter = middle / 2
    return Piece(
        name=name,
        edges=edges,
        grainline=(Point(0.1 * long, quarter), Point(min(0.1 * long + 200, 0.6 * long), quarter)),
        cloth="skirt",
        count=1,
        rectangle=True,
        notches=tuple(notches),
        inner_lines=(fold,),
        notes=notes,
    )


def facing_flare(skirt: Flare | Levelled, *, gather_ratio: float, depth: Mm) -> Flare:
    """Return the facing of a skirt's waist: the same seam once it is gathered, ``depth`` deep."""
    return Flare(
        fullness=skirt.fullness,
        panels=skirt.panels,
        waistline=skirt.waistline / gather_ratio,
        length=depth,
    )


def facing_piece(flare: Flare, wishes: PanelWishes) -> Piece:
    """Return the facing's one piece: the panel's shape at the waist with a neatened outer edge."""
    shaped = panel(flare, wishes)
    edges = tuple(
        replace(edge, name="outer", allowance=0.0, kind=EdgeKind.RAW, words="neatened edge")
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
    )


def _along_facing(middle: Mm, angle: float, depth: Mm, wishes: PanelWishes) -> tuple[Point, Point]:
    """Return a grainline inside the facing that runs as the panel's does."""
    inside = min(angle / 2, math.atan2(0.2 * depth, middle) * 2)
    at, along = inside, 0.0
    if wishes.grain is Grain.CENTRE:
        at, along = (angle - inside, angle) if wishes.half else (angle / 2, angle / 2)
    centre = Point(middle * math.cos(at), middle * math.sin(at))
    half = 0.4 * depth
    return stepped(centre, along, -half), stepped(centre, along, half)
