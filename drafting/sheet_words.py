"""What one key of a spec sheet may hold: a word, a yes or no, a list of words."""

from enum import StrEnum
from typing import TypeVar

from pydantic import BeforeValidator, ValidationInfo

from drafting.errors import quoted
from drafting.measurements import NAMES as MEASURES
from drafting.sheet_told import did_you_mean, either, near, nearest_paper, shown
from drafting.sheet_values import context_of, key_of, refusal, wrong_kind
from drafting.sizes import SizeTable, plain_name, project_table
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
    key, table = key_of(info), _table(info)
    if not isinstance(value, str):
        raise wrong_kind(key, value, "the name of a size", f'"{_examples(table)[0]}"')
    return _size_name(value, value, key, table)


def _table(info: ValidationInfo) -> SizeTable:
    return context_of(info).table or project_table()


def _examples(table: SizeTable) -> tuple[str, ...]:
    """Return names of sizes to show how they are written: from the middle, as most people wear."""
    return table.names[2:6] if len(table.names) > 3 else table.names


def _size_name(one: str, given: object, key: str, table: SizeTable) -> str:
    """Return the name of a size as the table has it."""
    if name := table.name_of(one):
        return name
    names = {plain_name(name): name for name in table.names}
    nearest = names.get(near(plain_name(one), tuple(names)), "")
    which = f"your own size table, {table.file}" if table.file else "the size table"
    raise refusal(
        given,
        f"{key} {quoted(one)} is not in {which}. {did_you_mean(nearest)}".strip(),
        f"It goes from {table.names[0]} to {table.names[-1]}.",
        nearest,
    )


MOST_SIZES = 8
"""More lines than this beside each other cannot be told apart on one sheet of paper."""


def read_sizes(value: object, info: ValidationInfo) -> tuple[str, ...]:
    """Read the sizes that a pattern is graded in, and put them in the table's order."""
    key, table = key_of(info), _table(info)
    example = "[" + ", ".join(f'"{name}"' for name in _examples(table)) + "]"
    listed = _words(value, key, "a list of sizes", example)
    names = [_size_name(one, value, key, table) for one in listed]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise refusal(value, f"{key} lists {twice[0]} twice.", "Name each size once.")
    if len(names) > MOST_SIZES:
        raise refusal(
            value,
            f"{key} lists {len(names)} sizes; more than {MOST_SIZES} lines beside each other"
            " cannot be told apart on paper.",
            f"Name {MOST_SIZES} at most, and publish the others from a second sheet.",
        )
    if len(names) == 1:
        raise refusal(
            value,
            f"{key} lists one size alone.",
            f'Name two or more, or write size = "{names[0]}" under [wearer] instead.',
        )
    return tuple(sorted(names, key=table.names.index))
