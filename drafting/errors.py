"""The faults that drafting raises. Lengths in millimetres. Imports nothing of the project.

Every error carries its values as attributes; its text says what was given and what would do.
Errors know nothing of exit codes and are told apart by class.
"""

from dataclasses import dataclass


class DraftingError(ValueError):
    """Base of everything that can be wrong with a sheet or a draft."""

    @property
    def lines(self) -> tuple[str, ...]:
        """The message, one line a fault."""
        return (str(self),)


class LengthError(DraftingError):
    """A text is not a length as people write one."""

    def __init__(self, text: str, reason: str) -> None:
        super().__init__(f"{quoted(text)} is not a length: {reason}")
        self.text, self.reason = text, reason


class MeasurementError(DraftingError):
    """A measurement lies outside the range the draft holds for."""

    def __init__(self, name: str, value: float, low: float, high: float) -> None:
        super().__init__(f"{name} is {value:g} mm; this draft needs {low:g} to {high:g} mm")
        self.name, self.value, self.low, self.high = name, value, low, high


class GeometryError(DraftingError):
    """Lines that should meet do not, or an outline could not exist."""


class TruingError(DraftingError):
    """Two edges that are sewn together differ in length by more than the tolerance."""

    def __init__(self, seam: str, first: float, second: float, tolerance: float) -> None:
        super().__init__(
            f"the seam {seam!r} does not true: {first:.3f} mm meets {second:.3f} mm"
            f" (they may differ by {tolerance:g} mm)"
        )
        self.seam, self.first, self.second, self.tolerance = seam, first, second, tolerance


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with a spec sheet.

    Attributes:
        what: a sentence: what was given and what is wrong with it.
        allowed: a sentence: what would do, or empty.
        key: dotted key such as ``skirt.fullness``, or empty when none is at fault.
        given: what the sheet says there, as text, or empty.
        nearest: the nearest known key when the key is unknown, or empty.
        line: line of the sheet, counted from 1; 0 when the sheet has no such line.
    """

    what: str
    allowed: str = ""
    key: str = ""
    given: str = ""
    nearest: str = ""
    line: int = 0

    def __str__(self) -> str:
        place = f"line {self.line}: " if self.line else ""
        return " ".join(part for part in (place + self.what, self.allowed) if part)


class SheetError(DraftingError):
    """A spec sheet has faults; all of them are told at once."""

    def __init__(self, name: str, faults: tuple[Fault, ...]) -> None:
        self.name, self.faults = name, faults
        super().__init__("\n".join(self.lines))

    @property
    def lines(self) -> tuple[str, ...]:
        """One line a fault, each led by the sheet's name."""
        return tuple(
            f"{self.name}, {fault}" if fault.line else f"{self.name}: {fault}"
            for fault in self.faults
        )


class SpreadsheetError(SheetError):
    """A CSV cannot be read at all: what it is, its letters or its first line are at fault."""


def quoted(text: str, most: int = 40) -> str:
    """Return ``text`` quoted, printable and at most ``most`` characters long."""
    kept = text if len(text) <= most else text[: most - 1] + "…"
    return f'"{printable(kept)}"'


def printable(text: str) -> str:
    """Return ``text`` with every space a plain one, and a mark for what cannot be printed."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "�" for c in text)
