"""Pieces on one plane: each once, apart, along the grain, with the words that its pages have."""

import itertools
import math
from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest

from drafting.geometry import Box, Path, bounds, flattened, moved
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, cutting_line
from drafting.spec import Scope, Strips
from render.chosen import PieceNameError
from render.drawing import Layer
from render.pages import Printed
from render.parts import Part, Plane, laid_out
from render.piece_drawing import LineKind
from tests.render.looks import looks


def box_of(part: Part) -> Box:
    at = part.placement
    return bounds(moved(cutting_line(part.piece), x=at.x, y=at.y, turn=at.turn))


def paths(part: Part, kind: LineKind) -> Iterator[Path]:
    return (line.stroke.path for line in part.lines if line.kind is kind)


def test_every_printed_piece_lies_there_once(pattern: Pattern, plane: Plane) -> None:
    assert pattern.spec.print.strips is Strips.LISTED
    shaped = [piece.name for piece in pattern.pieces if not piece.rectangle]
    assert [part.piece.name for part in plane.parts] == shaped
    for part in plane.parts:
        assert pattern.pieces[part.number - 1] is part.piece


def test_a_strip_of_metres_is_labelled_without_looking_at_every_place(
    pattern_of: Callable[[str], Pattern], monkeypatch: pytest.MonkeyPatch
) -> None:
    looked_at = looks(monkeypatch)
    pattern = pattern_of("wave-petticoat")
    drawn = replace(pattern.spec.print, strips=Strips.DRAWN)
    plane = laid_out(replace(pattern, spec=replace(pattern.spec, print=drawn)))
    assert max(box_of(part).height for part in plane.parts) > 1000
    assert all(part.words for part in plane.parts)
    assert len(looked_at) < 1500 * len(plane.parts)


def test_pieces_lie_20_mm_apart_and_inside_the_plane(plane: Plane) -> None:
    boxes = [box_of(part) for part in plane.parts]
    boxes.append(Box(left=20, bottom=20, right=120, top=120))  # the test square
    inside = Box(left=0, bottom=0, right=plane.width, top=plane.height)
    for box in boxes:
        assert inside.holds(box.grown(19.999))
    for one, other in itertools.combinations(boxes, 2):
        assert not one.grown(9.999).meets(other.grown(9.999))


def test_columns_are_no_taller_than_a_cutting_table_is_wide(plane: Plane) -> None:
    for part in plane.parts:
        box = box_of(part)
        assert box.top <= 20 + max(1500, box.height) + 1e-6


def test_the_grain_runs_along_the_table(plane: Plane) -> None:
    for part in plane.parts:
        one, other = part.piece.grainline
        angle = math.atan2(other.y - one.y, other.x - one.x) + part.placement.turn
        assert math.sin(angle) == pytest.approx(0, abs=1e-9)
        assert abs(part.placement.turn) <= math.pi / 2 + 1e-6


def test_each_kind_of_line_is_told_apart(plane_of: Callable[[str], Plane]) -> None:
    skirt, lining = plane_of("chorus-skirt").parts
    for part in (skirt, lining):
        assert list(paths(part, LineKind.CUTTING)) == [cutting_line(part.piece)]
        sewn = [edge.path for edge in part.piece.edges if edge.kind is not EdgeKind.FOLD]
        assert list(paths(part, LineKind.STITCHING)) == sewn
        grain = next(paths(part, LineKind.GRAIN))
        assert (grain[0].start, grain[0].end) == part.piece.grainline
        # A bracket: its back, and two arms with a head each.
        assert len(list(paths(part, LineKind.FOLD))) == 5
    assert len(list(paths(lining, LineKind.INNER))) == len(lining.piece.inner_lines) > 0
    assert not list(paths(skirt, LineKind.INNER))
    assert len(list(paths(skirt, LineKind.MARK))) == len(skirt.piece.dots) > 0


def test_pieces_keep_the_words_that_their_pages_have(plane: Plane, layout: Printed) -> None:
    """Words of each piece; only what to measure may go where a piece is narrow."""
    pages = [page for page in layout.document.pages if not page.label.startswith("ticket")]
    printed = {
        word.strip(",:;")
        for page in pages
        for text in page.drawing.texts
        if text.layer is Layer.TEXT
        for word in text.text.split()
        if not any(c.isdigit() for c in word)
    }
    kept = {
        word.strip(",:;")
        for part in plane.parts
        for text in part.words
        for word in text.text.split()
    }
    assert printed - kept <= {"straight", "stitching", "lines", "on", "this", "paper", "edge"}


def test_words_stay_by_their_piece(plane: Plane) -> None:
    for part in plane.parts:
        near = bounds(cutting_line(part.piece)).grown(15)
        for text in part.words:
            assert near.left < text.at.x < near.right, text.text
            assert near.bottom < text.at.y < near.top, text.text


def test_no_words_stand_on_their_heads(plane: Plane) -> None:
    for part in plane.parts:
        for text in part.on_plane().texts:
            assert -81 < math.degrees(math.remainder(text.angle, math.tau)) <= 101, text.text


def test_a_plane_holds_the_pieces_asked_for_alone(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    plane = laid_out(pattern, ("lining panel",))
    assert [(part.number, part.piece.name) for part in plane.parts] == [(2, "lining panel")]
    with pytest.raises(PieceNameError):
        laid_out(pattern, ("sleeve",))


def test_a_band_asked_for_is_there_too(pattern_of: Callable[[str], Pattern]) -> None:
    (part,) = laid_out(pattern_of("classroom-half-scale"), ("band",)).parts
    assert part.piece.rectangle
    assert "band" in [text.text for text in part.words]


def test_a_pattern_with_nothing_to_print_leaves_the_square(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("deckchair-skirt")
    listed = tuple(piece for piece in pattern.pieces if piece.rectangle)
    plane = laid_out(replace(pattern, pieces=listed))
    assert plane.parts == ()
    assert (plane.width, plane.height) == (140, 140)
    (outline,) = plane.square.strokes
    assert flattened(outline.path)[0] == (20, 20)


def test_where_paper_has_the_waist_alone_the_plane_has_the_whole_panel(
    pattern_of: Callable[[str], Pattern],
) -> None:
    whole = pattern_of("chorus-skirt")
    wish = replace(whole.spec.print, scope=Scope.WAIST)
    pattern = replace(whole, spec=replace(whole.spec, print=wish))
    assert laid_out(pattern) == laid_out(whole)
