"""Laws of the booklet that hold for every garment: it is made, it is legible, it says sense."""

import io
import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import replace

import pypdfium2
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drafting.findings import stops
from drafting.half_scale import halved
from drafting.language import Language
from drafting.pattern import Pattern, draft
from drafting.spec import HemFinish, PaperName, RuffleCloth, Scope, Spec
from drafting.units import Units
from render.booklet.compose import booklet
from render.booklet.html import booklet_html
from render.booklet.model import Block, Booklet, Section, Step, Steps
from render.booklet.pdf import booklet_pdf
from render.pictures.picture import Picture
from tests.drafting.test_every_cut import hard_wishes, specs
from tests.drawn import drawn
from tests.render.booklet.test_words import said
from tests.render.picture_ink import overlapping

TITLES = ("Chorus skirt", "Ça — «½» & <i>", "名前", "{title} %s", "Pierrot" * 12, "a b " * 40)
MARGIN, FOOT = 34.0, 25.0
"""Points: 12 mm beside the text, 9 mm under the foot."""

NONSENSE = re.compile(
    r"\bNone\b|\{[a-z_]*\}|\bnan\b|\binf\b|\bTrue\b|\bFalse\b|\(\)|[ \n][,;.](?!\d)|, ,"
    r"|\((?:seams?|Naht|Nähte|coutures?)[ \u00a0]?\)|(?<![\d–.,-])-\d"
)
NOTHING = re.compile(r"(?<![\d.,/\u00a0])0(?:[.,]0+)?\u00a0(?:cm|in|Zoll|po|m|yd)\b")


@st.composite
def sheets(draw: st.DrawFn) -> Spec:
    """Draw a garment as any sheet may ask for it: language, units, paper, names, half scale."""
    spec = draw(st.one_of(specs(), hard_wishes()))
    if spec.scale == 1 and draw(st.integers(0, 4)) == 0:
        spec = halved(spec)
    if spec.ruffle is not None:
        ruffle = replace(
            spec.ruffle,
            cloth=draw(st.sampled_from(RuffleCloth)),
            doubled=draw(st.booleans()),
            above_hem=draw(st.sampled_from([0.0, 10.0])),
        )
        spec = replace(spec, ruffle=ruffle)
    if draw(st.integers(0, 3)) == 0 and spec.skirt.owned is None:
        spec = replace(spec, skirt=replace(spec.skirt, hem=HemFinish.FACED))
    return replace(
        spec,
        title=draw(st.sampled_from(TITLES)),
        units=draw(st.sampled_from(Units)),
        wearer=replace(spec.wearer, label=draw(st.sampled_from(["", "Chorus, tall", "P" * 70]))),
        print=replace(
            spec.print,
            papers=(draw(st.sampled_from(PaperName)),),
            scope=draw(st.sampled_from(Scope)),
        ),
        publish=replace(
            spec.publish,
            language=draw(st.sampled_from(Language)),
            maker=draw(st.sampled_from(["", "Wardrobe & <b>", "W" * 60])),
        ),
    )


def blocks_of(blocks: tuple[Block, ...]) -> Iterator[Block]:
    for block in blocks:
        yield block
        if isinstance(block, Section):
            yield from blocks_of(block.blocks)


def steps_of(made: Booklet) -> Iterator[Step]:
    for block in blocks_of(made.sections):
        if isinstance(block, Steps):
            yield from block.steps


def pictures_of(made: Booklet) -> Iterator[Picture]:
    if made.cover is not None:
        yield made.cover
    yield from (block for block in blocks_of(made.sections) if isinstance(block, Picture))
    for step in steps_of(made):
        yield from step.pictures


@settings(max_examples=drawn(25), deadline=None, suppress_health_check=list(HealthCheck))
@given(sheets())
def test_every_garment_has_a_booklet_that_says_sense_within_its_margins(spec: Spec) -> None:
    pattern = draft(spec)
    if stops(pattern.findings):
        return
    made = booklet(pattern, None, working=True)
    legible(made)
    sensible(made, spec)
    names_what_is_there(made, pattern)
    within_margins(booklet_pdf(made))
    _, page = booklet_html(made).decode().split("\n", 1)
    assert ElementTree.fromstring(page).get("lang") == spec.publish.language


def legible(made: Booklet) -> None:
    """Check that no words of a picture stand on others or on a line."""
    for picture in pictures_of(made):
        assert overlapping(picture.drawing) == [], picture.name


def sensible(made: Booklet, spec: Spec) -> None:
    """Check that no name or number was lost on the way into a sentence."""
    told = [*said(made.sections), *(p.caption for p in pictures_of(made))]
    told += [picture.alt for picture in pictures_of(made)]
    for words in told:
        assert not NONSENSE.search(words.replace(spec.title, "")), words
    for step in steps_of(made):
        for words in (*step.do, step.check):
            assert not NOTHING.search(words), words


def names_what_is_there(made: Booklet, pattern: Pattern) -> None:
    """Check that no step tells in English of a part that the garment has not."""
    spec, figures = pattern.spec, pattern.figures
    if spec.publish.language is not Language.ENGLISH:
        return
    there = {
        "ruffle": figures.ruffle,
        "lining": figures.lining,
        "slit": figures.opening,
        "godet": figures.godets,
        "flounce": figures.flounce,
        "elastic": figures.casing,
        "lay plan": None,
        "shopping list": None,
        "the paper": spec.print.scope is not Scope.CARD,
        "pocket": next((p for p in pattern.pieces if p.name.startswith("pocket")), None),
        "the dot": next((p for p in pattern.pieces if p.dots), None),
    }
    words = " ".join(w for step in steps_of(made) for w in (step.title, *step.do, step.check))
    for part, found in there.items():
        assert found or part not in words, part


def within_margins(data: bytes) -> None:
    """Check that every letter of a page lies between its margins and above its foot."""
    pages = pypdfium2.PdfDocument(io.BytesIO(data))
    assert len(pages) % 4 == 0
    for number, page in enumerate(pages, start=1):
        text = page.get_textpage()
        wide, tall = page.get_size()
        for k in range(text.count_rects()):
            left, low, right, top = text.get_rect(k)
            words = text.get_text_bounded(left, low, right, top)
            assert left > MARGIN - 1, (number, words)
            assert right < wide - MARGIN + 1, (number, words)
            assert low > FOOT - 5 and top < tall - MARGIN + 1, (number, words)
