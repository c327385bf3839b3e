"""What one key of a spec sheet may hold: readers that return a value or raise a refusal.

Beside ``sheet_models`` the only home of pydantic. A refusal carries whole sentences, for the
key is known here, and what would do instead.
"""

import datetime
import math
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from typing import Any, Literal, TypeVar
from urllib.parse import urlsplit

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from drafting.errors import LengthError, quoted
from drafting.measurements import NAMES as MEASURES
from drafting.sizes import size_table
from drafting.spec import PaperName
from drafting.units import MM_PER_INCH, Mm, Units, length_text, to_mm

# "27.2 in" may come out a hair off; a limit itself is always allowed.
_HAIR: Mm = 1e-6

TITLE_LENGTH = 80
TEXT_LENGTH = 120
PAGE_LENGTH = 200

FULLNESS = {
    "quarter": 0.25,
    "third": 1 / 3,
    "half": 0.5,
    "three-quarter": 0.75,
    "full": 1.0,
    "one-and-a-half": 1.5,
    "double": 2.0,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """How a sheet's numbers are read and told.

    Attributes:
        bare: what a number without a unit means, or None to refuse it.
        shown: units in which limits are told.
        unsure: the sheet's own ``units`` cannot be read, so bare numbers are left unread.
    """

    bare: Units | None = None
    shown: Units = Units.CM
    unsure: bool = False


# --- faults --------------------------------------------------------------------------------


def refusal(value: object, what: str, allowed: str = "", nearest: str = "") -> PydanticCustomError:
    return PydanticCustomError(
        "refused",
        "refused",
        {"what": what, "allowed": allowed, "nearest": nearest, "given": shown(value)},
    )


def shown(value: object) -> str:
    """Return a value of a sheet as text, short and printable."""
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        # Python refuses to write out numbers of some thousand digits.
        return str(value) if abs(value) < 10**40 else "a number of more than 40 digits"
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, datetime.datetime | datetime.date | datetime.time):
        return value.isoformat()
    return _kind(value)


def _kind(value: object) -> str:
    kinds: tuple[tuple[type | tuple[type, ...], str], ...] = (
        (bool, "a yes or no"),
        ((int, float), "a number"),
        (str, "text"),
        (list, "a list"),
        (dict, "a table"),
        (datetime.datetime, "a date with a time"),
        (datetime.date, "a date"),
        (datetime.time, "a time of day"),
    )
    return next((name for kind, name in kinds if isinstance(value, kind)), "nothing")


def _wrong_kind(key: str, value: object, wanted: str, example: str) -> PydanticCustomError:
    kind = _kind(value)
    told = shown(value)
    is_what = kind if told == kind else f"{told}, {kind}"
    return refusal(value, f"{key} is {is_what}; it needs {wanted}.", f"Write {key} = {example}.")


def near(word: str, known: tuple[str, ...]) -> str:
    """Return the known word most like ``word``, or an empty text."""
    if len(word) > 60:
        return ""
    word = word.strip().lower()
    found = get_close_matches(word, known, n=1, cutoff=0.6) or [
        name for name in known if len(word) > 2 and word in name.split()
    ]
    return found[0] if found else ""


def did_you_mean(word: str) -> str:
    """Return the question, or nothing for no word."""
    return f'Did you mean "{word}"?' if word else ""


def either(words: tuple[str, ...]) -> str:
    """Return the words in quotes, with an "or" before the last."""
    listed = [f'"{word}"' for word in words]
    return listed[0] if len(listed) == 1 else f"{', '.join(listed[:-1])} or {listed[-1]}"


def _context(info: ValidationInfo) -> Context:
    return info.context if isinstance(info.context, Context) else Context()


def _key(info: ValidationInfo) -> str:
    return info.field_name or "it"


# --- what a key may hold -------------------------------------------------------------------

Reader = Callable[[Any, ValidationInfo], Any]
_Word = TypeVar("_Word", bound=StrEnum)


def length_within(
    low: Mm, high: Mm, *, usual: tuple[Mm, Mm] | None = None, example: str = "3 cm"
) -> BeforeValidator:
    """Return a reader of lengths; ``usual`` is where a slip of the unit would lead back to."""

    def read(value: object, info: ValidationInfo) -> Mm:
        key, context = _key(info), _context(info)
        length = _read_length(value, key, context, example)
        if low - _HAIR <= length <= high + _HAIR:
            return length
        shown_low, shown_high = length_text(low, context.shown), length_text(high, context.shown)
        hint = ""
        for factor, unit in ((10.0, "cm"), (MM_PER_INCH, "inches"), (2.54, "inches")):
            if usual and usual[0] <= length * factor <= usual[1]:
                hint = f" Was it meant in {unit}?"
                break
        raise refusal(
            value,
            f"{key} is {told(value)}.",
            f"It can be from {shown_low} to {shown_high}.{hint}",
        )

    return BeforeValidator(read)


def measure_text(value: object) -> str:
    """Return a measure as the sheet writes it, without quotes."""
    return value.strip() if isinstance(value, str) else shown(value)


def told(value: object) -> str:
    """Return a value for the middle of a sentence."""
    return shown(value.strip())[1:-1] if isinstance(value, str) else shown(value)


def _read_length(value: object, key: str, context: Context, example: str = "3 cm") -> Mm:
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise _wrong_kind(key, value, "a length", f'"{example}"')
    if isinstance(value, str):
        return _read_length_text(value, key, context)
    if not _usable(value):
        raise refusal(value, f"{key} is {shown(value)}, which is no length.", f'Write "{example}".')
    if value < 0:
        raise refusal(value, f"{key} is {shown(value)}; a length cannot be negative.")
    if value == 0:
        return 0.0  # nothing is nothing in every unit
    if context.unsure:
        raise PydanticCustomError("unread", "unread")
    if context.bare is None:
        number = shown(value)
        raise refusal(value, f"{key} is {number}, without a unit.", _with_unit(number))
    return float(value) * (10.0 if context.bare is Units.CM else MM_PER_INCH)


def _usable(value: float) -> bool:
    """Tell whether a number is finite and short enough to be a measure."""
    return math.isfinite(value) if isinstance(value, float) else abs(value) < 10**12


def _with_unit(number: str) -> str:
    return (
        f'Write "{number} cm" or "{number} in", or say units = "cm" or units = "in" at the top'
        " of the sheet."
    )


def _read_length_text(value: str, key: str, context: Context) -> Mm:
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
    raise refusal(value, f"{key} is {quoted(value)}, without a unit.", _with_unit(value.strip()))


def number_within(
    low: float, high: float, *, note: str = "", example: str = "1.5"
) -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> float:
        number = _read_number(value, _key(info), example)
        if low <= number <= high:
            return number
        raise refusal(
            value,
            f"{_key(info)} is {told(value)}.",
            f"It can be from {low:g} to {high:g}{note}.",
        )

    return BeforeValidator(read)


_PLAIN_NUMBER = re.compile(r"\d{1,12}(?:[.,]\d{1,12})?|[.,]\d{1,12}", re.ASCII)


def _read_number(value: object, key: str, example: str) -> float:
    """Return a number, also one written as text with a comma or a point."""
    if isinstance(value, str) and _PLAIN_NUMBER.fullmatch(value.strip()):
        return float(value.strip().replace(",", "."))
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _wrong_kind(key, value, "a number", example)
    if not _usable(value):
        raise refusal(
            value, f"{key} is {shown(value)}, which is no number to work with.",
            f"Write {key} = {example}.",
        )  # fmt: skip
    return float(value)


def count_within(low: int, high: int) -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> int:
        number = _read_number(value, _key(info), "2")
        if low <= number <= high and number == int(number):
            return int(number)
        raise refusal(
            value,
            f"{_key(info)} is {told(value)}.",
            f"It can be a whole number from {low} to {high}.",
        )

    return BeforeValidator(read)


def read_fullness(value: object, info: ValidationInfo) -> float:
    key = _key(info)
    if isinstance(value, str) and not _PLAIN_NUMBER.fullmatch(value.strip()):
        word = re.sub(r"[\s_]+", "-", value.strip().lower())
        if word in FULLNESS:
            return FULLNESS[word]
        nearest = near(word, tuple(FULLNESS))
        raise refusal(
            value,
            f"{key} cannot be {quoted(value)}. {did_you_mean(nearest)}".strip(),
            f"Write {either(tuple(FULLNESS))}, or a number of circles from 0.2 to 4.",
            nearest,
        )
    number = _read_number(value, key, '"half"')
    if not 0.2 <= number <= 4:
        words = ', such as 0.5 or a word such as "half"'
        raise refusal(value, f"{key} is {told(value)}.", f"It can be from 0.2 to 4 circles{words}.")
    return number


def choice_of(
    kind: type[_Word], *, later: tuple[str, ...] = (), example: str = ""
) -> BeforeValidator:
    """Return a reader of one word of ``kind``; ``later`` words are known but not drafted yet."""
    words = tuple(word.value for word in kind)

    def read(value: object, info: ValidationInfo) -> _Word:
        word = _read_word(value, _key(info), words, later, example)
        return kind(word)

    return BeforeValidator(read)


def _read_word(
    value: object, key: str, words: tuple[str, ...], later: tuple[str, ...], example: str = ""
) -> str:
    if not isinstance(value, str):
        raise _wrong_kind(key, value, "a word", f'"{example or words[0]}"')
    word = " ".join(value.split()).lower()
    if word in words:
        return word
    if word in later:
        raise _not_yet(key, value, words)
    nearest = near(word, (*words, *later))
    question = f" {did_you_mean(nearest)}" if nearest else ""
    raise refusal(
        value, f"{key} cannot be {quoted(value)}.{question}", f"Write {either(words)}.", nearest
    )


def _not_yet(key: str, value: object, words: tuple[str, ...]) -> PydanticCustomError:
    return refusal(
        value,
        f"{key} = {shown(value)} is not drafted by this edition yet.",
        f"It drafts {key} = {either(words)}.",
    )


def one_word(word: str, *later: str) -> BeforeValidator:
    """Return a reader that accepts one word and knows of others that are not drafted yet."""

    def read(value: object, info: ValidationInfo) -> str:
        return _read_word(value, _key(info), (word,), later)

    return BeforeValidator(read)


def drafted_later(what: str) -> BeforeValidator:
    """Return a reader that refuses a key of the contract which is not drafted yet."""

    def read(value: object, info: ValidationInfo) -> None:
        if value == []:
            return
        raise refusal(
            value, f"{_key(info)} {what}, which this edition does not draft yet.",
            "Take the key out.",
        )  # fmt: skip

    return BeforeValidator(read)


def read_no_drop(value: object, info: ValidationInfo) -> Mm:
    key, context = _key(info), _context(info)
    if value in (0, 0.0) and not isinstance(value, bool):
        return 0.0
    drop = _read_length(value, key, context)
    if drop == 0:
        return drop
    raise refusal(
        value, f"{key} is {told(value)}; a dropped waistline is not drafted by this edition yet.",
        f'It drafts {key} = "0 cm".',
    )  # fmt: skip


def read_one_tier(value: object, info: ValidationInfo) -> int:
    number = _read_number(value, _key(info), "1")
    if number != 1:
        raise refusal(
            value, f"{_key(info)} is {told(value)}; a ruffle of several tiers is not drafted by"
            " this edition yet.", f"It drafts {_key(info)} = 1.",
        )  # fmt: skip
    return 1


def read_yes_no(value: object, info: ValidationInfo) -> bool:
    if not isinstance(value, bool):
        raise _wrong_kind(_key(info), value, "true or false", "true")
    return value


# --- texts ---------------------------------------------------------------------------------

# Marks that turn the direction of what is written after them, also beyond their own text.
_TURNING = {*range(0x202A, 0x202F), *range(0x2066, 0x206A)}


def forbidden(character: str) -> bool:
    """Tell whether a character cannot be printed in a line of text."""
    return unicodedata.category(character) in ("Cc", "Cs", "Zl", "Zp") or ord(character) in _TURNING


def clean(text: str) -> str:
    """Return a text in one normal form, without the white space around it."""
    return unicodedata.normalize("NFC", text).strip()


def seen(text: str) -> bool:
    """Tell whether any character of a text leaves a mark."""
    return any(unicodedata.category(c) not in ("Cf", "Zs", "Mn", "Cn") for c in text)


def text_up_to(most: int, *, empty: Literal["fine", "refused"] = "fine") -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> str:
        key = _key(info)
        if not isinstance(value, str):
            example = f'"{shown(value)}"' if isinstance(value, int | float) else '"…"'
            raise _wrong_kind(key, value, "text in quotes", example)
        return _checked_text(value, key, most, empty)

    return BeforeValidator(read)


def _checked_text(value: str, key: str, most: int, empty: Literal["fine", "refused"]) -> str:
    text = clean(value)
    bad = next((c for c in text if forbidden(c)), None)
    if bad is not None:
        raise refusal(
            value, f"{key} holds a character that cannot be printed (code {ord(bad)}).",
            "Type the text again, in one line.",
        )  # fmt: skip
    if len(text) > most:
        raise refusal(value, f"{key} has {len(text)} characters.", f"It can have up to {most}.")
    if empty == "refused" and not seen(text):
        raise refusal(
            value, f"{key} is empty.", f'Write {key} = "Chorus skirt", or take the key out.'
        )
    return text


def read_edition(value: object, info: ValidationInfo) -> str:
    if isinstance(value, int | float) and not isinstance(value, bool) and _usable(value):
        return shown(value)
    if not isinstance(value, str):
        raise _wrong_kind(_key(info), value, "text or a number", '"1"')
    return _checked_text(value, _key(info), TEXT_LENGTH, "fine")


_PAGE_CHARACTERS = re.compile(r"[^\s\"<>\\^`{|}]+")


def read_page(value: object, info: ValidationInfo) -> str:
    key = _key(info)
    if not isinstance(value, str):
        raise _wrong_kind(key, value, "the address of a page", '"https://example.org/skirts"')
    text = _checked_text(value, key, PAGE_LENGTH, "fine")
    try:
        parts = urlsplit(text)
        host = parts.hostname
    except ValueError:
        host = None
    if not text or (
        host and parts.scheme in ("http", "https") and _PAGE_CHARACTERS.fullmatch(text)
    ):
        return text
    raise refusal(
        value, f"{key} is {quoted(value)}, which is not the address of a page.",
        'Write it in full, such as "https://example.org/skirts".',
    )  # fmt: skip


def read_date(value: object, info: ValidationInfo) -> str:
    key = _key(info)
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value.strip(), re.ASCII):
        try:
            return datetime.date.fromisoformat(value.strip()).isoformat()
        except ValueError:
            pass
    if isinstance(value, str):
        raise refusal(
            value, f"{key} is {quoted(value)}, which is not a day.",
            f'Write year, month, day: {key} = "2026-11-24".',
        )  # fmt: skip
    raise _wrong_kind(key, value, "a day", '"2026-11-24"')


# --- lists ---------------------------------------------------------------------------------


def _words(value: object, key: str, wanted: str, example: str) -> list[str]:
    if not isinstance(value, list):
        short = isinstance(value, str) and len(value) < 30 and value.isprintable()
        given = f'["{str(value).strip()}"]' if short else example
        raise _wrong_kind(key, value, wanted, given)
    for one in value:
        if not isinstance(one, str):
            raise refusal(
                value, f"{key} lists {shown(one)}, which is not a word in quotes.",
                f"Write {key} = {example}.",
            )  # fmt: skip
    return value


_PAPERS_LATER = ("a0", "a1", "roll-841", "roll-914", "roll-36in", "projector")


def read_papers(value: object, info: ValidationInfo) -> tuple[PaperName, ...]:
    key = _key(info)
    names = [" ".join(name.split()).lower() for name in _words(value, key, "a list", '["a4"]')]
    known = tuple(paper.value for paper in PaperName)
    for name in names:
        if name in _PAPERS_LATER or name.startswith("roll-"):
            raise refusal(
                value, f"{key} lists {quoted(name)}, which this edition does not draw on yet.",
                f"It draws on {either(known)}.",
            )  # fmt: skip
        if name not in known:
            nearest = near(name, (*known, *_PAPERS_LATER))
            raise refusal(
                value,
                f"{key} lists {quoted(name)}, which is not a paper here."
                f" {did_you_mean(nearest)}".rstrip(),
                f"Write {either(known)}.",
                nearest,
            )
        if names.count(name) > 1:
            raise refusal(value, f'{key} lists "{name}" twice.', "Name each paper once.")
    if not names:
        raise refusal(value, f"{key} is empty.", f'Write {key} = ["a4"].')
    return tuple(PaperName(name) for name in names)


def read_accept(value: object, info: ValidationInfo) -> tuple[str, ...]:
    key = _key(info)
    names = _words(value, key, "a list of measures", '["hip"]')
    for name in names:
        if name not in MEASURES:
            nearest = near(name, tuple(MEASURES))
            raise refusal(
                value,
                f"{key} lists {quoted(name)}, which is not a measure."
                f" {did_you_mean(nearest)}".rstrip(),
                f"The measures are {', '.join(MEASURES)}.",
                nearest,
            )
    return tuple(names)


def read_size(value: object, info: ValidationInfo) -> str:
    key = _key(info)
    names = tuple(size.name for size in size_table())
    if not isinstance(value, str):
        raise _wrong_kind(key, value, "the name of a size", '"P05"')
    name = value.strip().upper()
    if name in names:
        return name
    nearest = near(name, tuple(known.lower() for known in names)).upper()
    raise refusal(
        value,
        f"{key} {quoted(value)} is not in the size table. {did_you_mean(nearest)}".strip(),
        f"It goes from {names[0]} to {names[-1]}.",
        nearest,
    )
