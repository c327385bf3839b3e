"""The gathered ruffle that holds the skirt out: sewn to a line on the lining, not to its hem.

Millimetres. Ratios, rows and thread are classroom estimates, said to be so where shown.
Imports geometry, piece, tiers and the spec's words.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from drafting.cloth import usable_width
from drafting.geometry import Line, Point
from drafting.language import said_later, say
from drafting.piece import EdgeKind, InnerKind, InnerLine, Piece
from drafting.spec import Cloth, Ruffle, RuffleCloth
from drafting.strips import END_HEM, rectangle, strip_count
from drafting.tiers import (
    StripWays,
    Tier,
    gather_words,
    gathering_metres,
    tier_depths,
    tier_piece,
    tiers,
)
from drafting.units import Mm

DEEPEST_DEFAULT: Mm = 200.0
"""Depth of a ruffle when the sheet leaves it open, for an adult's knee-length skirt."""

HIGHEST_LINE: Mm = 20.0
"""A ruffle whose line would lie nearer the waist seam than this has no place on its lining."""

TOP_ALLOWANCE: Mm = 15.0
"""From the raw edge to the seam line; the gathering rows lie by it."""

SECTION: Mm = 2000.0
"""Longest stretch that one pair of gathering threads draws up without breaking."""

LONG_RUFFLE: Mm = 4000.0
"""Beyond this flat length a cord is safer than threads."""


class Join(StrEnum):
    """How strips are joined end to end."""

    SEAM = "seam"
    LAP = "lap"


class LowerEdge(StrEnum):
    """What is done with a ruffle's lower edge."""

    RAW = "left raw"
    RAW_OR_BOUND = "left raw, or bound"
    ROLLED = "rolled"
    HEMMED = "narrow hem"
    BOUND = "bound"


class Method(StrEnum):
    """How a ruffle is gathered."""

    CORD = "zigzag over a cord"
    ROWS = "rows of long stitches"


@dataclass(frozen=True, slots=True, kw_only=True)
class RuffleHabit:
    """How a ruffle cloth is worked.

    Attributes:
        ratios: usual least and most gather ratio.
        join_allowance: at each end of a strip; a lap of twice that lies half on each strip.
        edge_hem: allowance of a single ruffle's lower edge, 0 where it stays raw.
        edge: what is done with that lower edge.
        rows: distances of the gathering rows from the raw upper edge.
    """

    ratios: tuple[float, float]
    join: Join
    join_allowance: Mm
    edge_hem: Mm
    edge: LowerEdge
    rows: tuple[Mm, ...]
    method: Method


INSIDE = (13.0, 8.0)
_STRADDLING = (12.0, 19.0)
_CORD = (12.0,)

HABITS = {
    RuffleCloth.SOFT_TULLE: RuffleHabit(
        ratios=(2.5, 4.0), join=Join.LAP, join_allowance=5, edge_hem=0,
        edge=LowerEdge.RAW, rows=_CORD, method=Method.CORD,
    ),
    RuffleCloth.STIFF_NET: RuffleHabit(
        ratios=(2.0, 3.5), join=Join.SEAM, join_allowance=10, edge_hem=0,
        edge=LowerEdge.RAW_OR_BOUND, rows=_CORD, method=Method.CORD,
    ),
    RuffleCloth.SILK_ORGANZA: RuffleHabit(
        ratios=(2.0, 3.0), join=Join.SEAM, join_allowance=15, edge_hem=4,
        edge=LowerEdge.ROLLED, rows=INSIDE, method=Method.ROWS,
    ),
    RuffleCloth.POLYESTER_ORGANZA: RuffleHabit(
        ratios=(2.0, 3.0), join=Join.SEAM, join_allowance=10, edge_hem=4,
        edge=LowerEdge.ROLLED, rows=INSIDE, method=Method.ROWS,
    ),
    RuffleCloth.COTTON_ORGANDY: RuffleHabit(
        ratios=(1.75, 2.5), join=Join.SEAM, join_allowance=15, edge_hem=12,
        edge=LowerEdge.HEMMED, rows=_STRADDLING, method=Method.ROWS,
    ),
    RuffleCloth.CRINOLINE_CANVAS: RuffleHabit(
        ratios=(1.0, 2.0), join=Join.LAP, join_allowance=10, edge_hem=0,
        edge=LowerEdge.BOUND, rows=_STRADDLING, method=Method.ROWS,
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class RuffleDraft:
    """A ruffle in numbers.

    Attributes:
        line_below_waist: from the lining's waist seam to the line it is sewn to.
        line_length: length of that line all round.
        flat_length: finished length of the ruffle before gathering, joins sewn.
        strips: how many strips it is joined from.
        gather_ratio: as asked; the strips are trimmed alike to reach it.
        ring: closed all round, below the opening; otherwise its ends are hemmed there.
        tiers: the tiers that make up its depth, or none for a ruffle of one piece; the flat
            length and the strips are the first one's.
    """

    cloth: RuffleCloth
    depth: Mm
    line_below_waist: Mm
    line_radius: Mm | None
    line_length: Mm
    flat_length: Mm
    strips: int
    strip_cut_length: Mm
    strip_cut_depth: Mm
    gather_ratio: float
    ring: bool
    doubled: bool
    tiers: tuple[Tier, ...] = ()
    ways: StripWays | None = None

    @property
    def gathered_length(self) -> Mm:
        """Flat length of everything that is gathered."""
        return gathering_metres(self.tiers) * 1000 if self.tiers else self.flat_length

    @property
    def widest(self) -> Mm:
        """Flat length of its lowest edge."""
        return self.tiers[-1].flat if self.tiers else self.flat_length

    @property
    def habit(self) -> RuffleHabit:
        """How this cloth is worked."""
        return HABITS[self.cloth]

    @property
    def method(self) -> Method:
        """How it is gathered: as the cloth asks, over a cord if it is long."""
        return Method.CORD if self.gathered_length > LONG_RUFFLE else self.habit.method

    @property
    def sections(self) -> int:
        """How many lengths it is gathered in: a multiple of four, so that quarters match."""
        return 4 * max(1, math.ceil(self.gathered_length / SECTION / 4 - 1e-9))

    @property
    def rows(self) -> tuple[Mm, ...]:
        """Distances of the gathering rows, or of the cord, from the raw upper edge."""
        return rows_by(self, self.method)


def default_depth(lining_length: Mm, scale: float = 1.0) -> Mm:
    """Return the depth of a ruffle whose sheet leaves it open."""
    return min(DEEPEST_DEFAULT * scale, lining_length / 3)


def drafted(
    wish: Ruffle,
    *,
    depth: Mm,
    below: Mm,
    line: Mm,
    radius: Mm | None,
    ring: bool,
    cloth: Cloth,
) -> RuffleDraft:
    """Return a ruffle in numbers.

    Args:
        depth: finished, of all its tiers together.
        below: from the lining's waist seam to its line; ``line`` is that line's length,
            ``radius`` its radius where it has one.
        ring: whether it closes all round.
    """
    usable, habit = usable_width(cloth), HABITS[wish.cloth]
    flat = wish.gather_ratio * line
    found: tuple[Tier, ...] = ()
    ways = None
    if wish.tiers > 1:
        ways = StripWays(
            usable=usable,
            join=habit.join_allowance,
            top=TOP_ALLOWANCE,
            seam=TOP_ALLOWANCE,
            hem=habit.edge_hem,
            ring=ring,
        )
        ratios = (wish.gather_ratio, *(wish.tier_ratio,) * (wish.tiers - 1))
        depths = tier_depths(depth, wish.tiers, wish.tier_growth)
        found = tiers(line, ratios, depths, ways)
    strips, strip_length = strip_count(flat, usable, join_allowance=habit.join_allowance, ring=ring)
    doubled = wish.doubled and not found
    deep = cut_depth(wish.cloth, depth, doubled=doubled)
    return RuffleDraft(
        cloth=wish.cloth,
        depth=depth,
        line_below_waist=below,
        line_radius=radius,
        line_length=line,
        flat_length=flat,
        strips=strips,
        strip_cut_length=strip_length,
        strip_cut_depth=found[0].cut_depth if found else deep,
        gather_ratio=wish.gather_ratio,
        ring=ring,
        doubled=doubled,
        tiers=found,
        ways=ways,
    )


def cut_depth(cloth: RuffleCloth, depth: Mm, *, doubled: bool) -> Mm:
    """Return how deep to cut a strip: fraying cloth is hemmed or doubled, net stays raw."""
    if doubled:
        return 2 * depth + 2 * TOP_ALLOWANCE
    return TOP_ALLOWANCE + depth + HABITS[cloth].edge_hem


def thread_metres(draft: RuffleDraft, method: Method) -> float:
    """Return an estimate of the gathering thread, in metres, by the given method.

    Source: 4.5 m a metre for a zigzag over a cord, 2.3 m a metre for each long-stitch row.
    """
    flat = draft.gathered_length / 1000
    if method is Method.CORD:
        return 4.5 * flat
    return 2.3 * flat * len(rows_by(draft, method))


def rows_by(draft: RuffleDraft, method: Method) -> tuple[Mm, ...]:
    """Return how far from the raw edge its rows, or its cord, lie by the given method."""
    if method is Method.CORD:
        return _CORD
    return draft.habit.rows if draft.habit.method is Method.ROWS else INSIDE


def cord_metres(draft: RuffleDraft) -> float:
    """Return an estimate of the cord, in metres: the flat length and 30 cm for each section."""
    return draft.gathered_length / 1000 + 0.3 * draft.sections


def join_clearance(draft: RuffleDraft, lining_panels: int) -> Mm | None:
    """Return how near a strip's join comes to a lining seam, along the sewn line, at best.

    Joins of a ring may be shifted round together; the best shift is taken. An open ruffle
    begins at the opening and cannot be shifted. None when there is no join or no seam to meet.
    """
    strips = draft.strips
    if strips == 0 or (strips == 1 and not draft.ring):
        return None
    if not draft.ring:
        # Join k of N meets seam j of P where k / N = j / P, so where N and P share a factor;
        # where they share none, some join comes as near as 1 / (N P) of the round.
        meets = math.gcd(strips, lining_panels) > 1
        return 0.0 if meets else draft.line_length / (strips * lining_panels)
    # The gaps between joins and seams repeat every 1/lcm; the best shift lies half a gap off.
    return draft.line_length / (2 * math.lcm(strips, lining_panels))


_LOWER = {
    LowerEdge.RAW: said_later("lower edge: left raw"),
    LowerEdge.RAW_OR_BOUND: said_later(
        "lower edge: left raw, or bound so that it does not catch tights"
    ),
    LowerEdge.ROLLED: said_later("lower edge: rolled, before gathering"),
    LowerEdge.HEMMED: said_later("lower edge: narrow hem, before gathering"),
    LowerEdge.BOUND: said_later("lower edge: bound"),
}


def _strip_notes(draft: RuffleDraft, *, last: bool = True) -> tuple[str, ...]:
    habit = draft.habit
    notes = []
    if habit.join is Join.LAP:
        lap = f"{2 * habit.join_allowance:g}"
        notes.append(say("lap the strips by {lap} mm, do not seam them", lap=lap))
    if not draft.ring:
        deep = f"{END_HEM:g}"
        notes.append(say("hem each end of the joined ruffle by {deep} mm", deep=deep))
    if last and draft.doubled:
        notes.append(say("fold along its length"))
    elif last:
        notes.append(say(_LOWER[habit.edge]))
    return tuple(notes)


def ruffle_pieces(draft: RuffleDraft, *, seam: str) -> tuple[Piece, ...]:
    """Return the strips of a ruffle: one piece, or one for each of its tiers.

    Args:
        seam: number of the seam that sews it to its line; those between tiers have a letter.
    """
    if not draft.tiers or draft.ways is None:
        return (strip_piece(draft, seam=seam),)
    numbers = [seam, *(f"{seam}{chr(ord('a') + k)}" for k in range(len(draft.tiers) - 1)), ""]
    return tuple(
        tier_piece(
            tier,
            draft.ways,
            name=f"ruffle tier {order + 1}",
            cloth="ruffle",
            seam=numbers[order],
            next_seam=numbers[order + 1],
            rows=draft.rows,
            notes=_strip_notes(draft, last=order == len(draft.tiers) - 1),
        )
        for order, tier in enumerate(draft.tiers)
    )


def strip_piece(draft: RuffleDraft, *, seam: str) -> Piece:
    """Return one ruffle strip, its gathering rows and its fold drawn inside.

    Args:
        seam: number of the seam that sews it to its line.
    """
    habit = draft.habit
    a = habit.join_allowance
    long = draft.strip_cut_length - 2 * a
    deep = draft.depth * (2 if draft.doubled else 1)
    if draft.doubled:
        lower = (TOP_ALLOWANCE, EdgeKind.SEAM, say("gather with the other edge"))
    elif habit.edge_hem:
        lower = (habit.edge_hem, EdgeKind.HEM, say("lower edge"))
    else:
        lower = (0.0, EdgeKind.RAW, say("lower edge"))
    join = ("join", a, EdgeKind.SEAM, "")
    gathered = ("gathered", TOP_ALLOWANCE, EdgeKind.SEAM, gather_words(seam))
    edges = rectangle(long, deep, (("lower", *lower), join, gathered, join))
    inner = [
        InnerLine(
            kind=InnerKind.GATHERING,
            path=(Line(start=Point(0.0, y), end=Point(long, y)),),
            words=say("cord") if draft.method is Method.CORD else say("gathering row"),
        )
        for y in (deep + TOP_ALLOWANCE - row for row in draft.rows)
    ]
    if draft.doubled:
        inner.append(
            InnerLine(
                kind=InnerKind.FOLD_LINE,
                path=(Line(start=Point(0.0, deep / 2), end=Point(long, deep / 2)),),
                words=say("fold"),
            )
        )
    across = 0.35 * deep
    return Piece(
        name="ruffle strip",
        edges=edges,
        grainline=(Point(0.2 * long, 0.2 * deep), Point(0.2 * long, 0.2 * deep + across)),
        cloth="ruffle",
        count=draft.strips,
        rectangle=True,
        inner_lines=tuple(inner),
        notes=_strip_notes(draft),
    )
