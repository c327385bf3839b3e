"""How much of one cloth to buy: its lay, and what washing, a pattern and a shop's yard add.

Millimetres and grams. Imports lays, shopping's words, kinds and units.
"""

import math
from collections.abc import Sequence

from drafting.cloth.kinds import behaviour
from drafting.cloth.lays import Lay
from drafting.cloth.shapes import Shape
from drafting.cloth.shopping import Purchase
from drafting.language import decimal, say_as
from drafting.units import Mm, Units, inch, length_text

SOLD_BY = {Units.CM: 100.0, Units.INCH: 114.3}
"""What a shop cuts a length to: 10 cm, or an eighth of a yard."""

PRICED_BY = {Units.CM: 1000.0, Units.INCH: 914.4}
"""The length that a price is for: a metre, or a yard."""

SLACK: Mm = 0.5
"""A length this much beyond what a shop sells is that length; no one cuts so fine."""

LEAST_SQUARING: Mm = 50.0
SQUARING_SHARE = 0.03
"""For squaring the ends of a cloth: 3 % of its length, 50 mm at least (trade habit)."""

TOUCHING: Mm = 1.0
"""Panels that share no more of the width than this lie beside each other, not behind."""

_KINDS = {"lining": "lining", "ruffle": "net"}
_LIGHT_INTERFACING = 50.0
"""A square metre of light iron-on interfacing weighs 30 to 70 g: an estimate."""


def purchase(lay: Lay, units: Units) -> Purchase:
    """Return how much of a laid cloth to buy, what its pieces weigh, and what it costs.

    Shapes that are missing from the lay are missing here too; the lay's findings say so.

    Source: L / (1 - shrink); one repeat for each row of panels; max(50, 3 %) for squaring;
    rounded up to the shop's unit by ceil((x - 0.5) / unit).
    """
    cloth = lay.cloth
    washed = lay.length
    shrinking = washed / (1 - cloth.shrink_length) - washed
    rows = panel_rows(lay) if cloth.repeat else 0
    squaring = 0.0
    if washed > 0 and not cloth.squared:
        squaring = max(LEAST_SQUARING, SQUARING_SHARE * (washed + shrinking))
    repeats = rows * cloth.repeat
    buy = rounded_up(washed + shrinking + repeats + squaring, units)
    return Purchase(
        lay=lay,
        washed=washed,
        shrinking=shrinking,
        panel_rows=rows,
        repeats=repeats,
        squaring=squaring,
        buy=buy,
        cost=None if cloth.price is None else cloth.price * buy / PRICED_BY[units],
        grams=lay.area / 1e6 * (_usual_grams(lay) if cloth.grams is None else cloth.grams),
        estimated=cloth.grams is None,
    )


def rounded_up(length: Mm, units: Units) -> Mm:
    """Return a length rounded up to what a shop sells."""
    unit = SOLD_BY[units]
    return max(math.ceil((length - SLACK) / unit), 0) * unit


def sold_text(length: Mm, units: Units) -> str:
    """Return a length of cloth as a shop tells it: "3.3 m", or "3⅝ yd" to the nearest eighth."""
    if units is Units.CM:
        return decimal(f"{length / 1000:.1f}\u00a0m")
    # A yard has its eighths as an inch has: 36 of the one to the other.
    return length_text(length / 36, units).removesuffix(inch()) + say_as("unit", "yd")


def panel_rows(lay: Lay) -> int:
    """Return how many panels lie one behind another along the cloth, at most.

    Each of them is placed on the cloth's pattern by itself, and takes a whole repeat more.
    Panels are what is not a rectangle; if all are rectangles, those but for the band. A bias
    strip lies across every pattern and is placed on none.
    """
    panels = _panels([*lay.shapes, *lay.counted])
    if lay.counted:
        across = ((shape.count, _beside(shape, lay.usable)) for shape in panels)
        return sum(math.ceil(count / beside) for count, beside in across)
    # A line along the cloth meets a shape wherever the line lies between the shape's two sides.
    sides = [one.box for one in lay.laid if one.shape in panels]
    starts = [(box.bottom + TOUCHING, 1) for box in sides]
    ends = [(box.top, -1) for box in sides]
    most = behind = 0
    for _, change in sorted([*starts, *ends]):
        behind += change
        most = max(most, behind)
    return most


def longest_panel(lay: Lay) -> Mm:
    """Return how long the longest panel lies along the cloth; 0 where there is none."""
    panels = _panels([*lay.shapes, *lay.counted])
    return max((shape.box().width for shape in panels), default=0.0)


def _panels(shapes: Sequence[Shape]) -> list[Shape]:
    straight = [shape for shape in shapes if not shape.bias]
    curved = [shape for shape in straight if not shape.rectangle]
    return curved or [shape for shape in straight if not _is_band(shape)] or straight


def _is_band(shape: Shape) -> bool:
    """Tell whether a rectangle is a band or a casing, folded along its length."""
    return any(edge.name == "waist_inside" for edge in shape.piece.edges)


def _beside(shape: Shape, usable: Mm) -> int:
    return max(math.floor((usable + TOUCHING) / shape.box().height), 1)


def _usual_grams(lay: Lay) -> float:
    """Return an estimate of what a square metre weighs, by the kind of cloth or what it is for."""
    kind = lay.cloth.kind
    if not kind and lay.name == "interfacing":
        return _LIGHT_INTERFACING
    return behaviour(kind or _KINDS.get(lay.name, "")).grams
