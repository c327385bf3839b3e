"""The booklet's blocks as what is set on its pages, in their order, and the pictures of its steps.

Points. A home of reportlab.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from reportlab.platypus import Paragraph

from drafting.language import say
from render import fonts
from render.booklet import model
from render.booklet.breaking import KEEP, LAST_RESORT, Floating
from render.booklet.divided import Set, lines, whole
from render.booklet.flowables import (
    INDENT,
    TEXT_TALL,
    TEXT_WIDE,
    Entry,
    Figure,
    Heading,
    StepHead,
    Ticked,
    led_by,
    marked_up,
    style,
)
from render.booklet.ruled import care_box, fact_rows, ruled_table
from render.booklet.words import Place, clean, time_words
from render.pdf import POINTS
from render.pictures.picture import Picture

BODY = style(10, 13.8, after=5)
LISTED = style(10, 13.8, after=3, left=4 * POINTS)
LAST_LISTED = style(10, 13.8, after=5, left=4 * POINTS)
CHECK = style(10, 13.8, before=1, after=5, left=5.5 * POINTS)
CAPTION = style(9, 12)
FOLD = style(9, 12, before=12)
TABLE_NAME = style(9.5, 12.5, bold=True, before=6, after=3)
TIME = style(8.5, 11.5)
HEADS = (
    style(15, 19, bold=True, before=20, after=6),
    style(12, 16, bold=True, before=12, after=4),
    style(10.5, 14, bold=True, before=9, after=3),
)
STEP = style(11.5, 15, bold=True)
TITLE = style(26, 30, bold=True, after=3)
SUBTITLE = style(13, 17, after=9)
CONTENTS = (
    style(10, 13, bold=True, before=5, right=12 * POINTS),
    style(10, 13, left=6.5 * POINTS, right=12 * POINTS),
    style(9.5, 13, left=13 * POINTS, right=12 * POINTS),
)

IN_STEP = 0.15
"""Cost of a step that goes on overleaf between two paragraphs."""


@dataclass(slots=True, kw_only=True)
class Shown:
    """A step's picture, set where there is room.

    Attributes:
        at: tells where it may stand; counts what is set, not its atoms.
        beside: it when it stands with its step; ``away`` when it stands among other words.
    """

    at: tuple[int, int, int]
    beside: Figure
    away: Figure
    indent: float
    wide: float

    def figure(self, scale: float, *, away: bool) -> tuple[Figure, float, float]:
        """Return what is drawn of it, how far it stands in, the room it has."""
        figure = self.away if away else self.beside
        figure.scale = scale
        return figure, self.indent, self.wide

    def floating(self, first_atoms: list[int]) -> Floating:
        """Return it as the pages are made up with it."""
        under = max(figure.under(self.wide) for figure in (self.beside, self.away))
        head, home, end = (first_atoms[k] for k in self.at)
        return Floating(
            height=self.beside.tall + under,
            shrinks=self.beside.tall,
            before=self.beside.getSpaceBefore(),
            after=self.beside.getSpaceAfter(),
            head=head,
            home=home,
            end=end,
        )


@dataclass(slots=True)
class Story:
    """Collects what is set, in order, and the pictures that find their own places."""

    sets: list[Set] = field(default_factory=list)
    shown: list[Shown] = field(default_factory=list)

    def add(self, one: Set, cost: float = 0.0) -> None:
        """Add what is set next, and the cost of a break after it."""
        one.then(cost)
        self.sets.append(one)


def first_page(booklet: model.Booklet) -> Story:
    """Return what stands on the first page; a cover with small type may need one of its own.

    Room is left for the code of the maker's page in its upper right corner.
    """
    out = Story()
    beside = booklet.code.box.width * POINTS if booklet.code is not None else 0.0
    wide = TEXT_WIDE - beside
    out.add(lines(Paragraph(marked_up(booklet.title), TITLE), 0.0, wide))
    if booklet.subtitle:
        out.add(lines(Paragraph(marked_up(booklet.subtitle), SUBTITLE), 0.0, wide))
    if booklet.facts:
        out.add(whole(fact_rows(booklet.facts, wide), 0.0, wide))
    if booklet.cover is not None:
        cover = _figure(booklet.cover)
        told = sum(a.height + a.after for one in out.sets for a in one.atoms)
        cover.spaceBefore = max(4 * POINTS, beside - told)
        used = told + cover.spaceBefore
        fitting = (TEXT_TALL - used - cover.under(TEXT_WIDE) - 1) / cover.tall
        if fitting >= _least_scale(booklet.cover):
            cover.scale = cover.own = min(1.0, fitting)
        out.add(whole(cover, 0.0, TEXT_WIDE))
    return out


def contents(listed: tuple[Place, ...], pages: dict[str, int]) -> Story:
    """Return the contents: sections and their parts; steps are found by their numbers."""
    out = Story()
    title = Paragraph(marked_up(say("Contents")), style(15, 19, bold=True, after=8))
    out.add(whole(title, 0.0, TEXT_WIDE), KEEP)
    for place in listed:
        if place.number:
            continue
        entry = Entry(marked_up(place.words), CONTENTS[min(place.depth, len(CONTENTS) - 1)])
        entry.place, entry.page = place, pages.get(place.key, 0)
        out.add(whole(entry, 0.0, TEXT_WIDE))
    fold = say("To fold: print as a booklet, on both sides, turned on the short edge.")
    out.add(whole(Paragraph(marked_up(fold), FOLD), 0.0, TEXT_WIDE))
    return out


def story(booklet: model.Booklet, listed: tuple[Place, ...]) -> Story:
    """Return all that follows the contents."""
    out = Story()
    setter = _Setter(out, iter(listed))
    for section in booklet.sections:
        setter.section(section)
    return out


def _least_scale(picture: Picture) -> float:
    """Return how far a cover may be made smaller: its type stays at 8 points, it at half."""
    smallest = min((text.size for text in picture.drawing.texts), default=math.inf)
    return min(1.0, max(0.5, 8 / POINTS / smallest))


def _figure(picture: Picture, led: str = "") -> Figure:
    words = led_by(led, picture.caption) if led and picture.caption else ""
    caption = Paragraph(words or marked_up(picture.caption), CAPTION) if picture.caption else None
    return Figure(picture.drawing, picture.box, clean(picture.alt), caption)


class _Setter:
    """Sets blocks one after the other, taking places in the order they were listed."""

    def __init__(self, out: Story, listed: Iterator[Place]) -> None:
        self.out, self.listed = out, listed

    def set(self, paragraph: Any, cost: float = 0.0, *, indent: float = 0.0) -> None:
        self.out.add(lines(paragraph, indent, TEXT_WIDE - indent), cost)

    def keep(self, flowable: Any, key: str = "") -> None:
        """Set what must never be the last on a page."""
        self.out.add(whole(flowable, 0.0, TEXT_WIDE), KEEP)
        self.out.sets[-1].key = key

    def section(self, section: model.Section) -> None:
        place = next(self.listed)
        look = HEADS[min(place.depth, len(HEADS) - 1)]
        heading = Heading(marked_up(section.title), look).of(place)
        self.keep(heading, place.key)
        for block in section.blocks:
            self.block(block)
        if not section.blocks:
            self.out.sets[-1].then(0.0)

    def block(self, block: model.Block) -> None:
        match block:
            case model.Section():
                self.section(block)
            case model.Paragraph():
                self.set(Paragraph(marked_up(block.words), BODY), 0.1)
            case model.Bullets():
                self.bullets(block.items)
            case model.Table():
                if block.caption:
                    self.keep(Paragraph(marked_up(block.caption), TABLE_NAME))
                self.out.add(ruled_table(block, 0.0, TEXT_WIDE))
            case model.Steps():
                for number, step in enumerate(block.steps, block.start):
                    self.step(number, step)
            case model.Cautions():
                self.out.add(care_box(block.title, block.items, 0.0, TEXT_WIDE))
            case Picture():
                figure = _figure(block)
                # Smaller type is the lesser fault: a heading would stand on a page alone.
                room = (TEXT_TALL - figure.under(TEXT_WIDE)) / figure.tall
                figure.scale = figure.own = min(1.0, max(LAST_RESORT, room))
                self.out.add(whole(figure, 0.0, TEXT_WIDE, shrinks=figure.tall * figure.own))

    def bullets(self, items: tuple[str, ...]) -> None:
        last = len(items) - 1
        for k, item in enumerate(items):
            look = LAST_LISTED if k == last else LISTED
            alone = k in (0, last - 1) and k != last
            self.set(Paragraph(marked_up(item), look, bulletText="–"), KEEP if alone else 0.1)

    def step(self, number: int, step: model.Step) -> None:
        place = next(self.listed)
        head = len(self.out.sets)
        heading = Heading(marked_up(step.title), STEP).of(place)
        words = time_words(step)
        time, wide = None, 0.0
        if words:
            wide = fonts.width(words, 8.5) + 1
            time = Paragraph(marked_up(words), TIME)
        self.keep(StepHead(heading, time, wide), place.key)
        for words in step.do:
            self.set(Paragraph(marked_up(words), BODY), IN_STEP, indent=INDENT)
        if step.cautions:
            box = care_box(say("Care"), step.cautions, INDENT, TEXT_WIDE - INDENT)
            self.out.add(box, IN_STEP)
        home = len(self.out.sets)
        if step.check:
            self.out.sets[-1].then(KEEP)
            self.set(Ticked(led_by(say("Check"), step.check), CHECK), indent=INDENT)
        end = len(self.out.sets)
        self.out.sets[-1].then(0.0)
        for picture in step.pictures:
            self.picture_of_step(picture, number, (head, home, end))

    def picture_of_step(self, picture: Picture, number: int, at: tuple[int, int, int]) -> None:
        indent = 0.0 if picture.box.width * POINTS > TEXT_WIDE - INDENT else INDENT
        beside, away = (_figure(picture, led) for led in ("", say("Step {number}", number=number)))
        self.out.shown.append(
            Shown(at=at, beside=beside, away=away, indent=indent, wide=TEXT_WIDE - indent)
        )
