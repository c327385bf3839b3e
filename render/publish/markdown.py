"""A text for a web log in Markdown, from the same values that its page is written from.

Every sign of the text that Markdown or HTML would take for its own is made harmless. Tables are
those with upright bars, which most web logs read. Imports the booklet's values.
"""

import re
from collections.abc import Iterator, Mapping

from drafting.language import say, speaking
from render.booklet import model
from render.booklet.words import clean, foot_words, time_words
from render.pictures.picture import Picture

_SIGNS = re.compile(r"([\\\\`*_\[\]|~#])")
_AT_THE_START = re.compile(r"^(\s*)(\d*)([-+=:]|[.)](?=\s|$))")


def markdown(booklet: model.Booklet, files: Mapping[str, str]) -> bytes:
    """Return a text as the bytes of a Markdown file; the same text gives the same bytes.

    Args:
        files: where each picture lies, by its name; one that is not there is left out.
    """
    with speaking(booklet.language):
        return ("\n".join(_squeezed(_page(booklet, files))) + "\n").encode()


def plain(words: str) -> str:
    """Return words that begin a line, so that Markdown shows them as they are."""
    return _AT_THE_START.sub(_harmless, inside(words))


def inside(words: str) -> str:
    """Return words that stand inside a line, such as in a table, so that they are shown as such."""
    marked = clean(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return _SIGNS.sub(r"\\\1", marked)


def _harmless(found: re.Match[str]) -> str:
    """Return what would begin a list or underline a heading, so that it does not."""
    space, number, sign = found.groups()
    begins = (sign in ".)") == bool(number)
    return f"{space}{number}\\{sign}" if begins else found[0]


def _squeezed(lines: Iterator[str]) -> Iterator[str]:
    """Yield lines, of several empty ones only the first."""
    before = ""
    for line in lines:
        if line or before:
            yield line
        before = line


def _page(booklet: model.Booklet, files: Mapping[str, str]) -> Iterator[str]:
    yield f"# {inside(booklet.title)}"
    yield ""
    if booklet.subtitle:
        yield plain(booklet.subtitle)
        yield ""
    yield from (f"- {plain(fact)}" for fact in booklet.facts)
    yield ""
    if booklet.cover is not None:
        yield from _picture(booklet.cover, files)
    for section in booklet.sections:
        yield from _section(section, 2, files)
    if words := foot_words(booklet):
        yield plain(words)


def _section(section: model.Section, level: int, files: Mapping[str, str]) -> Iterator[str]:
    yield f"{'#' * min(level, 6)} {inside(section.title)}"
    yield ""
    for block in section.blocks:
        match block:
            case model.Section():
                yield from _section(block, level + 1, files)
            case model.Paragraph():
                said = plain(block.words)
                yield f"[{said}](<{block.address}>)" if block.address else said
            case model.Bullets():
                yield from (f"- {plain(item)}" for item in block.items)
            case model.Cautions():
                yield f"**{inside(block.title)}**"
                yield ""
                yield from (f"- {plain(item)}" for item in block.items)
            case model.Table():
                yield from _table(block)
            case model.Steps():
                yield from _steps(block, level, files)
            case Picture():
                yield from _picture(block, files)
        yield ""


def _steps(steps: model.Steps, level: int, files: Mapping[str, str]) -> Iterator[str]:
    for number, step in enumerate(steps.steps, steps.start):
        yield f"{'#' * min(level + 1, 6)} {number}. {inside(step.title)}"
        yield ""
        for words in (time_words(step), *step.do, *step.cautions):
            if words:
                yield plain(words)
                yield ""
        for picture in step.pictures:
            yield from _picture(picture, files)
        if step.check:
            check = inside(say("Check"))
            yield f"**{check}** {inside(step.check)}"
            yield ""


def _table(table: model.Table) -> Iterator[str]:
    if table.caption:
        yield f"**{inside(table.caption)}**"
        yield ""
    yield _row(inside(head) for head in table.heads)
    yield _row("---:" if k in table.figures else "---" for k in range(len(table.heads)))
    yield from (_row(inside(cell) for cell in row) for row in table.rows)


def _row(cells: "Iterator[str] | tuple[str, ...]") -> str:
    return f"| {' | '.join(cells)} |"


def _picture(picture: Picture, files: Mapping[str, str]) -> Iterator[str]:
    if picture.name not in files:
        return
    yield f"![{inside(picture.alt)}](<{files[picture.name]}>)"
    yield ""
    if picture.caption:
        yield f"*{inside(picture.caption)}*"
        yield ""
