"""How the values of a spec sheet are told in messages. Loads nothing outside Python."""

import datetime
import re
from dataclasses import dataclass
from difflib import get_close_matches

from drafting.errors import quoted
from drafting.sizes import SizeTable
from drafting.spec import PaperName
from drafting.units import Units


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """How a sheet's numbers are read and told.

    Attributes:
        bare: what a number without a unit means, or None to refuse it.
        shown: units in which limits are told.
        unsure: the sheet's own ``units`` cannot be read, so bare numbers are left unread.
        table: the sheet's own size table; None for the project's.
    """

    bare: Units | None = None
    shown: Units = Units.CM
    unsure: bool = False
    table: SizeTable | None = None


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
    return kind_of(value)


def kind_of(value: object) -> str:
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


def measure_text(value: object) -> str:
    """Return a measure as the sheet writes it, without quotes."""
    return value.strip() if isinstance(value, str) else shown(value)


def told(value: object) -> str:
    """Return a value for the middle of a sentence."""
    return shown(value.strip())[1:-1] if isinstance(value, str) else shown(value)


def near(word: str, known: tuple[str, ...]) -> str:
    """Return the known word most like ``word``, or an empty text."""
    if len(word) > 60:
        return ""
    word = word.strip().lower()
    found = get_close_matches(word, known, n=1, cutoff=0.6) or [
        name for name in known if len(word) > 2 and word in name.split()
    ]
    return found[0] if found else ""


def nearest_paper(name: str) -> str:
    """Return the known paper that comes nearest to a name, of rolls by width, or nothing."""
    known = tuple(paper.value for paper in PaperName)
    asked = re.fullmatch(r"roll[- ]?(\d{1,9}) ?(mm|in|inch|\")?", name)
    if asked is None:
        return near(name, known)
    width, unit = int(asked[1]), asked[2]
    in_inches = unit not in (None, "mm") or (unit is None and width < NO_INCHES)
    # A roll sold by its millimetres is offered for inches too where it comes nearer.
    rolls = {
        paper: float(found[1]) * (25.4 if found[2] else 1.0)
        for paper in known
        for found in [re.fullmatch(r"roll-(\d+)(in)?", paper)]
        if found is not None and (in_inches or not found[2])
    }
    wanted = width * 25.4 if in_inches else float(width)
    return min(rolls, key=lambda paper: (round(abs(rolls[paper] - wanted), -1), "in" not in paper))


NO_INCHES = 100
"""A width of a roll from here on is meant in millimetres, a smaller one in inches."""


def did_you_mean(word: str) -> str:
    """Return the question, or nothing for no word."""
    return f'Did you mean "{word}"?' if word else ""


def either(words: tuple[str, ...]) -> str:
    """Return the words in quotes, with an "or" before the last."""
    listed = [f'"{word}"' for word in words]
    return listed[0] if len(listed) == 1 else f"{', '.join(listed[:-1])} or {listed[-1]}"
