"""Whole booklets of the examples as they come out of the printer: what stands beside what."""

from functools import cache

import pypdfium2
import pytest

from render.booklet.compose import booklet
from render.booklet.model import Booklet
from render.booklet.pdf import booklet_pdf
from tests.examples import pattern_of_example
from tests.render.booklet_pages import free, picture_pages, read_pages, spread, stood

FOOT = 36.0
"""Points from the page's lower edge: the line at the foot stands below."""

LEAST_H = 8.95


@cache
def booklet_of(name: str) -> Booklet:
    return booklet(pattern_of_example(name))


@cache
def pdf_of(name: str) -> bytes:
    return booklet_pdf(booklet_of(name))


TELLING = (
    "chorus-skirt", "leading-lady-skirt", "young-chorus-skirt", "box-office-skirt",
    "wave-petticoat", "classroom-half-scale", "twirl-skirt", "wardrobe-find",
)  # fmt: skip
"""The longest and the shortest, tiers, gores, a form, a lining alone."""


@pytest.mark.parametrize("name", TELLING)
def test_a_step_and_its_pictures_lie_open_together(name: str) -> None:
    lies = picture_pages(pdf_of(name))
    steps = stood(booklet_of(name), pdf_of(name))
    assert len(steps) > 5
    for one in steps:
        open_with_it = {spread(page) for page in (one.title, one.last, one.check)}
        for picture in one.step.pictures:
            assert spread(lies[picture.alt]) in open_with_it, (one.step.name, picture.name)


def test_nearly_all_pictures_lie_open_with_the_title_of_their_step() -> None:
    """A step longer than a page and two pictures may take three pages."""
    apart = {
        (name, picture.name): spread(picture_pages(pdf_of(name))[picture.alt]) - spread(one.title)
        for name in TELLING
        for one in stood(booklet_of(name), pdf_of(name))
        for picture in one.step.pictures
    }
    away = [which for which, by in apart.items() if by]
    assert len(away) < len(apart) / 6, away


@pytest.mark.parametrize("name", TELLING)
def test_a_check_stands_on_the_page_of_the_words_before_it(name: str) -> None:
    for one in stood(booklet_of(name), pdf_of(name)):
        assert one.check == one.last, one.step.name


@pytest.mark.parametrize("name", TELLING)
def test_pages_are_filled(name: str) -> None:
    read = read_pages(pdf_of(name))
    told = sum(not words.startswith("Notes") for words in read)
    empty = free(pdf_of(name))[2 : told - 1]
    assert max(empty) < 0.45
    assert sum(part > 1 / 3 for part in empty) <= 1
    assert sum(empty) / len(empty) < 0.2


@pytest.mark.parametrize("name", TELLING)
def test_the_contents_are_one_page(name: str) -> None:
    contents, after = read_pages(pdf_of(name))[1:3]
    assert contents.startswith("Contents")
    assert after.startswith("Before you begin")


@pytest.mark.parametrize("name", TELLING)
def test_no_words_reach_the_foot_and_none_in_a_picture_are_too_small(name: str) -> None:
    """A letter's whole height is 1.2 of its size: 9 points for type of 7.5."""
    document = pypdfium2.PdfDocument(pdf_of(name))
    for number, page in enumerate(document, start=1):
        read = page.get_textpage()
        rows = [read.get_rect(k) for k in range(read.count_rects())]
        foot = max((top for _, _, _, top in rows if top < FOOT), default=0.0)
        above = [bottom for _, bottom, _, top in rows if top >= FOOT]
        assert min(above, default=FOOT) > foot + 4, number
        sizes = {
            round(read.get_charbox(k, loose=True)[3] - read.get_charbox(k, loose=True)[1], 1)
            for k in range(read.count_chars())
            if read.get_text_range(k, 1) == "h"
        }
        assert min(sizes, default=9.0) > LEAST_H, (number, min(sizes))
