"""The written PDFs as files: every viewer opens them, nothing leaves the window, no name hangs."""

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from tests.end_to_end.conftest import Run


def painted(pdf: Path) -> list[tuple[int, int, int, bytes]]:
    """Return every page as pdfium paints it at 100 dpi: width, height, bytes a row, greys."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        pages = []
        for page in document:
            bitmap = page.render(scale=100 / 72, grayscale=True)
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
    depth, in_text = 0, False
    for instruction in pikepdf.parse_content_stream(page):
        op = str(instruction.operator)
        depth += {"q": 1, "Q": -1}.get(op, 0)
        assert depth >= 0, "a state is given back that was never saved"
        if op in {"BT", "ET"}:
            assert in_text is (op == "ET"), "text begins or ends twice"
            in_text = op == "BT"
        if op in kinds:
            assert isinstance(instruction, pikepdf.ContentStreamInstruction)
            found.setdefault(kinds[op], set()).add(str(instruction.operands[0]))
    assert depth == 0
    assert not in_text
    return found


def test_every_state_is_given_back_and_every_name_resolves(run: Run) -> None:
    with pikepdf.open(run.pdf) as pdf:
        assert not pdf.check_pdf_syntax()
        for page in pdf.pages:
            for kind, names in names_used(page).items():
                held = page.obj.Resources[kind]
                for name in names:
                    assert name in held, f"{kind} {name}"


def complaint(*command: str) -> str:
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    return f"{done.returncode} {done.stderr}".removeprefix("0 ").strip()


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not here")
def test_qpdf_finds_nothing_to_say(run: Run) -> None:
    done = subprocess.run(
        ["qpdf", "--check", str(run.pdf)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert not done.stderr.strip()


# One file is enough for the slow viewers: all are written by the same few operators.
SMALLEST = "young-chorus-skirt"


@pytest.mark.skipif(shutil.which("pdftocairo") is None, reason="poppler is not here")
def test_poppler_draws_it_without_a_word(run_of: Callable[[str], Run], tmp_path: Path) -> None:
    pdf = run_of(SMALLEST).pdf
    assert complaint("pdftocairo", "-pdf", str(pdf), str(tmp_path / "again.pdf")) == ""


@pytest.mark.skipif(shutil.which("mutool") is None, reason="mupdf is not here")
def test_mupdf_draws_it_without_a_word(run_of: Callable[[str], Run], tmp_path: Path) -> None:
    pdf = run_of(SMALLEST).pdf
    out = str(tmp_path / "page-%d.png")
    said = complaint("mutool", "draw", "-q", "-r", "20", "-o", out, str(pdf))
    # How this copy of mupdf was built is no fault of the file.
    assert said.replace("warning: ICC support is not available", "").strip() == ""
    assert list(tmp_path.glob("page-*.png"))


@pytest.mark.skipif(shutil.which("gs") is None, reason="Ghostscript is not here")
def test_ghostscript_draws_it_without_a_word(run_of: Callable[[str], Run]) -> None:
    pdf = run_of(SMALLEST).pdf
    device = ("-dSAFER", "-dBATCH", "-dNOPAUSE", "-q", "-sDEVICE=nullpage")
    done = subprocess.run(["gs", *device, str(pdf)], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout.strip(), done.stderr.strip()) == (0, "", "")
