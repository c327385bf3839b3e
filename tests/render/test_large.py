"""Large sheets: nothing printed over anything, the foot inside its strip, names in black."""

from collections.abc import Callable
from typing import Any

import pytest
from shapely import Polygon

from drafting.geometry import flattened
from drafting.pattern import Pattern, draft
from drafting.piece import cutting_line
from drafting.sheet import read_sheet
from drafting.spec import PaperName
from render import large_sheets
from render.drawing import Kind, Layer
from render.foot import FOOT, check_length, check_line
from render.pages import Printed, printed
from render.placement import Effort, Placement, place
from tests.garments import STRIPS_ALONE
from tests.render.cloth_shapes import overlapping
from tests.render.test_ticket import inked_box

LAYOUTS = [
    ("chorus-skirt", PaperName.ROLL_841),
    ("usher-skirt", PaperName.ROLL_841),
    ("wave-petticoat", PaperName.ROLL_914),
    ("chorus-skirt", PaperName.A0),
    ("signal-skirt", PaperName.A1),
    ("deckchair-skirt", PaperName.A1),
    ("twirl-skirt", PaperName.PROJECTOR),
]


@pytest.fixture(params=LAYOUTS, ids=lambda one: f"{one[0]}-{one[1].value}")
def large(request: pytest.FixtureRequest, layout_of: Callable[..., Printed]) -> Printed:
    return layout_of(*request.param)


def test_no_words_stand_over_other_words(large: Printed) -> None:
    for page in large.document.pages:
        # What runs across a join is printed on both sheets, cut off at the window of each.
        window = page.window
        boxes = [
            (text, [(x, max(y, window.bottom)) for x, y in inked_box(text)])
            for text in page.drawing.texts
            if text.text.strip()
        ]
        boxes += [(text, inked_box(text)) for text in page.foot.texts]
        found = overlapping([box for _, box in boxes], by=0.1)
        over = [(boxes[k][0].text, boxes[m][0].text) for k, m in found]
        assert not over, f"page {page.label}: {over}"


def test_all_words_stay_on_what_is_drawn(large: Printed) -> None:
    for page in large.document.pages:
        window = page.window
        foot = FOOT if page.foot.texts else 0.0
        joined = bool(large.sheets.joins)
        for text in (*page.drawing.texts, *page.foot.texts):
            if joined and text.layer is not Layer.PAGE:
                continue
            for x, y in inked_box(text):
                assert window.left - 0.01 <= x <= window.right + 0.01, text.text
                assert window.bottom - foot - 0.01 <= y <= window.top + 0.01, text.text
        for text in page.foot.texts:
            assert all(y <= window.bottom for _, y in inked_box(text)), text.text


def test_only_a_sheet_that_is_joined_or_one_of_several_is_named(large: Printed) -> None:
    pages = large.document.pages
    if large.document.about.kind is not Kind.LARGE:
        return
    for tile in large.sheets.tiles:
        (page,) = [page for page in pages if page.label == tile.name]
        named = [t for t in page.drawing.texts if t.text == tile.name and t.size > 20]
        assert len(named) <= 1
        assert not named or len(pages) > 1
        assert all(text.grey == 0 for text in page.drawing.texts)


def test_two_joined_sheets_are_not_searched_for_fewer(
    pattern_of: Callable[[str], Pattern], monkeypatch: pytest.MonkeyPatch
) -> None:
    efforts: list[Effort] = []

    def recorded(*given: Any, effort: Effort, **more: Any) -> tuple[Placement, ...]:
        efforts.append(effort)
        return place(*given, effort=effort, **more)

    monkeypatch.setattr(large_sheets, "place", recorded)
    layout = printed(pattern_of("bandstand-skirt"), PaperName.A0)
    assert len(layout.sheets.tiles) == 2
    assert layout.sheets.joins
    assert set(efforts) == {Effort.QUICK}


@pytest.mark.parametrize("paper", [PaperName.ROLL_841, PaperName.A1])
def test_a_pattern_of_strips_alone_prints_no_pieces_and_says_so(paper: PaperName) -> None:
    layout = printed(draft(read_sheet(STRIPS_ALONE)), paper, effort=Effort.QUICK)
    words = " ".join(
        text.text for page in layout.document.pages for text in page.drawing.texts
    ).replace("\u00a0", " ")
    assert "No piece is printed" in words
    assert "by the measures below" in words
    assert "cut the pieces out" not in words
    assert "Nothing is joined" not in words


@pytest.mark.parametrize(
    ("name", "paper"),
    [
        ("box-office-skirt", PaperName.A1),
        ("young-chorus-skirt", PaperName.A1),
        ("chorus-skirt", PaperName.A0),
    ],
)
def test_the_bound_of_a_plan_goes_by_area_not_by_what_was_found(
    name: str, paper: PaperName, layout_of: Callable[..., Printed]
) -> None:
    sheets = layout_of(name, paper).sheets
    area = sum(Polygon(flattened(cutting_line(p.piece))).area for p in sheets.placements)
    wide, high = {PaperName.A1: (594, 841), PaperName.A0: (841, 1189)}[paper]
    assert sheets.lower_bound >= max(1.0, area / (wide * high))
    assert sheets.lower_bound < max(2.0, 1 + area / ((wide - 30) * (high - 30 - FOOT)))
    assert sheets.lower_bound <= len(sheets.tiles)


@pytest.mark.parametrize(
    ("room", "long"), [(2000.0, 1000.0), (1002.0, 1000.0), (1001.0, 900.0), (574.0, 500.0)]
)
def test_a_check_line_is_a_metre_or_as_many_decimetres_as_fit(room: float, long: float) -> None:
    assert check_length(room) == long
    words = " ".join(text.text for text in check_line(long).texts)
    assert f"{long:.0f} mm from end to end" in words
    assert ("fit here" in words) is (long < 1000)
