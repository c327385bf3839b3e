"""A written file is measured as it is: wrong sizes, missing fonts and strange files are told."""

import io
import random
import re
import shutil
import subprocess
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from drafting.pattern import Pattern
from drafting.printer import Correction, Measured
from drafting.spec import PaperName
from render.drawing import About, Kind
from render.pages import Printed, printed
from render.pdf import pdf_bytes
from render.placement import Effort
from render.proof import NotAPatternError, proof, proof_line


@pytest.fixture(scope="module")
def written(layout_of: Callable[..., Printed]) -> bytes:
    return pdf_bytes(layout_of("young-chorus-skirt").document)


def changed(data: bytes, change: Callable[[pikepdf.Pdf], None]) -> bytes:
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        change(pdf)
        pdf.save(out)
    return out.getvalue()


def content(pdf: pikepdf.Pdf, page: int) -> bytes:
    return pdf.pages[page].obj.Contents.read_bytes()


def test_a_true_file_has_no_faults(written: bytes) -> None:
    found = proof(written)
    assert found.faults == ()
    assert found.pages == 8
    assert found.page == pytest.approx((210, 297), abs=0.01)
    assert found.square == pytest.approx((100, 100), abs=0.02)
    assert found.rules == pytest.approx((180, 270), abs=0.02)
    assert found.step == pytest.approx((180, 267), abs=0.02)
    assert found.true_size
    assert found.fonts
    assert all(held for _, held in found.fonts)


def test_its_line_tells_what_a_printer_must_show(written: bytes) -> None:
    line = proof_line(proof(written))
    for part in ("8 pages of 210.0 × 297.0 mm", "square 100.00 × 100.00 mm", "fonts embedded"):
        assert part in line


@pytest.mark.parametrize("by", [0.97, 1.004])
def test_a_square_drawn_at_the_wrong_size_is_no_test_square(written: bytes, by: float) -> None:
    """Every number of the first page is written smaller or larger."""

    def shrink(pdf: pikepdf.Pdf) -> None:
        def scaled(found: re.Match[bytes]) -> bytes:
            return b"%.4f" % (float(found[0]) * by)

        smaller = re.sub(rb"(?<![\w.(<])-?\d+\.\d+(?=[ \n])", scaled, content(pdf, 0))
        pdf.pages[0].obj.Contents = pdf.make_stream(smaller)

    found = proof(changed(written, shrink))
    assert found.square is None
    assert any("test square" in fault for fault in found.faults)


@pytest.mark.parametrize("by", [b"0.97 0 0 0.97 0 0", b"1 0 0 1.01 0 0", b"0 1 -1 0 0 0"])
def test_a_page_that_another_program_scaled_or_turned_is_found_out(
    written: bytes, by: bytes
) -> None:
    def shrink(pdf: pikepdf.Pdf) -> None:
        for number in range(len(pdf.pages)):
            wrapped = b"q " + by + b" cm\n" + content(pdf, number) + b"\nQ"
            pdf.pages[number].obj.Contents = pdf.make_stream(wrapped)

    assert proof(changed(written, shrink)).faults


def test_a_page_in_units_of_its_own_is_found_out(written: bytes) -> None:
    def enlarge(pdf: pikepdf.Pdf) -> None:
        for page in pdf.pages:
            page.obj.UserUnit = 2

    assert proof(changed(written, enlarge)).faults


def test_a_missing_square_is_told(written: bytes) -> None:
    def take_out(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.Contents = pdf.make_stream(b"q Q")

    found = proof(changed(written, take_out))
    assert found.square is None
    assert any("no test square" in fault for fault in found.faults)


def test_a_font_that_is_not_in_the_file_is_named(written: bytes) -> None:
    def take_out(pdf: pikepdf.Pdf) -> None:
        for thing in pdf.objects:
            if isinstance(thing, pikepdf.Dictionary) and "/FontFile2" in thing:
                del thing["/FontFile2"]

    found = proof(changed(written, take_out))
    assert [held for _, held in found.fonts] == [False] * len(found.fonts)
    assert any("FiraSans" in fault for fault in found.faults)


def test_a_file_that_lets_printers_scale_it_is_told(written: bytes) -> None:
    def allow(pdf: pikepdf.Pdf) -> None:
        del pdf.Root.ViewerPreferences

    found = proof(changed(written, allow))
    assert not found.true_size
    assert len(found.faults) == 1


def test_a_page_of_another_size_is_told(written: bytes) -> None:
    def trim(pdf: pikepdf.Pdf) -> None:
        pdf.pages[4].obj.MediaBox = pikepdf.Array([0, 0, 500, 700])

    assert any("different sizes" in fault for fault in proof(changed(written, trim)).faults)


def test_pages_that_do_not_lie_on_one_grid_are_told(written: bytes) -> None:
    """One page's join lines are moved half a millimetre."""

    def shift(pdf: pikepdf.Pdf) -> None:
        text = content(pdf, 2)
        moved, count = re.subn(
            rb"(538\.5827) (\S+) m (538\.5827) (\S+) l", rb"540 \2 m 540 \4 l", text
        )
        assert count == 1
        pdf.pages[2].obj.Contents = pdf.make_stream(moved)

    assert any("one grid" in fault for fault in proof(changed(written, shift)).faults)


def test_somebody_elses_pdf_is_read_and_found_wanting() -> None:
    out = io.BytesIO()
    with pikepdf.new() as pdf:
        pdf.add_blank_page(page_size=(595, 842))
        pdf.save(out)
    found = proof(out.getvalue())
    assert found.square is None
    assert len(found.faults) >= 2


def test_a_locked_file_is_told_as_locked(written: bytes) -> None:
    for password in ("secret", ""):
        out = io.BytesIO()
        with pikepdf.open(io.BytesIO(written)) as pdf:
            pdf.save(out, encryption=pikepdf.Encryption(owner="owner", user=password))
        with pytest.raises(NotAPatternError, match="locked"):
            proof(out.getvalue())


@pytest.mark.parametrize(
    "data",
    [b"", b"%PDF-1.7", b"\x00" * 2000, bytes(range(256)) * 20, b"%PDF-1.7\n%%EOF\n", b"PK\x03\x04"],
)
def test_what_is_no_pdf_is_refused_in_words(data: bytes) -> None:
    with pytest.raises(NotAPatternError):
        proof(data)


def test_a_file_with_no_pages_is_refused() -> None:
    out = io.BytesIO()
    with pikepdf.new() as pdf:
        pdf.save(out)
    with pytest.raises(NotAPatternError, match="no pages"):
        proof(out.getvalue())


@pytest.mark.parametrize("seed", range(60))
def test_a_file_damaged_on_the_way_is_measured_or_refused_but_never_crashes(
    written: bytes, seed: int
) -> None:
    chance = random.Random(seed)
    data = bytearray(written)
    if seed % 3 == 0:
        del data[chance.randrange(len(data)) :]
    elif seed % 3 == 1:
        start = chance.randrange(len(data))
        del data[start : start + chance.randrange(1, 4000)]
    else:
        # The dictionaries at the end are where a changed letter does most harm.
        for _ in range(40):
            data[chance.randrange(int(len(data) * 0.6), len(data))] = chance.randrange(256)
    try:
        found = proof(bytes(data))
    except NotAPatternError as error:
        assert str(error)
    else:
        assert proof_line(found)


def test_what_the_file_says_of_itself_is_read_back(layout_of: Callable[..., Printed]) -> None:
    document = layout_of("understudy-skirt").document
    about = document.about
    assert about.waist > 0 < about.sweep
    told = proof(pdf_bytes(document)).about
    assert told.kind is Kind.PAGES
    assert (told.waist, told.sweep) == pytest.approx((about.waist, about.sweep), abs=0.001)


def test_a_file_that_says_nothing_of_itself_is_proven_as_pages(written: bytes) -> None:
    def hush(pdf: pikepdf.Pdf) -> None:
        del pdf.Root.PieceInfo

    assert proof(changed(written, hush)).about == About()


@pytest.mark.parametrize(("kind", "sound"), [("projector", True), ("pages", False), ("?", False)])
def test_pages_may_differ_in_size_for_a_projector_only(
    written: bytes, kind: str, sound: bool
) -> None:
    def differ(pdf: pikepdf.Pdf) -> None:
        pdf.Root.PieceInfo.hemsweep.Private.Kind = pikepdf.String(kind)
        pdf.pages[2].MediaBox[3] = 1000

    assert (proof(changed(written, differ)).faults == ()) is sound


# --- files written anew by other programs --------------------------------------------------


def wrapped(pdf: pikepdf.Pdf, number: int, matrix: bytes) -> None:
    """Put one more matrix round a page's drawing."""
    page = pdf.pages[number].obj
    page.Contents = pdf.make_stream(b"q " + matrix + b" cm\n" + content(pdf, number) + b"\nQ")


def made_a_form(pdf: pikepdf.Pdf, number: int, matrix: bytes) -> None:
    """Make a page's drawing a form that the page calls under a matrix, as imposing does."""
    page = pdf.pages[number].obj
    form = pdf.make_stream(content(pdf, number))
    form.Type, form.Subtype = pikepdf.Name.XObject, pikepdf.Name.Form
    form.BBox, form.Resources = page.MediaBox, page.Resources
    page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(Old=form))
    page.Contents = pdf.make_stream(b"q " + matrix + b" cm /Old Do Q")


def on_every_page(
    change: Callable[[pikepdf.Pdf, int, bytes], None], matrix: bytes
) -> Callable[[pikepdf.Pdf], None]:
    def changed_all(pdf: pikepdf.Pdf) -> None:
        for number in range(len(pdf.pages)):
            change(pdf, number, matrix)

    return changed_all


def is_as_it_was(data: bytes, written: bytes) -> None:
    before, after = proof(written), proof(data)
    assert after.faults == ()
    assert after.square == pytest.approx(before.square, abs=0.01)
    assert after.rules == pytest.approx(before.rules, abs=0.01)
    assert after.step == pytest.approx(before.step, abs=0.01)
    assert after.page == pytest.approx(before.page, abs=0.01)


@pytest.mark.parametrize("change", [wrapped, made_a_form])
def test_a_drawing_under_matrices_that_change_nothing_is_as_true(
    written: bytes, change: Callable[[pikepdf.Pdf, int, bytes], None]
) -> None:
    for matrix in (
        b"1 0 0 1 0 0",
        b"2 0 0 2 0 0 cm .5 0 0 .5 0 0",
        b"1 0 0 1 3 4 cm 1 0 0 1 -3 -4",
    ):
        is_as_it_was(changed(written, on_every_page(change, matrix)), written)


@pytest.mark.parametrize("change", [wrapped, made_a_form])
@pytest.mark.parametrize(("across", "up"), [(0.97, 0.97), (1, 1.01), (0.94, 1), (1.0005, 1)])
def test_a_drawing_scaled_by_a_matrix_is_told_with_its_scale(
    written: bytes,
    change: Callable[[pikepdf.Pdf, int, bytes], None],
    across: float,
    up: float,
) -> None:
    matrix = f"{across} 0 0 {up} 0 0".encode()
    found = proof(changed(written, on_every_page(change, matrix)))
    assert found.square is None
    assert found.drawn == pytest.approx((100 * across, 100 * up), abs=0.01)
    assert any(f"to {across:.2%} across and {up:.2%} up" in fault for fault in found.faults)


def test_one_page_scaled_alone_is_named(written: bytes) -> None:
    found = proof(changed(written, lambda pdf: wrapped(pdf, 3, b"0.99 0 0 0.99 0 0")))
    assert found.square == pytest.approx((100, 100), abs=0.01)
    assert any("Page 4 is drawn at another scale" in fault for fault in found.faults)
    assert any("99.00% across and 99.00% up" in fault for fault in found.faults)


def test_a_page_that_bears_nothing_but_words_is_sound(written: bytes) -> None:
    """Inside a large piece, without overlap, a page has no line at all."""

    def leave_words(pdf: pikepdf.Pdf) -> None:
        pdf.pages[3].obj.Contents = pdf.make_stream(
            b"q 28.34646 28.34646 538.5827 785.1969 re W n BT (B2) Tj ET Q"
        )

    assert proof(changed(written, leave_words)).faults == ()


def test_a_drawing_pushed_off_its_page_is_told(written: bytes) -> None:
    found = proof(changed(written, on_every_page(wrapped, b"1 0 0 1 -40 0")))
    assert found.faults == ("Its drawing does not lie whole on its pages.",)


def test_a_page_cut_down_to_its_middle_is_told(written: bytes) -> None:
    def crop(pdf: pikepdf.Pdf) -> None:
        for page in pdf.pages:
            page.obj.CropBox = pikepdf.Array([40, 40, 540, 800])

    found = proof(changed(written, crop))
    assert found.page == pytest.approx((500 * 25.4 / 72, 760 * 25.4 / 72), abs=0.01)
    assert any("whole on its pages" in fault for fault in found.faults)


def test_a_page_whose_corner_lies_elsewhere_is_measured_from_there(written: bytes) -> None:
    def shift(pdf: pikepdf.Pdf) -> None:
        for number, page in enumerate(pdf.pages):
            wrapped(pdf, number, b"1 0 0 1 100 -50")
            left, bottom, right, top = (float(side) for side in page.mediabox.as_list())
            page.obj.MediaBox = pikepdf.Array([left + 100, bottom - 50, right + 100, top - 50])

    is_as_it_was(changed(written, shift), written)


def test_units_of_its_own_that_the_drawing_allows_for_are_true(written: bytes) -> None:
    def half(pdf: pikepdf.Pdf) -> None:
        for number, page in enumerate(pdf.pages):
            wrapped(pdf, number, b".5 0 0 .5 0 0")
            page.obj.UserUnit = 2
            page.obj.MediaBox = pikepdf.Array([float(n) / 2 for n in page.mediabox.as_list()])

    is_as_it_was(changed(written, half), written)


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_pages_turned_for_the_screen_alone_are_as_true(written: bytes, turn: int) -> None:
    def rotate(pdf: pikepdf.Pdf) -> None:
        for page in pdf.pages:
            page.obj.Rotate = turn

    is_as_it_was(changed(written, rotate), written)


def rewritten(data: bytes, folder: Path, *command: str) -> bytes:
    if shutil.which(command[0]) is None:
        pytest.skip(f"{command[0]} is not here")
    one, other = folder / "one.pdf", folder / "other.pdf"
    one.write_bytes(data)
    named = [{"IN": str(one), "OUT": str(other)}.get(word, word) for word in command]
    subprocess.run(named, check=True, capture_output=True)
    return other.read_bytes()


@pytest.mark.parametrize(
    "command",
    [
        "qpdf --qdf IN OUT",
        "qpdf --object-streams=generate --coalesce-contents --normalize-content=y IN OUT",
        "mutool clean -gggg -z IN OUT",
        "mutool clean -s -d IN OUT",
    ],
)
def test_a_file_saved_anew_by_another_program_measures_true(
    written: bytes, corrected: bytes, tmp_path: Path, command: str
) -> None:
    for data in (written, corrected):
        is_as_it_was(rewritten(data, tmp_path, *command.split()), data)


def test_a_file_distilled_anew_measures_true_though_its_wishes_are_lost(
    written: bytes, tmp_path: Path
) -> None:
    """Ghostscript writes every operator anew, in tenths of a point, and drops the catalogue."""
    command = ("gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=pdfwrite", "-o", "OUT", "IN")
    before, after = proof(written), proof(rewritten(written, tmp_path, *command))
    assert after.square == pytest.approx((100, 100), abs=0.01)
    assert after.rules == pytest.approx(before.rules, abs=0.01)
    assert all("leave its size alone" in fault for fault in after.faults)


# --- files corrected for a printer ---------------------------------------------------------

PRINTER = (Measured(measured=198.8, nominal=200), Measured(measured=200.6, nominal=200))
ENLARGED = (200 / 198.8, 200 / 200.6)


@pytest.fixture(scope="module")
def corrected(pattern_of: Callable[[str], Pattern]) -> bytes:
    pattern = pattern_of("young-chorus-skirt")
    wish = replace(pattern.spec.print, measured=PRINTER)
    pattern = replace(pattern, spec=replace(pattern.spec, print=wish))
    return pdf_bytes(printed(pattern, wish.papers[0], effort=Effort.QUICK).document)


def test_a_corrected_file_is_sound_and_measured_as_it_comes_out_of_its_printer(
    corrected: bytes,
) -> None:
    found = proof(corrected)
    assert found.faults == ()
    assert found.about.correction == pytest.approx(ENLARGED, abs=1e-6)
    assert found.square == pytest.approx((100, 100), abs=0.01)
    assert found.drawn == pytest.approx((100.604, 99.701), abs=0.005)
    assert found.rules == pytest.approx((180, 270), abs=0.02)
    # (190 / 1.006036 - 10, 277 / 0.997009 - 10)
    assert found.step == pytest.approx((178.86, 267.831), abs=0.02)
    line = proof_line(found)
    assert "test square 100.60 × 99.70 mm in the file" in line
    assert "a printer that makes 99.40 × 100.30 mm of 100 × 100" in line
    assert "there it measures 100.00 × 100.00 mm" in line


def say(across: object, up: object) -> Callable[[pikepdf.Pdf], None]:
    def change(pdf: pikepdf.Pdf) -> None:
        told = pdf.Root.PieceInfo.hemsweep.Private
        told.Across, told.Up = across, up

    return change


@pytest.mark.parametrize(("across", "up"), [(1.006036, 0.999), (1, 0.997009), (0.997, 1.006)])
def test_a_correction_that_is_not_the_drawings_is_told(
    corrected: bytes, across: float, up: float
) -> None:
    found = proof(changed(corrected, say(across, up)))
    assert found.square is None
    wanted = (
        f"It says that it is drawn at {across:.2%} across and {up:.2%} up for one printer, but its"
        " test square is at 100.60% across and 99.70% up."
    )
    assert found.faults == (wanted,)


def test_a_correction_that_is_only_said_is_told(written: bytes) -> None:
    found = proof(changed(written, say(1.006, 0.997)))
    assert any("test square is at 100.00% across and 100.00% up" in f for f in found.faults)


def test_a_correction_that_is_not_said_is_a_scaled_drawing(corrected: bytes) -> None:
    def hush(pdf: pikepdf.Pdf) -> None:
        del pdf.Root.PieceInfo

    found = proof(changed(corrected, hush))
    assert any("to 100.60% across and 99.70% up" in fault for fault in found.faults)


def test_a_corrected_file_scaled_on_the_way_is_told(corrected: bytes) -> None:
    found = proof(changed(corrected, on_every_page(wrapped, b"0.97 0 0 0.97 0 0")))
    assert any("test square is at 97.59% across and 96.71% up" in f for f in found.faults)


def test_one_page_without_its_correction_is_named(corrected: bytes) -> None:
    def take_off(pdf: pikepdf.Pdf) -> None:
        plain, count = re.subn(rb"1\.006\d* 0 0 \.997\d* \S+ \S+ cm", b"", content(pdf, 2))
        assert count == 1
        pdf.pages[2].obj.Contents = pdf.make_stream(plain)

    found = proof(changed(corrected, take_off))
    assert any("Page 3 is drawn at another scale than the first" in f for f in found.faults)


@pytest.mark.parametrize("said", [0, -1, 2, 10**9, pikepdf.String("x"), pikepdf.Array([])])
def test_a_correction_that_no_printer_needs_is_not_believed(corrected: bytes, said: object) -> None:
    found = proof(changed(corrected, say(said, 1)))
    assert found.about.correction == Correction()
    assert found.faults


def test_a_file_of_thirty_pages_is_proven_in_under_a_second(
    layout_of: Callable[..., Printed],
) -> None:
    data = pdf_bytes(layout_of("chorus-skirt").document)
    began = time.process_time()
    assert proof(data).pages >= 25
    assert time.process_time() - began < 1


def drawn_on_first(data: bytes, operators: bytes) -> bytes:
    def add(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0]
        page.obj.Contents = pdf.make_stream(content(pdf, 0) + operators)

    return changed(data, add)


def test_a_line_without_ticks_is_no_rule_however_long(written: bytes) -> None:
    """A line of 290 mm up the page is longer than the rule; with ticks at both ends it is one."""
    point = 72 / 25.4
    left, low, high = 100 * point, 3 * point, 293 * point
    line = f" q {left} {low} m {left} {high} l S"
    assert proof(drawn_on_first(written, f"{line} Q".encode())).rules[1] == pytest.approx(270)
    ticks = "".join(f" {left} {y} m {left + 9} {y} l S" for y in (low, high))
    ticked = proof(drawn_on_first(written, f"{line}{ticks} Q".encode()))
    assert ticked.rules == pytest.approx((180, 290), abs=0.02)


def test_one_rule_alone_is_told_with_its_way(layout_of: Callable[..., Printed]) -> None:
    found = proof(pdf_bytes(layout_of("young-chorus-skirt", PaperName.A1).document))
    assert found.rules == pytest.approx((800, 0), abs=0.02)
    assert "rule 800.00 mm across" in proof_line(found)
