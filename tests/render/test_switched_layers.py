"""Layers in a PDF: each can be switched off, in any reader, and nothing else goes with it."""

import io
import shutil
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from render.drawing import Document, Drawing, Layer
from render.pages import Printed
from render.pdf import SWITCHED, pdf_bytes

Painter = Callable[[bytes, Path], tuple[bytes, ...]]


def by_pdfium(pdf: bytes, _: Path) -> tuple[bytes, ...]:
    document = pypdfium2.PdfDocument(pdf)
    try:
        return tuple(bytes(page.render(scale=1, grayscale=True).buffer) for page in document)
    finally:
        document.close()


def by_poppler(pdf: bytes, folder: Path) -> tuple[bytes, ...]:
    source = folder / "in.pdf"
    source.write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", "72", "-gray", str(source), str(folder / "page")], check=True)
    return tuple(path.read_bytes() for path in sorted(folder.glob("page*.pgm")))


def by_mupdf(pdf: bytes, folder: Path) -> tuple[bytes, ...]:
    source = folder / "in.pdf"
    source.write_bytes(pdf)
    out = str(folder / "page-%03d.pgm")
    subprocess.run(["mutool", "draw", "-q", "-r", "72", "-o", out, str(source)], check=True,
                   capture_output=True)  # fmt: skip
    return tuple(path.read_bytes() for path in sorted(folder.glob("page*.pgm")))


PAINTERS = [
    pytest.param(by_pdfium, id="pdfium"),
    pytest.param(by_poppler, id="poppler", marks=pytest.mark.skipif(
        shutil.which("pdftoppm") is None, reason="poppler is not here")),
    pytest.param(by_mupdf, id="mupdf", marks=pytest.mark.skipif(
        shutil.which("mutool") is None, reason="mupdf is not here")),
]  # fmt: skip


@pytest.fixture(scope="module")
def document(layout_of: Callable[..., Printed]) -> Document:
    return layout_of("young-chorus-skirt").document


def switched_off(pdf: bytes, name: str) -> bytes:
    """Return the file as a reader sees it who hid the layer of that name."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        config = opened.Root.OCProperties.D
        (group,) = (g for g in opened.Root.OCProperties.OCGs if str(g.Name) == name)
        config.OFF = pikepdf.Array([group])
        opened.save(out)
    return out.getvalue()


def without(document: Document, layer: Layer) -> Document:
    """Return the document as if nothing had ever been drawn on a layer."""

    def kept(drawing: Drawing) -> Drawing:
        return Drawing(
            strokes=tuple(s for s in drawing.strokes if s.layer is not layer),
            texts=tuple(t for t in drawing.texts if t.layer is not layer),
        )

    pages = tuple(replace(page, drawing=kept(page.drawing)) for page in document.pages)
    return replace(document, pages=pages)


@pytest.mark.parametrize("paint", PAINTERS)
@pytest.mark.parametrize("layer", [layer for layer in SWITCHED if layer is not Layer.GRID])
def test_a_layer_switched_off_is_gone_and_all_else_stays(
    document: Document, layer: Layer, paint: Painter, tmp_path: Path
) -> None:
    whole, hidden, never = (tmp_path / name for name in ("whole", "hidden", "never"))
    for folder in (whole, hidden, never):
        folder.mkdir()
    pdf = pdf_bytes(document)
    seen = paint(switched_off(pdf, layer.value), hidden)
    assert seen == paint(pdf_bytes(without(document, layer)), never)
    assert seen != paint(pdf, whole)


def test_a_reader_lists_the_layers_from_cutting_lines_to_text(document: Document) -> None:
    with pikepdf.open(io.BytesIO(pdf_bytes(document))) as pdf:
        shown = [str(group.Name) for group in pdf.Root.OCProperties.D.Order]
        held = {group.objgen for group in pdf.Root.OCProperties.OCGs}
    assert shown == ["cutting lines", "stitching lines", "marks", "text"]
    assert len(held) == 4


def test_page_marks_cannot_be_lost(document: Document) -> None:
    """The ticket, page names and joins stay whatever is hidden: they tell where a page belongs."""
    assert Layer.PAGE not in SWITCHED
    ticket = document.pages[0]
    assert {text.layer for text in ticket.drawing.texts} == {Layer.PAGE}
