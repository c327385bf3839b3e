"""The booklet as plain values: sections of paragraphs, lists, steps, tables, pictures, cautions.

Knows nothing of pages or of HTML: ``render/booklet/pdf.py`` and ``html.py`` write it out. Words
are in the language of the sheet already. Imports pictures alone.
"""

from dataclasses import dataclass
from typing import TypeAlias

from render.pictures.picture import Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running words.

    Attributes:
        address: of a page on the network that the words lead to, on a screen; mostly none.
    """

    words: str
    address: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bullets:
    """A list whose order does not matter."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of words under heads.

    Attributes:
        caption: what the table tells, above it.
        heads: one for each column; the first column names its row.
        figures: columns (from 0) of numbers, set to the right.
    """

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    figures: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the work.

    Attributes:
        name: stays the same in every language: ``hang``.
        title: what is done, in a few words.
        do: what to do, paragraph by paragraph.
        check: what to check before going on.
        cautions: what can hurt, said where it can.
        pictures: to see it by.
        hands: minutes at work for a practised hand, an estimate; ``first`` for a first one.
    """

    name: str
    title: str
    do: tuple[str, ...]
    check: str
    cautions: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    hands: float = 0.0
    first: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Steps in their order, numbered on from ``start``."""

    steps: tuple[Step, ...]
    start: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Cautions:
    """What can hurt, in a box of its own."""

    title: str
    items: tuple[str, ...]


Block: TypeAlias = "Paragraph | Bullets | Table | Steps | Cautions | Picture | Section"


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading and what stands under it; sections inside it are one level down.

    Attributes:
        name: stays the same in every language: an anchor in the page and in the outline.
    """

    name: str
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Booklet:
    """A whole booklet.

    Attributes:
        title, subtitle: of the garment; whom it is for.
        facts: lines under them: size, edition, maker, licence.
        cover: a picture under those, if there is one.
        language: two letters.
        terms: edition and licence, as far as they are given; on every page with the maker.
        page: address of the maker's page, and the QR code of it.
    """

    title: str
    subtitle: str
    facts: tuple[str, ...]
    cover: Picture | None
    language: str
    author: str
    subject: str
    sections: tuple[Section, ...]
    terms: tuple[str, ...] = ()
    page: str = ""
    code: Picture | None = None
