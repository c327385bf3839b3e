"""Every word that a booklet must hold, and the tree of its headings, gathered from its values."""

from collections.abc import Iterator

from render.booklet.model import (
    Block,
    Booklet,
    Bullets,
    Cautions,
    Paragraph,
    Section,
    Steps,
    Table,
)
from render.pictures.picture import Picture


def squeezed(words: str) -> str:
    """Return words with every run of white space as one space."""
    return " ".join(words.split())


def headings(booklet: Booklet) -> list[tuple[int, str]]:
    """Return depth and title of every section and step, in order."""
    return [found for section in booklet.sections for found in _headings(section, 0)]


def _headings(section: Section, depth: int) -> Iterator[tuple[int, str]]:
    yield depth, section.title
    for block in section.blocks:
        if isinstance(block, Section):
            yield from _headings(block, depth + 1)
        if isinstance(block, Steps):
            yield from ((depth + 1, step.title) for step in block.steps)


def said(booklet: Booklet) -> Iterator[str]:
    """Yield every run of words of a booklet in the order of its pages, tables cell by cell."""
    yield from (booklet.title, booklet.subtitle, *booklet.facts)
    if booklet.cover is not None:
        yield from _picture(booklet.cover)
    for section in booklet.sections:
        yield from _block(section)


def pictures(booklet: Booklet) -> Iterator[Picture]:
    """Yield every picture of a booklet, its cover first."""
    if booklet.cover is not None:
        yield booklet.cover
    for section in booklet.sections:
        yield from _pictures(section)


def _pictures(block: Block) -> Iterator[Picture]:
    match block:
        case Section():
            for inner in block.blocks:
                yield from _pictures(inner)
        case Picture():
            yield block
        case Steps():
            for step in block.steps:
                yield from step.pictures


def _picture(picture: Picture) -> Iterator[str]:
    yield from (text.text for text in picture.drawing.texts)
    yield picture.caption


def _block(block: Block) -> Iterator[str]:
    match block:
        case Section():
            yield block.title
            for inner in block.blocks:
                yield from _block(inner)
        case Paragraph():
            yield block.words
        case Bullets():
            yield from block.items
        case Cautions():
            yield from (block.title, *block.items)
        case Picture():
            yield from _picture(block)
        case Table():
            yield from (block.caption, *block.heads)
            for row in block.rows:
                yield from row
        case Steps():
            for step in block.steps:
                yield from (step.title, *step.do, *step.cautions)
                for picture in step.pictures:
                    yield from _picture(picture)
                yield step.check
