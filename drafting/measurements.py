"""What is measured of a body, and which measures it can have. Millimetres.

Knows nothing of sheets or files. The limits are classroom estimates, wide on purpose; a
``low`` to ``high`` refuses, a ``usual`` range only asks.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from drafting.half_scale import Scale
from drafting.language import say_as
from drafting.spec import Figure
from drafting.units import Mm

NAMES = {
    "waist": "waist",
    "hip": "hip",
    "hip_depth": "hip depth",
    "waist_to_knee": "waist to knee",
    "floor_front": "waist to floor in front",
    "floor_side": "waist to floor at the side",
    "floor_left": "waist to floor on the left",
    "floor_right": "waist to floor on the right",
    "floor_back": "waist to floor at the back",
    "height": "height",
    "heel": "heel",
    "step": "step",
}
"""Every measure of a body by its key, and how faults speak of it, which are English."""


def measure_words(key: str) -> str:
    """Return how a measure is spoken of, in the language spoken: a noun without its article."""
    return {
        "waist": say_as("measure", "waist"),
        "hip": say_as("measure", "hip"),
        "hip_depth": say_as("measure", "hip depth"),
        "waist_to_knee": say_as("measure", "waist to knee"),
        "floor_front": say_as("measure", "waist to floor in front"),
        "floor_side": say_as("measure", "waist to floor at the side"),
        "floor_left": say_as("measure", "waist to floor on the left"),
        "floor_right": say_as("measure", "waist to floor on the right"),
        "floor_back": say_as("measure", "waist to floor at the back"),
        "height": say_as("measure", "height"),
        "heel": say_as("measure", "heel"),
        "step": say_as("measure", "step"),
    }[key]


SHOE_SHARE = 0.95
"""The body rises a little less than its heel, since it tips forward."""

FLOOR_LENGTHS = ("floor_front", "floor_side", "floor_left", "floor_right", "floor_back")


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A measure that the sheet gives.

    Attributes:
        text: how the sheet writes it, or empty when it comes from the size the sheet names.
    """

    value: Mm
    text: str = ""


# "27.2 in" may come out a hair off; a limit itself is always allowed.
_HAIR: Mm = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a measure may be (``low`` to ``high``) and what most bodies have (``usual``), in mm."""

    usual_low: Mm
    usual_high: Mm
    low: Mm
    high: Mm

    def allow(self, value: Mm) -> bool:
        """Tell whether a body can have that measure; nan it cannot."""
        return self.low - _HAIR <= value <= self.high + _HAIR

    def expect(self, value: Mm) -> bool:
        """Tell whether most bodies have about that measure."""
        return self.usual_low - _HAIR <= value <= self.usual_high + _HAIR


def _limits(usual_low: Mm, usual_high: Mm, low: Mm, high: Mm) -> Limits:
    return Limits(usual_low=usual_low, usual_high=usual_high, low=low, high=high)


def _only(low: Mm, high: Mm) -> Limits:
    """Return limits within which nothing is asked."""
    return _limits(low, high, low, high)


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyLimits:
    """The limits of every measure of one kind of body.

    Attributes:
        whose: whose measure it is, for the beginning of a sentence.
        measures: limits by the key of the measure.
        hip_less_waist: of the hip less the waist.
        floor_spread: of the longest length from waist to floor less the shortest.
        doubled: whether it is written at twice what the tape showed on it.
    """

    whose: str
    measures: Mapping[str, Limits]
    hip_less_waist: Limits
    floor_spread: Limits
    doubled: bool = False


# The heights are ours; the children's usual ones are those that the child's limits hold for.
_ADULT = BodyLimits(
    whose="An adult's",
    measures={
        "waist": _limits(560, 1250, 450, 1800),
        "hip": _limits(780, 1450, 650, 2000),
        "hip_depth": _limits(170, 240, 120, 300),
        "waist_to_knee": _limits(500, 660, 420, 760),
        **dict.fromkeys(FLOOR_LENGTHS, _limits(920, 1180, 780, 1350)),
        "height": _limits(1450, 2000, 1200, 2300),
        "heel": _limits(0, 100, 0, 180),
        "step": _limits(500, 800, 350, 1000),
    },
    hip_less_waist=_limits(80, 400, -150, 600),
    floor_spread=_limits(0, 40, 0, 100),
)
_CHILD = BodyLimits(
    whose="A child's",
    measures={
        "waist": _limits(460, 720, 400, 950),
        "hip": _limits(480, 920, 430, 1150),
        "hip_depth": _limits(90, 190, 70, 220),
        "waist_to_knee": _limits(240, 540, 180, 620),
        **dict.fromkeys(FLOOR_LENGTHS, _limits(440, 1000, 380, 1100)),
        "height": _limits(800, 1640, 700, 1800),
        "heel": _limits(0, 40, 0, 60),
        "step": _limits(250, 650, 200, 750),
    },
    hip_less_waist=_limits(10, 260, -120, 350),
    floor_spread=_limits(0, 25, 0, 60),
)

# Sheets give full-size lengths, so these are twice what a half-scale form itself may measure.
# A form neither stands at a height nor steps: any that a child or an adult may have will do.
_HALF_FORM = BodyLimits(
    whose="Written at full size, a half-scale form's",
    measures={
        "waist": _only(500, 1400),
        "hip": _only(660, 1700),
        "hip_depth": _only(160, 250),
        "waist_to_knee": _only(480, 680),
        **dict.fromkeys(FLOOR_LENGTHS, _only(920, 1200)),
        "height": _only(700, 2300),
        "heel": _only(0, 120),
        "step": _only(200, 1000),
    },
    hip_less_waist=_only(60, 440),
    floor_spread=_only(0, 50),
    doubled=True,
)

SAME: Mm = 0.05
"""Half a tenth of a millimetre: "104 cm" may come out as 1039.9999…."""


def limits_of(figure: Figure, scale: Scale) -> BodyLimits:
    """Return the limits that hold for a sheet; a half-scale form's are the same for any figure."""
    if scale is Scale.HALF:
        return _HALF_FORM
    return _CHILD if figure is Figure.CHILD else _ADULT
