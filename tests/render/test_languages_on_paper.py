"""German and French as they are printed: all of it said, all of it whole, nothing over another.

The catalogues themselves are used, as a reader's sheet uses them.
"""

import io
import itertools
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import pypdf
import pytest

import drafting
from drafting.effort import Effort
from drafting.pattern import Pattern
from drafting.sheet import read_sheet
from drafting.spec import Spec
from render.booklet.compose import booklet
from render.booklet.model import Booklet
from render.booklet.pdf import booklet_pdf
from render.drawing import Document, Page, Text
from render.lay_pages import lay_document
from render.laying import Laying
from render.pages import Printed, printed
from tests.examples import EXAMPLES
from tests.render import test_ticket as ticket
from tests.render.booklet_words import pictures, said
from tests.render.cloth_shapes import overlapping
from tests.render.test_booklet_pdf import runs
from tests.render.test_card import as_card, assert_legible

NAMES = ("chorus-skirt", "tea-dance-skirt", "signal-skirt", "wave-petticoat")
"""A skirt on its lining with a ruffle; inches and gathers; a level hem, faced; tiers, bound."""

SPOKEN = ("de", "fr")

EIGHT_POINTS = 8 * 25.4 / 72

SHORTENED = ("…", "...")

# A name of the program's own command, and letters that stand for numbers in a formula.
KEPT = re.compile(r"hemsweep \w+|[A-Z]\d+")
WORD = re.compile(r"[^\W\d_]{2,}")

# Words that are the same in two languages.
UNITS = {"cm", "mm", "min", "oz", "Min"}
PAPERS = {"US", "Letter"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What is printed for one sheet in one language."""

    pattern: Pattern
    pages: Printed
    card: Printed
    lays: Document
    booklet: Booklet


def spec_of(name: str, language: str) -> Spec:
    """Return an example's spec as if its sheet asked for a language: so are its own findings."""
    text = EXAMPLES[name].read_text(encoding="utf-8")
    asked = f'[publish]\nlanguage = "{language}"\nworking = true\n'
    assert text.count("[publish]\n") == 1
    return read_sheet(text.replace("[publish]\n", asked), name=name)


@cache
def made(name: str, language: str) -> Made:
    spec = spec_of(name, language)
    pattern = drafting.draft(spec)
    paper = spec.print.papers[0]
    cloth = Laying(pattern, Effort.QUICK).made(lambda _: None)
    told = booklet(pattern, cloth, working=True)
    return Made(
        pattern=pattern,
        pages=printed(pattern, paper, effort=Effort.QUICK),
        card=printed(drafting.draft(as_card(spec)), paper),
        lays=lay_document(pattern, cloth.lays, cloth.shopping),
        booklet=told,
    )


@cache
def leaves(name: str, language: str) -> bytes:
    """Return the booklet's pages; nobody reads those of the English one."""
    return booklet_pdf(made(name, language).booklet)


# Each example in one of the languages, so that each language meets two: long words find their
# room in both, and what was left unsaid in one was left so in the other.
PAIRS = [(name, language) for name, language in zip(NAMES, itertools.cycle(SPOKEN))]


@pytest.fixture(params=PAIRS, ids="-".join, scope="module")
def garment(request: pytest.FixtureRequest) -> tuple[str, str]:
    """One garment after the other, in one language after the other."""
    name, language = request.param
    return name, language


def texts_of(pages: tuple[Page, ...]) -> Iterator[Text]:
    for page in pages:
        yield from page.drawing.texts
        yield from page.foot.texts


# --- room ---------------------------------------------------------------------------------------


def assert_clear(page: Page) -> None:
    """Check that no words of a page meet others, and that all are in the window."""
    texts = [text for text in page.drawing.texts if text.text.strip()]
    boxes = [ticket.inked_box(text) for text in texts]
    over = [(texts[k].text, texts[m].text) for k, m in overlapping(boxes, by=0.1)]
    assert not over, f"{page.label}: {over}"
    window = page.window
    for text, box in zip(texts, boxes, strict=True):
        for x, y in box:
            assert window.left - 0.01 <= x <= window.right + 0.01, f"{page.label}: {text.text}"
            assert window.bottom - 0.01 <= y <= window.top + 0.01, f"{page.label}: {text.text}"


def test_pages_keep_their_words_apart_and_whole(garment: tuple[str, str]) -> None:
    layout = made(*garment).pages
    ticket.test_no_words_are_printed_over_other_words(layout)
    ticket.test_no_words_cross_a_cutting_line(layout)
    ticket.test_no_words_of_a_piece_cross_any_line_of_the_pattern(layout)
    ticket.test_every_word_of_a_piece_is_whole_on_one_page(layout)
    ticket.test_words_of_a_piece_stand_on_it(layout)
    ticket.test_words_of_the_ticket_are_not_struck_through(layout)
    ticket.test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(layout)


def test_a_card_keeps_its_words_apart_and_whole(garment: tuple[str, str]) -> None:
    layout = made(*garment).card
    assert_legible(layout)
    (page,) = layout.document.pages
    # A tape's own words stand on either side of it: none of them runs on into an edge.
    solid = [stroke for stroke in page.drawing.strokes if stroke.pen.width >= 0.5]
    solid = [stroke for stroke in solid if not stroke.pen.dash]
    assert not ticket.struck(page.drawing.texts, solid)


def test_lay_plans_keep_their_words_apart_and_whole(garment: tuple[str, str]) -> None:
    for page in made(*garment).lays.pages:
        assert_clear(page)


def test_a_booklet_keeps_its_words_apart_and_whole(garment: tuple[str, str]) -> None:
    for number, page in enumerate(runs(leaves(*garment)), 1):
        inner, outer = (14, 148 - 12) if number % 2 else (12, 148 - 14)
        for words, (left, bottom, right, top) in page:
            assert inner - 0.3 < left < right < outer + 0.3, (number, words)
            assert 8 < bottom < top < 210 - 11.5, (number, words)
        # Words turned in a picture are read as one box of several lines; pictures come below.
        level = [run for run in page if "\n" not in run[0]]
        for (one, a), (other, b) in itertools.combinations(level, 2):
            across = min(a[2], b[2]) - max(a[0], b[0])
            up = min(a[3], b[3]) - max(a[1], b[1])
            # Type set in capitals beside small print reaches into the next line's box, not its ink.
            assert across < 0.2 or up < 0.3, (number, one, other)


def test_pictures_of_a_booklet_keep_their_words_in_their_box(garment: tuple[str, str]) -> None:
    found = 0
    for picture in pictures(made(*garment).booklet):
        box = picture.box
        for text in picture.drawing.texts:
            for x, y in ticket.inked_box(text):
                assert box.left - 0.1 <= x <= box.right + 0.1, (picture.name, text.text)
                assert box.bottom - 0.1 <= y <= box.top + 0.1, (picture.name, text.text)
            found += 1
        boxes = [ticket.inked_box(text) for text in picture.drawing.texts]
        over = [
            (picture.drawing.texts[k].text, picture.drawing.texts[m].text)
            for k, m in overlapping(boxes, by=0.1)
        ]
        assert not over, picture.name
    assert found > 20


def test_type_is_never_smaller_than_eight_points(garment: tuple[str, str]) -> None:
    there = made(*garment)
    for document in (there.pages.document, there.card.document, there.lays):
        for text in texts_of(document.pages):
            # A join's number stands in a half ring, in figures alone.
            assert text.size >= EIGHT_POINTS - 1e-6 or text.text.isdigit(), text.text
    sizes: set[float] = set()

    def look(words: str, _now: object, matrix: list[float], _font: object, size: float) -> None:
        if words.strip():
            sizes.add(round(size * math.hypot(matrix[2], matrix[3]), 2))

    for page in pypdf.PdfReader(io.BytesIO(leaves(*garment))).pages:
        page.extract_text(visitor_text=look)
    assert min(sizes) >= 8


# --- words --------------------------------------------------------------------------------------


def all_told(there: Made) -> list[str]:
    """Return everything that is printed, line by line, and what a reader hears of pictures."""
    documents = (there.pages.document, there.card.document, there.lays)
    told = [text.text for document in documents for text in texts_of(document.pages)]
    told += [words for document in documents for words in (document.subject, document.keywords)]
    told += [words for document in documents for p in document.pages for words in (p.bookmark,)]
    told += list(said(there.booklet))
    told += [text.text for one in pictures(there.booklet) for text in one.drawing.texts]
    told += [one.alt for one in pictures(there.booklet)]
    told += [words for one in there.pattern.findings for words in (one.what, one.do)]
    return [words for words in told if words]


def own_words(spec: Spec) -> set[str]:
    """Return the words that people wrote into a sheet."""
    cloths, publish = spec.cloths, spec.publish
    written = (
        spec.title, spec.wearer.label, spec.wearer.size or "", publish.maker, publish.licence,
        publish.edition, publish.date, publish.page, cloths.skirt.kind, cloths.lining.kind,
        cloths.ruffle.kind, cloths.interfacing.kind, cloths.binding.kind,
    )  # fmt: skip
    return set(WORD.findall(" ".join(str(part) for part in written)))


def words_in(told: str, spec: Spec) -> list[str]:
    own = own_words(spec) | UNITS | PAPERS
    return [word for word in WORD.findall(KEPT.sub(" ", told)) if word not in own]


def test_nothing_is_shortened(garment: tuple[str, str]) -> None:
    there = made(*garment)
    for told in all_told(there):
        assert not any(mark in told for mark in SHORTENED), told


# The other two are read for little English words, and in an accented language, elsewhere.
@pytest.mark.parametrize(("name", "language"), [PAIRS[0], PAIRS[1]])
def test_no_sentence_is_left_in_english(name: str, language: str) -> None:
    """A line of two words or more that an English draft has too is one that was not said."""
    there, english = made(name, language), made(name, "en")
    spec = there.pattern.spec
    same = set(all_told(there)) & set(all_told(english))
    left = {told for told in same if len(words_in(told, spec)) >= 2}
    assert left == set()


ENGLISH = re.compile(r"\b(the|and|of|with|is|are|its|your|from|each|which|into)\b", re.IGNORECASE)


def test_no_english_word_stands_among_others(garment: tuple[str, str]) -> None:
    """Lines break elsewhere in another language: little words of English tell one left over."""
    there = made(*garment)
    own = own_words(there.pattern.spec)
    for told in all_told(there):
        found = [word for word in ENGLISH.findall(KEPT.sub(" ", told)) if word not in own]
        assert not found, told
