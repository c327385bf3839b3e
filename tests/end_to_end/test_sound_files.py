"""The written PDFs as files: every viewer opens them, nothing leaves the window, no name hangs."""

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from typer.testing import CliRunner

from cli import app
from tests.end_to_end.conftest import CHILD, Run


def painted(pdf: Path) -> list[tuple[int, int, int, bytes]]:
    """Return every page as pdfium paints it at 72 dpi: width, height, bytes a row, greys."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        pages = []
        for page in document:
            bitmap = page.render(scale=1.0, grayscale=True)
            pages.append((bitmap.width, bitmap.height, bitmap.stride, bytes(bitmap.buffer)))
        return pages
    finally:
        document.close()


def test_margins_stay_white_and_no_page_is_blank(run: Run) -> None:
    page_width, page_height = run.paper["page"]
    left, bottom, width, height = run.paper["window"]
    pages = painted(run.pdf)
    assert len(pages) == run.paper["pages"]
    for number, (wide, high, stride, greys) in enumerate(pages, start=1):
        across, down = wide / page_width, high / page_height
        rows = [greys[k * stride : k * stride + wide] for k in range(high)]
        # One pixel on each side is left to the painter's smoothing.
        first, last = int(left * across) - 1, int((left + width) * across) + 2
        top = int((page_height - bottom - height) * down) - 1
        foot = int((page_height - bottom) * down) + 2
        margins = [*rows[:top], *rows[foot:]]
        margins += [row[:first] + row[last:] for row in rows]
        assert min(min(row) for row in margins if row) == 255, f"page {number} runs into a margin"
        assert min(min(row) for row in rows[top:foot]) < 100, f"page {number} is blank"


def names_used(page: pikepdf.Page) -> dict[str, set[str]]:
    """Return the names that a page's operators look up, by the kind of resource."""
    kinds = {"Tf": "/Font", "gs": "/ExtGState", "Do": "/XObject", "cs": "/ColorSpace"}
    found: dict[str, set[str]] = {}
    depth, marked, in_text = 0, 0, False
    for instruction in pikepdf.parse_content_stream(page):
        op = str(instruction.operator)
        depth += {"q": 1, "Q": -1}.get(op, 0)
        assert depth >= 0, "a state is given back that was never saved"
        marked += {"BMC": 1, "BDC": 1, "EMC": -1}.get(op, 0)
        assert marked >= 0, "marked content ends that never began"
        if op == "BDC":
            assert isinstance(instruction, pikepdf.ContentStreamInstruction)
            found.setdefault("/Properties", set()).add(str(instruction.operands[1]))
        if op in {"BT", "ET"}:
            assert in_text is (op == "ET"), "text begins or ends twice"
            in_text = op == "BT"
        if op in kinds:
            assert isinstance(instruction, pikepdf.ContentStreamInstruction)
            found.setdefault(kinds[op], set()).add(str(instruction.operands[0]))
    assert (depth, marked) == (0, 0)
    assert not in_text
    return found


def every_name_resolves(path: Path) -> None:
    with pikepdf.open(path) as pdf:
        assert not pdf.check_pdf_syntax()
        for page in pdf.pages:
            for kind, names in names_used(page).items():
                held = page.obj.Resources[kind]
                for name in names:
                    assert name in held, f"{kind} {name}"


def test_every_state_is_given_back_and_every_name_resolves(run: Run) -> None:
    every_name_resolves(run.pdf)


def complaint(*command: str) -> str:
    """Return what a program has to say of a file; nothing, if it has read it to the end."""
    if shutil.which(command[0]) is None:
        pytest.skip(f"{command[0]} is not here")
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    return f"{done.returncode} {done.stderr}".removeprefix("0 ").strip()


def qpdf(pdf: Path, _: Path) -> None:
    assert complaint("qpdf", "--check", str(pdf)) == ""


def poppler(pdf: Path, folder: Path) -> None:
    assert complaint("pdftocairo", "-pdf", str(pdf), str(folder / "again.pdf")) == ""


def mupdf(pdf: Path, folder: Path) -> None:
    out = str(folder / "page-%d.png")
    said = complaint("mutool", "draw", "-q", "-r", "20", "-o", out, str(pdf))
    # How this copy of mupdf was built is no fault of the file.
    assert said.replace("warning: ICC support is not available", "").strip() == ""
    assert list(folder.glob("page-*.png"))


def ghostscript(pdf: Path, folder: Path) -> None:
    talk = folder / "talk.txt"
    device = ("-dSAFER", "-dBATCH", "-dNOPAUSE", "-q", f"-sstdout={talk}", "-sDEVICE=nullpage")
    assert complaint("gs", *device, str(pdf)) == ""
    assert not talk.exists() or talk.read_text() == ""


READERS = {"qpdf": qpdf, "poppler": poppler, "mupdf": mupdf, "ghostscript": ghostscript}


def test_qpdf_finds_nothing_to_say(run: Run, tmp_path: Path) -> None:
    qpdf(run.pdf, tmp_path)


# One file is enough for the slow viewers: all are written by the same few operators.
SMALLEST = "young-chorus-skirt"


@pytest.mark.parametrize("reader", ["poppler", "mupdf", "ghostscript"])
def test_it_is_drawn_without_a_word(
    reader: str, run_of: Callable[[str], Run], tmp_path: Path
) -> None:
    READERS[reader](run_of(SMALLEST).pdf, tmp_path)


# --- one file of every other kind ------------------------------------------------------------

OTHER_KINDS = {
    "waist": 'scope = "waist"',
    "card": 'scope = "card"',
    "corrected": 'measured = ["198 mm of 200 mm", "201 mm of 200 mm"]',
    "sheets": 'paper = ["a1"]',
    "roll": 'paper = ["roll-841"]',
    "projector": 'paper = ["projector"]',
    "lay plans": 'paper = ["a4"]',
}
"""What a sheet asks for under [print], by a name of its own."""


@pytest.fixture(scope="module", params=["trial", *OTHER_KINDS])
def other_kind(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One PDF after the other of those kinds that no example is printed as."""
    folder = tmp_path_factory.mktemp("kind")
    words = ["trial"]
    if request.param != "trial":
        sheet = folder / "sheet.toml"
        wish = f"\n[print]\n{OTHER_KINDS[request.param]}\n"
        sheet.write_text(CHILD.read_text(encoding="utf-8") + wish, encoding="utf-8")
        command = (
            ["lay"]
            if request.param == "lay plans"
            else ["draft", "--without", "lay", "--without", "booklet"]
        )
        words = [*command, str(sheet), "--quick"]
    result = CliRunner().invoke(app, [*words, "--out", str(folder)])
    assert result.exit_code == 0, result.output
    (pdf,) = folder.glob("*.pdf")
    return pdf


def test_other_kinds_give_back_every_state_and_every_name_resolves(other_kind: Path) -> None:
    every_name_resolves(other_kind)


@pytest.mark.parametrize("reader", READERS)
def test_other_kinds_are_read_without_a_word(reader: str, other_kind: Path, tmp_path: Path) -> None:
    READERS[reader](other_kind, tmp_path)
