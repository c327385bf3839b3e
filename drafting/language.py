"""The language that words are said in: English as written in the code, others by gettext.

A draft is said in the language of its sheet. ``speaking`` sets it for whatever is called inside;
``say`` gives a sentence in it. What is told of a faulty sheet, of files and of commands stays
English, as the keys and the commands are. The only home of gettext.
"""

import gettext
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from enum import StrEnum
from functools import cache, reduce, wraps
from pathlib import Path
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar

if TYPE_CHECKING:
    from drafting.pattern import Pattern

CATALOGUES = Path(__file__).with_name("languages")
DOMAIN = "hemsweep"

P = ParamSpec("P")
R = TypeVar("R")


class Language(StrEnum):
    """Languages that everything on paper can be said in."""

    ENGLISH = "en"
    GERMAN = "de"
    FRENCH = "fr"


_spoken: ContextVar[Language] = ContextVar("spoken", default=Language.ENGLISH)


@contextmanager
def speaking(language: Language | str) -> Iterator[None]:
    """Say everything in a language until the block ends."""
    before = _spoken.set(Language(language))
    try:
        yield
    finally:
        _spoken.reset(before)


def in_its_language(
    write: "Callable[Concatenate[Pattern, P], R]",
) -> "Callable[Concatenate[Pattern, P], R]":
    """Return a function that says everything it tells of a pattern in its sheet's language."""

    @wraps(write)
    def written(pattern: "Pattern", /, *args: P.args, **kwargs: P.kwargs) -> R:
        with speaking(pattern.spec.publish.language):
            return write(pattern, *args, **kwargs)

    return written


def spoken() -> Language:
    """Return the language that is spoken now."""
    return _spoken.get()


@cache
def catalogue(language: Language) -> gettext.NullTranslations:
    """Return what is known of a language; English needs no catalogue."""
    if language is Language.ENGLISH:
        return gettext.NullTranslations()
    return gettext.translation(DOMAIN, str(CATALOGUES), languages=[language.value])


def say(words: str, /, **values: object) -> str:
    """Return a sentence in the language spoken, ``{name}`` in it replaced by a value.

    Args:
        words: the English sentence, written out in the call so that it can be gathered.
        values: what stands in its braces, said already.
    """
    said = catalogue(spoken()).gettext(words)
    return said.format(**values) if values else said


def say_counted(one: str, many: str, count: int, /, **values: object) -> str:
    """Return a sentence for one or for many, each language by its own rule; ``{count}`` is set."""
    said = catalogue(spoken()).ngettext(one, many, count)
    return said.format(count=count, **values)


def say_as(meaning: str, words: str, /, **values: object) -> str:
    """Return words that have several meanings in English, said in the one that is meant."""
    said = catalogue(spoken()).pgettext(meaning, words)
    return said.format(**values) if values else said


def said_later(words: str, /) -> str:
    """Return words as they are, gathered for ``say`` to be given them by name."""
    return words


def decimal(number: str) -> str:
    """Return a number written with a point, with the decimal mark of the language spoken."""
    return number if spoken() is Language.ENGLISH else number.replace(".", ",")


def clauses(parts: Iterable[str]) -> str:
    """Return parts of a sentence in a row: "cut 2; sides 1.5 cm". French sets a space before."""
    there = tuple(parts)
    return reduce(lambda one, other: say("{one}; {other}", one=one, other=other), there or ("",))


def headed(head: str, words: str) -> str:
    """Return words behind what they are of: "waist: 74 cm". French sets a space before."""
    return say("{name}: {told}", name=head, told=words)


def listed(items: "tuple[str, ...] | list[str]") -> str:
    """Return names in a row: "a", "a and b", "a, b and c"."""
    if len(items) < 2:
        return "".join(items)
    return say("{names} and {last}", names=", ".join(items[:-1]), last=items[-1])
