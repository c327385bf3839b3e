"""How the edges at the hem are finished: skirt, lining, ruffle, each cut through and enlarged.

Millimetres on the page. All of them at one scale, at their true widths. Imports the pattern,
the ruffle's habits and the edges.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.piece import EdgeKind
from drafting.ruffle import HABITS
from drafting.spec import HemFinish, RuffleCloth
from drafting.units import Mm, length_text
from render.drawing import Drawing, placed, together
from render.pictures import hem_edges
from render.pictures.hem_edges import Edge
from render.pictures.ink import extent, framed, labels, words
from render.pictures.picture import WIDE, Picture
from render.pictures.section import Sign, broken_off

HIGHEST: Mm = 48.0
"""Height of the deepest finish on the page."""

MOST_ENLARGED = 3.5
"""Widths are drawn at most this many times as large as they are sewn."""

COLUMN_GAP: Mm = 4.0
SECTION: Mm = 17.0
"""Room for a section to the left of its words."""

ROLLED_UP_TO: Mm = 6.0
"""An edge with so little to turn is rolled; with more it is hemmed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished:
    """One edge to be drawn: its name, what it looks like, and the same told in words."""

    name: str
    edge: Edge
    told: str


def hem_finish(pattern: Pattern) -> Picture | None:
    """Return how each lower edge that is sewn is finished, or None if there is none."""
    if not pattern.pieces:
        return None
    by = min(MOST_ENLARGED, HIGHEST / max(_depths(pattern), default=HIGHEST))
    found = tuple(_finishes(pattern, by))
    if not found:
        return None
    # A picture of one edge need not be as wide as the page.
    wide = min((WIDE - 1 - COLUMN_GAP * (len(found) - 1)) / len(found), 58.0)
    columns = [_column(one, wide) for one in found]
    heading = max(extent(column).top for column in columns) + 3
    drawn = together(
        *(
            placed(
                together(column, words(one.name, Point(0.0, heading), bold=True, most=wide)),
                x=k * (wide + COLUMN_GAP),
            )
            for k, (one, column) in enumerate(zip(found, columns, strict=True))
        )
    )
    caption = say(
        "The lower edges cut through and enlarged, all at one scale; the right side of the cloth is"
        " on the left. The cloth is drawn thicker than it is."
    )
    alt = " ".join(one.told for one in found)
    return framed("hem-finish", drawn, caption=caption, alt=alt)


def _column(one: Finished, wide: Mm) -> Drawing:
    at = 6.0
    section = placed(one.edge.drawing, x=at)
    named = tuple(
        type(label)(words=label.words, to=Point(label.to.x + at, label.to.y))
        for label in one.edge.labels
    )
    beside = labels(named, SECTION, most=wide - SECTION - 1)
    return together(section, broken_off(at - 2.5, at + 2.5, one.edge.top), beside)


def _depths(pattern: Pattern) -> Iterator[Mm]:
    """Yield how deep each finish is."""
    hem, skirt = pattern.figures.hem, pattern.spec.skirt
    allowance = skirt_allowance(pattern)
    if hem is not None:
        yield {
            HemFinish.NARROW: allowance / 2,
            HemFinish.TURNED: allowance,
            HemFinish.FACED: hem.facing_depth or 0.0,
            HemFinish.BIAS_FACED: (hem.strip_width or 0.0) - allowance,
            HemFinish.BRAID: hem.braid_width or 0.0,
        }.get(skirt.hem, 5.0)
    if pattern.figures.lining is not None:
        yield (pattern.figures.lining.hem_allowance or 0.0) / 2
    if pattern.spec.ruffle is not None:
        yield HABITS[pattern.spec.ruffle.cloth].edge_hem / 2


def skirt_allowance(pattern: Pattern) -> Mm:
    """Return what is turned up or sewn at the skirt's lowest edge, without spare to level it."""
    figures = pattern.figures.skirt
    if figures.hem_allowance is not None:
        return figures.hem_allowance
    # A flounce or the lowest tier has the hem then.
    edges = [
        edge.allowance
        for piece in pattern.pieces
        for edge in piece.edges
        if piece.cloth == "skirt" and edge.kind is EdgeKind.HEM
    ]
    return edges[-1] - (figures.hem_spare or 0.0) if edges else 10.0


def _finishes(pattern: Pattern, by: float) -> Iterator[Finished]:
    if pattern.figures.hem is not None:
        yield _skirt(pattern, by)
    lining = pattern.figures.lining
    if lining is not None and lining.hem_allowance:
        width = length_text(lining.hem_allowance, pattern.spec.units)
        yield Finished(
            name=say("lining"),
            edge=hem_edges.narrow(Sign.LINING, lining.hem_allowance / 2 * by, width),
            told=say("Lining: {width} turned up in two equal turns and stitched.", width=width),
        )
    if pattern.spec.ruffle is not None:
        yield _ruffle(pattern, by)


def _skirt(pattern: Pattern, by: float) -> Finished:
    hem, units = pattern.figures.hem, pattern.spec.units
    assert hem is not None
    finish = pattern.spec.skirt.hem
    allowance = skirt_allowance(pattern)
    whole = length_text(allowance, units)
    match finish:
        case HemFinish.NARROW:
            edge = hem_edges.narrow(Sign.SKIRT, allowance / 2 * by, whole)
            told = say("Skirt: {width} turned up in two equal turns and stitched.", width=whole)
        case HemFinish.TURNED:
            edge = hem_edges.turned(Sign.SKIRT, allowance * by, whole)
            told = say("Skirt: neatened, turned up {width} and sewn down.", width=whole)
        case HemFinish.ROLLED:
            edge = hem_edges.rolled(Sign.SKIRT, whole)
            told = say("Skirt: rolled in, {width}, and overcast.", width=whole)
        case HemFinish.FACED:
            depth = hem.facing_depth or 0.0
            deep = length_text(depth, units)
            edge = hem_edges.faced(Sign.SKIRT, depth * by, allowance * by, deep, whole)
            told = say(
                "Skirt: a facing {depth} deep, sewn on with {width} and turned to the inside.",
                depth=deep,
                width=whole,
            )
        case HemFinish.BIAS_FACED:
            strip = hem.strip_width or 0.0
            edge = hem_edges.bias_faced(
                Sign.SKIRT, (strip - allowance) * by, allowance * by, length_text(strip, units),
                whole,
            )  # fmt: skip
            told = say(
                "Skirt: a bias strip cut {strip} wide, sewn on with {width} and turned to the"
                " inside.",
                strip=length_text(strip, units),
                width=whole,
            )
        case HemFinish.BRAID:
            wide = hem.braid_width or 0.0
            edge = hem_edges.braided(
                Sign.SKIRT, wide * by, allowance * by, length_text(wide, units), whole
            )
            told = say(
                "Skirt: a braid {braid} wide, stitched by its edge to the right side at the hem and"
                " turned inside; the allowance of {width} lies between.",
                width=whole,
                braid=length_text(wide, units),
            )
        case HemFinish.BOUND:
            strip = hem.strip_width or 0.0
            edge = hem_edges.bound(Sign.SKIRT, strip / 4 * by, length_text(strip, units))
            told = say(
                "Skirt: bound with a bias strip cut {strip} wide, sewn on outside and sewn down"
                " behind.",
                strip=length_text(strip, units),
            )
    return Finished(name=say("skirt"), edge=edge, told=told)


def _ruffle(pattern: Pattern, by: float) -> Finished:
    wish, units = pattern.spec.ruffle, pattern.spec.units
    assert wish is not None
    hem = HABITS[wish.cloth].edge_hem
    if wish.doubled:
        edge = hem_edges.doubled(Sign.RUFFLE, say("the fold of the doubled strip"))
        told = say("Ruffle: the fold of the doubled strip, no hem.")
    elif hem > ROLLED_UP_TO:
        whole = length_text(hem, units)
        edge = hem_edges.narrow(Sign.RUFFLE, hem / 2 * by, whole)
        told = say(
            "Ruffle: {width} turned up in two equal turns and stitched, before gathering.",
            width=whole,
        )
    elif hem:
        whole = length_text(hem, units)
        edge = hem_edges.rolled(Sign.RUFFLE, whole)
        told = say("Ruffle: rolled in, {width}, before gathering.", width=whole)
    elif wish.cloth is RuffleCloth.CRINOLINE_CANVAS:
        edge = hem_edges.bound(Sign.RUFFLE, 4.0, "")
        told = say("Ruffle: bound.")
    elif wish.cloth is RuffleCloth.STIFF_NET:
        edge = hem_edges.raw(
            Sign.RUFFLE, say("left raw, or bound so that it does not catch tights")
        )
        told = say("Ruffle: left raw, or bound so that it does not catch tights.")
    else:
        edge = hem_edges.raw(Sign.RUFFLE, say("left raw"))
        told = say("Ruffle: left raw.")
    return Finished(name=say("ruffle"), edge=edge, told=told)
