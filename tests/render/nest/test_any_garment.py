"""Whatever is drafted can be graded: every example in three sizes, its nests drawn and worded."""

from typing import Any

import pytest
from shapely import LineString, Polygon, unary_union

from drafting.findings import stops
from drafting.geometry import Box, flattened
from drafting.pattern import Pattern, draft
from drafting.piece import cutting_box, cutting_line
from drafting.sheet import load_text, sheet_tables, spec_from_tables
from render.drawing import Layer
from render.on_plane import lines_on, nest_of, words_on
from render.placement import Placement
from render.room import Room
from render.spots import Spots, text_box
from tests.examples import EXAMPLES

SIZES = ["P03", "P05", "P08"]
STOPPED = {"young-chorus-skirt"}
"""Its waist is a child's: no woman's hip passes it."""


OWNED = "wardrobe-find"
"""A lining for a skirt of one waist: no sheet with sizes may have it."""


def graded(name: str) -> Pattern:
    tables: dict[str, Any] = sheet_tables(load_text(EXAMPLES[name]))
    tables["publish"] = {**tables.get("publish", {}), "sizes": SIZES}
    tables["wearer"] = {k: v for k, v in tables["wearer"].items() if k != "figure"}
    tables["print"] = {"paper": ["a4"]}
    return draft(spec_from_tables(tables))


@pytest.mark.parametrize("name", [name for name in EXAMPLES if name != OWNED])
def test_every_example_is_graded_nested_and_worded(name: str) -> None:
    pattern = graded(name)
    if name in STOPPED:
        assert stops(pattern.findings)
        return
    assert not stops(pattern.findings), [one.what for one in stops(pattern.findings)]
    names = {tuple(piece.name for piece in one.pieces) for one in pattern.sizes}
    assert len(names) == 1
    for frame in pattern.pieces:
        placement = Placement(piece=frame, x=0.0, y=0.0, turn=0.0)
        lines, set_in = lines_on(pattern, [placement])
        room = Room(box=cutting_box(frame).grown(40.0))
        for stroke in lines:
            room.enter(stroke.path)
        for text in set_in:
            room.claim(text_box(text))
        words = words_on(placement, pattern, Spots(clear=room, uncut=room))
        pieces = nest_of(pattern, frame.name)
        assert list(pieces) == SIZES
        for size, piece in pieces.items():
            _covered(size, piece_line(piece), lines)
        shapes = [Polygon(piece_line(one).coords).buffer(0) for one in pieces.values()]
        rim = Polygon(piece_line(frame).coords)
        assert all(rim.buffer(0.05).covers(shape) for shape in shapes), frame.name
        assert unary_union(shapes).convex_hull.buffer(0.1).covers(rim), frame.name
        assert any(text.bold for text in words), f"{frame.name} has no name"
        _apart(room.box, words)


def piece_line(piece: Any) -> LineString:
    points = [(p.x, p.y) for p in flattened(cutting_line(piece))]
    return LineString([*points, points[0]])


def _covered(size: str, line: LineString, strokes: Any) -> None:
    """Check that a size's cutting line is drawn, but for the gaps that names stand in."""
    drawn = unary_union([
        LineString([(p.x, p.y) for p in (*flattened(s.path), s.path[-1].end)])
        for s in strokes
        if s.layer is Layer.CUTTING and (not s.sizes or size in s.sizes)
    ])  # fmt: skip
    left = line.difference(drawn.buffer(0.05))
    gaps = [gap.length for gap in getattr(left, "geoms", [left]) if gap.length > 0.2]
    assert all(gap < 24 for gap in gaps), (size, gaps)
    assert sum(gaps) < 0.35 * line.length


def _apart(box: Box, words: Any) -> None:
    """Check that no words of a nest stand on others."""
    shapes = [Polygon([(p.x, p.y) for p in text_box(text)]).buffer(-0.7) for text in words]
    for k, one in enumerate(shapes):
        for other in shapes[k + 1 :]:
            assert one.intersection(other).area < 0.5
    assert box.width > 0
