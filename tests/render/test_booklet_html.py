"""The booklet as a web page: read as XML, looked at in a browser, walked over by axe."""

import io
import itertools
import re
import unicodedata
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest

from drafting.geometry import Point
from drafting.language import Language, spoken
from render.booklet.compose import booklet as made_up
from render.booklet.html import booklet_html
from render.booklet.model import (
    Block,
    Booklet,
    Bullets,
    Cautions,
    Paragraph,
    Section,
    Step,
    Steps,
    Table,
)
from render.drawing import Text
from tests.examples import pattern_of_example
from tests.render.booklet_sample import quarter_picture, rail_table, sample, strip_picture
from tests.render.booklet_words import headings, said, squeezed
from tests.render.browser import Browser, browser, missing

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "Skirt <script>alert(\"1\")</script> & 'pins' </title> --> ]]> \x07 {name}"
NARROW, WIDE = 320, 1000


def bare(*blocks: Block, **more: Any) -> Booklet:
    """Return a booklet of one section."""
    kept = Section(name="work", title="The work", blocks=blocks)
    return replace(sample(), facts=(), cover=None, sections=(kept,), **more)


def read(booklet: Booklet) -> ElementTree.Element:
    """Return the page as a tree; it is well-formed XML as well."""
    kind, page = booklet_html(booklet).decode().split("\n", 1)
    assert kind == "<!DOCTYPE html>"
    return ElementTree.fromstring(page)


def words(element: ElementTree.Element) -> str:
    return squeezed("".join(element.itertext()))


def test_every_word_is_on_the_page_as_it_is_given() -> None:
    told = words(read(sample()).find("body") or read(bare()))
    at = 0
    for run in said(sample()):
        if run in {text.text for text in sample().cover.drawing.texts}:  # type: ignore[union-attr]
            continue
        at = told.find(squeezed(run))
        assert at >= 0, run
    assert told.count("Check") == 20


def test_the_page_says_its_language_and_its_title_once() -> None:
    page = read(sample())
    assert page.get("lang") == "en"
    assert words(page.findall("head/title")[0]) == "Chorus skirt"
    assert [words(h) for h in page.iter("h1")] == ["Chorus skirt"]
    told = {meta.get("name"): meta.get("content") for meta in page.iter("meta")}
    assert told["author"] == "Wardrobe, Pier Theatre"
    assert told["description"] == "How the chorus skirt is sewn"
    assert "width=device-width" in str(told["viewport"])


def test_headings_go_down_one_step_at_a_time() -> None:
    found = [
        (int(element.tag[1]), words(element))
        for element in read(sample()).iter()
        if re.fullmatch("h[1-6]", str(element.tag))
    ]
    assert found[:2] == [(1, "Chorus skirt"), (2, "Contents")]
    assert [(level - 2, title) for level, title in found[2:]] == headings(sample())
    assert all(after - before <= 1 for (before, _), (after, _) in itertools.pairwise(found))


def test_every_heading_is_led_to_from_the_contents() -> None:
    page = read(sample())
    named = {element.get("id"): element for element in page.iter() if element.get("id")}
    assert len(named) == sum(element.get("id") is not None for element in page.iter())
    links = list(page.iter("a"))
    assert all(link.get("href", "").startswith("#") for link in links)
    led = [words(named[link.get("href", "")[1:]]) for link in links]
    assert led == [title for _, title in headings(sample())]
    (nav,) = page.iter("nav")
    assert list(nav.iter("a")) == links


def test_sections_of_one_name_have_places_of_their_own() -> None:
    twice = (
        Section(name="Näht!", title="One", blocks=()),
        Section(name="naht", title="Two", blocks=()),
    )
    page = read(replace(sample(), sections=twice))
    assert [link.get("href") for link in page.iter("a")] == ["#naht", "#naht-2"]


def test_a_section_may_be_named_as_the_contents_are() -> None:
    one = Section(name="contents", title="What is in the bag", blocks=())
    page = read(replace(sample(), sections=(one,)))
    assert [link.get("href") for link in page.iter("a")] == ["#contents-2"]


def test_the_page_runs_nothing_and_fetches_nothing() -> None:
    text = booklet_html(sample()).decode()
    page = read(sample())
    assert not {"script", "link", "img", "iframe", "object"} & {str(e.tag) for e in page.iter()}
    assert not [e for e in page.iter() for name in e.attrib if name == "src" or name[:2] == "on"]
    assert "url(" not in text
    assert "@import" not in text
    assert "http" not in text


def test_steps_are_an_ordered_list_numbered_on() -> None:
    step = Step(name="a", title="Sew", do=("One.", "Two."), check="It holds.", cautions=("Hot.",))
    page = read(bare(Steps(steps=(step, replace(step, name="b")), start=7)))
    (listed,) = (ol for ol in page.iter("ol") if ol.get("class") == "steps")
    assert listed.get("start") == "7"
    assert [item.tag for item in listed] == ["li", "li"]
    (first, _) = listed
    assert [e.tag for e in first] == ["h3", "p", "p", "aside", "p"]
    assert words(first[-1]) == "Check It holds."
    assert words(first[-1][0]) == "Check"
    assert [words(a) for a in page.iter("a")] == ["The work", "7 Sew", "8 Sew"]


def test_cautions_are_notes_that_have_a_name() -> None:
    page = read(
        bare(Cautions(title="Fire", items=("Keep off.",)), Cautions(title="care", items=()))
    )
    assert [note.get("aria-label") for note in page.iter("aside")] == ["Fire", "care"]


def test_every_cell_has_its_heads() -> None:
    page = read(bare(rail_table(60)))
    (table,) = page.iter("table")
    assert words(table[0]) == "Skirts on the rail, by number"
    assert table[0].tag == "caption"
    heads = [th for th in table.iter("th") if th.get("scope") == "col"]
    rows = [th for th in table.iter("th") if th.get("scope") == "row"]
    assert [words(th) for th in heads] == ["Skirt", "Waist, cm", "Length, cm", "Where it is worn"]
    assert [words(th) for th in rows] == [f"Chorus {k}" for k in range(1, 61)]
    assert all(len(row) == 4 for row in table.iter("tr"))


def test_pictures_are_drawn_in_the_page_and_told() -> None:
    shifted = strip_picture(100, left=-30)
    page = read(bare(shifted, quarter_picture(60)))
    drawn = list(page.iter("svg"))
    assert [svg.get("role") for svg in drawn] == ["img", "img"]
    assert [svg.get("aria-label") for svg in drawn] == [shifted.alt, quarter_picture(60).alt]
    assert [words(c) for c in page.iter("figcaption")] == [
        shifted.caption,
        quarter_picture().caption,
    ]
    left, top, wide, tall = map(float, str(drawn[0].get("viewBox")).split())
    assert (left, top, wide, tall) == (-30, 0, 100, 40)
    assert "M -29 39" in str(drawn[0].findall("path")[0].get("d"))
    (around,) = (e for e in page.iter("div") if e.get("tabindex") == "0")
    assert around.get("aria-label") == shifted.caption


def test_nothing_in_a_booklet_is_taken_for_markup() -> None:
    bad = bare(
        Paragraph(words=HOSTILE),
        Bullets(items=(HOSTILE,)),
        Cautions(title=HOSTILE, items=(HOSTILE,)),
        replace(rail_table(1), caption=HOSTILE, heads=(HOSTILE,) * 4, rows=((HOSTILE,) * 4,)),
        replace(strip_picture(), caption=HOSTILE, alt=HOSTILE),
        Section(name=HOSTILE, title=HOSTILE, blocks=()),
        title=HOSTILE,
        subtitle=HOSTILE,
        author=HOSTILE,
        subject=HOSTILE,
    )
    page = read(bad)
    shown = HOSTILE.replace("\x07", "\ufffd")
    assert not list(page.iter("script"))
    assert words(next(page.iter("h1"))) == shown
    assert words(next(page.iter("title"))) == shown
    assert words(page).count(shown) >= 14
    assert next(page.iter("svg")).get("aria-label") == shown


@pytest.mark.parametrize("lost", ["\x00", "\x1b", "\x85", "\ufffe", "\ud800", "\ufdd0"])
def test_characters_that_no_page_may_hold_are_replaced(lost: str) -> None:
    picture = strip_picture()
    drawn = replace(picture.drawing.texts[0], text=f"a{lost}b")
    drawing = replace(picture.drawing, texts=(drawn,))
    page = read(bare(Paragraph(words=f"a{lost}b"), replace(picture, drawing=drawing)))
    assert "a\ufffdb" in words(page)
    assert lost not in words(page)


@pytest.mark.parametrize("language", ["de", "fr"])
def test_the_pages_own_words_are_in_its_language(marked: None, language: str) -> None:
    step = Step(name="a", title="X", do=("Y",), check="Z", cautions=("V",), hands=20, first=90)
    page = read(bare(Steps(steps=(step,)), language=language))
    told = words(page)
    assert page.get("lang") == language
    for own in ("Contents", "Check", "Care", "about"):
        assert f"{language}:{own}" in told, own
    assert spoken() is Language.ENGLISH


@pytest.mark.parametrize("make", [sample, bare])
def test_the_same_booklet_gives_the_same_page(make: Callable[[], Booklet]) -> None:
    assert booklet_html(make()) == booklet_html(make())


def test_an_empty_section_and_an_empty_booklet_are_pages_still() -> None:
    empty = replace(sample(), sections=(Section(name="a", title="Nothing yet", blocks=()),))
    assert "Nothing yet" in words(read(empty))
    assert not list(read(replace(sample(), sections=(), title="")).iter("nav"))


# In a browser


in_a_browser = pytest.mark.skipif(bool(missing()), reason=missing())


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as one:
        yield one


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample as a file that a browser opens."""
    path = tmp_path_factory.mktemp("page") / "booklet.html"
    path.write_bytes(booklet_html(sample()))
    return path


@in_a_browser
@pytest.mark.parametrize("wide", [NARROW, WIDE])
def test_axe_finds_no_fault(chromium: Browser, shown: Path, wide: int) -> None:
    chromium.shows(shown, wide=wide)
    told = chromium.axe()
    assert len(told["passes"]) > 20
    assert [(fault["id"], fault["nodes"][0]["html"]) for fault in told["violations"]] == []


@in_a_browser
@pytest.mark.parametrize("wide", [NARROW, 400, 540, 560, 600, 700, 760, 780, 900, WIDE])
def test_the_page_never_scrolls_sideways(
    chromium: Browser, shown: Path, tmp_path: Path, wide: int
) -> None:
    chromium.shows(shown, wide=wide)
    assert chromium.asks("innerWidth") == wide
    assert chromium.asks("document.scrollingElement.scrollWidth") <= wide
    long = Table(
        caption="Seams",
        heads=("Seam", *(f"Stitching-line{k}" for k in range(9))),
        rows=(("Undergarment", *(f"Bandstandskirt{k}" for k in range(9))),),
    )
    crowded = tmp_path / "crowded.html"
    three = replace(long, heads=long.heads[:3], rows=(("Under" * 20, "Stitching" * 9, "x"),))
    words = Paragraph(words="Bandstand" * 40)
    crowded.write_bytes(booklet_html(bare(long, three, words, title="Chorusskirt" * 9)))
    chromium.shows(crowded, wide=wide)
    assert chromium.asks("document.scrollingElement.scrollWidth") <= wide


@in_a_browser
@pytest.mark.parametrize("wide", [NARROW, WIDE])
def test_no_words_are_cut_off_or_beside_the_page(chromium: Browser, shown: Path, wide: int) -> None:
    chromium.shows(shown, wide=wide)
    outside = chromium.asks(
        """[...document.querySelectorAll('main p, main li, main caption, main td, main tbody th,'
            + ' h1, h2, h3, h4, nav a, figcaption')]
            .filter(e => { const b = e.getBoundingClientRect();
                return b.left < 0 || b.right > innerWidth + .5 || e.scrollWidth > e.clientWidth + 1
                    && getComputedStyle(e).display !== 'inline'; })
            .map(e => e.textContent)"""
    )
    assert outside == []


@in_a_browser
def test_words_in_pictures_are_legible_on_a_phone(chromium: Browser, shown: Path) -> None:
    chromium.shows(shown, wide=NARROW)
    heights = chromium.asks(
        """[...document.querySelectorAll('svg text')].map(
            t => Math.hypot(t.getScreenCTM().a, t.getScreenCTM().b)
                * parseFloat(t.getAttribute('font-size')))"""
    )
    assert min(heights) >= 7


@in_a_browser
def test_a_wide_picture_is_moved_inside_its_frame(
    chromium: Browser, shown: Path, tmp_path: Path
) -> None:
    frames = "[...document.querySelectorAll('.across')]"
    slides = f"{frames}.map(e => e.scrollWidth > e.clientWidth)"
    chromium.shows(shown, wide=NARROW)
    assert not any(chromium.asks(slides))
    assert chromium.asks(f"{frames}.every(e => e.tabIndex === 0)")
    small = strip_picture()
    texts = tuple(replace(text, size=2.0) for text in small.drawing.texts)
    page = tmp_path / "small.html"
    page.write_bytes(
        booklet_html(bare(replace(small, drawing=replace(small.drawing, texts=texts))))
    )
    chromium.shows(page, wide=NARROW)
    assert chromium.asks(slides) == [True]
    shadow = f"getComputedStyle({frames}[0])"
    assert chromium.asks(f"{shadow}.backgroundAttachment") == "local, local, scroll, scroll"
    assert chromium.asks(f"{shadow}.backgroundImage").count("linear-gradient") == 4
    chromium.shows(page, wide=WIDE)
    assert chromium.asks(slides) == [False]


BROKEN = """(() => {
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), bad = [];
    const range = document.createRange();
    for (let n; (n = walk.nextNode());) {
        const told = n.parentElement;
        if (told.closest('svg') || told.closest('.many thead, .crowd thead')) continue;
        for (const m of n.data.matchAll(/[^ \\n\\u2002\\u200b-]+/g)) {
            range.setStart(n, m.index); range.setEnd(n, m.index + m[0].length);
            const tops = [...range.getClientRects()].map(r => Math.round(r.top));
            if (Math.max(...tops) - Math.min(...tops) > 4) bad.push(m[0]);
        }
    }
    return bad; })()"""
"""Words that begin on one line and end on another. A hard space is a part of its word."""


@in_a_browser
@pytest.mark.parametrize("wide", [NARROW, 400, 560, 700, WIDE])
@pytest.mark.parametrize("name", ["chorus-skirt", "wave-petticoat"])
def test_no_word_is_broken_nor_a_number_parted_from_its_unit(
    chromium: Browser, tmp_path: Path, name: str, wide: int
) -> None:
    page = tmp_path / "page.html"
    page.write_bytes(booklet_html(made_up(pattern_of_example(name))))
    chromium.shows(page, wide=wide)
    assert chromium.asks("document.body.innerText.length") > 5000
    assert chromium.asks(BROKEN) == []
    assert chromium.asks("document.scrollingElement.scrollWidth") <= wide


@in_a_browser
@pytest.mark.parametrize("wide", [NARROW, WIDE])
def test_words_that_reach_beyond_a_pictures_lines_are_shown(
    chromium: Browser, tmp_path: Path, wide: int
) -> None:
    narrow = quarter_picture(60)
    reaching = Text(text="Drawn at 1:50: not to be cut from.", at=Point(40, 20), size=2.9)
    drawn = replace(narrow.drawing, texts=(*narrow.drawing.texts, reaching))
    page = tmp_path / "page.html"
    page.write_bytes(booklet_html(bare(replace(narrow, drawing=drawn))))
    chromium.shows(page, wide=wide)
    inside = """[...document.querySelectorAll('svg text')].every(t => {
        const a = t.getBoundingClientRect(), b = t.closest('svg').getBoundingClientRect();
        return a.left >= b.left - 1 && a.right <= b.right + 1; })"""
    assert chromium.asks(inside)


@in_a_browser
def test_a_tall_row_is_told_head_by_head_on_a_phone(chromium: Browser, shown: Path) -> None:
    chromium.shows(shown, wide=NARROW)
    head = "getComputedStyle(document.querySelector('.many td'), '::before').content"
    assert "data-head" in chromium.asks(head) or "Waist, cm" in chromium.asks(head)
    stacked = """(([a, b]) =>
        a.getBoundingClientRect().bottom <= b.getBoundingClientRect().top + 1)(
        document.querySelectorAll('.many td'))"""
    assert chromium.asks(stacked)
    chromium.shows(shown, wide=WIDE)
    assert not chromium.asks(stacked)


@in_a_browser
@pytest.mark.parametrize("paper", [(8.27, 11.69), (8.5, 11)])
def test_printed_nothing_is_left_out(
    chromium: Browser, shown: Path, paper: tuple[float, float]
) -> None:
    chromium.shows(shown, wide=WIDE)
    file = pypdf.PdfReader(io.BytesIO(chromium.prints(wide=paper[0], tall=paper[1])))
    assert len(file.pages) > 4
    # Set in a typeface with ligatures, "ffl" is one letter.
    read_back = unicodedata.normalize("NFKC", " ".join(page.extract_text() for page in file.pages))
    told = "".join(read_back.split())
    for _, title in headings(sample()):
        assert told.count("".join(title.split())) >= 2, title  # in the contents and at its place
    assert "".join(sample().sections[-1].blocks[-1].words.split()) in told  # type: ignore[union-attr]
    for page in file.pages:
        assert float(page.mediabox.width) == pytest.approx(paper[0] * 72, abs=1)
