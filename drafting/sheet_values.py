"""What one key of a spec sheet may hold: lengths, numbers, counts; and how all are refused.

With ``sheet_models``, ``sheet_words`` and ``sheet_texts`` the home of pydantic. A reader
returns a value or raises a refusal of whole sentences, for the key is known here, and what
would do instead.
"""

import math
import re

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from drafting.errors import LengthError, quoted
from drafting.printer import EXAMPLE as MEASURED_EXAMPLE
from drafting.printer import SQUARE, Measured, MeasuredError, check_count, measure_parts
from drafting.sheet_told import Context, did_you_mean, either, kind_of, near, shown, told
from drafting.units import MM_PER_INCH, Mm, Units, length_text, to_mm

# "27.2 in" may come out a hair off; a limit itself is always allowed.
_HAIR: Mm = 1e-6

_PLAIN_NUMBER = re.compile(r"\d{1,12}(?:[.,]\d{1,12})?|[.,]\d{1,12}", re.ASCII)

FULLNESS = {
    "quarter": 0.25,
    "third": 1 / 3,
    "half": 0.5,
    "three-quarter": 0.75,
    "full": 1.0,
    "one-and-a-half": 1.5,
    "double": 2.0,
}


def refusal(value: object, what: str, allowed: str = "", nearest: str = "") -> PydanticCustomError:
    return PydanticCustomError(
        "refused",
        "refused",
        {"what": what, "allowed": allowed, "nearest": nearest, "given": shown(value)},
    )


def wrong_kind(key: str, value: object, wanted: str, example: str) -> PydanticCustomError:
    kind = kind_of(value)
    told = shown(value)
    is_what = kind if told == kind else f"{told}, {kind}"
    return refusal(value, f"{key} is {is_what}; it needs {wanted}.", f"Write {key} = {example}.")


def context_of(info: ValidationInfo) -> Context:
    return info.context if isinstance(info.context, Context) else Context()


def key_of(info: ValidationInfo) -> str:
    return info.field_name or "it"


def length_within(
    low: Mm, high: Mm, *, usual: tuple[Mm, Mm] | None = None, example: str = "3 cm"
) -> BeforeValidator:
    """Return a reader of lengths; ``usual`` is where a slip of the unit would lead back to."""

    def read(value: object, info: ValidationInfo) -> Mm:
        key, context = key_of(info), context_of(info)
        length = _read_length(value, key, context, example)
        if low - _HAIR <= length <= high + _HAIR:
            return length
        shown_low, shown_high = length_text(low, context.shown), length_text(high, context.shown)
        hint = ""
        for factor, unit in (
            (10.0, "cm"),
            (MM_PER_INCH, "inches"),
            (2.54, "inches"),
            (0.1, "mm"),
            (1 / 2.54, "cm"),
        ):
            # A length that is only a little too long is no slip of the unit.
            if factor < 1 and length < 2 * high:
                continue
            if usual and usual[0] <= length * factor <= usual[1]:
                hint = f" Was it meant in {unit}?"
                break
        raise refusal(
            value,
            f"{key} is {told(value)}.",
            f"It can be from {shown_low} to {shown_high}.{hint}",
        )

    return BeforeValidator(read)


def _read_length(
    value: object, key: str, context: Context, example: str = "3 cm", unit: str = "cm"
) -> Mm:
    """Return a length; ``unit`` is what one without a unit is asked whether it was meant in."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise wrong_kind(key, value, "a length", f'"{example}"')
    if isinstance(value, str):
        return _read_length_text(value, key, context, unit)
    if not usable(value):
        raise refusal(value, f"{key} is {shown(value)}, which is no length.", f'Write "{example}".')
    if value < 0:
        raise refusal(value, f"{key} is {shown(value)}; a length cannot be negative.")
    if value == 0:
        return 0.0  # nothing is nothing in every unit
    if context.unsure:
        raise PydanticCustomError("unread", "unread")
    if context.bare is None:
        number = shown(value)
        raise refusal(value, f"{key} is {number}, without a unit.", _with_unit(number, unit))
    return float(value) * (10.0 if context.bare is Units.CM else MM_PER_INCH)


def usable(value: float) -> bool:
    """Tell whether a number is finite and short enough to be a measure."""
    return math.isfinite(value) if isinstance(value, float) else abs(value) < 10**12


def _with_unit(number: str, unit: str) -> str:
    return (
        f'Write "{number} {unit}" or "{number} in", or say units = "cm" or units = "in" at the top'
        " of the sheet."
    )


def _read_length_text(value: str, key: str, context: Context, unit: str) -> Mm:
    if value.strip() == "0":
        return 0.0
    try:
        return to_mm(value, context.bare)
    except LengthError as error:
        reason = error.reason
    try:
        to_mm(value, Units.CM)
    except LengthError:
        raise refusal(value, f"{key} is {quoted(value)}: {reason}.") from None
    # A unit was all that it lacked.
    if context.unsure:
        raise PydanticCustomError("unread", "unread")
    raise refusal(
        value, f"{key} is {quoted(value)}, without a unit.", _with_unit(value.strip(), unit)
    )


def read_measured(value: object, info: ValidationInfo) -> tuple[Measured, ...]:
    """Return what printed lengths measured: none, one for both ways, or across and up."""
    key, context = key_of(info), context_of(info)
    if not isinstance(value, list):
        short = isinstance(value, str) and len(value) < 30 and value.isprintable()
        example = f'["{str(value).strip()}"]' if short else MEASURED_EXAMPLE
        raise wrong_kind(key, value, "a list of what you measured", example)
    try:
        check_count(len(value))
    except MeasuredError as error:
        raise refusal(value, f"{key}: {error.what}", error.allowed) from None
    return tuple(_read_measure(one, key, context) for one in value)


def _read_measure(value: object, key: str, context: Context) -> Measured:
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise refusal(
            value, f"{key} lists {shown(value)}, which is no length.",
            f"Write {key} = {MEASURED_EXAMPLE}.",
        )  # fmt: skip
    try:
        measured, nominal = measure_parts(value) if isinstance(value, str) else (value, "")
        return Measured(
            measured=_read_length(measured, key, context, "99.4 mm", "mm"),
            nominal=_read_length(nominal, key, context, "100 mm", "mm") if nominal else SQUARE,
        )
    except MeasuredError as error:
        raise refusal(value, f"{key}: {error.what}", error.allowed) from None


def number_within(
    low: float, high: float, *, note: str = "", example: str = "1.5"
) -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> float:
        number = plain_number(value, key_of(info), example)
        if low <= number <= high:
            return number
        raise refusal(
            value,
            f"{key_of(info)} is {told(value)}.",
            f"It can be from {low:g} to {high:g}{note}.",
        )

    return BeforeValidator(read)


def number_or(
    word: str, low: float, high: float, *, note: str = "", example: str = "1.5"
) -> BeforeValidator:
    """Return a reader of numbers that also takes one word, and returns it as it stands here."""

    def read(value: object, info: ValidationInfo) -> float | str:
        if isinstance(value, str) and not _PLAIN_NUMBER.fullmatch(value.strip()):
            given = " ".join(value.split()).lower()
            if given == word:
                return word
            nearest = near(given, (word,))
            raise refusal(
                value,
                f"{key_of(info)} cannot be {quoted(value)}. {did_you_mean(nearest)}".strip(),
                f'It can be from {low:g} to {high:g}{note}, or "{word}".',
                nearest,
            )
        number = plain_number(value, key_of(info), example)
        if low <= number <= high:
            return number
        raise refusal(
            value,
            f"{key_of(info)} is {told(value)}.",
            f'It can be from {low:g} to {high:g}{note}, or "{word}".',
        )

    return BeforeValidator(read)


def plain_number(value: object, key: str, example: str) -> float:
    """Return a number, also one written as text with a comma or a point."""
    if isinstance(value, str) and _PLAIN_NUMBER.fullmatch(value.strip()):
        return float(value.strip().replace(",", "."))
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise wrong_kind(key, value, "a number", example)
    if not usable(value):
        raise refusal(
            value, f"{key} is {shown(value)}, which is no number to work with.",
            f"Write {key} = {example}.",
        )  # fmt: skip
    return float(value)


def count_within(low: int, high: int) -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> int:
        number = plain_number(value, key_of(info), "2")
        if low <= number <= high and number == int(number):
            return int(number)
        raise refusal(
            value,
            f"{key_of(info)} is {told(value)}.",
            f"It can be a whole number from {low} to {high}.",
        )

    return BeforeValidator(read)


def numbers_within(
    low: float, high: float, *, least: int, most: int, example: str
) -> BeforeValidator:
    """Return a reader of a list of ``least`` to ``most`` numbers."""

    def read(value: object, info: ValidationInfo) -> tuple[float, ...]:
        key = key_of(info)
        if not isinstance(value, list):
            raise wrong_kind(key, value, "a list of numbers", example)
        if not least <= len(value) <= most:
            raise refusal(
                value,
                f"{key} lists {len(value)} number{'' if len(value) == 1 else 's'}.",
                f"It can list {least} to {most}, such as {key} = {example}.",
            )
        numbers = tuple(plain_number(one, key, example) for one in value)
        for one, number in zip(value, numbers, strict=True):
            if not low <= number <= high:
                raise refusal(
                    value, f"{key} lists {told(one)}.", f"Each can be from {low:g} to {high:g}."
                )
        return numbers

    return BeforeValidator(read)


def read_fullness(value: object, info: ValidationInfo) -> float:
    """Return a number of circles; how many are allowed hangs on the cut (``skirt_checks``)."""
    key = key_of(info)
    if isinstance(value, str) and not _PLAIN_NUMBER.fullmatch(value.strip()):
        word = re.sub(r"[\s_]+", "-", value.strip().lower())
        if word in FULLNESS:
            return FULLNESS[word]
        nearest = near(word, tuple(FULLNESS))
        raise refusal(
            value,
            f"{key} cannot be {quoted(value)}. {did_you_mean(nearest)}".strip(),
            f"Write {either(tuple(FULLNESS))}, or a number of circles such as 0.5.",
            nearest,
        )
    return plain_number(value, key, '"half"')
