"""Tiers: gathered strips, each sewn to the lower edge of the one above it.

Millimetres. Tiers hang from a yoke, or make up a ruffle. Imports piece, geometry and ruffle's
way of counting strips.
"""

import math
from dataclasses import dataclass

from drafting.geometry import Point, straight
from drafting.language import say
from drafting.piece import EdgeKind, InnerKind, InnerLine, Notch, NotchKind, Piece
from drafting.strips import rectangle, strip_count
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Tier:
    """One tier in numbers.

    Attributes:
        ratio: its flat length over the edge that it is sewn to.
        flat: finished length before gathering, joins sewn.
        depth: finished, from its seam to the next one or to its lower edge.
        strips: how many strips it is joined from, each ``cut_length`` by ``cut_depth``.
    """

    ratio: float
    flat: Mm
    depth: Mm
    strips: int
    cut_length: Mm
    cut_depth: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class StripWays:
    """How the strips of tiers are cut and finished.

    Attributes:
        usable: width of the cloth between its selvages.
        join: allowance at each end of a strip.
        top: allowance of a gathered edge; ``seam`` of the plain edge that it is sewn to.
        hem: allowance of the lowest edge, 0 where it stays raw.
        ring: whether every tier closes all round; else its ends are hemmed.
    """

    usable: Mm
    join: Mm
    top: Mm
    seam: Mm
    hem: Mm
    ring: bool = True


def tier_depths(length: Mm, count: int, growth: float) -> tuple[Mm, ...]:
    """Return the depths of tiers that make up ``length``, each ``growth`` times the one above.

    Source: a geometric series; its first member is L (x - 1) / (x^n - 1), or L / n for x = 1.
    """
    if abs(growth - 1) < 1e-9:
        return (length / count,) * count
    first = length * (growth - 1) / (growth**count - 1)
    return tuple(first * growth**k for k in range(count))


def tiers(
    edge: Mm, ratios: tuple[float, ...], depths: tuple[Mm, ...], ways: StripWays
) -> tuple[Tier, ...]:
    """Return the tiers that hang from an edge of that length, the uppermost first.

    Source: each flat length is its ratio times the flat length, or the edge, above it.
    """
    found: list[Tier] = []
    above = edge
    for index, (ratio, depth) in enumerate(zip(ratios, depths, strict=True)):
        flat = ratio * above
        count, cut = strip_count(flat, ways.usable, join_allowance=ways.join, ring=ways.ring)
        below = ways.hem if index == len(ratios) - 1 else ways.seam
        found.append(
            Tier(
                ratio=ratio,
                flat=flat,
                depth=depth,
                strips=count,
                cut_length=cut,
                cut_depth=ways.top + depth + below,
            )
        )
        above = flat
    return tuple(found)


def gathering_metres(found: tuple[Tier, ...]) -> float:
    """Return how much is gathered in all, in metres of flat edge."""
    return math.fsum(tier.flat for tier in found) / 1000


def gather_words(seam: str) -> str:
    """Return what is written along an edge that is gathered to be sewn on."""
    return say("seam {seam}, gather this edge", seam=seam)


def tier_piece(
    tier: Tier,
    ways: StripWays,
    *,
    name: str,
    cloth: str,
    seam: str,
    next_seam: str,
    rows: tuple[Mm, ...],
    notes: tuple[str, ...] = (),
) -> Piece:
    """Return one strip of a tier as a piece.

    Args:
        seam: number of the seam at its gathered edge; ``next_seam`` of the one at its lower
            edge, or empty for the last tier.
        rows: distances of the gathering rows from the raw upper edge.
    """
    long, deep = tier.cut_length - 2 * ways.join, tier.depth
    if next_seam:
        lower = (ways.seam, EdgeKind.SEAM, say("seam {seam}", seam=next_seam))
    elif ways.hem:
        lower = (ways.hem, EdgeKind.HEM, say("lower edge"))
    else:
        lower = (0.0, EdgeKind.RAW, say("lower edge"))
    join = ("join", ways.join, EdgeKind.SEAM, "")
    gathered = ("gathered", ways.top, EdgeKind.SEAM, gather_words(seam))
    edges = rectangle(long, deep, (("lower", *lower), join, gathered, join))
    inner = tuple(
        InnerLine(
            kind=InnerKind.GATHERING,
            path=straight(Point(0.0, y), Point(long, y)),
            words=say("gathering row"),
        )
        for y in (deep + ways.top - row for row in rows)
    )
    across, middle = 0.35 * deep, say("middle")
    return Piece(
        name=name,
        edges=edges,
        grainline=(Point(0.2 * long, 0.2 * deep), Point(0.2 * long, 0.2 * deep + across)),
        cloth=cloth,
        count=max(tier.strips, 1),
        rectangle=True,
        notches=(Notch(edge=2, at=long / 2, kind=NotchKind.BALANCE, seam=seam, words=middle),),
        inner_lines=inner,
        notes=notes,
    )
