"""What lies on each other is drawn once, and every line is covered by its runs."""

import math

import pytest
from shapely import LineString, unary_union

from drafting.geometry import Arc, Line, Path, Point, path_length
from render.nest.shared import Run, shared_runs


def line(ax: float, ay: float, bx: float, by: float) -> Line:
    return Line(start=Point(ax, ay), end=Point(bx, by))


def of(runs: tuple[Run, ...], *sizes: str) -> float:
    return math.fsum(path_length(run.path) for run in runs if run.sizes == sizes)


def test_a_side_is_shared_from_the_largest_waist_to_the_shortest_hem() -> None:
    # Three skirts from one centre: waists at 90, 100 and 110, hems at 700, 710 and 720.
    sides: dict[str, list[Path]] = {
        "small": [(line(90, 0, 700, 0),)],
        "middle": [(line(100, 0, 710, 0),)],
        "large": [(line(110, 0, 720, 0),)],
    }
    runs = shared_runs(sides)
    assert of(runs, "small", "middle", "large") == pytest.approx(590)
    assert of(runs, "small", "middle") == pytest.approx(10)
    assert of(runs, "middle", "large") == pytest.approx(10)
    assert of(runs, "small") == pytest.approx(10)
    assert of(runs, "large") == pytest.approx(10)
    assert math.fsum(path_length(run.path) for run in runs) == pytest.approx(630)


def test_lines_drawn_the_other_way_round_are_the_same_lines() -> None:
    runs = shared_runs({"a": [(line(0, 0, 300, 400),)], "b": [(line(300, 400, 0, 0),)]})
    assert [run.sizes for run in runs] == [("a", "b")]


def test_lines_a_hair_apart_are_two_lines() -> None:
    runs = shared_runs({"a": [(line(0, 0, 500, 0),)], "b": [(line(0, 0.05, 500, 0.05),)]})
    assert {run.sizes for run in runs} == {("a",), ("b",)}


def test_arcs_of_one_circle_are_shared_where_they_overlap_even_round_its_beginning() -> None:
    def arc(begin: float, finish: float) -> Path:
        return (Arc(centre=Point(5, 5), radius=200, begin=begin, finish=finish),)

    # 300 to 420 degrees, and the same circle's 30 to 100, clockwise: 30 to 60 is shared.
    runs = shared_runs({
        "a": [arc(math.radians(300), math.radians(420))],
        "b": [arc(math.radians(100), math.radians(30))],
    })  # fmt: skip
    assert of(runs, "a", "b") == pytest.approx(200 * math.radians(30))
    assert of(runs, "a") == pytest.approx(200 * math.radians(90))
    assert of(runs, "b") == pytest.approx(200 * math.radians(40))


def test_a_line_of_one_size_stays_one_run_round_its_corners_and_its_start() -> None:
    square = (line(0, 0, 9, 0), line(9, 0, 9, 9), line(9, 9, 0, 9), line(0, 9, 0, 0))
    (run,) = shared_runs({"a": [square]})
    assert path_length(run.path) == pytest.approx(36)
    # Shared below, its own three other sides go on unbroken from corner to corner.
    runs = shared_runs({"a": [square], "b": [(line(0, 0, 9, 0),)]})
    assert [len(run.path) for run in runs if run.sizes == ("a",)] == [3]


def test_every_line_is_covered_by_the_runs_of_its_size() -> None:
    lines: dict[str, list[Path]] = {
        str(k): [(line(k, 0, 50 + k, 0), line(50 + k, 0, 50 + k, 30 - k), line(7, 7, 7 + k, 7))]
        for k in range(5)
    }
    runs = shared_runs(lines)
    for size, paths in lines.items():
        drawn = unary_union([
            LineString([(p.x, p.y) for p in (segment.start, segment.end)])
            for run in runs if size in run.sizes for segment in run.path
        ])  # fmt: skip
        for path in paths:
            for segment in path:
                if segment.start != segment.end:
                    ends = [(segment.start.x, segment.start.y), (segment.end.x, segment.end.y)]
                    assert LineString(ends).difference(drawn.buffer(0.02)).length < 1e-6
