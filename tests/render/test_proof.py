"""A written file is measured as it is: wrong sizes, missing fonts and strange files are told."""

import io
import random
import re
from collections.abc import Callable

import pikepdf
import pytest

from render.drawing import About, Kind
from render.pages import Printed
from render.pdf import pdf_bytes
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


def test_what_the_file_says_of_itself_is_read_back(
    written: bytes, layout_of: Callable[..., Printed]
) -> None:
    about = layout_of("young-chorus-skirt").document.about
    assert about.waist > 0 < about.sweep
    told = proof(written).about
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
