"""The booklet's blocks as what platypus sets: in their order, headings kept with what follows.

Points. A home of reportlab.
"""

from dataclasses import dataclass, field
from typing import Any

from reportlab.platypus import CondPageBreak, Indenter, PageBreak, Paragraph, Spacer, Table

from drafting.language import say
from render import fonts
from render.booklet import model
from render.booklet.flowables import (
    INDENT,
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
from render.booklet.words import Place, clean, places, time_words
from render.pdf import POINTS
from render.pictures.picture import WIDE, Picture

TEXT_WIDE = WIDE * POINTS
TEXT_TALL = 180 * POINTS
SHORT = 6 * 13.8
"""A paragraph of six lines or fewer stays with the check after it."""

BODY = style(10, 13.8, after=5)
LISTED = style(10, 13.8, after=3, left=4 * POINTS)
CHECK = style(10, 13.8, before=1, after=5, left=5.5 * POINTS)
CAPTION = style(9, 12)
TABLE_NAME = style(9.5, 12.5, bold=True, before=6, after=3)
TIME = style(8.5, 11.5)
TIME_RIGHT = style(8.5, 11.5, align=2)
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


def least(flowable: Any, width: float) -> float:
    """Return the least height that must be on a page for a flowable to begin there."""
    _, tall = flowable.wrap(width, TEXT_TALL)
    if isinstance(flowable, Table):
        return float(sum(flowable._rowHeights[: flowable.repeatRows + 2]))
    if isinstance(flowable, Paragraph) and not isinstance(flowable, Heading):
        leading = flowable.style.leading
        return float(tall if tall < 3.5 * leading else 2 * leading)
    return float(tall)


@dataclass(slots=True)
class Story:
    """Collects what is set, in order; headings wait until it is known what they stand over.

    Attributes:
        pages: where each place was drawn, told while drawing.
        set: what will be set, in order.
        held: headings whose following is not known yet; ``need`` is the height they take.
        indent: how far what is added now stands in.
    """

    pages: dict[str, int] = field(default_factory=dict)
    set: list[Any] = field(default_factory=list)
    held: list[Any] = field(default_factory=list)
    need: float = 0.0
    indent: float = 0.0

    def add(self, flowable: Any) -> None:
        """Add what may begin on a page; headings before it stay with it."""
        width = TEXT_WIDE - self.indent
        if self.held:
            need = self.need + flowable.getSpaceBefore() + least(flowable, width)
            if need > TEXT_TALL and isinstance(flowable, Figure):
                flowable.least = 0.7
            self._let_go(need)
        self.set.append(flowable)

    def lead(self, flowable: Any) -> None:
        """Add what must never be the last on a page."""
        width = TEXT_WIDE - self.indent
        self.need += (
            flowable.getSpaceBefore()
            + flowable.wrap(width, TEXT_TALL)[1]
            + flowable.getSpaceAfter()
        )
        self.held.append(flowable)

    def finish(self) -> list[Any]:
        """Return all that was added."""
        self._let_go(self.need)
        return self.set

    def _let_go(self, need: float) -> None:
        if self.held:
            self.set.append(CondPageBreak(min(need, TEXT_TALL - 1)))
            self.set.extend(self.held)
        self.held, self.need = [], 0.0

    def step_in(self, by: float) -> None:
        """Move all that follows to the right."""
        (self.held if self.held else self.set).append(Indenter(left=by))
        self.indent += by


def story(booklet: model.Booklet, pages: dict[str, int], told: dict[str, int]) -> list[Any]:
    """Return all that a booklet's pages are set from.

    Args:
        pages: the page of each place as it is to stand in the contents.
        told: filled while drawing with the page that each place came to stand on.
    """
    listed = places(booklet)
    out = Story(pages=told)
    _add_first_page(out, booklet)
    if listed:
        _add_contents(out, listed, pages)
    _Setter(out, iter(listed)).sections(booklet.sections)
    return out.finish()


def _add_first_page(out: Story, booklet: model.Booklet) -> None:
    out.add(Paragraph(marked_up(booklet.title), TITLE))
    if booklet.subtitle:
        out.add(Paragraph(marked_up(booklet.subtitle), SUBTITLE))
    if booklet.facts:
        out.add(fact_rows(booklet.facts, TEXT_WIDE))
    if booklet.cover is not None:
        out.add(Spacer(1, 4 * POINTS))
        cover = _figure(booklet.cover)
        cover.least = 0.7
        out.add(cover)
    out.add(PageBreak())


def _add_contents(out: Story, listed: tuple[Place, ...], pages: dict[str, int]) -> None:
    out.add(Paragraph(marked_up(say("Contents")), style(15, 19, bold=True, after=8)))
    for place in listed:
        entry = Entry(marked_up(place.words), CONTENTS[min(place.depth, len(CONTENTS) - 1)])
        entry.place, entry.page = place, pages.get(place.key, 0)
        out.add(entry)
    out.add(PageBreak())


def _figure(picture: Picture) -> Figure:
    caption = Paragraph(marked_up(picture.caption), CAPTION) if picture.caption else None
    return Figure(picture.drawing, picture.box, clean(picture.alt), caption)


class _Setter:
    """Sets blocks one after the other, taking places in the order they were listed."""

    def __init__(self, out: Story, listed: Any) -> None:
        self.out, self.listed = out, listed

    def wide(self) -> float:
        return TEXT_WIDE - self.out.indent

    def sections(self, sections: tuple[model.Section, ...]) -> None:
        for section in sections:
            self.section(section)

    def section(self, section: model.Section) -> None:
        place = next(self.listed)
        look = HEADS[min(place.depth, len(HEADS) - 1)]
        heading = Heading(marked_up(section.title), look).of(place, self.out.pages)
        self.out.lead(heading)
        for block in section.blocks:
            self.block(block)

    def block(self, block: model.Block) -> None:
        match block:
            case model.Section():
                self.section(block)
            case model.Paragraph():
                self.out.add(Paragraph(marked_up(block.words), BODY))
            case model.Bullets():
                for item in block.items:
                    self.out.add(Paragraph(marked_up(item), LISTED, bulletText="–"))
                self.out.add(Spacer(1, 2))
            case model.Table():
                if block.caption:
                    self.out.lead(Paragraph(marked_up(block.caption), TABLE_NAME))
                self.out.add(ruled_table(block, self.wide()))
            case model.Steps():
                for step in block.steps:
                    self.step(step)
            case model.Cautions():
                self.out.add(care_box(block.title, block.items, self.wide()))
            case Picture():
                self.out.add(_figure(block))

    def step(self, step: model.Step) -> None:
        place = next(self.listed)
        heading = Heading(marked_up(step.title), STEP).of(place, self.out.pages)
        words = time_words(step)
        time, wide = None, 0.0
        if words:
            wide = fonts.width(words, 8.5) + 1
            time = Paragraph(marked_up(words), TIME)
        self.out.lead(StepHead(heading, time, wide))
        self.out.step_in(INDENT)
        for k, words in enumerate(step.do, 1):
            said = Paragraph(marked_up(words), BODY)
            leads = k == len(step.do) and step.check and not (step.cautions or step.pictures)
            if leads and said.wrap(TEXT_WIDE - INDENT, TEXT_TALL)[1] <= SHORT:
                self.out.lead(said)
            else:
                self.out.add(said)
        if step.cautions:
            self.out.add(care_box(say("Care"), step.cautions, self.wide()))
        for picture in step.pictures:
            self.picture_of_step(picture)
        if step.check:
            self.out.add(Ticked(led_by(say("Check"), step.check), CHECK))
        self.out.step_in(-INDENT)

    def picture_of_step(self, picture: Picture) -> None:
        wide = picture.box.width * POINTS > TEXT_WIDE - INDENT
        if wide:
            self.out.step_in(-INDENT)
        self.out.add(_figure(picture))
        if wide:
            self.out.step_in(INDENT)
