"""The working of a draft for a terminal: part by part, wrapped to its width.

Plain text; nothing depends on colour. Imports drafting's workings.
"""

import textwrap

from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.working import Working, letters_used, working
from drafting.working.chapters import chapters

UNKNOWN = 80
"""Columns of a terminal that does not tell how wide it is."""

NARROWEST, WIDEST = 40, 100
"""Lines shorter than this break formulas to pieces; longer ones are hard to follow."""


@in_its_language
def working_text(pattern: Pattern, width: int = UNKNOWN) -> str:
    """Return the working of every figure and the letters used, in lines of ``width`` columns."""
    wide = min(max(width, NARROWEST), WIDEST)
    found = working(pattern)
    if not found:
        return say("nothing is worked out: a part of this draft cannot be drawn")
    lines = _wrapped(say("how the figures come about; angles are in degrees"), wide, "")
    for _, heading, held in chapters(found):
        lines += ["", heading]
        for one in held:
            lines += _working(one, wide)
    letters = letters_used(found)
    lines += ["", say("letters used")]
    longest = max((len(letter) for letter, _ in letters), default=0)
    for letter, means in letters:
        lines += _wrapped(means, wide, f"  {letter:<{longest}}  ")
    return "\n".join(line.rstrip() for line in lines).replace("\u00a0", " ")


def _working(one: Working, wide: int) -> list[str]:
    """Return a working: its name and its figure, in words, in letters, in numbers, its source."""
    name = _wrapped(one.title, wide - len(one.text) - 2, "  ")
    name[0] = f"{name[0]:<{wide - len(one.text)}}{one.text}"
    told = f"[{one.source}] {one.note}".rstrip()
    parts = dict.fromkeys((one.formula, one.letters, one.numbers, told))
    return [*name, *(line for words in parts for line in _wrapped(words, wide, " " * 6))]


def _wrapped(words: str, wide: int, first: str) -> list[str]:
    return textwrap.wrap(
        words,
        wide,
        initial_indent=first,
        subsequent_indent=" " * len(first) + ("  " if first.strip() == "" else ""),
        break_long_words=False,
        break_on_hyphens=False,
    )
