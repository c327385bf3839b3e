"""The ticket and the pages' words: all that is needed is there, and nothing is printed over."""

import math
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

import pytest
from shapely import MultiPoint, Polygon

from drafting.findings import Finding, Level
from drafting.geometry import Arc, Line
from drafting.pattern import Pattern
from drafting.piece import InnerKind, NotchKind, cutting_box, cutting_line
from drafting.spec import PaperName, Publish
from render import fonts
from render.drawing import Anchor, Layer, Page, Stroke, Text
from render.pages import Printed, printed
from tests import tape
from tests.render.cloth_shapes import XY, Lines, moved, overlapping
from tests.render.typeface import advances

FONT = {False: "FiraSans-Regular.ttf", True: "FiraSans-SemiBold.ttf"}

# Fira Sans: letters reach 0.72 of the type's height above the line, and 0.2 below it.
ABOVE, BELOW = 0.72, 0.2


def inked_box(text: Text) -> list[XY]:
    """Return the corners of what a text inks, turned as it is turned."""
    widths = advances(FONT[text.bold])
    wide = text.size * sum(widths[ord(letter)] for letter in fonts.printable(text.text))
    left = {Anchor.START: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.END: -wide}[text.anchor]
    below = -BELOW * text.size if re.search(r"[gjpqy,;()/Q]", text.text) else 0.0
    corners = [
        (left, below),
        (left + wide, below),
        (left + wide, ABOVE * text.size),
        (left, ABOVE * text.size),
    ]
    return moved(corners, text.at.x, text.at.y, text.angle)


def ticket_pages(layout: Printed) -> list[Page]:
    return [page for page in layout.document.pages if page.label.startswith("ticket")]


def pattern_pages(layout: Printed) -> list[Page]:
    return [page for page in layout.document.pages if not page.label.startswith("ticket")]


def read(pages: Sequence[Page]) -> str:
    """Return the words of pages as they are read, lines of a paragraph joined."""
    return " ".join(text.text for page in pages for text in page.drawing.texts).replace(
        "\u00a0", " "
    )


# --- nothing over anything -----------------------------------------------------------------


def test_no_words_are_printed_over_other_words(layout: Printed) -> None:
    for page in layout.document.pages:
        texts = [text for text in page.drawing.texts if text.text.strip()]
        boxes = [inked_box(text) for text in texts]
        over = [(texts[k].text, texts[m].text) for k, m in overlapping(boxes, by=0.1)]
        assert not over, f"page {page.label}: {over}"


def test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(layout: Printed) -> None:
    for page in layout.document.pages:
        window = page.window
        for text in page.drawing.texts:
            if text.layer is not Layer.PAGE:
                continue
            for x, y in inked_box(text):
                assert window.left - 0.01 <= x <= window.right + 0.01, f"{page.label}: {text.text}"
                assert window.bottom - 0.01 <= y <= window.top + 0.01, f"{page.label}: {text.text}"
    for page in ticket_pages(layout):
        for stroke in page.drawing.strokes:
            for x, y in walked(stroke):
                assert page.window.left - 0.01 <= x <= page.window.right + 0.01
                assert page.window.bottom - 0.01 <= y <= page.window.top + 0.01


def walked(stroke: Stroke) -> list[XY]:
    found: list[XY] = []
    for segment in stroke.path:
        if isinstance(segment, Line):
            found += [segment.start, segment.end]
            continue
        turn = segment.finish - segment.begin
        steps = max(2, math.ceil(segment.radius * abs(turn) / 4))
        for k in range(steps + 1):
            at = segment.begin + turn * k / steps
            x = segment.centre.x + segment.radius * math.cos(at)
            found.append((x, segment.centre.y + segment.radius * math.sin(at)))
    return found


def test_every_word_of_a_piece_is_whole_on_one_page(layout: Printed) -> None:
    """Words that a join would cut are set elsewhere wherever there is room."""
    whole: set[tuple[str, float, float]] = set()
    cut: set[tuple[str, float, float]] = set()
    for page in pattern_pages(layout):
        (tile,) = (tile for tile in layout.sheets.tiles if tile.name == page.label)
        dx, dy = tile.window.left, tile.window.bottom
        for text in page.drawing.texts:
            if text.layer is Layer.PAGE:
                continue
            key = (text.text, round(text.at.x + dx, 3), round(text.at.y + dy, 3))
            corners = inked_box(text)
            window = page.window
            inside = all(
                window.left <= x <= window.right and window.bottom <= y <= window.top
                for x, y in corners
            )
            (whole if inside else cut).add(key)
    assert not cut - whole, sorted(cut - whole)


def struck(texts: Sequence[Text], strokes: Iterable[Stroke]) -> list[Text]:
    """Return the texts that a stroke runs through."""
    lines = Lines([walked(stroke) for stroke in strokes])
    return [text for text in texts if lines.cross(inked_box(text))]


def test_no_words_cross_a_cutting_line(layout: Printed) -> None:
    for page in pattern_pages(layout):
        cutting = [s for s in page.drawing.strokes if s.layer is Layer.CUTTING]
        assert not struck(page.drawing.texts, cutting), f"page {page.label}"


def test_no_words_of_a_piece_cross_any_line_of_the_pattern(layout: Printed) -> None:
    for page in pattern_pages(layout):
        drawn = [s for s in page.drawing.strokes if s.layer is not Layer.PAGE]
        texts = [text for text in page.drawing.texts if text.layer is not Layer.PAGE]
        assert not struck(texts, drawn), f"page {page.label}"


def test_words_of_a_piece_stand_on_it(layout: Printed) -> None:
    """On the paper beside it they would be cut away; only words that have no room may be."""
    outlines = [
        Polygon(tape.chain(placement.on_plane(cutting_line(placement.piece)), 400))
        for placement in layout.sheets.placements
    ]
    on, beside = set[tuple[str, float, float]](), set[tuple[str, float, float]]()
    for page, dx, dy in on_the_plane(layout):
        for text in page.drawing.texts:
            if text.layer is Layer.PAGE:
                continue
            corners = moved(inked_box(text), dx, dy, 0.0)
            (ax, ay), (cx, cy) = corners[0], corners[2]
            spots = MultiPoint([*corners, ((ax + cx) / 2, (ay + cy) / 2)])
            held = any(outline.contains(spots) for outline in outlines)
            (on if held else beside).add((text.text, round(ax, 2), round(ay, 2)))
    assert on
    assert len(beside) <= 0.15 * len(on), sorted(beside)


def on_the_plane(layout: Printed) -> Iterator[tuple[Page, float, float]]:
    """Yield the pages of the pattern, each with what takes its frame on to the plane."""
    margin = layout.sheets.grid.margin
    for tile, page in zip(layout.sheets.tiles, pattern_pages(layout), strict=True):
        assert tile.name == page.label
        yield page, tile.window.left - margin, tile.window.bottom - margin


def test_words_of_the_ticket_are_not_struck_through(layout: Printed) -> None:
    """But for a few page names on the map, where outlines leave a page no room."""
    names = {tile.name for tile in layout.sheets.tiles}
    found = {
        text.text
        for page in ticket_pages(layout)
        for text in struck(page.drawing.texts, page.drawing.strokes)
    }
    assert found <= names
    assert len(found) <= 0.15 * len(names)


# --- what must be on it --------------------------------------------------------------------


def test_the_ticket_comes_in_its_four_parts_in_order(layout: Printed) -> None:
    bold = [text.text for page in ticket_pages(layout) for text in page.drawing.texts if text.bold]
    heads = [words for words in bold if words in {"Check", "Print", "Cut", "Know"}]
    assert heads == ["Check", "Print", "Cut", "Know"]


def test_the_square_and_its_inches_are_on_the_first_page(layout: Printed) -> None:
    first = ticket_pages(layout)[0]
    sides = []
    for stroke in first.drawing.strokes:
        if len(stroke.path) == 4 and all(isinstance(s, Line) for s in stroke.path):
            xs, ys = zip(*walked(stroke), strict=True)
            sides.append((max(xs) - min(xs), max(ys) - min(ys)))
    assert pytest.approx((100.0, 100.0), abs=1e-6) in sides
    words = read([first])
    for part in ("100 mm", "1 in", "2 in", "3 in", "98.5 mm asks for 101.5 %", "actual size"):
        assert part in words


def test_the_long_rules_have_a_stroke_at_every_centimetre_and_inch(layout: Printed) -> None:
    first = ticket_pages(layout)[0]
    lines = [
        stroke.path[0]
        for stroke in first.drawing.strokes
        if len(stroke.path) == 1 and isinstance(stroke.path[0], Line)
    ]
    level = [line for line in lines if abs(line.start.y - line.end.y) < 1e-9]
    rule = max(level, key=lambda line: math.dist(line.start, line.end) - line.start.y)
    long = math.dist(rule.start, rule.end)
    marks = {
        round(line.start.x - rule.start.x, 3)
        for line in lines
        if abs(line.start.x - line.end.x) < 1e-9 and 0 <= line.start.y - rule.start.y < 8
        and math.dist(line.start, line.end) < 5
    }  # fmt: skip
    assert {k * 10.0 for k in range(round(long / 10) + 1)} <= marks
    assert {round(k * 25.4, 3) for k in range(1, int(long / 25.4) + 1)} <= marks


def test_the_map_names_every_page_once(layout: Printed) -> None:
    names = [tile.name for tile in layout.sheets.tiles]
    shown = [
        text.text
        for page in ticket_pages(layout)
        for text in page.drawing.texts
        if text.text in set(names) and text.anchor is Anchor.MIDDLE
    ]
    assert sorted(shown) == sorted(names)
    for page in ticket_pages(layout):
        for text in page.drawing.texts:
            assert text.size >= 8 * 25.4 / 72, f"{text.text} is smaller than 8 pt"


def test_the_ticket_counts_its_pages(layout: Printed) -> None:
    ticket, total = len(ticket_pages(layout)), len(layout.document.pages)
    assert f"{total} pages: {ticket} of this ticket and {total - ticket} of the pattern" in read(
        ticket_pages(layout)
    )


def test_every_piece_is_in_the_cut_list_with_its_count(pattern: Pattern, layout: Printed) -> None:
    words = read(ticket_pages(layout))
    for number, piece in enumerate(pattern.pieces, start=1):
        assert f"{number} {piece.name}" in re.sub(" +", " ", words)
        assert f"cut {piece.count} from" in words
    pictures = [
        stroke
        for page in ticket_pages(layout)
        for stroke in page.drawing.strokes
        if len(stroke.path) > 3 and {type(s) for s in stroke.path} == {Line, Arc}
    ]
    shaped = [piece for piece in pattern.pieces if not piece.rectangle]
    # Each shaped piece is drawn once in the list and once on the map.
    assert len(pictures) == 2 * len(shaped)


def test_a_band_is_given_as_cutting_measures(layout_of: Callable[..., Printed]) -> None:
    """Waist 74 and ease 1.5, a lap of 3 and 1 cm at each end; twice 3 high and 1 at each edge."""
    words = read(ticket_pages(layout_of("chorus-skirt")))
    assert "80.5 cm × 8.0 cm, cutting measures" in words


def test_small_pictures_have_the_true_shape(
    layout_of: Callable[..., Printed], pattern_of: Callable[..., Pattern]
) -> None:
    layout, pattern = layout_of("chorus-skirt"), pattern_of("chorus-skirt")
    panel = next(piece for piece in pattern.pieces if piece.name == "skirt panel")
    box = cutting_box(panel)
    pictures = [
        stroke
        for stroke in ticket_pages(layout)[1].drawing.strokes
        if len(stroke.path) > 3 and any(isinstance(s, Arc) for s in stroke.path)
    ]
    xs, ys = zip(*walked(pictures[0]), strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    assert max(wide, high) / min(wide, high) == pytest.approx(
        max(box.width, box.height) / min(box.width, box.height), rel=0.01
    )
    assert wide <= 30.01
    assert high <= 16.01


def test_who_made_it_for_whom_and_under_which_terms(pattern: Pattern, layout: Printed) -> None:
    words = read(ticket_pages(layout)[:1])
    spec = pattern.spec
    assert spec.title in words
    for part in (
        spec.wearer.label,
        spec.publish.maker,
        spec.publish.licence,
        spec.publish.date,
        f"edition {spec.publish.edition}" if spec.publish.edition else "",
        f"size {spec.wearer.size}" if spec.wearer.size else "",
    ):
        assert part in words


def test_no_date_is_printed_unless_the_sheet_gives_one(
    layout_of: Callable[..., Printed],
) -> None:
    assert not re.search(r"\b20\d\d-\d\d-\d\d\b", read(layout_of("tea-dance-skirt").document.pages))


def test_every_kind_of_line_on_the_pages_is_in_the_key(layout: Printed) -> None:
    def rhythms(pages: Sequence[Page], layers: set[Layer]) -> set[tuple[float, tuple[float, ...]]]:
        return {
            (stroke.pen.width, stroke.pen.dash)
            for page in pages
            for stroke in page.drawing.strokes
            if stroke.layer in layers
        }

    drawn = rhythms(pattern_pages(layout), {Layer.CUTTING, Layer.STITCHING})
    assert drawn <= rhythms(ticket_pages(layout), set(Layer))


def test_the_key_shows_what_is_printed_and_nothing_else(layout: Printed) -> None:
    pieces = [placement.piece for placement in layout.sheets.placements]
    notches = [notch for piece in pieces for notch in piece.notches]
    places = {notch.strokes for notch in notches if notch.kind is NotchKind.PLACE}
    lines = {line.kind for piece in pieces for line in piece.inner_lines}
    shown = {
        "cutting line": True,
        "stitching line": True,
        "grain, parallel to the selvage": True,
        "ruffle's line, quarters marked across": InnerKind.RUFFLE_LINE in lines,
        "gathering row, or cord": InnerKind.GATHERING in lines,
        "fold of a band or ruffle": InnerKind.FOLD_LINE in lines,
        "fold, or middle of a half": any(piece.half for piece in pieces),
        "notch at the centre front": 1 in places,
        "notch at the side": 2 in places,
        "notch at the centre back": 3 in places,
        "notch that meets its like": any(n.kind is NotchKind.BALANCE for n in notches),
        "opening ends: sew up to here": any(piece.dots for piece in pieces),
        "join of two pages, taped true": bool(layout.sheets.joins),
        "cut the page here": bool(layout.sheets.joins),
    }
    words = {text.text for page in ticket_pages(layout) for text in page.drawing.texts}
    assert {name for name in shown if name in words} == {name for name in shown if shown[name]}


def key_samples(layout: Printed) -> dict[str, list[Stroke]]:
    """Return the strokes of the key that stand in each text's row, to its left."""
    found: dict[str, list[Stroke]] = {}
    for page in ticket_pages(layout):
        for text in page.drawing.texts:
            found[text.text] = []
            for stroke in page.drawing.strokes:
                left, bottom, right, top = tape.extent(walked(stroke))
                level = (bottom + top) / 2 - (text.at.y + 1.1)
                # Rows are 5.7 apart.
                if text.at.x - 28 < left and right < text.at.x and abs(level) < 2.8:
                    found[text.text].append(stroke)
    return found


def test_the_keys_samples_are_drawn_as_the_pages_draw_them(
    layout_of: Callable[..., Printed],
) -> None:
    def pens(name: str) -> set[tuple[float, tuple[float, ...]]]:
        return {(s.pen.width, s.pen.dash) for s in samples[name]}

    samples = key_samples(layout_of("chorus-skirt"))
    assert pens("cutting line") == {(0.7, ())}
    assert pens("stitching line") == {(0.35, (6.0, 3.0))}
    assert pens("ruffle's line, quarters marked across") == {(0.5, (10.0, 2.5, 1.0, 2.5))}
    assert pens("cut the page here") == {(0.5, ())}
    assert pens("lay the next page up to here") == {(0.25, (1.0, 1.0))}
    # Two strokes at the side, across a piece of cutting line; a wedge for a balance notch.
    for name, strokes in (("notch at the centre front", 1), ("notch at the side", 2)):
        across = [s for s in samples[name] if (s.pen.width, s.pen.dash) == (0.5, ())]
        assert len(across) == strokes, name
        assert [s.pen.width for s in samples[name] if s not in across] == [0.7]
    (wedge,) = (s for s in samples["notch that meets its like"] if len(s.path) == 2)
    assert wedge.pen.width == 0.5
    # The grain has a head at each end.
    assert len([s for s in samples["grain, parallel to the selvage"] if len(s.path) == 2]) == 2
    for round_ in ("opening ends: sew up to here", "join of two pages, taped true"):
        assert any(isinstance(s.path[0], Arc) for s in samples[round_]), round_


def test_without_overlap_no_page_is_laid_on_another_in_the_key(
    pattern_of: Callable[..., Pattern],
) -> None:
    pattern = pattern_of("young-chorus-skirt")
    for overlap in (0.0, 10.0):
        spec = replace(pattern.spec, print=replace(pattern.spec.print, overlap=overlap))
        layout = printed(replace(pattern, spec=spec), PaperName.A4)
        words = {text.text for page in ticket_pages(layout) for text in page.drawing.texts}
        assert "cut the page here" in words
        assert ("lay the next page up to here" in words) is bool(overlap)


def test_what_the_draft_found_is_read_before_cutting(pattern: Pattern, layout: Printed) -> None:
    """But for what only saves paper: the pages are printed by then."""
    words = read(ticket_pages(layout))
    told = [f for f in pattern.findings if f.code != "half-saves-paper"]
    assert ("Before you cut" in words) is bool(told)
    for finding in told:
        what = finding.what.replace("\u00a0", " ")
        assert words.index("Before you cut") < words.index(what) < words.index("Know")
    assert "to print half of it" not in words


def test_a_caution_is_bold_and_the_way_to_silence_it_is_left_to_the_sheet(
    pattern_of: Callable[..., Pattern],
) -> None:
    caution = Finding(
        level=Level.CAUTION, code="measure-unusual", what="Your hip is 150 cm.", do="Add it."
    )
    note = Finding(level=Level.NOTE, code="long-hem", what="The hem is low.", do="Take care.")
    pattern = replace(pattern_of("young-chorus-skirt"), findings=(caution, note))
    layout = printed(pattern, PaperName.A4)
    texts = {t.text: t for page in ticket_pages(layout) for t in page.drawing.texts}
    assert texts["Your hip is 150 cm."].bold
    assert not texts["The hem is low. Take care."].bold


def test_every_seam_is_listed_once_with_its_number(pattern: Pattern, layout: Printed) -> None:
    words = read(ticket_pages(layout))
    assert pattern.seams
    for seam in pattern.seams:
        assert words.count(f"seam {seam.number}: {seam.name}") == 1


def test_pieces_bear_their_numbers_on_the_map_and_in_the_list_of_pages(layout: Printed) -> None:
    words = re.sub(" +", " ", read(ticket_pages(layout)))
    # The numbers that the pieces' own labels bear: rectangles that are listed have some too.
    labels = read(pattern_pages(layout))
    wanted = list(dict.fromkeys(re.findall(r"piece (\d+) of \d+\b", labels)))
    assert len(wanted) == len(layout.sheets.placements)
    for placement in layout.sheets.placements:
        assert any(f"{number} {placement.piece.name}: " in words for number in wanted)
    shown = [
        text.text
        for page in ticket_pages(layout)
        for text in page.drawing.texts
        if text.bold and text.anchor is Anchor.MIDDLE and text.text.isdigit()
    ]
    assert sorted(shown) == sorted(wanted)


def test_each_piece_has_its_name_and_facts_on_the_pages(layout: Printed) -> None:
    words = read(pattern_pages(layout))
    for placement in layout.sheets.placements:
        titles = [
            text
            for page in pattern_pages(layout)
            for text in page.drawing.texts
            if text.text == placement.piece.name and text.bold
        ]
        assert titles, placement.piece.name
    assert "grain" in words
    for start in ("piece ", "included: "):
        assert start in words
    panels = ("skirt panel", "skirt gore", "lining panel", "skirt front")
    if any(placement.piece.name in panels for placement in layout.sheets.placements):
        assert "stitching lines on this paper: waist " in words
    # A label's last line, once on the plane for each piece.
    ends = {
        (round(text.at.x + dx, 1), round(text.at.y + dy, 1))
        for page, dx, dy in on_the_plane(layout)
        for text in page.drawing.texts
        if re.fullmatch("right side of the cloth up, scale 1 : [12]", text.text)
    }
    assert len(ends) == len(layout.sheets.placements)


def hard(pattern: Pattern, publish: Publish) -> Pattern:
    spec = replace(pattern.spec, title="Wardrobe " * 12, publish=publish)
    wearer = replace(spec.wearer, label="The second understudy of the leading lady " * 2)
    return replace(pattern, spec=replace(spec, wearer=wearer))


@pytest.mark.parametrize("paper", [PaperName.A4_LETTER, PaperName.TABLOID])
def test_long_titles_and_labels_break_into_lines_and_stay_inside(
    paper: PaperName, pattern_of: Callable[..., Pattern]
) -> None:
    publish = Publish(
        maker="The Pier Workroom and its many friends " * 3,
        page="https://example.org/" + "skirts/" * 30,
        licence="CC BY-NC 4.0",
        edition="1",
    )
    pattern = hard(pattern_of("young-chorus-skirt"), publish)
    layout = printed(pattern, paper)
    test_no_words_are_printed_over_other_words(layout)
    test_no_words_cross_a_cutting_line(layout)
    test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(layout)
    assert "CC BY-NC 4.0" in read(ticket_pages(layout))


@pytest.mark.parametrize("title", ["W" * 90, "Юбка" * 25])
def test_a_title_of_one_long_word_stays_inside(
    title: str, pattern_of: Callable[..., Pattern]
) -> None:
    pattern = pattern_of("young-chorus-skirt")
    layout = printed(replace(pattern, spec=replace(pattern.spec, title=title)), PaperName.A4)
    test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(layout)
