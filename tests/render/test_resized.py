"""A piece on another scale: all of it is alike, allowances too."""

from collections.abc import Callable

import pytest

from drafting.geometry import path_length
from drafting.pattern import Pattern
from drafting.piece import cutting_area, cutting_box, cutting_line
from render.resized import resized


@pytest.mark.parametrize("by", [0.4, 0.5, 2.0])
def test_lengths_and_marks_grow_alike_and_areas_by_the_square(by: float, pattern: Pattern) -> None:
    for piece in pattern.pieces:
        other = resized(piece, by)
        assert cutting_area(other) == pytest.approx(cutting_area(piece) * by * by, rel=1e-9)
        assert cutting_box(other).width == pytest.approx(cutting_box(piece).width * by, rel=1e-9)
        assert path_length(cutting_line(other)) == pytest.approx(
            path_length(cutting_line(piece)) * by, rel=1e-9
        )
        for one, two in zip(piece.notches, other.notches, strict=True):
            assert two.at == pytest.approx(one.at * by)
        for line, twin in zip(piece.inner_lines, other.inner_lines, strict=True):
            assert path_length(twin.path) == pytest.approx(path_length(line.path) * by)
            assert twin.ticks == pytest.approx(tuple(tick * by for tick in line.ticks))
        for dot, twice in zip(piece.dots, other.dots, strict=True):
            assert tuple(twice.at) == pytest.approx((dot.at.x * by, dot.at.y * by))
        assert (other.name, other.count, other.half) == (piece.name, piece.count, piece.half)


def test_a_piece_twice_the_size_and_back_is_the_piece(pattern_of: Callable[[str], Pattern]) -> None:
    piece = pattern_of("chorus-skirt").pieces[0]
    assert cutting_box(resized(resized(piece, 2.0), 0.5)) == cutting_box(piece)
