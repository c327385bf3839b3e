"""The first pages of a graded pattern: which pages a size needs, what it measures, its lines."""

import re

import pytest

from drafting.pattern import Pattern
from drafting.units import length_text
from render.nest.facts import body_rows, by_size, finished_rows
from render.nest.pages import tiles_of_sizes
from render.nest.pens import size_pen
from render.pages import Printed
from tests.render.nest.test_nested_pages import (
    STEMS,
    layout_of,
    lines_of,
    pattern_of,
    written,
)


def ticket_words(layout: Printed) -> str:
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    pages = layout.document.pages[:tickets]
    return " ".join(text.text for page in pages for text in page.drawing.texts)


def told_pages(words: str, sizes: tuple[str, ...]) -> dict[str, set[int]]:
    """Return the numbers of the pages that the ticket tells each size to print."""
    found: dict[str, set[int]] = {}
    for names, runs in re.findall(
        r"((?:P\d\d(?:, )?)+): \d+ pages \(file pages ([\d, -]+)\)", words
    ):
        numbers: set[int] = set()
        for run in runs.split(", "):
            first, _, last = run.partition("-")
            numbers |= set(range(int(first), int(last or first) + 1))
        found |= dict.fromkeys(names.split(", "), numbers)
    assert tuple(sorted(found)) == sizes
    return found


@pytest.mark.parametrize("stem", STEMS)
def test_the_ticket_tells_each_size_the_pages_that_carry_its_lines(stem: str) -> None:
    layout = layout_of(stem)
    sizes = pattern_of(stem).spec.publish.sizes
    told = told_pages(ticket_words(layout), sizes)
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    drawn: dict[str, set[int]] = {size: set() for size in sizes}
    grid = layout.sheets.grid
    for page, of, layer, _, points in lines_of(written(stem)):
        if page < tickets or layer not in ("cutting lines", "stitching lines"):
            continue
        # What reaches into the overlap alone is on the neighbour too.
        rim, edge = grid.margin + grid.overlap + 0.1, grid.window
        inside = any(
            rim < x < edge.right - grid.overlap - 0.1 and rim < y < edge.top - grid.overlap - 0.1
            for x, y in points
        )
        for size in sizes if inside else ():
            if not of or f"size {size}" in of:
                drawn[size].add(page + 1)
    for size in sizes:
        assert drawn[size] <= told[size]
        assert len(told[size]) >= len(drawn[size]) > 0
        assert min(told[size]) > tickets
    # A larger size never needs fewer pages, and the largest's nest is what was laid out.
    counts = [len(told[size]) for size in sizes]
    assert counts[-1] <= len(layout.sheets.tiles)
    assert len(set.union(*told.values())) == len(layout.sheets.tiles)


@pytest.mark.parametrize("stem", STEMS)
def test_a_star_on_the_map_marks_what_some_size_does_without(stem: str) -> None:
    layout = layout_of(stem)
    needed = tiles_of_sizes(pattern_of(stem), layout.sheets)
    spared = {
        tile.name for tile in layout.sheets.tiles
        if any(tile not in tiles for tiles in needed.values())
    }  # fmt: skip
    words = ticket_words(layout)
    starred = set(re.findall(r"\b([A-Z]+\d+)\*", words))
    assert starred == spared
    assert ("star on the map" in words) == bool(spared)


@pytest.mark.parametrize("stem", STEMS)
def test_the_table_gives_every_size_its_own_figures(stem: str) -> None:
    pattern = pattern_of(stem)
    words = ticket_words(layout_of(stem))
    for one in pattern.sizes:
        for long in (one.figures.skirt.waistline, one.figures.skirt.sweep, one.spec.wearer.hip):
            assert length_text(long, pattern.spec.units) in words
    names = [row.name for row in (*body_rows(pattern), *finished_rows(pattern))]
    assert len(names) == len(set(names)) >= 5
    assert all(name in words for name in names)


@pytest.mark.parametrize("stem", STEMS)
def test_the_key_draws_the_line_of_every_size(stem: str) -> None:
    layout = layout_of(stem)
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    pens = {s.pen for page in layout.document.pages[:tickets] for s in page.drawing.strokes}
    words = ticket_words(layout)
    for place, size in enumerate(pattern_of(stem).spec.publish.sizes):
        assert size_pen(place) in pens
        assert f"cutting line, size {size}" in words


def test_bands_are_listed_with_the_measures_of_every_size() -> None:
    pattern: Pattern = pattern_of("front-row-skirt")
    words = ticket_words(layout_of("front-row-skirt"))
    for one in pattern.sizes:
        band = one.figures.band
        assert band is not None
        assert f"{length_text(band.cut_length, pattern.spec.units)} ×" in words


def test_a_line_that_all_sizes_share_is_told_once() -> None:
    assert list(by_size({"P01": "cut 2", "P02": "cut 2"})) == ["cut 2"]
    told = list(by_size({"P01": "a", "P02": "a", "P03": "b"}))
    assert told == ["P01 and P02: a", "P03: b"]
    assert list(by_size({"P01": "a", "P02": "b", "P03": "c"}, most=2)) == []
