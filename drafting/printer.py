"""How far a printer is from the truth, and what puts it right. Millimetres and plain factors.

A printer is known by two printed lengths that were measured, one across the page and one up
it. Imports errors and units.

Source of every bound: a good home printer is within 0.5 %, a slip of its feed makes up to
1 %, a wrong driver or "fit to page" 2 to 6 %; one scale serves both ways while they differ by
0.3 % or less.
"""

import re
from dataclasses import dataclass
from typing import NamedTuple

from drafting.errors import DraftingError
from drafting.language import decimal, say
from drafting.units import Mm, Units, to_mm

SQUARE: Mm = 100.0
"""Side of the test square: what a measure is of that names nothing else."""

GOOD_ENOUGH = 0.005
"""A printer this near the truth is left alone: half a millimetre in the test square."""

ONE_SCALE = 0.003
"""Across and up may differ by this much and still be put right by one scale."""

FAR_OFF = 0.02
"""A printer further off than this has most likely been told to fit the page."""

NONSENSE = 0.10
"""Nothing that prints at 100 % is further off than this."""

LEAST_NOMINAL: Mm = 75.0
"""On less than this no rule shows half a per cent."""

MOST_NOMINAL: Mm = 2000.0

_HAIR = 1e-9

EXAMPLE = '["198.8 mm of 200 mm", "200.6 mm of 200 mm"]'


class MeasuredError(DraftingError):
    """A printed length was not written as one, or cannot be what a printer made.

    Attributes:
        what: a sentence: what is wrong with it.
        allowed: a sentence: what would do.
    """

    def __init__(self, what: str, allowed: str) -> None:
        super().__init__(f"{what} {allowed}")
        self.what, self.allowed = what, allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a printed length measured, and what it should have been.

    Raises:
        MeasuredError: no printer at 100 % makes that of it.
    """

    measured: Mm
    nominal: Mm = SQUARE

    def __post_init__(self) -> None:
        if not LEAST_NOMINAL - _HAIR <= self.nominal <= MOST_NOMINAL + _HAIR:
            raise MeasuredError(
                f"A length of {self.nominal:g} mm is not one to know a printer by.",
                f"Measure one of {LEAST_NOMINAL:g} mm to {MOST_NOMINAL / 1000:g} m: the test"
                " square or a long rule.",
            )
        if not self.measured > 0:
            raise MeasuredError(
                f"{self.measured:g} mm is no length that was printed.",
                'Write what the test square measured, such as "99.4 mm", or a rule, such as'
                ' "198.8 mm of 200 mm".',
            )
        if not abs(self.measured / self.nominal - 1) <= NONSENSE + _HAIR:
            raise MeasuredError(
                f"{self.measured:g} mm of {self.nominal:g} mm is"
                f" {size_words(self.measured / self.nominal, digits=0)}: that is not the printer"
                " but “fit to page”, another paper, or another line.",
                "Print at 100 % first, then measure again; up to 10 % either way can be corrected.",
            )

    @property
    def size(self) -> float:
        """What comes out of the printer over what went in; 1 is true."""
        return self.measured / self.nominal

    @property
    def factor(self) -> float:
        """What a drawing is enlarged by to come out true; 1 is not at all."""
        return self.nominal / self.measured


class Correction(NamedTuple):
    """What a drawing is enlarged by for one printer, across and up; 1 is not at all."""

    across: float = 1.0
    up: float = 1.0

    @property
    def needed(self) -> bool:
        """Whether it changes anything."""
        return self != AS_DRAWN


AS_DRAWN = Correction()
"""No correction."""


class Printer(NamedTuple):
    """A printer, by what it makes of a length across a page and of one up it.

    Attributes:
        alike: only one length was measured, and stands for both ways.
    """

    across: Measured
    up: Measured
    alike: bool = False

    @property
    def good(self) -> bool:
        """Whether nothing need be done about it, either way."""
        return all(abs(way.size - 1) <= GOOD_ENOUGH + _HAIR for way in (self.across, self.up))

    @property
    def apart(self) -> float:
        """How far its two ways differ, as a part of one."""
        return abs(self.across.factor - self.up.factor)

    @property
    def one_scale(self) -> float | None:
        """The scale that puts both ways right, or None where no one scale can."""
        if self.apart > ONE_SCALE + _HAIR:
            return None
        return (self.across.factor + self.up.factor) / 2

    @property
    def far_off(self) -> bool:
        """Whether it looks as if it had been told to fit the page."""
        return any(abs(way.size - 1) > FAR_OFF + _HAIR for way in (self.across, self.up))

    @property
    def correction(self) -> Correction:
        """What pages are drawn with for it: each way on its own, as soon as one needs it.

        Where one way is put right the other is too, though it alone would be let pass: the
        square then comes out square.
        """
        return AS_DRAWN if self.good else Correction(self.across.factor, self.up.factor)


def printer(measured: tuple[Measured, ...]) -> Printer | None:
    """Return the printer that one or two measures tell of; None for no measures.

    Raises:
        MeasuredError: there are more than two.
    """
    check_count(len(measured))
    if not measured:
        return None
    return Printer(measured[0], measured[-1], alike=len(measured) == 1)


def multiplied(before: Correction, then: Printer) -> Printer:
    """Return the printer itself, where what was measured had been printed with a correction.

    Source: it made ``before`` times a length into ``size`` times that length, so of the plain
    length it makes ``size / before``.

    Raises:
        MeasuredError: together they are more than a printer can be off.
    """
    across, up = (
        Measured(measured=way.measured / by, nominal=way.nominal)
        for way, by in zip((then.across, then.up), before, strict=True)
    )
    return Printer(across, up, alike=then.alike and before.across == before.up)


def size_words(size: float, *, digits: int = 2) -> str:
    """Return how far a size is off in words, such as "0.60 % small"."""
    off = abs(size - 1) * 100
    if round(off, digits) == 0:
        return say("true")
    percent = decimal(f"{off:.{digits}f}")
    if size < 1:
        return say("{percent} %\u00a0small", percent=percent)
    return say("{percent} %\u00a0large", percent=percent)


def check_count(measures: int) -> None:
    """Refuse more measures than a page has ways.

    Raises:
        MeasuredError: there are more than two.
    """
    if measures > 2:
        raise MeasuredError(
            f"There are {measures} measures, and a page has two ways.",
            f"Give one for both ways, or two: across, then up, such as {EXAMPLE}.",
        )


_OF = re.compile(r"\s+of\s+", re.IGNORECASE)


def measure_parts(text: str) -> tuple[str, str]:
    """Return the two lengths of "198.8 mm of 200 mm" as texts; the second empty if left out.

    Raises:
        MeasuredError: it names more than two.
    """
    parts = _OF.split(text.strip())
    if len(parts) > 2:
        raise MeasuredError(
            "It says “of” more than once.",
            'Write what you measured, of what: "198.8 mm of 200 mm".',
        )
    return parts[0], parts[1] if len(parts) == 2 else ""


def measured_from(text: str, bare: Units | None = None) -> Measured:
    """Return what "198.8 mm of 200 mm" says; "99.4 mm" alone is of the test square.

    Args:
        bare: what a number without a unit means, or None to refuse it.

    Raises:
        LengthError, MeasuredError: it is not that, or not what a printer makes.
    """
    measured, nominal = measure_parts(text)
    return Measured(
        measured=to_mm(measured, bare), nominal=to_mm(nominal, bare) if nominal else SQUARE
    )
