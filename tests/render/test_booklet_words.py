"""The booklet's own words, its places, and the widths of its tables' columns."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from render import fonts
from render.booklet.columns import column_widths, fits
from render.booklet.model import Step
from render.booklet.words import clean, foot_words, places, time_words
from tests.render.booklet_sample import sample

STEP = Step(name="hang", title="Hang it", do=("Hang it.",), check="It hangs.")


@pytest.mark.parametrize(
    ("hands", "first", "told"),
    [
        (0, 90, ""),
        (20, 0, "about 20 min"),
        (20, 45, "about 20 min, a first time 45 min"),
        (60, 150, "about 1 h, a first time 2 h 30 min"),
        (0.4, 59.6, "about 1 min, a first time 1 h"),
    ],
)
def test_a_time_is_told_in_hours_and_minutes(hands: float, first: float, told: str) -> None:
    assert time_words(replace(STEP, hands=hands, first=first)).replace("\u00a0", " ") == told


def test_the_foot_names_the_garment_and_its_maker() -> None:
    assert foot_words(sample()) == "Chorus skirt · Wardrobe, Pier Theatre"
    assert foot_words(replace(sample(), author="")) == "Chorus skirt"


def test_every_place_has_a_key_of_its_own_that_fits_an_address() -> None:
    keys = [place.key for place in places(sample())]
    assert len(set(keys)) == len(keys) == 30
    assert all(re.fullmatch("[a-z0-9-]+", key) for key in keys)
    assert "step-hang" in keys


@given(st.text())
def test_clean_words_are_one_line_that_any_page_may_hold(words: str) -> None:
    assert re.fullmatch(
        r"[^\x00-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]*", clean(words)
    )
    assert len(clean(words)) == len(words)


CELLS = st.lists(st.text("abcdef 0123", min_size=1, max_size=12), min_size=3, max_size=3)


@given(st.lists(CELLS, min_size=1, max_size=8), st.sets(st.integers(0, 7)))
def test_columns_fill_the_width_and_hold_their_words(
    columns: list[list[str]], figures: set[int]
) -> None:
    widths = column_widths(columns, 340.0, size=9, gap=8, figures=tuple(figures))
    assert sum(widths) == pytest.approx(340)
    if fits(columns, 340.0, size=9, gap=8):
        for column, wide in zip(columns, widths, strict=True):
            longest = max(
                fonts.width(word, 9, bold=True) for words in column for word in words.split(" ")
            )
            assert wide >= longest + 8


def test_what_is_left_goes_to_words_and_not_to_figures() -> None:
    columns = [["Skirt", "Chorus 1"], ["Pins", "120"]]
    skirt, pins = column_widths(columns, 340.0, size=9, gap=8, figures=(1,))
    assert pins < 40
    assert skirt > 300
