"""Two seams to measure: printed whole, as long as geometry says, in every size."""

import math
from dataclasses import replace

import pytest
from shapely import LineString

from drafting.check_seams import check_seams
from drafting.geometry import Arc, Path
from drafting.pattern import Pattern
from drafting.spec import Scope
from render.chosen import on_paper
from tests.examples import EXAMPLES, pattern_of_example
from tests.render.nest.test_nested_pages import pattern_of


def printed(pattern: Pattern) -> list[str]:
    return [piece.name for piece in on_paper(pattern)]


def walked(path: Path) -> LineString:
    """Return a path as very many points, found from centres and radii alone."""
    points: list[tuple[float, float]] = []
    for run in path:
        if isinstance(run, Arc):
            for k in range(721):
                at = run.begin + (run.finish - run.begin) * k / 720
                points.append(
                    (
                        run.centre.x + run.radius * math.cos(at),
                        run.centre.y + run.radius * math.sin(at),
                    )
                )
        else:
            points += [run.start, run.end]
    return LineString(points)


@pytest.mark.parametrize("name", EXAMPLES)
def test_lengths_are_those_of_the_lines_on_paper(name: str) -> None:
    pattern = pattern_of_example(name)
    sizes = pattern.sizes or (pattern,)
    for seam in check_seams(pattern, printed(pattern)):
        assert len(seam.lengths) == len(sizes)
        for one, length in zip(sizes, seam.lengths, strict=True):
            drawn = {piece.name: piece for piece in on_paper(one)}[seam.piece]
            edges = [edge for edge in drawn.edges if edge.name == seam.edge]
            assert any(
                math.isclose(walked(edge.path).length, length, rel_tol=1e-5) for edge in edges
            )
            assert length >= 60


def test_a_circle_is_measured_at_its_side_and_its_waist() -> None:
    """A half circle drawn as a half: its skirt's length, and a quarter of 747.52 mm of waist."""
    pattern = pattern_of_example("chorus-skirt")
    side, waist = check_seams(pattern, printed(pattern))
    assert (side.piece, side.edge) == ("skirt panel", "panel_seam")
    assert side.lengths[0] == pytest.approx(620.0, abs=0.05)
    assert waist.edge == "waist"
    assert waist.lengths[0] == pytest.approx(747.52 / 4, abs=0.05)
    assert "half that is printed" in waist.words


def test_a_half_scale_draft_has_half_the_lengths() -> None:
    full = pattern_of_example("chorus-skirt")
    half = pattern_of_example("classroom-half-scale")
    for one, other in zip(
        check_seams(full, printed(full)), check_seams(half, printed(half)), strict=True
    ):
        assert (one.piece, one.edge) == (other.piece, other.edge)
        assert other.lengths[0] == pytest.approx(one.lengths[0] / 2, abs=0.1)


def test_only_what_a_file_prints_is_asked_for() -> None:
    pattern = pattern_of_example("chorus-skirt")
    assert {seam.piece for seam in check_seams(pattern, ["lining panel"])} == {"lining panel"}
    assert check_seams(pattern, []) == ()


def test_of_a_waist_alone_no_side_is_measured_that_the_paper_cuts_off() -> None:
    pattern = pattern_of_example("chorus-skirt")
    spec = replace(pattern.spec, print=replace(pattern.spec.print, scope=Scope.WAIST))
    waists = replace(pattern, spec=spec)
    for seam in check_seams(waists, printed(waists)):
        assert seam.edge == "waist"


def test_each_size_has_its_own_length() -> None:
    """Sizes of a circle: the same length at the side, each its own share of the waist."""
    pattern = pattern_of("front-row-skirt")
    side, waist = check_seams(pattern, printed(pattern))
    assert len(side.lengths) == len(waist.lengths) == len(pattern.sizes)
    assert list(waist.lengths) == sorted(set(waist.lengths))
    for one, length in zip(pattern.sizes, waist.lengths, strict=True):
        skirt = one.figures.skirt
        (piece,) = (piece for piece in one.pieces if piece.name == waist.piece)
        shares = skirt.panels * (2 if piece.half else 1)
        assert length == pytest.approx(skirt.waistline / shares, abs=0.05)
