"""Operators followed as the imaging model says: matrices, saved states, clips, forms, damage."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from render.walk import PLAIN, Content, Form, Matrix, Walk, times, walk


def walked(data: str, under: Matrix = PLAIN, **forms: Form) -> Walk:
    return walk(Content(data=data.encode("latin-1"), forms=forms), under)


LINE = "10 20 m 30 20 l S"


def test_a_line_lies_where_it_is_drawn() -> None:
    assert walked(LINE).lines == (((10, 20), (30, 20)),)


def test_matrices_multiply_the_later_first() -> None:
    """Doubled, then shifted by 5 of the doubled units: x = 2 (x + 5)."""
    found = walked(f"2 0 0 3 0 0 cm 1 0 0 1 5 0 cm {LINE}")
    assert found.lines == (((30, 60), (70, 60)),)
    assert found.scale == (2, 3)


def test_a_saved_state_is_given_back() -> None:
    found = walked(f"q 2 0 0 2 0 0 cm {LINE} Q {LINE} q 4 0 0 4 0 0 cm Q {LINE}")
    assert found.lines == (((20, 40), (60, 40)), ((10, 20), (30, 20)), ((10, 20), (30, 20)))


def test_a_state_too_many_given_back_is_passed_over() -> None:
    assert walked(f"Q Q {LINE}").lines == walked(LINE).lines


def test_the_callers_matrix_comes_last_of_all() -> None:
    assert walked(f"1 0 0 1 1 1 cm {LINE}", (2, 0, 0, 2, 0, 0)).lines == (((22, 42), (62, 42)),)


@pytest.mark.parametrize(
    "square",
    [
        "1 2 10 20 re S",
        "1 2 m 11 2 l 11 22 l 1 22 l h S",
        "1 2 m 11 2 l 11 22 l 1 22 l s",
        "1 2 m 11 2 l 11 22 l 1 22 l 1 2 l S",
        "1 2 m 11 2 l 11 22 l 1 22 l 1 2 l h S",
        "1 2 m\n11 2 l\n11 22 l%a word (of\r1 22 l h b*",
    ],
)
def test_an_outline_is_one_however_it_is_written(square: str) -> None:
    assert walked(square).outlines == (((1, 2), (11, 2), (11, 22), (1, 22)),)


@pytest.mark.parametrize(
    "other",
    [
        "1 2 10 20 re f",
        "1 2 10 20 re n",
        "1 2 m 11 2 l 11 22 l 1 22 l S",
        "1 2 m 11 2 l 11 22 l h S",
        "1 2 m 11 2 l 11 22 l 1 22 1 22 1 22 c h S",
    ],
)
def test_what_is_not_stroked_or_not_four_straight_sides_is_no_outline(other: str) -> None:
    assert walked(other).outlines == ()


def test_curves_are_no_lines() -> None:
    found = walked("0 0 m 1 1 2 2 3 3 c S 0 0 m 1 1 2 2 v S 0 0 m 1 1 2 2 y S")
    assert found.lines == ()


@pytest.mark.parametrize(
    "words",
    [
        "(1 2 m 3 4 l S)",
        r"(\(1 2 m 3 4 l S)",
        "(a (1 2 m (3 4 l) S) b)",
        "<31203220 6d> Tj",
        "/m 1 2 /l /S",
        "% 1 2 m 3 4 l S\n",
        "BI /W 4 /H 4 ID 1 2 m 3 4 l S EI",
        "[(1 2 m) -20 (3 4 l S)] TJ",
        "/OC /L0 BDC EMC",
    ],
)
def test_words_names_comments_and_pictures_draw_no_lines(words: str) -> None:
    assert walked(words).lines == ()
    assert walked(f"{words} {LINE}").lines == walked(LINE).lines


def test_numbers_may_be_written_in_every_way() -> None:
    assert walked("+1. -.5 m 03.250 4 l S").lines == (((1, -0.5), (3.25, 4)),)


def test_clips_within_clips_leave_what_lies_in_both() -> None:
    found = walked(f"q 0 0 100 100 re W n q 5 5 200 200 re W* n {LINE} Q Q")
    assert found.window == (5, 5, 100, 100)


def test_a_clip_is_under_its_matrix_and_ends_with_its_state() -> None:
    found = walked(f"q 2 0 0 2 0 0 cm 0 0 50 60 re W n {LINE} Q")
    assert found.window == (0, 0, 100, 120)
    assert walked(f"q 0 0 50 60 re W n {LINE} Q {LINE}").window is None
    assert walked(f"q 0 0 9 9 re W n Q 0 0 50 60 re W n {LINE}").window == (0, 0, 50, 60)
    assert walked(f"0 0 50 60 re W n q Q {LINE}").window == (0, 0, 50, 60)


def test_a_clip_laid_in_a_state_is_measured_before_the_matrix_that_follows_it() -> None:
    found = walked(f"q 0 0 50 60 re W n 2 0 0 2 0 0 cm {LINE} Q")
    assert found.window == (0, 0, 50, 60)
    assert found.lines == (((20, 40), (60, 40)),)


def test_under_several_clips_the_window_holds_them_all() -> None:
    found = walked(f"q 0 0 10 10 re W n {LINE} Q q 20 20 10 10 re W n {LINE} Q")
    assert found.window == (0, 0, 30, 30)


def test_most_lies_in_one_of_several_clips() -> None:
    small, large = "0 0 10 10 re W n", "0 0 50 60 re W n"
    found = walked(f"q {small} {LINE} Q q {large} {LINE} {LINE} Q {LINE} {LINE} {LINE}")
    assert found.window is None
    assert found.mostly == (0, 0, 50, 60)
    assert walked(LINE).mostly is None


@pytest.mark.parametrize("op", ["(a) Tj", "[(a) 3 (b)] TJ", "(a) '", '1 2 (a) "'])
def test_words_alone_are_drawn_in_a_window_too(op: str) -> None:
    assert walked(f"q 0 0 50 60 re W n BT {op} ET Q").window == (0, 0, 50, 60)
    assert walked(f"q 0 0 50 60 re W n Q BT {op} ET").window is None


def test_a_form_is_drawn_where_it_is_called_under_its_own_matrix() -> None:
    form = Form(
        content=Content(data=LINE.encode()), matrix=(1, 0, 0, 1, 100, 0), box=(0, 0, 50, 50)
    )
    found = walked("q 2 0 0 2 0 0 cm /Page Do Q", Page=form)
    assert found.lines == (((220, 40), (260, 40)),)
    assert found.window == (200, 0, 300, 100)
    assert walked(f"/Page Do {LINE}", Page=form).lines[1] == ((10, 20), (30, 20))


def test_forms_within_forms_are_followed_and_endless_ones_left() -> None:
    inner = Form(content=Content(data=LINE.encode()))
    for _ in range(5):
        inner = Form(content=Content(data=b"2 0 0 2 0 0 cm /In Do", forms={"In": inner}))
    assert walked("/Out Do", Out=inner).lines == (((320, 640), (960, 640)),)
    for _ in range(20):
        inner = Form(content=Content(data=b"/In Do", forms={"In": inner}))
    assert walked("/Out Do", Out=inner).lines == ()


def test_an_unknown_form_is_passed_over() -> None:
    assert walked(f"/Picture Do {LINE}").lines == walked(LINE).lines


@pytest.mark.parametrize("turn", ["0 1 -1 0 0 0", "1 0.1 0 1 0 0", "0 0 0 0 0 0"])
def test_what_is_turned_or_slanted_has_no_scale(turn: str) -> None:
    assert walked(f"{turn} cm {LINE}").scale == (0, 0)


def test_the_scale_is_that_of_most_strokes_and_none_where_there_are_none() -> None:
    assert walked(f"q 9 0 0 9 0 0 cm {LINE} Q {LINE} {LINE}").scale == (1, 1)
    assert walked("2 0 0 2 0 0 cm BT (words) Tj ET").scale is None


def test_a_page_of_words_alone_has_their_clip_and_no_scale() -> None:
    """Programs that write a file anew set words under matrices of their own."""
    words = "BT /F1 9 Tf 1 0 0 1 30 40 Tm (Take care \\) 5 0 0 5 0 0 cm) Tj ET"
    found = walk(
        Content(data=f"0 0 20 50 re W n 2 0 0 3 0 0 cm {words}".encode()), (4, 0, 0, 4, 0, 0)
    )
    assert found.scale is None
    assert found.window == (0, 0, 80, 200)


@pytest.mark.parametrize(
    "damage",
    [
        "1 m 3 4 l S",
        "3 4 l S h",
        "1 2 3 cm",
        "1" * 400 + " 0 m 3 4 l S",
        "9" * 300 + " 0 0 1 0 0 cm 9e9 0 m 3 4 l S",
        "((((( 1 2 m 3 4 l",
        "1 2 m W n S s b",
        "BI ID 1 2 m",
        "\x00\xff 1..2 --3 m",
    ],
)
def test_damage_is_passed_over(damage: str) -> None:
    assert isinstance(walked(damage), Walk)
    assert walked(damage).outlines == ()


@given(st.text(alphabet="0123456789.- \nmlcvyhreSsfFbBnWqQDo*/()<>[]%'\"ABIE", max_size=300))
def test_whatever_is_written_is_walked_through(data: str) -> None:
    found = walked(data)
    assert all(abs(n) < 1e6 for line in found.lines for spot in line for n in spot)


NUMBERS = st.floats(-50, 50)
MATRICES = st.tuples(NUMBERS, NUMBERS, NUMBERS, NUMBERS, NUMBERS, NUMBERS)


@given(MATRICES, MATRICES)
def test_one_matrix_after_the_other_is_their_product(one: Matrix, other: Matrix) -> None:
    def put(m: Matrix, x: float, y: float) -> tuple[float, float]:
        return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]

    assert put(times(one, other), 3, 7) == pytest.approx(put(other, *put(one, 3, 7)), abs=1e-6)
