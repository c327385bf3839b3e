"""The booklet as PDF, read back with programs that did not write it.

Sizes are those of ISO 216 and of the house's look: A5, 14 mm at the fold, 12 mm outside.
"""

import io
import itertools
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pikepdf
import pypdf
import pypdfium2
import pytest

from drafting.language import Language, spoken
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
from render.booklet.pdf import booklet_pdf
from tests.render.booklet_sample import quarter_picture, rail_table, sample, strip_picture
from tests.render.booklet_words import headings, said, squeezed

MM = 72 / 25.4
HOSTILE = 'Skirt <script>alert("1")</script> & "pins" </title> \x07 {name} %s'
LONG = "The wind comes off the pier and lifts every hem in the front row. "


@cache
def written(booklet: Booklet) -> bytes:
    return booklet_pdf(booklet)


def bare(*blocks: Block, **more: Any) -> Booklet:
    """Return a booklet of one section."""
    kept = Section(name="work", title="The work", blocks=blocks)
    plain = replace(sample(), facts=(), cover=None, sections=(kept,))
    return replace(plain, **more)


def pages(booklet: Booklet) -> list[str]:
    """Return the words of every page as pypdf reads them, white space squeezed."""
    reader = pypdf.PdfReader(io.BytesIO(written(booklet)))
    return [squeezed(page.extract_text()) for page in reader.pages]


Run = tuple[str, tuple[float, float, float, float]]


def runs(data: bytes) -> list[list[Run]]:
    """Return the runs of words of every page with their boxes (left, bottom, right, top), mm."""
    found = []
    for page in pypdfium2.PdfDocument(data):
        words = page.get_textpage()
        boxes = [words.get_rect(k) for k in range(words.count_rects())]
        found.append([(words.get_text_bounded(*box), tuple(x / MM for x in box)) for box in boxes])
    return found


def body(page: list[Run]) -> list[Run]:
    """Return the runs of a page above its foot, from its top down."""
    return sorted((run for run in page if run[1][1] > 15), key=lambda run: -run[1][1])


def outline(data: bytes) -> list[tuple[int, str, int]]:
    """Return depth, words and page of every line of the outline."""
    reader = pypdf.PdfReader(io.BytesIO(data))

    def walked(lines: list[Any], depth: int) -> Iterator[tuple[int, str, int]]:
        for line in lines:
            if isinstance(line, list):
                yield from walked(line, depth + 1)
            else:
                page = reader.get_destination_page_number(line)
                assert page is not None
                yield depth, str(line.title), page + 1

    return list(walked(list(reader.outline), 0))


def unnumbered(words: str) -> str:
    return re.sub(r"^\d+  ", "", words)


def test_the_outline_is_the_tree_of_sections_and_steps() -> None:
    told = [(depth, unnumbered(words)) for depth, words, _ in outline(written(sample()))]
    assert told == headings(sample())


def test_each_line_of_the_outline_leads_to_its_heading() -> None:
    read = pages(sample())
    for _, words, page in outline(written(sample())):
        assert page > 2
        assert unnumbered(words) in read[page - 1]


def test_the_contents_tell_the_pages_that_the_headings_stand_on() -> None:
    contents = pages(sample())[1]
    for _, words, page in outline(written(sample())):
        if words == unnumbered(words):
            assert re.search(rf"{re.escape(words)} {page}\b", contents), words
        else:  # steps are found by their numbers; the contents keep to one page
            assert unnumbered(words) not in contents


def test_the_contents_tell_how_to_fold() -> None:
    assert "print as a booklet, on both sides, turned on the short edge" in pages(sample())[1]


def test_a_caution_is_headed_once() -> None:
    step = Step(name="a", title="Sew", do=("Sew it.",), check="", cautions=("It is hot.",))
    page = pages(bare(Cautions(title="Fire", items=("Keep off.",)), Steps(steps=(step,))))[2]
    assert "Fire – Keep off." in page
    assert "Care – It is hot." in page
    assert page.count("Care") == 1


def test_a_box_of_cautions_stays_whole_and_its_check_with_the_last_words() -> None:
    """The lines above push them down past the foot of the page, one by one."""
    items = tuple(f"Needle {k} is sharp. " + LONG for k in range(4))
    step = Step(name="a", title="Sew", do=(LONG * 3, LONG * 4 + "Knot it."), check="It lies flat.")
    moved = set()
    for count in range(34):
        filler = tuple(Paragraph(words="Pin it.") for _ in range(count))
        read = pages(bare(*filler, Cautions(title="Sharp", items=items), Steps(steps=(step,))))
        at = [k for k, words in enumerate(read) if "Sharp" in words or "Needle" in words]
        assert len(at) == 1, count
        assert read[at[0]].count("Needle") == 4
        assert all(("Knot it." in words) == ("It lies flat." in words) for words in read), count
        moved.add(at[0])
    assert moved == {2, 3}


def test_the_first_and_last_of_a_list_are_not_alone() -> None:
    items = tuple(f"Tool {k}" for k in range(5))
    for count in range(34):
        filler = tuple(Paragraph(words="Pin it.") for _ in range(count))
        read = pages(bare(*filler, Bullets(items=items), Paragraph(words=LONG)))
        found = [words.count("Tool") for words in read if "Tool" in words]
        assert found in ([5], [2, 3], [3, 2]), count


def test_a_reader_is_told_title_maker_subject_and_language() -> None:
    with pikepdf.open(io.BytesIO(written(sample()))) as file:
        assert str(file.docinfo["/Title"]) == "Chorus skirt"
        assert str(file.docinfo["/Author"]) == "Wardrobe, Pier Theatre"
        assert str(file.docinfo["/Subject"]) == "How the chorus skirt is sewn"
        assert str(file.Root.Lang) == "en"
        assert bool(file.Root.ViewerPreferences.DisplayDocTitle)


def test_every_font_is_in_the_file() -> None:
    with pikepdf.open(io.BytesIO(written(sample()))) as file:
        fonts = [font for page in file.pages for font in page.Resources.Font.values()]
        assert {str(font.BaseFont).split("+")[-1] for font in fonts} == {
            "FiraSans-Regular",
            "FiraSans-SemiBold",
        }
        assert all("/FontFile2" in font.FontDescriptor for font in fonts)


def test_pages_are_a5_and_fill_whole_sheets_of_four() -> None:
    counts = set()
    for count in range(0, 120, 15):
        booklet = bare(*(Paragraph(words=LONG * 3) for _ in range(count)))
        file = pypdfium2.PdfDocument(written(booklet))
        assert len(file) % 4 == 0
        assert all(page.get_size() == pytest.approx((148 * MM, 210 * MM)) for page in file)
        notes = [words.startswith("Notes") for words in pages(booklet)]
        counts.add(sum(notes))
        assert sum(notes) < 4
        assert notes == sorted(notes)
    assert len(counts) > 1


def test_a_page_for_notes_is_ruled_from_side_to_side() -> None:
    page = pypdfium2.PdfDocument(written(bare()))[3]
    across = [
        box for shape in page.get_objects(filter=[2])
        if (box := shape.get_bounds())[2] - box[0] == pytest.approx(122 * MM, abs=2)
    ]  # fmt: skip
    levels = sorted(box[1] / MM for box in across)
    assert len(levels) > 18
    # The foot's rule and the one over the heading are set apart; the others lie 8 mm apart.
    apart = [b - a for a, b in itertools.pairwise(levels[1:-1])]
    assert apart == [pytest.approx(8, abs=0.05)] * len(apart)


def test_no_heading_is_the_last_on_its_page() -> None:
    """The blank lines above push the headings down past the foot of the page, line by line."""
    steps = Steps(
        steps=tuple(
            Step(name=f"s{k}", title=f"Step title {k}", do=(LONG * k,), check="It lies flat.",
                 hands=5, first=10)
            for k in (1, 4)
        )
    )  # fmt: skip
    inner = Section(name="b", title="Inner title", blocks=(Paragraph(words=LONG * 4),))
    moved = set()
    for count in range(34):
        filler = tuple(Paragraph(words="Pin it.") for _ in range(count))
        booklet = bare(
            *filler, inner, rail_table(9), Section(name="c", title="Last title", blocks=(steps,))
        )
        titles = {title for _, title in headings(booklet)} | {"Skirts on the rail, by number"}
        data = written(booklet)
        for page in runs(data)[2:]:
            last = body(page)[-1][0].strip()
            assert last not in titles, (count, last)
            assert not last.startswith("about "), (count, last)
        moved.add(next(page for _, words, page in outline(data) if words == "Inner title"))
    assert moved == {3, 4}


def test_all_words_lie_within_the_margins_wider_at_the_fold() -> None:
    for number, page in enumerate(runs(written(sample())), 1):
        inner, outer = (14, 148 - 12) if number % 2 else (12, 148 - 14)
        assert page
        for words, (left, bottom, right, top) in page:
            assert left > inner - 0.3, (number, words)
            assert right < outer + 0.3, (number, words)
            assert 8 < bottom < top < 210 - 11.5, (number, words)
        starts = min(box[0] for _, box in page)
        assert starts == pytest.approx(inner, abs=0.5), number


def test_no_words_are_printed_over_others() -> None:
    for number, page in enumerate(runs(written(sample())), 1):
        for (one, a), (other, b) in itertools.combinations(page, 2):
            across = min(a[2], b[2]) - max(a[0], b[0])
            up = min(a[3], b[3]) - max(a[1], b[1])
            assert across < 0.2 or up < 0.2, (number, one, other)


def test_no_type_is_smaller_than_8_points_nor_in_pictures_than_7_and_a_half() -> None:
    sizes: set[float] = set()

    def look(words: str, _now: Any, matrix: list[float], _font: Any, size: float) -> None:
        if words.strip():
            sizes.add(round(size * abs(matrix[3] or matrix[0]), 2))

    for page in pypdf.PdfReader(io.BytesIO(written(sample()))).pages:
        page.extract_text(visitor_text=look)
    assert min(sizes) >= 7.5
    assert {size for size in sizes if size < 8} <= {
        round(2.9 * MM * scale / 100, 2) for scale in range(94, 100)
    }
    assert {10, 26} <= sizes


def test_every_word_is_printed_in_its_order() -> None:
    read = squeezed(" ".join(pages(sample())))
    for words in said(sample()):
        kept = re.escape(squeezed(words)).replace(r"\ ", " ")
        # A page may end amid the words, with its foot between them.
        foot = r"( (Chorus skirt · Wardrobe, Pier Theatre|\d+))* "
        assert re.search(kept.replace(" ", foot), read), words


def test_steps_are_numbered_timed_and_checked() -> None:
    read = squeezed(" ".join(pages(sample())))
    assert "2 Sew the side seams about 10 min, a first time 24 min" in read
    assert "12 Hang the skirt for a night about 1 h, a first time 2 h 24 min" in read
    assert re.search(r"5 Sew the lining Lay the cloth", read)
    assert read.count("Check The seam is") == 20
    numbered = re.findall(r"(\d+) (?:Tape the waist|Hand it to the rail)", read)
    assert set(numbered) == {"1", "20"}


def test_a_check_has_a_box_to_tick() -> None:
    step = Step(name="a", title="Sew", do=("Sew it.",), check="It holds.")
    page = pypdfium2.PdfDocument(written(bare(Steps(steps=(step,), start=7))))[2]
    (check,) = (box for words, box in runs(written(bare(Steps(steps=(step,), start=7))))[2]
                if words.startswith("Check"))  # fmt: skip
    boxes = [[x / MM for x in shape.get_bounds()] for shape in page.get_objects(filter=[2])]
    beside = [
        box for box in boxes
        if box[2] < check[0] and box[1] < check[1] + 1 < box[3] and box[2] - box[0] > 2
    ]  # fmt: skip
    assert len(beside) == 1
    assert beside[0][2] - beside[0][0] == pytest.approx(3, abs=1)


def test_a_long_table_has_its_heads_on_every_page_and_each_row_once() -> None:
    read = pages(bare(rail_table(60)))
    rows = [re.findall(r"Chorus (\d+) \d", page) for page in read]
    assert [int(k) for page in rows for k in page] == list(range(1, 61))
    assert sum(bool(page) for page in rows) > 1
    for page, found in zip(read, rows, strict=True):
        assert ("Skirt Waist, cm Length, cm Where it is worn" in page) == bool(found)


def test_no_word_of_a_table_is_broken_while_there_is_room() -> None:
    heads = ("Size", *(f"P{k:02d}" for k in range(1, 11)))
    row = ("Gatherings", *("108.5" for _ in range(10)))
    table = Table(caption="", heads=heads, rows=(row,), figures=tuple(range(1, 11)))
    found = {words for page in runs(written(bare(table))) for words, _ in page}
    whole = squeezed(" ".join(found))
    assert {*heads, *row} <= set(whole.split())


def test_figures_stand_under_one_another_to_the_right() -> None:
    rows = tuple((f"Skirt {k}", str(10**k)) for k in range(5))
    table = Table(caption="", heads=("Skirt", "Pins"), rows=rows, figures=(1,))
    boxes = [
        box
        for words, box in runs(written(bare(table)))[2]
        if re.fullmatch("10*", words.strip()) and box[1] > 15
    ]
    assert len(boxes) == 5
    assert max(box[2] for box in boxes) - min(box[2] for box in boxes) < 0.6
    assert max(box[0] for box in boxes) - min(box[0] for box in boxes) > 5


@pytest.mark.parametrize("filled", [5, 20])
def test_a_picture_that_does_not_fit_moves_on_whole_with_its_caption(filled: int) -> None:
    filler = tuple(Paragraph(words="Pin it.") for _ in range(filled))
    picture = quarter_picture(118)
    read = pages(bare(*filler, picture, Paragraph(words="Go on.")))
    (at,) = (k for k, page in enumerate(read) if picture.caption in page)
    assert "waist" in read[at]
    assert "hem" in read[at]
    assert at == (2 if filled == 5 else 3)


def test_the_tallest_picture_stands_under_its_headings_on_one_page() -> None:
    tall = strip_picture(122, 150)
    inmost = Section(name="most", title="Inmost", blocks=(tall,))
    read = pages(bare(Section(name="in", title="Inner", blocks=(inmost,))))
    assert "The work Inner Inmost" in read[2]
    assert tall.caption in read[2]


def test_a_cover_stands_on_the_first_page_if_its_type_stays_legible() -> None:
    cover = quarter_picture(118)
    large = replace(cover.drawing, texts=(replace(cover.drawing.texts[0], size=5.0),))
    facts = tuple(f"Fact {k}" for k in range(8))
    fits = pages(bare(cover=replace(cover, drawing=large), facts=facts))
    assert cover.caption in fits[0]
    small = pages(bare(cover=cover, facts=facts))
    assert cover.caption not in small[0]
    assert cover.caption in small[1]


def test_a_paragraph_longer_than_a_page_goes_on_over_the_leaf() -> None:
    words = " ".join(f"evening{k}" for k in range(900))
    read = pages(bare(Paragraph(words=words)))
    numbers = [int(k) for page in read for k in re.findall(r"evening(\d+)", page)]
    assert numbers == list(range(900))
    assert sum("evening" in page for page in read) > 1


def test_a_caution_longer_than_a_page_is_printed_whole() -> None:
    words = " ".join(f"spark{k}" for k in range(1500))
    step = Step(name="a", title="Sew", do=("Sew it.",), check="", cautions=(words,))
    read = pages(bare(Steps(steps=(step,))))
    assert [int(k) for page in read for k in re.findall(r"spark(\d+)", page)] == list(range(1500))


def test_an_empty_section_keeps_its_heading() -> None:
    empty = replace(bare(), sections=(Section(name="a", title="Nothing yet", blocks=()),))
    assert "Nothing yet" in pages(empty)[2]
    assert [words for _, words, _ in outline(written(empty))] == ["Nothing yet"]


def test_a_booklet_without_sections_is_a_first_page_and_notes() -> None:
    read = pages(replace(sample(), sections=()))
    assert len(read) == 4
    assert [page.startswith("Notes") for page in read] == [False, True, True, True]


def test_a_picture_tells_a_reader_what_it_shows() -> None:
    picture = strip_picture(100)
    with pikepdf.open(io.BytesIO(written(bare(picture)))) as file:
        told = [
            str(done.operands[1]["/Alt"])
            for page in file.pages
            for done in pikepdf.parse_content_stream(page)
            if str(done.operator) == "BDC"
        ]
    assert told == [picture.alt]


def test_a_hostile_title_is_printed_as_it_is() -> None:
    booklet = bare(title=HOSTILE)
    shown = HOSTILE.replace("\x07", "\u25ca")
    assert squeezed(shown) in pages(booklet)[0]
    with pikepdf.open(io.BytesIO(written(booklet))) as file:
        assert str(file.docinfo["/Title"]) == HOSTILE.replace("\x07", "\ufffd")


def test_words_that_look_like_markup_are_words() -> None:
    words = "Press at <b>two</b> & a half; keep x < 3 and &amp; as it is"
    assert words in pages(bare(Paragraph(words=words)))[2]


def test_a_letter_that_the_typeface_lacks_becomes_a_lozenge() -> None:
    assert "Umbrella \u25ca dry" in pages(bare(Paragraph(words="Umbrella \u2602 dry")))[2]


@pytest.mark.parametrize("language", ["de", "fr"])
def test_the_booklets_own_words_are_in_its_language(marked: None, language: str) -> None:
    step = Step(name="a", title="X", do=("Y",), check="Z", cautions=("V",), hands=20, first=90)
    data = booklet_pdf(bare(Steps(steps=(step,)), language=language))
    read = squeezed(" ".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(data)).pages))
    for own in ("Contents", "Check", "Care", "Notes", "about", "20 min", "1 h 30 min"):
        assert f"{language}:{own}" in read, own
    with pikepdf.open(io.BytesIO(data)) as file:
        assert str(file.Root.Lang) == language
    assert spoken() is Language.ENGLISH


@pytest.mark.parametrize("make", [sample, bare])
def test_the_same_booklet_gives_the_same_bytes(make: Callable[[], Booklet]) -> None:
    assert booklet_pdf(make()) == booklet_pdf(make())
