"""Lengths as people write them, in and out. Millimetres inside; the only home of pint.

Pint alone would read "34 1/2 in" as 17 in and "70,5 cm" as 7050 mm without a word, so the
number is read by a small grammar here and pint converts the one unit.
"""

import math
import re
import unicodedata
from enum import StrEnum
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias

from drafting.errors import LengthError
from drafting.language import decimal, say_as

Mm: TypeAlias = float

LONGEST_TEXT = 40
"""No tape measure reading is longer; longer texts are refused before they are read."""

MM_PER_INCH = 25.4


class Units(StrEnum):
    """Units in which a sheet's bare numbers are read and its results are shown."""

    CM = "cm"
    INCH = "in"


_NAMES = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "in": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in", "''": "in",
    "ft": "ft", "foot": "ft", "feet": "ft", "'": "ft", "′": "ft", "’": "ft",
    "yd": "yd", "yard": "yd", "yards": "yd",
}  # fmt: skip

_DECIMAL = r"\d+(?:[.,]\d+)?"
_FRACTION = r"\d+\s*/\s*\d+"
_NUMBER = rf"(?:\d+\s+{_FRACTION}|{_FRACTION}|{_DECIMAL}|[.,]\d+)"
_UNIT = r"[^\W\d_]+|''|[\"″”'′’]"
_PART = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT})\.?\s*")
# "29.125 in" is plain decimal inches, but "1,250 mm" and "1.250 mm" may be thousands.
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+(?!\d)|\d{1,3}(?:\.\d{3})+(?=\s*(?:mm|milli))")
_BARE = re.compile(_NUMBER)


@cache
def _registry() -> Any:
    """Return pint's registry of the ten units here, which loads ten times as fast as its own."""
    import pint

    return pint.UnitRegistry(str(Path(__file__).with_name("units.txt")))


@cache
def _in_mm(unit: str) -> Mm:
    """Return one of a unit in millimetres; pint is asked once for each of the six."""
    return float(_registry().Quantity(1.0, unit).m_as("mm"))


def _number(text: str, whole: str) -> Fraction:
    total = Fraction(0)
    for part in re.sub(r"\s*/\s*", "/", text).replace(",", ".").split():
        if part.startswith("."):
            part = "0" + part
        try:
            total += Fraction(part)
        except ZeroDivisionError:
            raise LengthError(whole, "a fraction cannot have 0 below its line") from None
    return total


def _plain(text: str) -> str:
    """Return ``text`` in lower case, with vulgar fractions written out ("27½" as "27 1/2")."""
    spaced = "".join(
        # The space comes before NFKC, or 27½ would become 271/2.
        f" {c} "
        if unicodedata.category(c) == "No" and "⁄" in unicodedata.normalize("NFKC", c)
        else c
        for c in text
    )
    return unicodedata.normalize("NFKC", spaced).replace("⁄", "/").strip().lower()


def to_mm(text: str, bare: Units | None = None) -> Mm:
    """Return the length written in ``text``, such as "86.5 cm", "34 1/2 in" or "2 ft 3 in".

    Args:
        text: a number with a unit; a comma or a point for decimals, fractions in the inch way.
        bare: what a number without a unit means, or None to refuse it.

    Raises:
        LengthError: ``text`` is not a length; its ``reason`` says why, in a sewist's words.
    """
    if len(text) > LONGEST_TEXT:
        raise LengthError(text, f"it is longer than {LONGEST_TEXT} characters")
    # NFKC would turn the one-character double prime into two single primes, that is, feet.
    plain = _plain(text.replace("″", '"'))
    if not plain:
        raise LengthError(text, "it is empty")
    if plain.startswith(("-", "−", "–")):
        raise LengthError(text, "a length cannot be negative")
    if _BARE.fullmatch(plain):
        if bare is None:
            raise LengthError(text, 'it has no unit; write "74 cm" or "29 1/8 in"')
        plain = f"{plain} {bare.value}"
    if thousands := _THOUSANDS.search(plain):
        raise LengthError(
            text,
            f'"{thousands[0]}" could be thousands or decimals; write "1250 mm" or "1.25 m"',
        )
    return _sum_of_parts(text, plain)


def _sum_of_parts(text: str, plain: str) -> Mm:
    total, smallest, at = 0.0, math.inf, 0
    while at < len(plain):
        part = _PART.match(plain, at)
        if part is None:
            raise LengthError(text, 'write a number and a unit, such as "74 cm" or "29 1/8 in"')
        unit = _NAMES.get(part["unit"])
        if unit is None:
            raise LengthError(
                text, f'"{part["unit"]}" is not a unit known here; use cm, mm, m, in, ft or yd'
            )
        one = _in_mm(unit)
        if one >= smallest:
            raise LengthError(text, 'write the bigger unit first, such as "2 ft 3 in"')
        total += float(_number(part["number"], text)) * one
        smallest, at = one, part.end()
    return total


def length_text(length: Mm, units: Units) -> str:
    """Return a length as it is shown: "71.5 cm" to one decimal, "28 1/8 in" to the nearest 1/8."""
    if units is Units.CM:
        return decimal(f"{length / 10:.1f}\u00a0cm")
    return f"{_inches(round(length / MM_PER_INCH * 8), 8)}\u00a0{inch()}"


def radius_text(length: Mm, units: Units) -> str:
    """Return a radius rounded down, to half a millimetre or 1/16 in, as rules are marked.

    Down, because a millimetre of radius is six of waist, and a waist can be trimmed but not
    grown. A thousandth is added first, so that 114.5 read as 114.4999… stays 114.5.
    """
    if units is Units.CM:
        return decimal(f"{math.floor(length * 2 + 1e-3) / 20:.2f}\u00a0cm")
    return f"{_inches(math.floor(length / MM_PER_INCH * 16 + 1e-3), 16)}\u00a0{inch()}"


def metres_text(metres: float, units: Units) -> str:
    """Return an estimated amount bought by the metre or the yard."""
    if units is Units.CM:
        return f"{decimal(f'{metres:.1f}')}\u00a0{metre()}"
    return f"{decimal(f'{metres / 0.9144:.1f}')}\u00a0{yard()}"


def metre() -> str:
    """Return how the language spoken writes the metre behind a number."""
    return say_as("unit", "m")


def yard() -> str:
    """Return how the language spoken writes the yard behind a number."""
    return say_as("unit", "yd")


def inch() -> str:
    """Return how the language spoken writes the inch behind a number."""
    return say_as("unit", "in")


_VULGAR = {
    Fraction(1, 8): "⅛", Fraction(1, 4): "¼", Fraction(3, 8): "⅜", Fraction(1, 2): "½",
    Fraction(5, 8): "⅝", Fraction(3, 4): "¾", Fraction(7, 8): "⅞",
}  # fmt: skip


def _inches(count: int, parts: int) -> str:
    whole, rest = divmod(Fraction(count, parts), 1)
    if not rest:
        return str(whole)
    if rest in _VULGAR:
        return f"{whole or ''}{_VULGAR[rest]}"
    return f"{whole}\u00a0{rest}" if whole else str(rest)
