"""Files drawn for a printer that is off, printed on that printer: everything comes out true.

The printer is simulated: whatever a file holds comes out of it smaller or larger by the sizes
that were measured, each way on its own. What the file holds is read with pikepdf and pdfium.
"""

import json
import math
import tomllib
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

import pypdfium2
import pytest
from typer.testing import CliRunner, Result

from cli import app
from tests.end_to_end.conftest import CHILD, Run
from tests.end_to_end.pdf_ink import Leaf, Spot, leaves
from tests.end_to_end.test_sound_files import painted
from tests.end_to_end.test_true_size import (
    CUTTING,
    STITCHING,
    WITHIN,
    dark_middle,
    long_rules,
    middle,
    taped,
    the_square,
    true_cut,
    true_stitching,
)
from tests.end_to_end.true_shape import Near, runs


@dataclass(frozen=True)
class Printer:
    """What a sheet says was measured, and what a printer makes of a length because of it."""

    measured: str
    across: float
    up: float


PRINTERS = {
    "differs": Printer('["198.8 mm of 200 mm", "200.6 mm of 200 mm"]', 0.994, 1.003),
    "small": Printer('["98.5 mm"]', 0.985, 0.985),
    "far off": Printer('["104 mm", "95 mm"]', 1.04, 0.95),
}


@dataclass(frozen=True)
class Print(Run):
    """A run whose leaves are what came out of its printer, from each window's corner on."""

    printer: Printer

    @cached_property
    def in_file(self) -> tuple[Leaf, ...]:
        return leaves(self.pdf)

    @cached_property
    def leaves(self) -> tuple[Leaf, ...]:
        return tuple(self._printed(leaf) for leaf in self.in_file)

    def _printed(self, leaf: Leaf) -> Leaf:
        left, bottom = leaf.window[:2]
        across, up = self.printer.across, self.printer.up
        pen = math.sqrt(across * up)

        def out(spot: Spot) -> Spot:
            return left + (spot[0] - left) * across, bottom + (spot[1] - bottom) * up

        def box(rect: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
            return (*out(rect[:2]), *out(rect[2:]))

        strokes = tuple(
            replace(
                stroke,
                points=tuple(out(spot) for spot in stroke.points),
                width=stroke.width * pen,
                dash=tuple(dash * pen for dash in stroke.dash),
                phase=stroke.phase * pen,
                clip=box(stroke.clip),
            )
            for stroke in leaf.strokes
        )
        return replace(leaf, window=box(leaf.window), strokes=strokes)


def printed_on(name: str, printer: Printer, folder: Path) -> Print:
    text = CHILD.read_text(encoding="utf-8")
    assert "[print]" not in text
    sheet = folder / "sheet.toml"
    text += f"\n[print]\nmeasured = {printer.measured}\n"
    sheet.write_text(text, encoding="utf-8")
    out = folder / "out"
    result = CliRunner().invoke(
        app,
        [
            "draft",
            str(sheet),
            "--quick",
            "--without",
            "lay",
            "--without",
            "booklet",
            "--out",
            str(out),
        ],
    )
    assert result.exit_code == 0, f"{name}: {result.output}"
    (pdf,), (figures,) = out.glob("*.pdf"), out.glob("*.json")
    return Print(
        path=sheet,
        sheet=tomllib.loads(text),
        said=result.output,
        pdf=pdf,
        figures=json.loads(figures.read_text(encoding="utf-8")),
        printer=printer,
    )


@pytest.fixture(scope="module", params=PRINTERS)
def corrected(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Print:
    name = request.param
    return printed_on(name, PRINTERS[name], tmp_path_factory.mktemp("print"))


def test_the_square_comes_out_of_that_printer_at_100_mm_each_way(corrected: Print) -> None:
    left, bottom, right, top = the_square(corrected.leaves[0])
    assert right - left == pytest.approx(100, abs=0.02)
    assert top - bottom == pytest.approx(100, abs=0.02)
    left, bottom, right, top = the_square_in_file(corrected)
    assert right - left == pytest.approx(100 / corrected.printer.across, abs=0.02)
    assert top - bottom == pytest.approx(100 / corrected.printer.up, abs=0.02)


def the_square_in_file(corrected: Print) -> tuple[float, float, float, float]:
    """Return the square of the first page: the largest upright outline that is one."""
    boxes = [
        (*stroke.points[0], *stroke.points[2])
        for stroke in corrected.in_file[0].strokes
        if stroke.closed and len(stroke.points) in (4, 5)
    ]
    return max(
        (box for box in boxes if 90 < box[2] - box[0] < 110 and 90 < box[3] - box[1] < 110),
        key=lambda box: box[2] - box[0],
    )


def test_the_square_comes_out_true_when_another_program_prints_it(corrected: Print) -> None:
    """Its black sides are found in the first page as pdfium paints it at 600 dpi."""
    leaf = corrected.in_file[0]
    left, bottom, right, top = the_square_in_file(corrected)
    pdf = pypdfium2.PdfDocument(corrected.pdf)
    try:
        bitmap = pdf[0].render(scale=600 / 72, grayscale=True)
        width, height, stride = bitmap.width, bitmap.height, bitmap.stride
        pixels = bytes(bitmap.buffer)
    finally:
        pdf.close()
    across, down = width / leaf.width, height / leaf.height
    y, x = int((leaf.height - bottom - 40) * down), int((left + 10) * across)
    row, column = pixels[y * stride : y * stride + width], pixels[x : height * stride : stride]
    wide = dark_middle(row, right * across) - dark_middle(row, left * across)
    high = dark_middle(column, (leaf.height - bottom) * down) - dark_middle(
        column, (leaf.height - top) * down
    )
    assert wide / across * corrected.printer.across == pytest.approx(100, abs=0.05)
    assert high / down * corrected.printer.up == pytest.approx(100, abs=0.05)


def test_the_long_rules_come_out_in_whole_centimetres(corrected: Print) -> None:
    for rule in long_rules(corrected.leaves[0]):
        assert rule >= 170
        assert rule == pytest.approx(round(rule / 10) * 10, abs=0.02)


def test_the_window_in_the_file_is_the_papers_less_its_margins(corrected: Print) -> None:
    for leaf in corrected.in_file:
        assert (leaf.width, leaf.height) == pytest.approx((210, 297), abs=0.01)
        assert leaf.window == pytest.approx((10, 10, 200, 287), abs=0.01)
    left, bottom, width, height = corrected.paper["window"]
    assert (left, bottom) == (10, 10)
    printer = corrected.printer
    assert (width, height) == pytest.approx((190 * printer.across, 277 * printer.up), abs=0.01)


def test_nothing_is_drawn_in_the_margins(corrected: Print) -> None:
    pages = painted(corrected.pdf)
    assert len(pages) == corrected.paper["pages"]
    for wide, high, stride, greys in pages:
        across, down = wide / 210, high / 297
        rows = [greys[k * stride : k * stride + wide] for k in range(high)]
        # One pixel on each side is left to the painter's smoothing.
        first, last = int(10 * across) - 1, int(200 * across) + 2
        top, foot = int(10 * down) - 1, int(287 * down) + 2
        margins = [*rows[:top], *rows[foot:], *(row[:first] + row[last:] for row in rows)]
        assert min(min(row) for row in margins) == 255
        assert min(min(row) for row in rows[top:foot]) < 100


def test_the_ticket_lies_whole_inside_its_window_without_a_clip(corrected: Print) -> None:
    """Planned at the size that comes out of the printer, it needs no cutting off."""
    ticket = corrected.in_file[: corrected.paper["pages"] - corrected.paper["pieces_pages"]]
    for leaf in ticket:
        left, bottom, right, top = leaf.window
        for stroke in leaf.strokes:
            for x, y in stroke.points:
                assert left - 0.01 <= x <= right + 0.01
                assert bottom - 0.01 <= y <= top + 0.01


def test_taped_together_no_line_lies_astray(corrected: Print) -> None:
    truth = Near(runs(true_cut(corrected)))
    drawn = list(taped(corrected, *CUTTING))
    assert len(drawn) > 100
    assert max(max(truth.off(spot) for spot in (*ink, middle(ink))) for ink in drawn) < WITHIN
    ink = Near(drawn)
    assert not [spot for walk in true_cut(corrected) for spot in walk if not ink.off(spot) < WITHIN]


def test_waist_and_hem_come_out_where_they_were_drafted(corrected: Print) -> None:
    truth = Near(runs(walk for _, walk in true_stitching(corrected)))
    drawn = [ink for dash in _dashes(corrected) for ink in taped(corrected, 0.35, dash)]
    assert len(drawn) > 50
    assert max(max(truth.off(spot) for spot in ink) for ink in drawn) < WITHIN


def _dashes(corrected: Print) -> set[tuple[float, ...]]:
    """Return the dashes that stitching lines have: a matrix stretches them with the page."""
    return {
        stroke.dash
        for leaf in corrected.leaves
        for stroke in leaf.strokes
        if stroke.is_drawn_with(0.35, stroke.dash)
        and len(stroke.dash) == 2
        and stroke.dash == pytest.approx(STITCHING[1], abs=0.1)
    }


def test_the_first_page_says_for_which_printer_it_is_and_by_how_much(corrected: Print) -> None:
    pdf = pypdfium2.PdfDocument(corrected.pdf)
    try:
        words = " ".join(pdf[0].get_textpage().get_text_bounded().split())
    finally:
        pdf.close()
    assert "Corrected for a printer that made" in words
    for part in tomllib.loads(f"m = {corrected.printer.measured}")["m"]:
        assert part.split(" of ")[0] in words
    for way in (corrected.printer.across, corrected.printer.up):
        assert f"{100 / way:.2f} %" in words
    assert "must now measure 100 mm each way" in words


def test_its_proof_is_sound_and_tells_both_sizes(corrected: Print) -> None:
    result = CliRunner().invoke(app, ["proof", str(corrected.pdf)])
    assert result.exit_code == 0, result.output
    across, up = corrected.printer.across, corrected.printer.up
    assert f"test square {100 / across:.2f} × {100 / up:.2f} mm in the file" in result.stdout
    assert f"a printer that makes {100 * across:.2f} × {100 * up:.2f} mm" in result.stdout
    assert "there it measures 100.00 × 100.00 mm" in result.stdout


def test_the_figures_hold_the_correction_only_where_there_is_one(
    corrected: Print, run_of: Callable[[str], Run]
) -> None:
    wanted = [1 / corrected.printer.across, 1 / corrected.printer.up]
    assert corrected.paper["correction"] == pytest.approx(wanted, abs=1e-6)
    assert "correction" not in run_of("young-chorus-skirt").paper


def test_a_printer_within_half_a_per_cent_is_left_alone(
    tmp_path: Path, run_of: Callable[[str], Run]
) -> None:
    found = printed_on("good", Printer('["199.2 mm of 200 mm"]', 1, 1), tmp_path)
    left, bottom, right, top = the_square(found.leaves[0])
    assert (right - left, top - bottom) == pytest.approx((100, 100), abs=0.01)
    assert "within 0.5 %, so nothing is corrected" in " ".join(found.said.split())
    pdf = pypdfium2.PdfDocument(found.pdf)
    try:
        words = " ".join(pdf[0].get_textpage().get_text_bounded().split())
    finally:
        pdf.close()
    assert "199.2 mm of 200 mm both ways. That is within 0.5 %; nothing is corrected." in words
    assert found.paper["window"] == run_of("young-chorus-skirt").paper["window"]


# --- proof --measured ----------------------------------------------------------------------


def proofed(pdf: Path, *measures: str) -> Result:
    words = [word for measure in measures for word in ("--measured", measure)]
    result = CliRunner().invoke(app, ["proof", str(pdf), *words])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


@pytest.fixture(scope="module")
def child(run_of: Callable[[str], Run]) -> Run:
    return run_of("young-chorus-skirt")


def test_a_measured_print_is_told_for_the_waist_and_the_hem_of_this_skirt(
    run_of: Callable[[str], Run],
) -> None:
    banded = run_of("understudy-skirt")
    skirt = banded.figures["skirt"]
    result = proofed(banded.pdf, "99 mm", "202 mm of 200 mm")
    assert result.exit_code == 0
    waist, hem = f"{skirt['waistline'] / 100:.1f} mm", f"{skirt['sweep'] / 100:.0f} mm"
    assert (
        f"Across, 99 mm of 100 mm is 1.00 %\u00a0small: your waist comes out {waist} smaller,"
        f" the hem {hem} smaller." in result.stdout
    )
    assert (
        f"Up, 202 mm of 200 mm is 1.00 %\u00a0large: your waist comes out {waist} larger,"
        f" the hem {hem} larger." in result.stdout
    )
    assert "Across asks for 101.01 % and up for 99.01 %: no one scale" in result.stdout
    assert 'measured = ["99 mm of 100 mm", "202 mm of 200 mm"]' in result.stdout


def test_one_measure_stands_for_both_ways_and_asks_for_one_scale(child: Run) -> None:
    result = proofed(child.pdf, "98.5 mm")
    assert "Both ways, 98.5 mm of 100 mm is 1.50 %\u00a0small" in result.stdout
    assert "Print it at 101.52 % in place of 100 %" in result.stdout
    assert 'measured = ["98.5 mm of 100 mm"]' in result.stdout


def test_within_half_a_per_cent_nothing_need_be_done(child: Run) -> None:
    result = proofed(child.pdf, "99.6 mm", "100.4 mm")
    assert "That is within 0.5 %: nothing need be done." in result.stdout
    assert "measured =" not in result.stdout
    assert "in place of" not in result.stdout


def test_a_measure_of_a_corrected_file_multiplies_on(tmp_path: Path) -> None:
    """Drawn at 100 / 98.5 it came out at 99 %: plain it comes out at 98.5 × 0.99 = 97.515 %."""
    file = printed_on("small", PRINTERS["small"], tmp_path).pdf
    result = proofed(file, "99 mm")
    assert "The file is corrected already, to 101.52 % both ways" in result.stdout
    assert "asks for 102.55 % both ways in all" in result.stdout  # 100 / 97.515
    assert 'measured = ["97.52 mm of 100 mm"]' in result.stdout
    other = proofed(file, "101.5 mm")
    assert "Take measured out of the sheet" in other.stdout
    assert proofed(file, "91 mm").exit_code == 2


def test_a_trial_page_has_no_waist_to_tell_of(tmp_path: Path) -> None:
    assert CliRunner().invoke(app, ["trial", "--out", str(tmp_path)]).exit_code == 0
    result = proofed(tmp_path / "trial-a4.pdf", "98.5 mm")
    assert result.exit_code == 0
    assert "is 1.50 %\u00a0small." in result.stdout
    assert "your waist" not in result.stdout


@pytest.mark.parametrize(
    "measures",
    [("99",), ("0 mm",), ("a hair",), ("80 mm",), ("99 mm",) * 3, ("",), ("99 mm", "-1 mm")],
)
def test_measures_that_are_none_are_wrong_words(child: Run, measures: tuple[str, ...]) -> None:
    result = proofed(child.pdf, *measures)
    assert result.exit_code == 2
    assert result.stderr.startswith("--measured: ")
    assert not result.stdout


def test_a_measure_without_its_unit_is_shown_what_to_write(child: Run) -> None:
    for given in ("98,5", "198 of 200 mm", "a hair"):
        words = proofed(child.pdf, given).stderr
        assert '"198.8 mm of 200 mm"' in words
        assert "74 cm" not in words
