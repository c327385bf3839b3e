"""The trial page: what is measured on it is true, and its two halves make one curve."""

import math
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli import app
from render.paper import HOME, ROLLS, SHEETS
from tests.end_to_end.pdf_ink import Leaf, leaves


@pytest.fixture(scope="module", params=[paper.value for paper in (*HOME, *SHEETS)])
def leaf(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Leaf:
    folder = tmp_path_factory.mktemp("trial")
    command = ["trial", "--paper", request.param, "--out", str(folder)]
    result = CliRunner().invoke(app, command)
    assert result.exit_code == 0, result.output
    (pdf,) = folder.iterdir()
    assert pdf.name == f"trial-{request.param}.pdf"
    (found,) = leaves(pdf)
    return found


def boxes(leaf: Leaf) -> list[tuple[float, float]]:
    sizes = []
    for stroke in leaf.strokes:
        if stroke.closed:
            xs, ys = [x for x, _ in stroke.points], [y for _, y in stroke.points]
            sizes.append((max(xs) - min(xs), max(ys) - min(ys)))
    return sizes


def test_the_square_is_100_mm_and_the_card_that_of_iso_7810(leaf: Leaf) -> None:
    found = boxes(leaf)
    assert any(size == pytest.approx((100, 100), abs=0.01) for size in found)
    assert any(size == pytest.approx((53.98, 85.60), abs=0.01) for size in found)


def test_nothing_lies_outside_the_window_but_for_half_a_pen(leaf: Leaf) -> None:
    for stroke in leaf.strokes:
        left, bottom, right, top = stroke.clip
        for x, y in stroke.points:
            assert left - 0.01 <= x <= right + 0.01
            assert bottom - 0.01 <= y <= top + 0.01


def test_the_curve_runs_on_when_the_lower_half_lies_on_the_upper(leaf: Leaf) -> None:
    """Both parts of the bold curve lie on one circle once B1 is laid up to the dotted line."""
    bold = [stroke.points for stroke in leaf.strokes if stroke.is_drawn_with(0.7)]
    halves = sorted((s for s in bold if len(s) > 5), key=lambda points: -points[0][1])
    upper, lower = halves
    (dotted,) = [s for s in leaf.strokes if s.is_drawn_with(0.25, (1.0, 1.0))]
    (solid,) = [s for s in leaf.strokes if s.is_drawn_with(0.5)]
    rise = dotted.points[0][1] - solid.points[0][1]
    laid = [(x, y + rise) for x, y in lower]
    centre, radius = circle_through(upper[0], upper[len(upper) // 2], upper[-1])
    assert radius == pytest.approx(118, abs=0.05)
    for point in laid:
        assert math.dist(point, centre) == pytest.approx(radius, abs=0.05)


def circle_through(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]
) -> tuple[tuple[float, float], float]:
    """Return centre and radius of the circle through three points (perpendicular bisectors)."""
    d = 2 * (a[0] * (b[1] - c[1]) + b[0] * (c[1] - a[1]) + c[0] * (a[1] - b[1]))
    sa, sb, sc = (p[0] ** 2 + p[1] ** 2 for p in (a, b, c))
    x = (sa * (b[1] - c[1]) + sb * (c[1] - a[1]) + sc * (a[1] - b[1])) / d
    y = (sa * (c[0] - b[0]) + sb * (a[0] - c[0]) + sc * (b[0] - a[0])) / d
    return (x, y), math.dist((x, y), a)


def test_it_is_not_written_over_without_force(tmp_path: Path) -> None:
    command = ["trial", "--out", str(tmp_path)]
    assert CliRunner().invoke(app, command).exit_code == 0
    before = (tmp_path / "trial-a4.pdf").read_bytes()
    again = CliRunner().invoke(app, command)
    assert again.exit_code == 4
    assert "trial-a4.pdf" in again.stderr
    assert CliRunner().invoke(app, [*command, "--force"]).exit_code == 0
    assert (tmp_path / "trial-a4.pdf").read_bytes() == before


def test_a_paper_that_is_none_is_a_wrong_word(tmp_path: Path) -> None:
    result = CliRunner().invoke(app, ["trial", "--paper", "a5", "--out", str(tmp_path)])
    assert result.exit_code == 2
    assert "a4-letter" in result.stderr


@pytest.mark.parametrize("paper", [*(roll.value for roll in ROLLS), "projector"])
def test_a_roll_and_a_projector_have_no_trial_page_and_are_told_why(
    paper: str, tmp_path: Path
) -> None:
    result = CliRunner().invoke(app, ["trial", "--paper", paper, "--out", str(tmp_path)])
    assert result.exit_code == 3
    assert "trial page" in result.output
    assert not list(tmp_path.iterdir())
