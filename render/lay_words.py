"""The words of a lay plan: how a piece lies, how much cloth that is, in a sewist's units.

Imports lays, shapes, units and the language they are said in.
"""

import math

from drafting.cloth.lays import Laid, Lay, Lies
from drafting.cloth.shapes import Shape
from drafting.geometry import straight
from drafting.language import decimal, said_later, say, say_as
from drafting.piece import EdgeKind, FoldWay
from drafting.units import Mm, Units, length_text, metre

ONE_WAY = (
    said_later("one way: nap or print runs this way, from waist to hem"),
    said_later("one way: from waist to hem"),
    said_later("one way"),
)
"""What is written at the arrow of a one-way cloth, at its longest and at its shortest."""

SQUARE: Mm = 0.5
"""A middle line whose ends differ by less lies square to the cloth."""

ACROSS = (
    said_later("fold the cloth here, across"),
    said_later("fold here, across"),
    said_later("fold across"),
)
ALONG = (
    said_later("fold the cloth here, along"),
    said_later("fold here, along"),
    said_later("fold along"),
)
CHALK = (
    said_later("chalk this half, turn over here, chalk the other"),
    said_later("chalk, turn over, chalk"),
    said_later("turn over"),
)
"""What is written along the middle of a half, by how its other half comes about, longest first."""

FACE_DOWN = said_later("face down")
ON_FOLD = said_later("on the fold")
CUT_DOUBLE = said_later("cut double")
UPPER_ONLY = said_later("upper layer only")
END_FOR_END = said_later("turned end for end")
QUARTER = said_later("turned a quarter")
ON_BIAS = said_later("on the bias")
"""Terms of a lay plan, not said yet: they are told apart by these, in every language."""


def along_text(length: Mm, units: Units) -> str:
    """Return a length along the cloth as it is measured out: "2.27 m", or inches."""
    if units is Units.CM and length >= 1000:
        return f"{decimal(f'{length / 1000:.2f}')}\u00a0{metre()}"
    return length_text(length, units)


def money(cost: float) -> str:
    """Return a sum of the sheet's own money, which has no name."""
    return decimal(f"{cost:.2f}")


def grams_text(grams: float, units: Units) -> str:
    """Return a weight to the ten grams, or to the ounce."""
    if units is Units.CM:
        gram = say_as("unit", "g")
        return f"{round(grams, -1) if grams >= 10 else grams:.0f}\u00a0{gram}"
    ounce = say_as("unit", "oz")
    return f"{grams / 28.349523:.0f}\u00a0{ounce}"


def copy_words(one: Laid) -> str:
    """Return which of its shape's copies it is: "2 of 4", "1 and 2 of 4" for two layers."""
    if one.lies is Lies.UPPER:
        return say(
            "{first} and {second} of {count}",
            first=one.copy,
            second=one.copy + 1,
            count=one.shape.count,
        )
    return say("{copy} of {count}", copy=one.copy, count=one.shape.count)


def must_words(one: Laid) -> tuple[str, ...]:
    """Return what has to be told of how a piece is cut, apart from where it lies."""
    return tuple(say(term) for term in _must(one))


def _must(one: Laid) -> list[str]:
    told = []
    if one.flipped:
        told.append(FACE_DOWN)
    if one.lies is Lies.ON_FOLD:
        told.append(ON_FOLD)
    if one.lies is Lies.UPPER:
        told.append(CUT_DOUBLE)
    if one.lies is Lies.ALONE:
        told.append(UPPER_ONLY)
    return told


def terms_of(one: Laid) -> tuple[str, ...]:
    """Return the terms that tell how a piece lies, not said yet."""
    told = _must(one)
    turn = abs(one.extra)
    if abs(turn - math.pi) < 1e-6:
        told.append(END_FOR_END)
    elif turn > 1e-6:
        told.append(QUARTER)
    if one.shape.bias:
        told.append(ON_BIAS)
    elif _is_whole_half(one):
        told.append(_folding(one.shape)[1])
    return tuple(told)


def _is_whole_half(one: Laid) -> bool:
    """Tell whether a piece drawn as a half lies whole on the cloth."""
    return not one.shape.bias and one.lies is not Lies.ON_FOLD and one.shape.piece.half


def how_words(one: Laid, units: Units) -> str:
    """Return everything about how a piece lies, for the list beside the picture."""
    told = [say(term) for term in terms_of(one)]
    if _is_whole_half(one) and (middle := _middle_at(one, units)):
        told.append(middle)
    if one.shape.rectangle and not one.shape.piece.half:
        box = one.box
        long, wide = max(box.width, box.height), min(box.width, box.height)
        told.append(
            say(
                "cut {long} by {wide}",
                long=length_text(long, units),
                wide=length_text(wide, units),
            )
        )
    return ", ".join(told)


def _middle_at(one: Laid, units: Units) -> str:
    """Return where the middle line of a whole half lies, if it lies square to the cloth."""
    fold = next(edge for edge in one.shape.piece.edges if edge.kind is EdgeKind.FOLD)
    line = one.on_cloth(straight(fold.path[0].start, fold.path[-1].end))[0]
    if abs(line.start.x - line.end.x) < SQUARE:
        return say("{length} along", length=length_text(line.start.x, units))
    if abs(line.start.y - line.end.y) < SQUARE:
        return say("{length} across", length=length_text(line.start.y, units))
    return ""


def fold_words(shape: Shape) -> tuple[str, ...]:
    """Return what is written along the middle of a piece drawn as a half, longest first."""
    return tuple(say(words) for words in _folding(shape))


def _folding(shape: Shape) -> tuple[str, ...]:
    return {FoldWay.CROSSWISE: ACROSS, FoldWay.LENGTHWISE: ALONG}.get(shape.fold_way, CHALK)


def layers_words(lay: Lay, units: Units) -> str:
    """Return in how many layers a cloth is laid."""
    folded = sum(stretch.length for stretch in lay.stretches if stretch.folded)
    if not folded:
        return say("single layer, right side up")
    if lay.length - folded < 1:
        return say("folded along its middle, two layers, right sides together")
    return say(
        "folded along its middle for {folded}, two layers, right sides together; then {single}"
        " opened out, single layer",
        folded=along_text(folded, units),
        single=along_text(lay.length - folded, units),
    )
