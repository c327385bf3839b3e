"""The German and the French catalogue: every message of the source, whole, and none besides."""

import ast
import io
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import read_mo, write_mo
from babel.messages.pofile import read_po

from drafting.language import Language

ROOT = Path(__file__).resolve().parents[2]
CATALOGUES = ROOT / "drafting" / "languages"
SOURCES = ("drafting", "render")
SPOKEN = [language.value for language in Language if language is not Language.ENGLISH]

KEYWORDS = {"say": (1,), "said_later": (1,), "say_counted": (1, 2), "say_as": ((1, "c"), 2)}
"""Which arguments Babel gathers: those that DEVELOPERS.md tells it."""

PLURALS = {
    "de": "nplurals=2; plural=(n != 1);",
    "fr": "nplurals=2; plural=(n > 1);",
}
"""As GNU gettext's manual gives them, "Plural forms": French counts none as one."""

SHORT, LONGER, LONGER_BY_SHARE = 25, 12, 1.9
"""A label has so many letters in English; one of them is how much longer it may become."""

LONG_LABELS = {
    # Part of a sentence in a finding, which runs on over lines.
    ("de", "Cut in one"): "the beginning of a sentence",
    # In the table of the working, whose cells break into lines.
    ("de", "ease at the waist"): "a row of the working",
    ("de", "zip to buy"): "a row of the working",
    # Titles of steps, with a line of their own in the contents and above the step.
    ("de", "Lay and cut"): "a title of a step",
    ("fr", "Staystitch the waist"): "a title of a step",
    # French has no shorter name for a zip; where it is written in a picture, it breaks.
    ("fr", "zip"): "the one name that French has for it",
    # A flounce is a shaped ruffle in French, in two words more.
    ("fr", "seam 5a: flounce join"): "the one name that French has for a flounce",
    ("fr", "flounce ring"): "the one name that French has for a flounce",
}
"""Labels that are longer, and why they may be."""

Key = tuple[str | None, str | tuple[str, ...]]

# --- reading -----------------------------------------------------------------------------------


def key_of(message: Message) -> Key:
    words = message.id
    return message.context or None, words if isinstance(words, str) else tuple(words)


def forms(words: str | list[str] | tuple[str, ...] | None) -> tuple[str, ...]:
    """Return a message's forms: one, or one for each number; none where it is not translated."""
    return (words,) if isinstance(words, str) else tuple(words or ())


@cache
def gathered() -> frozenset[Key]:
    """Return what Babel gathers from the source, as the commands in DEVELOPERS.md do."""
    return frozenset(
        (context, words if isinstance(words, str) else tuple(words))
        for folder in SOURCES
        for _, _, words, _, context in extract_from_dir(str(ROOT / folder), keywords=KEYWORDS)
    )


def written_out() -> Iterator[tuple[str, Key]]:
    """Yield every message that a call in the source has written out, and where."""
    for folder in SOURCES:
        for path in sorted((ROOT / folder).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
                    continue
                name = node.func.id
                given = node.args[: len(KEYWORDS.get(name, ()))]
                words = [
                    part.value
                    for part in given
                    if isinstance(part, ast.Constant) and isinstance(part.value, str)
                ]
                if not words or len(words) < len(given):
                    continue
                at = f"{path.relative_to(ROOT).as_posix()}:{node.lineno}"
                if name == "say_as":
                    yield at, (words[0], words[1])
                else:
                    yield at, (None, words[0] if len(words) == 1 else tuple(words))


@cache
def catalogue(language: str) -> Catalog:
    path = CATALOGUES / language / "LC_MESSAGES" / "hemsweep.po"
    with path.open("rb") as file:
        return read_po(file, locale=language, abort_invalid=True)


def messages(language: str) -> list[Message]:
    """Return a catalogue's messages; the first of the file is its header, and none."""
    return [message for message in catalogue(language) if message.id]


def braces(words: str) -> list[str]:
    return sorted(re.findall(r"\{\w*\}", words))


# --- what there is ------------------------------------------------------------------------------


def test_babel_gathers_every_message_that_the_source_writes_out() -> None:
    """Babel passes over a ``said_later`` inside another call inside a ``say``, silently."""
    found = {key: at for at, key in written_out()}
    assert len(found) > 1000
    assert {at: key for key, at in found.items() if key not in gathered()} == {}


@pytest.mark.parametrize("language", SPOKEN)
def test_every_message_of_the_source_is_in_the_catalogue_and_no_other(language: str) -> None:
    known = {key_of(message) for message in messages(language)}
    assert gathered() - known == set()
    assert known - gathered() == set()
    assert not catalogue(language).obsolete


@pytest.mark.parametrize("language", SPOKEN)
def test_every_message_is_translated_and_sure(language: str) -> None:
    for message in messages(language):
        said = forms(message.string)
        assert said and all(words.strip() for words in said), message.id
        assert len(said) == (catalogue(language).num_plurals if message.pluralizable else 1)
        assert not message.fuzzy, message.id


@pytest.mark.parametrize("language", SPOKEN)
def test_a_translation_takes_the_same_values(language: str) -> None:
    for message in messages(language):
        said = forms(message.string)
        for words in said:
            wanted = {tuple(braces(one)) for one in forms(message.id)}
            assert tuple(braces(words)) in wanted, (message.id, words)
            assert words.count("{") == words.count("}") == len(braces(words)), words


@pytest.mark.parametrize("language", SPOKEN)
def test_a_translation_begins_and_ends_as_the_english_does(language: str) -> None:
    """Spaces at an end join it to what follows; a full stop ends a sentence in all languages."""
    for message in messages(language):
        english = forms(message.id)[-1]
        for words in forms(message.string):
            assert words[:1].isspace() == english[:1].isspace(), words
            assert words[-1:].isspace() == english[-1:].isspace(), words
            if len(english) > SHORT:  # a label may be abbreviated
                assert words.endswith(".") == english.endswith("."), (english, words)
            assert words.count("\n") == english.count("\n"), words


@pytest.mark.parametrize("language", SPOKEN)
def test_a_plural_goes_by_the_rule_of_its_language(language: str) -> None:
    assert catalogue(language).plural_forms == PLURALS[language]
    assert any(message.pluralizable for message in messages(language))


@pytest.mark.parametrize("language", SPOKEN)
def test_what_is_read_is_what_was_translated(language: str) -> None:
    """The compiled file is committed beside the other: it must be the same one, compiled."""
    compiled = io.BytesIO()
    write_mo(compiled, catalogue(language))
    stored = (CATALOGUES / language / "LC_MESSAGES" / "hemsweep.mo").read_bytes()
    there = {key_of(one): forms(one.string) for one in read_mo(io.BytesIO(stored)) if one.id}
    assert there == {key_of(one): forms(one.string) for one in messages(language)}
    assert stored == compiled.getvalue()


# --- room ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("language", SPOKEN)
def test_a_label_stays_short(language: str) -> None:
    """Labels stand in pictures, columns and along lines, with room for a little more."""
    long: dict[tuple[str, str], str] = {}
    for message in messages(language):
        for english, words in zip(forms(message.id), forms(message.string), strict=True):
            most = max(len(english) + LONGER, len(english) * LONGER_BY_SHARE)
            if len(english) <= SHORT and len(words) > most:
                long[language, english] = words
    allowed = {key for key in LONG_LABELS if key[0] == language}
    assert set(long) - allowed == set(), long
    assert allowed - set(long) == set(), "no longer so long"
