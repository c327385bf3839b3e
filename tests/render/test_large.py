"""Large sheets: nothing printed over anything, the foot inside its strip, names in black."""

import itertools
from collections.abc import Callable

import pytest

from drafting.spec import PaperName
from render.drawing import Kind, Layer
from render.foot import FOOT, check_length, check_line
from render.pages import Printed
from tests.render.cloth_shapes import apart
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
        for (one, box), (other, other_box) in itertools.combinations(boxes, 2):
            assert apart(box, other_box) > -0.1, (
                f"page {page.label}: {one.text!r} and {other.text!r}"
            )


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


@pytest.mark.parametrize(
    ("room", "long"), [(2000.0, 1000.0), (1002.0, 1000.0), (1001.0, 900.0), (574.0, 500.0)]
)
def test_a_check_line_is_a_metre_or_as_many_decimetres_as_fit(room: float, long: float) -> None:
    assert check_length(room) == long
    words = " ".join(text.text for text in check_line(long).texts)
    assert f"{long:.0f} mm from end to end" in words
    assert ("fit here" in words) is (long < 1000)
