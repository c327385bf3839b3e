"""The booklet of one garment, put together: its sections in the order they are needed.

Imports the sections, the pictures and the booklet's values.
"""

from collections.abc import Iterator
from dataclasses import replace

from drafting.geometry import Box
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from render.booklet import care, cutting, front
from render.booklet.finishing_steps import (
    comparing,
    hanging,
    joining,
    the_end,
)
from render.booklet.gathering_sample import gathering_sample
from render.booklet.hem_steps import hemming, levelling
from render.booklet.lining_steps import sewing_the_lining
from render.booklet.making import Making
from render.booklet.model import Booklet, Paragraph, Section, Step, Steps
from render.booklet.preparing import preparing
from render.booklet.ruffle_steps import sewing_the_ruffle
from render.booklet.shown import Shown, shown
from render.booklet.skirt_steps import sewing_the_skirt
from render.booklet.strip_steps import sampling
from render.booklet.waist_steps import waist_finish
from render.booklet.working import half_scale_section, working_section
from render.laying import Cloth
from render.pictures.picture import Picture
from render.qr import code_drawing, code_of
from render.words import edition_words, made_for


@in_its_language
def booklet(pattern: Pattern, cloth: Cloth | None = None, *, working: bool = False) -> Booklet:
    """Return the sewing booklet of a pattern, in the language of its sheet.

    Args:
        cloth: its lay plans and what to buy; without them the booklet tells of plain rows.
        working: whether every figure is shown with its formula, at the end.
    """
    making = Making(pattern, cloth)
    pictures = shown(pattern)
    publish = pattern.spec.publish
    edition = edition_words(pattern.spec)
    licence = say("licence: {licence}", licence=publish.licence) if publish.licence else ""
    facts = (
        edition,
        say("by {maker}", maker=publish.maker) if publish.maker else "",
        publish.page,
        licence,
    )
    return Booklet(
        title=pattern.spec.title,
        subtitle=made_for(pattern.spec),
        facts=tuple(fact for fact in facts if fact),
        cover=pictures.sketch,
        language=publish.language,
        author=publish.maker,
        subject=say("Sewing booklet"),
        sections=tuple(_sections(making, pictures, working=working)),
        terms=tuple(words for words in (edition, licence) if words),
        page=publish.page,
        code=_code_of(publish.page) if publish.page else None,
    )


def _code_of(page: str) -> Picture:
    """Return the QR code of a page's address, its quiet zone with it."""
    code = code_of(page)
    side = code.size()
    return Picture(
        name="page-code",
        drawing=code_drawing(code),
        box=Box(left=0.0, bottom=0.0, right=side, top=side),
        caption="",
        alt=say("QR code of {page}", page=page),
    )


def _sections(making: Making, shown: Shown, *, working: bool) -> Iterator[Section]:
    chapters = tuple((name, title, _timed(mine)) for name, title, mine in _chapters(making, shown))
    steps = tuple(step for _, _, mine in chapters for step in mine)
    yield care.caution_box(making)
    yield front.measurements(making, None)
    if known := care.findings(making):
        yield known
    yield front.needs(making)
    yield front.times(making, steps)
    if half := half_scale_section(making.pattern):
        yield half
    yield cutting.cutting(making, shown.pieces)
    if making.ruffle is not None:
        yield gathering_sample(making, shown.sample)
    yield _order(chapters)
    yield care.care(making)
    if working:
        yield working_section(making.pattern)


_Chapter = tuple[str, str, tuple[Step, ...]]


def _order(chapters: tuple[_Chapter, ...]) -> Section:
    """Return the sewing order; steps are numbered on from chapter to chapter."""
    sections = []
    start = 1
    for name, title, steps in chapters:
        sections.append(Section(name=name, title=title, blocks=(Steps(steps=steps, start=start),)))
        start += len(steps)
    return Section(
        name="order",
        title=say("Sewing, step by step"),
        blocks=(
            Paragraph(
                words=say(
                    "Each step ends with a check. Do not go on before it holds: what is put right"
                    " now takes minutes, and later an evening."
                )
            ),
            *sections,
        ),
    )


def _chapters(making: Making, shown: Shown) -> Iterator[_Chapter]:
    before = list(preparing(making, taping=shown.taping, arcs=shown.arcs))
    if making.ruffle is not None:
        at = next(k for k, step in enumerate(before) if step.name == "cut")
        before.insert(at, sampling(making))
    yield "prepare", say("Before sewing"), tuple(before)
    if making.sews_skirt:
        skirt = [
            *sewing_the_skirt(
                making, seam=shown.seam, opening=shown.opening, gathers=shown.waist_quarters
            ),
            hanging(making),
        ]
        yield "skirt", say("The skirt"), _made(skirt)
    if making.lining is not None:
        yield "lining", say("The lining"), tuple(sewing_the_lining(making))
    if making.ruffle is not None:
        yield (
            "ruffle",
            say("The ruffle"),
            tuple(
                sewing_the_ruffle(
                    making,
                    rows=shown.gathering,
                    quarters=shown.quarters,
                    laid=shown.laid,
                )
            ),
        )
    last = [
        joining(making),
        waist_finish(making, shown.waist),
        levelling(making, shown.levelling),
        comparing(making, shown.section),
        hemming(making, shown.hem),
        the_end(making),
    ]
    yield "finish", say("Putting it together"), _made(last)


def _made(steps: list[Step | None]) -> tuple[Step, ...]:
    return tuple(step for step in steps if step is not None)


def _timed(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Return the steps with their times as they are told: in fives of minutes."""
    return tuple(
        replace(step, hands=front.minutes(step.hands), first=front.minutes(step.first))
        for step in steps
    )
