"""What is bought besides cloth: thread, tape, cord, elastic, braid, and what closes the waist.

Millimetres; thread and cord in metres. Amounts of thread are classroom estimates, and said to
be. Imports the pattern, the ruffle's habits and the spec's words.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from drafting.cloth.shopping import Measured, Notion
from drafting.hem_pieces import BRAID_SPARE, STRIP_SPARE
from drafting.language import decimal, listed, said_later, say, say_counted
from drafting.piece import EdgeKind, Piece, grain_angle
from drafting.ruffle import HABITS, LowerEdge
from drafting.spec import (
    BandShape,
    Closure,
    Figure,
    HemFinish,
    RuffleCloth,
    SeamFinish,
    WaistFinish,
)
from drafting.units import Mm, Units, length_text, metres_text
from drafting.waistband import BINDING, ELASTIC_JOIN

if TYPE_CHECKING:
    from drafting.figures import LayerFigures, RuffleFigures
    from drafting.pattern import Pattern
    from drafting.truing import Seam

LOCKSTITCH = 3.0
ZIGZAG = 4.5
LONG_STITCH = 2.3
OVERLOCK = 10.0
"""Metres of thread to a metre: a permanent straight stitch, a zigzag, one gathering row, an
overlocked or rolled edge (8 to 12). Classroom estimates."""

TWO_PASSES = 2 * LOCKSTITCH

HEMS = {
    HemFinish.NARROW: TWO_PASSES,
    HemFinish.TURNED: ZIGZAG + LOCKSTITCH,
    HemFinish.ROLLED: OVERLOCK,
    HemFinish.FACED: 3 * LOCKSTITCH + ZIGZAG,
    HemFinish.BIAS_FACED: TWO_PASSES,
    HemFinish.BRAID: TWO_PASSES,
    HemFinish.BOUND: TWO_PASSES,
}
"""Metres of thread to a metre of hem. Turned once, its edge is neatened; a facing is sewn on,
understitched, neatened and caught down; whatever else is stitched twice."""

NEATENING = {
    SeamFinish.OPEN: 2 * ZIGZAG,
    SeamFinish.FRENCH: LOCKSTITCH,
    SeamFinish.BOUND: TWO_PASSES,
    SeamFinish.OVERLOCKED: OVERLOCK,
}
"""Metres of thread to a metre of seam, beside the seam itself."""

GATHERED_ON = TWO_PASSES + ZIGZAG
"""Gathers and flounces are stitched on, stitched again in the allowance, and zigzagged."""

ROLLED_EDGE: Mm = 5.0
"""A ruffle's hem of no more than this is rolled; a deeper one is turned twice."""

WIDE_BAND: Mm = 40.0
"""A band as high as this gapes over one hook."""

CORD_ENDS: Mm = 300.0
"""Of the cord, for the two ends of each length that is drawn up."""

REEL = 100
LONG_REEL = 200
"""Metres on the reels that most shops keep."""

TO_SPARE = 1.1
"""A reel is never used to its last tenth: bobbins are wound from it, and seams unpicked."""

_NOT_JOINS = frozenset(
    {"waist", "waist_inside", "long edges", "hem", "upper", "lower", "inner", "outer"}
    | {"gathered", "top", "edge"}
)
"""Names of edges that other words stand for; whatever else is a seam joins piece to piece."""


class _Thread(StrEnum):
    SEWING = "sewing thread"
    OVERLOCK = "overlock thread"
    STRONG = "strong gathering thread"


_THREADS = {
    (_Thread.SEWING, "skirt"): said_later("sewing thread for the skirt"),
    (_Thread.SEWING, "lining"): said_later("sewing thread for the lining"),
    (_Thread.SEWING, "ruffle"): said_later("sewing thread for the ruffle"),
    (_Thread.OVERLOCK, "skirt"): said_later("overlock thread for the skirt"),
    (_Thread.OVERLOCK, "lining"): said_later("overlock thread for the lining"),
    (_Thread.OVERLOCK, "ruffle"): said_later("overlock thread for the ruffle"),
    (_Thread.STRONG, "skirt"): said_later("strong gathering thread for the skirt"),
    (_Thread.STRONG, "lining"): said_later("strong gathering thread for the lining"),
    (_Thread.STRONG, "ruffle"): said_later("strong gathering thread for the ruffle"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """A length that is stitched, and how many metres of thread a metre of it takes."""

    cloth: str
    what: str
    length: Mm
    rate: float
    thread: _Thread = _Thread.SEWING

    @property
    def metres(self) -> float:
        return self.length / 1000 * self.rate


def notions(pattern: "Pattern") -> tuple[Notion, ...]:
    """Return what is bought besides cloth; nothing for a draft without pieces."""
    if not pattern.pieces:
        return ()
    return (
        *_threads(pattern),
        *_for_gathering(pattern),
        *_closing(pattern),
        *_waist_tape(pattern),
        *_seam_tapes(pattern),
        *_for_edges(pattern),
    )


# --- thread --------------------------------------------------------------------------------


def _threads(pattern: "Pattern") -> Iterator[Notion]:
    """Yield the thread of each kind, to match each cloth."""
    runs = [run for run in _runs(pattern) if run.metres > 0]
    for thread in _Thread:
        for cloth in ("skirt", "lining", "ruffle"):
            mine = [run for run in runs if (run.thread, run.cloth) == (thread, cloth)]
            if mine:
                yield _thread(thread, cloth, mine, pattern.spec.units)


def _thread(thread: _Thread, cloth: str, runs: list[_Run], units: Units) -> Notion:
    metres = math.fsum(run.metres for run in runs)
    told = ", ".join(
        say("{what} {amount}", what=run.what, amount=metres_text(run.metres, units)) for run in runs
    )
    if thread is _Thread.OVERLOCK:
        why = say("{runs}; on cones, shared by all its needles and loopers", runs=told)
    elif thread is _Thread.STRONG:
        why = say(
            "{runs}; {reels}, wound on the bobbin and pulled up, then taken out where it shows",
            runs=told,
            reels=_reels(metres),
        )
    else:
        why = say("{runs}; {reels}", runs=told, reels=_reels(metres))
    return Notion(
        name=say(_THREADS[thread, cloth]),
        amount=metres,
        measured=Measured.METRES,
        about=True,
        why=why,
    )


def _reels(metres: float) -> str:
    short, long = (math.ceil(TO_SPARE * metres / reel) for reel in (REEL, LONG_REEL))
    if short == 1:
        return say("one reel of {reel}\u00a0m is enough", reel=REEL)
    if long == 1:
        return say(
            "{count} reels of {reel}\u00a0m, or one of {long_reel}\u00a0m",
            count=short,
            reel=REEL,
            long_reel=LONG_REEL,
        )
    return say(
        "{count} reels of {reel}\u00a0m, or {long_count} of {long_reel}\u00a0m",
        count=short,
        reel=REEL,
        long_count=long,
        long_reel=LONG_REEL,
    )


def _runs(pattern: "Pattern") -> Iterator[_Run]:
    """Yield every length that is stitched."""
    if pattern.spec.skirt.owned is None:
        yield from _layer_runs(pattern, "skirt", pattern.figures.skirt)
        yield from _skirt_runs(pattern)
    if pattern.figures.lining is not None:
        yield from _lining_runs(pattern, pattern.figures.lining)
    if pattern.figures.ruffle is not None:
        yield from _ruffle_runs(pattern, pattern.figures.ruffle)


def _layer_runs(pattern: "Pattern", cloth: str, layer: "LayerFigures") -> Iterator[_Run]:
    finish, joins = pattern.spec.skirt.seams, join_length(pattern, cloth)
    overlocked = finish is SeamFinish.OVERLOCKED
    yield _Run(cloth=cloth, what=say("seams"), length=joins, rate=LOCKSTITCH)
    yield _Run(
        cloth=cloth,
        what=say("edges of the seams"),
        length=joins,
        rate=NEATENING[finish],
        thread=_Thread.OVERLOCK if overlocked else _Thread.SEWING,
    )
    if layer.waist_radius is not None:
        # Only a curved edge stretches before it is sewn.
        yield _Run(
            cloth=cloth,
            what=say("staystitching the waist"),
            length=layer.waistline,
            rate=LOCKSTITCH,
        )


def _skirt_runs(pattern: "Pattern") -> Iterator[_Run]:
    figures, wish = pattern.figures, pattern.spec.skirt
    casing = wish.waist_finish is WaistFinish.CASING
    yield _Run(
        cloth="skirt",
        what=say("waist"),
        length=figures.skirt.waistline if casing else figures.waist.finished,
        # Once to sew its finish on, once to close or hold it.
        rate=TWO_PASSES,
    )
    neatened = _facing_edge(pattern)
    yield _Run(cloth="skirt", what=say("the facing's edge"), length=neatened, rate=ZIGZAG)
    if figures.opening is not None and figures.opening.zip is not None:
        # Both sides, once to hold the zip and once to be seen.
        yield _Run(cloth="skirt", what=say("zip"), length=2 * figures.opening.zip, rate=TWO_PASSES)
    if figures.flounce is not None:
        long = figures.flounce.sewn_length
        yield _Run(cloth="skirt", what=say("sewing the flounce on"), length=long, rate=GATHERED_ON)
    edges = [tier.flat_length / tier.gather_ratio for tier in figures.tiers]
    yield _Run(
        cloth="skirt", what=say("sewing the tiers on"), length=math.fsum(edges), rate=GATHERED_ON
    )
    yield _Run(
        cloth="skirt",
        what=say("hem"),
        length=figures.skirt.sweep,
        rate=HEMS[wish.hem],
        thread=_Thread.OVERLOCK if wish.hem is HemFinish.ROLLED else _Thread.SEWING,
    )
    flat = math.fsum(tier.flat_length for tier in figures.tiers)
    yield _Run(
        cloth="skirt",
        what=say("two rows on each tier"),
        length=flat,
        rate=2 * LONG_STITCH,
        thread=_Thread.STRONG,
    )
    if figures.skirt.gather_ratio is not None and not casing:
        yield _Run(
            cloth="skirt",
            what=say("two rows at the waist"),
            length=figures.skirt.waistline,
            rate=2 * LONG_STITCH,
            thread=_Thread.STRONG,
        )


def _lining_runs(pattern: "Pattern", lining: "LayerFigures") -> Iterator[_Run]:
    yield from _layer_runs(pattern, "lining", lining)
    yield _Run(
        cloth="lining",
        what=say("joining it at the waist"),
        length=lining.waistline,
        rate=LOCKSTITCH,
    )
    # A lining's hem is narrow, whatever the skirt's.
    yield _Run(cloth="lining", what=say("hem"), length=lining.sweep, rate=HEMS[HemFinish.NARROW])


def _ruffle_runs(pattern: "Pattern", ruffle: "RuffleFigures") -> Iterator[_Run]:
    wish = pattern.spec.ruffle
    assert wish is not None
    habit = HABITS[wish.cloth]
    joins = join_length(pattern, "ruffle")
    # Net is seamed once and does not fray; every other join is sewn twice.
    twice = wish.cloth is not RuffleCloth.STIFF_NET
    rate = TWO_PASSES if twice else LOCKSTITCH
    yield _Run(cloth="ruffle", what=say("joining the strips"), length=joins, rate=rate)
    sewn = ruffle.line_length + math.fsum(tier.flat_length for tier in ruffle.tiers[:-1])
    yield _Run(cloth="ruffle", what=say("sewing it on"), length=sewn, rate=GATHERED_ON)
    rolled = 0 < habit.edge_hem <= ROLLED_EDGE
    if habit.edge_hem and not _doubled(pattern):
        yield _Run(
            cloth="ruffle",
            what=say("its lower edge"),
            length=lower_edge(ruffle),
            rate=OVERLOCK if rolled else TWO_PASSES,
            thread=_Thread.OVERLOCK if rolled else _Thread.SEWING,
        )
    if wish.cloth is RuffleCloth.CRINOLINE_CANVAS and not _doubled(pattern):
        yield _Run(
            cloth="ruffle", what=say("binding its edge"), length=lower_edge(ruffle), rate=TWO_PASSES
        )
    flat = gathered_length(ruffle)
    corded = ruffle.cord_metres is not None
    yield _Run(
        cloth="ruffle",
        what=say("zigzag over the cord")
        if corded
        else say_counted(
            "{count} gathering row", "{count} gathering rows", len(ruffle.rows_from_edge)
        ),
        length=flat,
        rate=ZIGZAG if corded else LONG_STITCH * len(ruffle.rows_from_edge),
        thread=_Thread.SEWING if corded else _Thread.STRONG,
    )


def gathered_length(ruffle: "RuffleFigures") -> Mm:
    """Return the flat length of everything on a ruffle that is gathered."""
    return ruffle.flat_length if ruffle.gathered_length is None else ruffle.gathered_length


def lower_edge(ruffle: "RuffleFigures") -> Mm:
    """Return the flat length of a ruffle's lowest edge."""
    return ruffle.tiers[-1].flat_length if ruffle.tiers else ruffle.flat_length


def _doubled(pattern: "Pattern") -> bool:
    wish, figures = pattern.spec.ruffle, pattern.figures.ruffle
    return wish is not None and wish.doubled and not (figures and figures.tiers)


# --- lengths of seams ----------------------------------------------------------------------


def join_length(pattern: "Pattern", cloth: str) -> Mm:
    """Return how long all seams are that join piece to piece of one cloth.

    Each seam has two edges, and every edge of every piece that is cut is counted once.
    """
    pieces = [piece for piece in pattern.pieces if piece.cloth == cloth]
    total = math.fsum(
        edge.length * _times(piece)
        for piece in pieces
        for edge in piece.edges
        if edge.kind is EdgeKind.SEAM and edge.name not in _NOT_JOINS
    )
    return total / 2


def _times(piece: Piece) -> int:
    return piece.count * (2 if piece.half else 1)


def _facing_edge(pattern: "Pattern") -> Mm:
    """Return how long the outer edge of a waist facing is, all round."""
    return math.fsum(
        edge.length * _times(piece)
        for piece in pattern.pieces
        if piece.name.startswith("facing")
        for edge in piece.edges
        if edge.name == "outer"
    )


def bias_seam_length(pattern: "Pattern", cloth: str) -> Mm:
    """Return how long the panel seams of a layer are whose two edges both lie on the bias.

    An edge nearer to half a right angle than to the grain counts as on the bias. Beside one on
    the straight grain it cannot stretch.
    """
    number = {"skirt": "1", "lining": "3"}[cloth]
    named = {piece.name: piece for piece in pattern.pieces}
    found = 0.0
    for seam in pattern.seams:
        if not seam.number.startswith(number):
            continue
        for one, other in _sewn(seam, named):
            if _on_bias(*one) and _on_bias(*other):
                piece, edge = one
                # An edge that is sewn to its own like is both sides of its seams.
                times = _times(piece) / (2 if one == other else 1)
                found += times * piece.edges[edge].length
    return found


_EdgeOf = tuple[Piece, int]


def _sewn(seam: "Seam", named: dict[str, Piece]) -> Iterator[tuple[_EdgeOf, _EdgeOf]]:
    """Yield which edge is sewn to which along a panel seam, corner to corner where it is pieced."""
    for first, second in zip(seam.first, seam.second, strict=True):
        assert isinstance(first.edge, int) and isinstance(second.edge, int)
        one, other = (named[first.piece], first.edge), (named[second.piece], second.edge)
        if one[0] is other[0] and one[0].mirrored and one != other:
            # Of a mirrored pair, front is sewn to front and back to back.
            yield one, one
            yield other, other
        else:
            yield one, other


def _on_bias(piece: Piece, edge: int) -> bool:
    path = piece.edges[edge].path
    start, end = path[0].start, path[-1].end
    angle = math.atan2(end.y - start.y, end.x - start.x) - grain_angle(piece)
    return math.sin(2 * angle) ** 2 > 0.5


# --- gathering, closing, holding -----------------------------------------------------------


def _for_gathering(pattern: "Pattern") -> Iterator[Notion]:
    ruffle = pattern.figures.ruffle
    if ruffle is None or ruffle.cord_metres is None:
        return
    child = pattern.spec.wearer.figure is Figure.CHILD
    why = (
        said_later(
            "smooth, {thin} to {thick}\u00a0mm, under the zigzag in {count} lengths with {more}"
            " more for each; it is pulled out once the ruffle is sewn on, or cut off inside the"
            " seam: on a child's skirt no end of it may hang"
        )
        if child
        else said_later(
            "smooth, {thin} to {thick}\u00a0mm, under the zigzag in {count} lengths with {more}"
            " more for each; it is pulled out once the ruffle is sewn on"
        )
    )
    yield Notion(
        name=say("gathering cord"),
        amount=ruffle.cord_metres,
        measured=Measured.METRES,
        about=True,
        why=say(
            why,
            thin=decimal("0.8"),
            thick=decimal("1.5"),
            count=ruffle.sections,
            more=length_text(CORD_ENDS, pattern.spec.units),
        ),
    )


def _closing(pattern: "Pattern") -> Iterator[Notion]:
    """Yield what closes the waist; a skirt that is sewn already has its own."""
    figures, wish, units = pattern.figures, pattern.spec.skirt, pattern.spec.units
    if wish.owned is not None:
        return
    if figures.casing is not None and figures.casing.elastic is not None:
        join = length_text(ELASTIC_JOIN, units)
        yield Notion(
            name=say("elastic, {width} wide", width=length_text(wish.elastic, units)),
            amount=figures.casing.elastic,
            measured=Measured.LENGTH,
            about=True,
            why=say(
                "nine tenths of the waist and {join} to join it to a ring inside the casing; try"
                " it on before you cut it",
                join=join,
            ),
        )
    if figures.opening is None or figures.opening.zip is None:
        return
    band = wish.waist_finish is WaistFinish.BAND
    long = length_text(figures.opening.length, units)
    bodice = wish.waist_finish is WaistFinish.BODICE
    if band:
        why = said_later(
            "an opening of {opening} and {band} of band, rounded up to a length that is sold"
        )
    elif bodice:
        why = said_later(
            "an opening of {opening}, rounded up to a length that is sold; longer by the bodice's"
            " own opening"
        )
    else:
        why = said_later("an opening of {opening}, rounded up to a length that is sold")
    yield Notion(
        name=say("zip"),
        amount=figures.opening.zip,
        measured=Measured.LENGTH,
        why=say(why, opening=long, band=length_text(wish.band, units)),
    )
    if bodice or pattern.spec.skirt.closure is Closure.NONE:
        return
    if band and wish.band_shape is BandShape.STRAIGHT:
        count = 2 if wish.band >= WIDE_BAND else 1
        yield Notion(
            name=say("hook and bar"),
            amount=count,
            measured=Measured.COUNT,
            why=say("where the band laps over"),
        )
    else:
        yield Notion(
            name=say("hook and eye"),
            amount=1,
            measured=Measured.COUNT,
            why=say("above the end of the zip"),
        )


def _waist_tape(pattern: "Pattern") -> Iterator[Notion]:
    """Yield the tape that holds a waist seam; elastic has to stretch, and has none."""
    wish, finished = pattern.spec.skirt, pattern.figures.waist.finished
    if wish.owned is not None or wish.waist_finish is WaistFinish.CASING:
        return
    yield Notion(
        name=say("stay tape for the waist"),
        amount=finished,
        measured=Measured.LENGTH,
        why=say(
            "the finished waist: sewn into the seam, it holds it to this whatever it was cut to"
        ),
    )


def _seam_tapes(pattern: "Pattern") -> Iterator[Notion]:
    layers = [("skirt", pattern.spec.skirt.owned is None)]
    layers += [("lining", pattern.figures.lining is not None)]
    drawn = [cloth for cloth, there in layers if there]
    bias = math.fsum(bias_seam_length(pattern, cloth) for cloth in drawn)
    if bias > 0:
        yield Notion(
            name=say("stay tape for bias seams"),
            amount=bias,
            measured=Measured.LENGTH,
            about=True,
            why=say(
                "seams with the bias on both sides stretch and pucker unless they are taped, or"
                " hung before they are sewn"
            ),
        )
    if pattern.spec.skirt.seams is SeamFinish.BOUND:
        joins = math.fsum(join_length(pattern, cloth) for cloth in drawn)
        yield Notion(
            name=say("seam binding"),
            amount=2 * joins,
            measured=Measured.LENGTH,
            about=True,
            why=say("both raw edges of every seam are bound"),
        )


# --- edges ---------------------------------------------------------------------------------


def _for_edges(pattern: "Pattern") -> Iterator[Notion]:
    figures, units = pattern.figures, pattern.spec.units
    hem = figures.hem
    if hem is not None and hem.braid_length is not None and hem.braid_width is not None:
        yield Notion(
            name=say("horsehair braid, {width} wide", width=length_text(hem.braid_width, units)),
            amount=hem.braid_length,
            measured=Measured.LENGTH,
            why=say(
                "once round the hem and {lap} to lap; cap the ends, they scratch",
                lap=length_text(BRAID_SPARE, units),
            ),
        )
    strips = [
        (said_later("{length} for the hem"), hem.strip_length if hem else None),
        (
            said_later("{length} for the waist"),
            figures.binding.cut_length if figures.binding else None,
        ),
    ]
    named = [say(told, length=length_text(long, units)) for told, long in strips if long]
    if named:
        yield Notion(
            name=say("ready-made bias binding, only in place of the binding cloth"),
            amount=math.fsum(long for _, long in strips if long),
            measured=Measured.LENGTH,
            about=True,
            why=say(
                "{lengths}; or cut it from the binding cloth, which is listed",
                lengths=listed(named),
            ),
        )
    yield from _net_edge(pattern)


def _net_edge(pattern: "Pattern") -> Iterator[Notion]:
    wish, ruffle, units = pattern.spec.ruffle, pattern.figures.ruffle, pattern.spec.units
    if wish is None or ruffle is None or _doubled(pattern):
        return
    if HABITS[wish.cloth].edge not in (LowerEdge.RAW_OR_BOUND, LowerEdge.BOUND):
        return
    free = wish.cloth is RuffleCloth.STIFF_NET
    why = (
        said_later(
            "ready-made, {width} before folding, sewn on before gathering; raw net catches tights"
        )
        if free
        else said_later(
            "ready-made, {width} before folding, sewn on before gathering; the raw edge scratches"
        )
    )
    yield Notion(
        name=say("bias binding for the ruffle's edge, if you bind it")
        if free
        else say("bias binding for the ruffle's edge"),
        amount=lower_edge(ruffle) + STRIP_SPARE,
        measured=Measured.LENGTH,
        about=True,
        why=say(why, width=length_text(BINDING, units)),
    )
