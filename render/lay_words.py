"""The words of a lay plan: how a piece lies, how much cloth that is, in a sewist's units.

Imports lays, shopping's values and units.
"""

import math

from drafting.cloth.lays import Laid, Lay, Lies
from drafting.cloth.shapes import Shape
from drafting.geometry import straight
from drafting.piece import EdgeKind, FoldWay
from drafting.units import Mm, Units, length_text

ONE_WAY = (
    "one way: nap or print runs this way, from waist to hem",
    "one way: from waist to hem",
    "one way",
)
"""What is written at the arrow of a one-way cloth, at its longest and at its shortest."""

SQUARE: Mm = 0.5
"""A middle line whose ends differ by less lies square to the cloth."""

ACROSS = ("fold the cloth here, across", "fold here, across", "fold across")
ALONG = ("fold the cloth here, along", "fold here, along", "fold along")
CHALK = ("chalk this half, turn over here, chalk the other", "chalk, turn over, chalk", "turn over")


def along_text(length: Mm, units: Units) -> str:
    """Return a length along the cloth as it is measured out: "2.27 m", or inches."""
    if units is Units.CM and length >= 1000:
        return f"{length / 1000:.2f}\u00a0m"
    return length_text(length, units)


def money(cost: float) -> str:
    """Return a sum of the sheet's own money, which has no name."""
    return f"{cost:.2f}"


def grams_text(grams: float, units: Units) -> str:
    """Return a weight to the ten grams, or to the ounce."""
    if units is Units.CM:
        return f"{round(grams, -1):.0f}\u00a0g" if grams >= 10 else f"{grams:.0f}\u00a0g"
    return f"{grams / 28.349523:.0f}\u00a0oz"


def copy_words(one: Laid) -> str:
    """Return which of its shape's copies it is: "2 of 4", "1 and 2 of 4" for two layers."""
    if one.lies is Lies.UPPER:
        return f"{one.copy} and {one.copy + 1} of {one.shape.count}"
    return f"{one.copy} of {one.shape.count}"


def must_words(one: Laid) -> tuple[str, ...]:
    """Return what has to be told of how a piece is cut, apart from where it lies."""
    told = []
    if one.flipped:
        told.append("face down")
    if one.lies is Lies.ON_FOLD:
        told.append("on the fold")
    if one.lies is Lies.UPPER:
        told.append("cut double")
    if one.lies is Lies.ALONE:
        told.append("upper layer only")
    return tuple(told)


def how_words(one: Laid, units: Units) -> str:
    """Return everything about how a piece lies, for the list beside the picture."""
    told = [*must_words(one)]
    turn = abs(one.extra)
    if abs(turn - math.pi) < 1e-6:
        told.append("turned end for end")
    elif turn > 1e-6:
        told.append("turned a quarter")
    if one.shape.bias:
        told.append("on the bias")
    elif one.lies is not Lies.ON_FOLD and one.shape.piece.half:
        told.append(f"{fold_words(one.shape)[1]}{_middle_at(one, units)}")
    if one.shape.rectangle and not one.shape.piece.half:
        box = one.box
        sides = max(box.width, box.height), min(box.width, box.height)
        told.append(f"cut {length_text(sides[0], units)} by {length_text(sides[1], units)}")
    return ", ".join(told)


def _middle_at(one: Laid, units: Units) -> str:
    """Return where the middle line of a whole half lies, if it lies square to the cloth."""
    fold = next(edge for edge in one.shape.piece.edges if edge.kind is EdgeKind.FOLD)
    line = one.on_cloth(straight(fold.path[0].start, fold.path[-1].end))[0]
    if abs(line.start.x - line.end.x) < SQUARE:
        return f", {length_text(line.start.x, units)} along"
    if abs(line.start.y - line.end.y) < SQUARE:
        return f", {length_text(line.start.y, units)} across"
    return ""


def fold_words(shape: Shape) -> tuple[str, ...]:
    """Return what is written along the middle of a piece drawn as a half, longest first."""
    return {FoldWay.CROSSWISE: ACROSS, FoldWay.LENGTHWISE: ALONG}.get(shape.fold_way, CHALK)


def layers_words(lay: Lay, units: Units) -> str:
    """Return in how many layers a cloth is laid."""
    folded = sum(stretch.length for stretch in lay.stretches if stretch.folded)
    if not folded:
        return "single layer, right side up"
    if lay.length - folded < 1:
        return "folded along its middle, two layers, right sides together"
    return (
        f"folded along its middle for {along_text(folded, units)}, two layers, right sides"
        f" together; then {along_text(lay.length - folded, units)} opened out, single layer"
    )
