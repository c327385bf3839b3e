"""What one key of a spec sheet may hold: a word, a yes or no, a list of words."""

from enum import StrEnum
from typing import TypeVar

from pydantic import BeforeValidator, ValidationInfo

from drafting.errors import quoted
from drafting.measurements import NAMES as MEASURES
from drafting.sheet_told import did_you_mean, either, near, nearest_paper, shown
from drafting.sheet_values import key_of, refusal, wrong_kind
from drafting.sizes import size_table
from drafting.spec import PaperName

_Word = TypeVar("_Word", bound=StrEnum)


def choice_of(
    kind: type[_Word], *, only: tuple[_Word, ...] = (), example: str = ""
) -> BeforeValidator:
    """Return a reader of one word of ``kind``, or of ``only`` some of its words."""
    words = tuple(word.value for word in only or kind)

    def read(value: object, info: ValidationInfo) -> _Word:
        return kind(_read_word(value, key_of(info), words, example))

    return BeforeValidator(read)


def _read_word(value: object, key: str, words: tuple[str, ...], example: str = "") -> str:
    if not isinstance(value, str):
        raise wrong_kind(key, value, "a word", f'"{example or words[0]}"')
    word = " ".join(value.split()).lower()
    if word in words:
        return word
    nearest = near(word, words)
    question = f" {did_you_mean(nearest)}" if nearest else ""
    raise refusal(
        value, f"{key} cannot be {quoted(value)}.{question}", f"Write {either(words)}.", nearest
    )


def drafted_later(what: str) -> BeforeValidator:
    """Return a reader that refuses a key of the contract which is not drafted yet."""

    def read(value: object, info: ValidationInfo) -> None:
        if value == []:
            return
        raise refusal(
            value, f"{key_of(info)} {what}, which this edition does not draft yet.",
            "Take the key out.",
        )  # fmt: skip

    return BeforeValidator(read)


def read_yes_no(value: object, info: ValidationInfo) -> bool:
    if not isinstance(value, bool):
        raise wrong_kind(key_of(info), value, "true or false", "true")
    return value


def _words(value: object, key: str, wanted: str, example: str) -> list[str]:
    if not isinstance(value, list):
        short = isinstance(value, str) and len(value) < 30 and value.isprintable()
        given = f'["{str(value).strip()}"]' if short else example
        raise wrong_kind(key, value, wanted, given)
    for one in value:
        if not isinstance(one, str):
            raise refusal(
                value, f"{key} lists {shown(one)}, which is not a word in quotes.",
                f"Write {key} = {example}.",
            )  # fmt: skip
    return value


def read_papers(value: object, info: ValidationInfo) -> tuple[PaperName, ...]:
    key = key_of(info)
    names = [" ".join(name.split()).lower() for name in _words(value, key, "a list", '["a4"]')]
    known = tuple(paper.value for paper in PaperName)
    for name in names:
        if name not in known:
            nearest = nearest_paper(name)
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
    key = key_of(info)
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
    key = key_of(info)
    names = tuple(size.name for size in size_table())
    if not isinstance(value, str):
        raise wrong_kind(key, value, "the name of a size", '"P05"')
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
