"""The imprint: on every page of every file, legible to people and to telephones, over nothing."""

import io
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from itertools import groupby
from xml.etree import ElementTree

import pypdfium2
import pytest
import zxingcpp
from PIL import Image, ImageDraw
from pypdf import PdfReader
from shapely import LineString, Polygon, box

from drafting.cloth.laying import lay_plans
from drafting.geometry import Box, Point
from drafting.pattern import Pattern
from drafting.spec import PaperName, Publish, Scope
from render.booklet.compose import booklet
from render.booklet.html import booklet_html
from render.booklet.pdf import booklet_pdf
from render.drawing import Layer, Page, Stroke
from render.imprint import imprint_of, room_of, set_in_room
from render.lay_pages import lay_document
from render.pages import Printed, printed
from render.pdf import pdf_bytes
from render.placement import Effort
from render.proof import proof
from render.qr import code_drawing
from render.room import Room, turned_box
from tests.examples import pattern_of_example
from tests.render import test_ticket as seen
from tests.render.test_ticket import inked_box, walked

PAGE = "https://example.org/skirts"
PIER = Publish(
    maker="The Pier Workroom", page=PAGE, licence="CC BY-NC 4.0", edition="3", date="2026-11-24"
)
TOLD = ("The Pier Workroom", PAGE, "CC BY-NC 4.0", "edition 3", "2026-11-24")
LONGEST = "https://example.org/" + "skirts/" * 25 + "hem-1"
"""A sheet takes addresses of 200 letters."""

PAPERS = (
    PaperName.A4,
    PaperName.LETTER,
    PaperName.ROLL_914,
    PaperName.A1,
    PaperName.PROJECTOR,
)


def published(name: str, publish: Publish = PIER, scope: Scope | None = None) -> Pattern:
    pattern = pattern_of_example(name)
    spec = replace(pattern.spec, publish=publish)
    if scope is not None:
        spec = replace(spec, print=replace(spec.print, scope=scope))
    return replace(pattern, spec=spec)


@cache
def layout(name: str, paper: PaperName, publish: Publish = PIER) -> Printed:
    return printed(published(name, publish), paper, effort=Effort.QUICK)


def decoded(data: bytes, *, dots: int = 150) -> list[list[str]]:
    """Return what a reader of codes finds on each page of a PDF, painted at so many dots an inch.

    The painter is pdfium and the reader ZXing; neither has a line in common with what wrote it.
    """
    found = []
    for page in pypdfium2.PdfDocument(data):
        image = page.render(scale=dots / 72).to_pil().convert("L")
        found.append([code.text for code in zxingcpp.read_barcodes(image)])
    return found


def words_of(data: bytes) -> list[str]:
    """Return the words of each page of a PDF, as another program reads them."""
    return [re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(io.BytesIO(data)).pages]


def rows_of_code(page: Page) -> list[Stroke]:
    """Return the strokes of a page's code: many in a row, all their runs whole modules."""
    strokes = (*page.drawing.strokes, *page.foot.strokes)
    return [
        stroke
        for modules, run in groupby(strokes, key=of_modules)
        for rows in [list(run)]
        if modules and len(rows) >= 21
        for stroke in rows
    ]


def of_modules(stroke: Stroke) -> bool:
    (ax, ay), (bx, by) = stroke.path[0].start, stroke.path[-1].end
    runs = [math.hypot(bx - ax, by - ay), *stroke.pen.dash]
    counts = [long / stroke.pen.width for long in runs]
    # The marks of rules are thinner than any module.
    return (
        stroke.layer is Layer.PAGE
        and stroke.pen.width > 0.39
        and all(0.9 < count < 58 and abs(count - round(count)) < 1e-6 for count in counts)
    )


# --- everywhere ----------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_tells_maker_page_licence_and_edition(paper: PaperName) -> None:
    shown = layout("young-chorus-skirt", paper)
    for page, words in zip(shown.document.pages, words_of(pdf_bytes(shown.document)), strict=True):
        for told in (*TOLD, shown.document.title):
            assert told in words, f"{page.label}: {told}"


@pytest.mark.parametrize("paper", PAPERS)
def test_the_code_of_every_page_leads_to_the_makers_page(paper: PaperName) -> None:
    shown = layout("young-chorus-skirt", paper)
    pages = decoded(pdf_bytes(shown.document), dots=110)
    for page, codes in zip(shown.document.pages, pages, strict=True):
        # A ticket's later pages may be full: there the words alone must do.
        later = page.label.startswith("ticket") and page.label != "ticket 1"
        assert codes == [PAGE] or (later and not codes), page.label
    assert sum(map(len, pages)) > len(pages) / 2


@pytest.mark.parametrize("paper", [PaperName.A4, PaperName.LETTER])
def test_the_pages_of_the_lay_plans_tell_it_too(paper: PaperName) -> None:
    pattern = published("young-chorus-skirt")
    spec = replace(pattern.spec, print=replace(pattern.spec.print, papers=(paper,)))
    data = pdf_bytes(lay_document(replace(pattern, spec=spec), lay_plans(pattern)))
    for words in words_of(data):
        assert all(told in words for told in TOLD), words
    codes = decoded(data)
    assert [PAGE] in codes
    assert all(found in ([], [PAGE]) for found in codes)


def test_the_booklet_has_it_at_the_foot_of_every_page_and_the_code_on_the_first() -> None:
    data = booklet_pdf(booklet(published("young-chorus-skirt")))
    for words in words_of(data):
        assert all(told in words for told in TOLD), words
    first, *others = decoded(data, dots=110)
    assert first == [PAGE]
    assert not any(others)


def test_a_card_has_it_beside_its_title() -> None:
    data = pdf_bytes(
        printed(published("young-chorus-skirt", scope=Scope.CARD), PaperName.LETTER).document
    )
    (words,) = words_of(data)
    assert all(told in words for told in TOLD)
    assert decoded(data) == [[PAGE]]


def test_the_booklets_page_has_a_link_and_the_code_with_words_for_who_cannot_see_it() -> None:
    page = ElementTree.fromstring(booklet_html(booklet(published("young-chorus-skirt"))))
    footer = page.find("body/footer")
    assert footer is not None
    link = footer.find(".//a")
    assert link is not None and link.get("href") == PAGE and link.text == PAGE
    words = " ".join(footer.itertext())
    assert all(told in words for told in TOLD)
    (drawn,) = footer.findall("svg")
    assert drawn.get("role") == "img"
    assert PAGE in drawn.get("aria-label", "")
    assert [code.text for code in zxingcpp.read_barcodes(painted(drawn))] == [PAGE]


def painted(svg: ElementTree.Element, dots: int = 8) -> Image.Image:
    """Return an SVG of level dashed lines painted, so many dots to a millimetre."""
    side = float(svg.get("width", "").removesuffix("mm"))
    image = Image.new("L", (round(side * dots), round(side * dots)), 255)
    pen = ImageDraw.Draw(image)
    for path in svg:
        x, y, end, _ = map(float, re.findall(r"[\d.]+", path.get("d", "")))
        half = float(path.get("stroke-width", "")) / 2
        for k, long in enumerate(map(float, path.get("stroke-dasharray", "99").split(","))):
            if k % 2 == 0:
                right = min(x + long, end)
                pen.rectangle(
                    [x * dots, (y - half) * dots, right * dots - 1, (y + half) * dots - 1], 0
                )
            x += long
            if x >= end - 1e-6:
                break
    return image


# --- over nothing --------------------------------------------------------------------------

CROWDED = ("chorus-skirt", "tea-dance-skirt", "wave-petticoat", "character-skirt")


@pytest.mark.parametrize("name", CROWDED)
def test_no_line_and_no_word_crosses_a_code_and_its_white_rim(name: str) -> None:
    shown = layout(name, PaperName.A4)
    coded = 0
    for page in shown.document.pages:
        rows = rows_of_code(page)
        if not rows:
            continue
        coded += 1
        xs, ys = zip(*(at for row in rows for at in walked(row)), strict=True)
        module = rows[0].pen.width
        white = box(min(xs), min(ys), max(xs), max(ys)).buffer(3.9 * module, join_style="mitre")
        others = [s for s in page.drawing.strokes if s not in rows]
        crossed = [s for s in others if LineString(walked(s)).intersects(white)]
        assert not crossed, page.label
        under = [t.text for t in page.drawing.texts if Polygon(inked_box(t)).intersects(white)]
        assert not under, f"{page.label}: {under}"
    assert coded > len(shown.document.pages) / 2
    seen.test_no_words_are_printed_over_other_words(shown)
    seen.test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(shown)


@pytest.mark.parametrize("paper", [PaperName.A4, PaperName.PROJECTOR])
def test_no_line_of_a_piece_or_a_join_crosses_the_words(paper: PaperName) -> None:
    shown = layout("chorus-skirt", paper)
    checked = 0
    for page in shown.document.pages:
        for text in page.drawing.texts:
            if text.layer is not Layer.PAGE or TOLD[0] not in text.text:
                continue
            inked = Polygon(inked_box(text))
            lines = [s for s in page.drawing.strokes if s.layer is not Layer.GRID]
            assert not [s for s in lines if LineString(walked(s)).intersects(inked)], page.label
            checked += 1
    assert checked >= len(shown.document.pages)


def test_the_imprint_moves_nothing_else_on_a_page_of_the_pattern() -> None:
    with_it = layout("young-chorus-skirt", PaperName.A4)
    without = layout("young-chorus-skirt", PaperName.A4, Publish())
    plain = {page.label: page for page in without.document.pages}
    for page in with_it.document.pages:
        if page.label.startswith("ticket"):
            continue
        assert set(plain[page.label].drawing.strokes) <= set(page.drawing.strokes)
        kept = {(text.text, text.at) for text in page.drawing.texts}
        for text in plain[page.label].drawing.texts:
            # Labels name the edition where there is one.
            assert text.layer is not Layer.PAGE or (text.text, text.at) in kept


def test_a_sheet_that_names_nobody_prints_no_imprint() -> None:
    assert imprint_of(published("chorus-skirt", Publish()).spec) is None
    assert imprint_of(published("chorus-skirt", Publish(date="2026-11-24")).spec) is None
    for page in layout("young-chorus-skirt", PaperName.A4, Publish()).document.pages:
        assert not rows_of_code(page)


# --- how large -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("paper", "least", "most"),
    [
        (PaperName.A4, 0.4, 0.5),
        (PaperName.ROLL_914, 0.4, 0.5),
        (PaperName.PROJECTOR, 1.0, 3.0),
    ],
)
def test_a_module_is_half_a_millimetre_on_paper_and_larger_for_a_projector(
    paper: PaperName, least: float, most: float
) -> None:
    pages = [
        page
        for page in layout("young-chorus-skirt", paper).document.pages
        if not page.label.startswith("ticket")
    ]
    for page in pages:
        (wide,) = {row.pen.width for row in rows_of_code(page)}
        assert least <= wide <= most


def test_no_dash_pattern_is_longer_than_printers_hold() -> None:
    """PostScript stops at 11 lengths, and pdfium's own painter at 32."""
    for address in (PAGE, LONGEST):
        imprint = imprint_of(published("chorus-skirt", replace(PIER, page=address)).spec)
        assert imprint is not None and imprint.code is not None
        for stroke in code_drawing(imprint.code).strokes:
            assert len(stroke.pen.dash) <= 11


def test_the_longest_address_has_a_code_and_stays_inside() -> None:
    assert len(LONGEST) == 200
    shown = layout("young-chorus-skirt", PaperName.A4, replace(PIER, page=LONGEST))
    codes = decoded(pdf_bytes(shown.document), dots=160)
    assert codes[0] == [LONGEST]
    assert sum(found == [LONGEST] for found in codes) > len(codes) / 2
    seen.test_no_words_are_printed_over_other_words(shown)
    seen.test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(shown)


def test_a_roll_with_the_longest_address_tells_it_in_words() -> None:
    shown = layout("young-chorus-skirt", PaperName.ROLL_914, replace(PIER, page=LONGEST))
    (words,) = words_of(pdf_bytes(shown.document))
    assert LONGEST in words
    for page in shown.document.pages:
        for row in rows_of_code(page):
            assert row.pen.width >= 0.4


def test_a_file_with_codes_passes_its_own_proof() -> None:
    for paper in (PaperName.A4, PaperName.ROLL_914):
        told = proof(pdf_bytes(layout("young-chorus-skirt", paper).document))
        assert not told.faults


# --- where there is little room ------------------------------------------------------------

WINDOW = Box(left=10.0, bottom=10.0, right=200.0, top=287.0)


def room_leaving(free: Box) -> Room:
    room = Room(box=WINDOW)
    room.leave_only([free])
    return room


def test_words_stand_alone_where_the_code_has_no_room() -> None:
    imprint = imprint_of(published("chorus-skirt").spec)
    assert imprint is not None
    large = set_in_room(
        imprint, WINDOW, (room_leaving(Box(left=20, bottom=20, right=110, top=60)),)
    )
    low = set_in_room(imprint, WINDOW, (room_leaving(Box(left=20, bottom=20, right=190, top=30)),))
    assert large is not None and large.strokes
    assert low is not None and not low.strokes
    words = " ".join(text.text for text in low.texts)
    assert all(told in words for told in TOLD)
    full = room_leaving(Box(left=20, bottom=20, right=30, top=30))
    assert set_in_room(imprint, WINDOW, (full,)) is None


def test_words_in_a_narrow_strip_are_read_upwards() -> None:
    imprint = imprint_of(published("chorus-skirt").spec)
    assert imprint is not None
    strip = Box(left=20, bottom=20, right=42, top=260)
    drawing = set_in_room(imprint, WINDOW, (room_leaving(strip),))
    assert drawing is not None
    assert {round(text.angle, 6) for text in drawing.texts} == {round(math.pi / 2, 6)}
    for text in drawing.texts:
        assert all(strip.left <= x <= strip.right for x, _ in inked_box(text))


def test_what_is_taken_is_not_taken_twice() -> None:
    imprint = imprint_of(published("chorus-skirt").spec)
    assert imprint is not None
    room = Room(box=WINDOW)
    set_ = [set_in_room(imprint, WINDOW, (room,)) for _ in range(4)]
    boxes = [Polygon(inked_box(text)) for drawing in set_ if drawing for text in drawing.texts]
    assert len(boxes) == 4 * 5
    assert not any(a.intersects(b) for k, a in enumerate(boxes) for b in boxes[:k])


def test_a_set_page_has_no_room_where_its_words_and_lines_are() -> None:
    page = layout("young-chorus-skirt", PaperName.A4).document.pages[0]
    room = room_of(page.drawing, page.window)
    for text in page.drawing.texts:
        x, y = Polygon(inked_box(text)).centroid.coords[0]
        assert not room.is_free(turned_box(Point(x, y), 0.5, 0.5, 0.0)), text.text


def places(room: Room, wide: float, high: float) -> Iterator[tuple[int, int]]:
    for row, bits in enumerate(room.free_places(room.box, wide, high)):
        for column in range(200):
            if bits >> column & 1:
                yield row, column


@pytest.mark.parametrize(("wide", "high"), [(2.0, 2.0), (7.0, 5.0), (12.0, 30.0), (41.0, 8.0)])
def test_free_places_are_those_that_one_would_find_one_by_one(
    wide: float, high: float, pattern_of: Callable[[str], Pattern]
) -> None:
    room = Room(box=Box(left=0.0, bottom=0.0, right=80.0, top=60.0))
    for corner in ((10.0, 10.0), (33.0, 40.0), (60.0, 21.0)):
        room.claim(turned_box(Point(*corner), 6.0, 9.0, 0.4))
    across, up = math.ceil(wide / 2), math.ceil(high / 2)
    # A hair smaller than whole cells, for a corner on a rim touches the next one.
    free = {
        (row, column)
        for row in range(30 - up + 1)
        for column in range(40 - across + 1)
        if room.is_free(
            turned_box(
                Point(2 * column + across, 2 * row + up), 2 * across - 0.01, 2 * up - 0.01, 0.0
            )
        )
    }
    assert set(places(room, wide, high)) == free
