"""Marks on the joins: a ring that closes, one number, and a vernier to read a tenth by."""

import math
from collections.abc import Callable

import pytest

from drafting.geometry import Arc, Line
from drafting.spec import PaperName
from render.drawing import Layer, Page, Stroke
from render.pages import Printed
from render.tiling import Join, Tile

RADIUS = 7.0
COARSE, FINE = 1.0, 0.9

XY = tuple[float, float]


@pytest.fixture(params=["chorus-skirt", "tea-dance-skirt", "young-chorus-skirt"])
def marked(request: pytest.FixtureRequest, layout_of: Callable[..., Printed]) -> Printed:
    layout: Printed = layout_of(request.param)
    return layout


def page_of(layout: Printed, tile: Tile) -> Page:
    (page,) = (page for page in layout.document.pages if page.label == tile.name)
    return page


def plane(layout: Printed, tile: Tile, x: float, y: float) -> XY:
    """Return where a place of a page lies on the taped plane."""
    margin = layout.sheets.grid.margin
    return x - margin + tile.window.left, y - margin + tile.window.bottom


def marks(layout: Printed, tile: Tile) -> list[Stroke]:
    return [s for s in page_of(layout, tile).drawing.strokes if s.layer is Layer.PAGE]


def half_rings(layout: Printed, tile: Tile) -> list[tuple[XY, float]]:
    """Return the centre of every half ring on a page and the angle that its bow faces."""
    found = []
    for stroke in marks(layout, tile):
        arc = stroke.path[0]
        if len(stroke.path) == 1 and isinstance(arc, Arc) and abs(arc.radius - RADIUS) < 1e-9:
            assert abs(arc.finish - arc.begin) == pytest.approx(math.pi)
            centre = plane(layout, tile, arc.centre.x, arc.centre.y)
            found.append((centre, (arc.begin + arc.finish) / 2))
    return found


def ring_on(layout: Printed, tile: Tile, join: Join) -> tuple[XY, float]:
    """Return the one half ring of a page whose centre lies on a join and whose bow is square."""
    (ax, ay), (bx, by) = join.line
    along = math.atan2(by - ay, bx - ax)
    (found,) = (
        (centre, facing)
        for centre, facing in half_rings(layout, tile)
        if abs((centre[0] - ax) * math.sin(along) - (centre[1] - ay) * math.cos(along)) < 1e-6
        and abs(math.cos(facing - along)) < 1e-6
    )
    return found


def test_two_halves_make_one_ring_on_every_join(marked: Printed) -> None:
    assert {join.upright for join in marked.sheets.joins} == {True, False}
    for join in marked.sheets.joins:
        one, bow = ring_on(marked, join.first, join)
        other, other_bow = ring_on(marked, join.second, join)
        assert math.dist(one, other) < 1e-6
        assert math.cos(bow - other_bow) == pytest.approx(-1)
        # The first page lies to the left or above, and so does its half.
        assert (math.cos(bow) if join.upright else -math.sin(bow)) == pytest.approx(-1)
        (ax, ay), (bx, by) = join.line
        for end in ((ax, ay), (bx, by)):
            assert math.dist(one, end) > RADIUS + 10


def test_no_page_has_a_half_ring_without_its_other_half(marked: Printed) -> None:
    rings = sum(len(half_rings(marked, tile)) for tile in marked.sheets.tiles)
    assert rings == 2 * len(marked.sheets.joins)


def test_both_halves_carry_the_joins_own_number(marked: Printed) -> None:
    for join in marked.sheets.joins:
        for tile in (join.first, join.second):
            centre, bow = ring_on(marked, tile, join)
            inside = [
                text.text
                for text in page_of(marked, tile).drawing.texts
                if math.dist(plane(marked, tile, *text.at), centre) < RADIUS and text.bold
            ]
            near = (centre[0] + 3.5 * math.cos(bow), centre[1] + 3.5 * math.sin(bow))
            assert inside == [str(join.number)]
            (at,) = (
                plane(marked, tile, *text.at)
                for text in page_of(marked, tile).drawing.texts
                if text.bold and math.dist(plane(marked, tile, *text.at), centre) < RADIUS
            )
            assert math.dist(at, near) < 2.0


def vernier(layout: Printed, tile: Tile, join: Join) -> list[float]:
    """Return how far from the ring's middle each vernier stroke of a page meets the join."""
    (ax, ay), (bx, by) = join.line
    along = math.atan2(by - ay, bx - ax)
    centre, bow = ring_on(layout, tile, join)
    found = []
    for stroke in marks(layout, tile):
        line = stroke.path[0]
        if len(stroke.path) > 1 or not isinstance(line, Line):
            continue
        ends = [plane(layout, tile, *end) for end in (line.start, line.end)]
        if math.dist(*ends) > 6:
            continue
        foot = min(
            ends, key=lambda p: abs((p[0] - ax) * math.sin(along) - (p[1] - ay) * math.cos(along))
        )
        tip = max(
            ends, key=lambda p: abs((p[0] - ax) * math.sin(along) - (p[1] - ay) * math.cos(along))
        )
        off = (foot[0] - ax) * math.sin(along) - (foot[1] - ay) * math.cos(along)
        facing = math.cos(math.atan2(tip[1] - foot[1], tip[0] - foot[0]) - bow)
        if abs(off) < 1e-6 and facing == pytest.approx(1):
            found.append(
                (foot[0] - centre[0]) * math.cos(along) + (foot[1] - centre[1]) * math.sin(along)
            )
    return sorted(found)


def test_a_vernier_beside_each_ring_reads_tenths_of_a_millimetre(marked: Printed) -> None:
    for join in marked.sheets.joins:
        coarse, fine = (vernier(marked, tile, join) for tile in (join.first, join.second))
        assert len(coarse) == len(fine) >= 20
        for strokes, pitch in ((coarse, COARSE), (fine, FINE)):
            for side in ([at for at in strokes if at < 0], [at for at in strokes if at > 0]):
                assert len(side) >= 10
                middle = side[len(side) // 2]
                assert abs(middle) == pytest.approx(17.0)
                for k, at in enumerate(side):
                    assert at == pytest.approx(middle + (k - len(side) // 2) * pitch)


def test_the_line_is_solid_where_scissors_go_and_dotted_where_paper_is_laid(
    marked: Printed,
) -> None:
    for join in marked.sheets.joins:
        (ax, ay), (bx, by) = join.line
        for tile, cut in ((join.first, False), (join.second, True)):
            lines = [
                stroke
                for stroke in marks(marked, tile)
                if isinstance(stroke.path[0], Line)
                and math.dist(plane(marked, tile, *stroke.path[0].start), (ax, ay)) < 1e-6
                and math.dist(plane(marked, tile, *stroke.path[0].end), (bx, by)) < 1e-6
            ]
            assert len(lines) == 1
            assert bool(lines[0].pen.dash) is not cut


def words(layout: Printed, tile: Tile) -> str:
    return "\n".join(text.text for text in page_of(layout, tile).drawing.texts)


def test_pages_say_which_of_them_is_cut_and_which_is_glued(marked: Printed) -> None:
    told = 0
    for join in marked.sheets.joins:
        told += f"cut here, lay on {join.first.name}" in words(marked, join.second)
        told += f"glue: {join.second.name} lies on this" in words(marked, join.first)
    # Where the pattern leaves no room the words give way to it; the lines still tell.
    assert told > 0.9 * 2 * len(marked.sheets.joins)


def test_butted_pages_are_both_cut(pattern_of: Callable[..., object]) -> None:
    from dataclasses import replace

    from drafting.pattern import Pattern
    from render.pages import printed

    pattern = pattern_of("young-chorus-skirt")
    assert isinstance(pattern, Pattern)
    spec = replace(pattern.spec, print=replace(pattern.spec.print, overlap=0.0))
    layout = printed(replace(pattern, spec=spec), PaperName.A4)
    test_two_halves_make_one_ring_on_every_join(layout)
    for tile in layout.sheets.tiles:
        assert "glue" not in words(layout, tile)
        assert not [s for s in marks(layout, tile) if s.pen.dash]
    joins = layout.sheets.joins
    said = sum(
        f"butt to {other.name}" in words(layout, tile)
        for join in joins
        for tile, other in ((join.first, join.second), (join.second, join.first))
    )
    assert said > 0.9 * 2 * len(joins)


def test_marks_keep_clear_of_the_pattern_where_there_is_room(marked: Printed) -> None:
    """At most a tenth of the rings may touch a line of the pattern."""
    touched = 0
    for tile in marked.sheets.tiles:
        lines = [
            stroke
            for stroke in page_of(marked, tile).drawing.strokes
            if stroke.layer is not Layer.PAGE
        ]
        for (cx, cy), _ in half_rings(marked, tile):
            touched += any(
                math.dist(plane(marked, tile, *spot), (cx, cy)) < RADIUS
                for stroke in lines
                for segment in stroke.path
                for spot in walked(segment)
            )
    assert touched <= 0.1 * 2 * len(marked.sheets.joins)


def walked(segment: Line | Arc) -> list[XY]:
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        steps = max(1, math.ceil(math.dist(segment.start, segment.end) / 2))
        return [(ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps) for k in range(steps + 1)]
    turn = segment.finish - segment.begin
    steps = max(1, math.ceil(segment.radius * abs(turn) / 2))
    return [
        (
            segment.centre.x + segment.radius * math.cos(segment.begin + turn * k / steps),
            segment.centre.y + segment.radius * math.sin(segment.begin + turn * k / steps),
        )
        for k in range(steps + 1)
    ]
