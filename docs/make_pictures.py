"""Makes the pictures of the README from a fresh draft: python docs/make_pictures.py

Drafts the first example into a temporary folder, and renders its pages with pdfium (in the
`test` extra). Writes PNG files beside this script.
"""

import io
import json
import tempfile
from pathlib import Path

import pypdfium2
from PIL import Image

import drafting
from drafting.spec import PaperName
from render.output import write_draft
from render.pages import printed
from render.pdf import pdf_bytes
from render.placement import Effort
from render.publish.cover import PIXELS, cover_picture
from render.publish.raster import png_bytes

HERE = Path(__file__).resolve().parent
SHEET = HERE.parent / "measurements_examples" / "chorus-skirt.toml"
SIZES = SHEET.with_name("in_sizes") / "front-row-skirt.toml"
DOTS = 60
"""Dots to an inch: legible on a screen, small in a repository."""


def page(document: pypdfium2.PdfDocument, number: int, dots: float = DOTS) -> Image.Image:
    """Return one page of a file, counted from 1, as a grey picture."""
    return document[number - 1].render(scale=dots / 72).to_pil().convert("L")


def framed(picture: Image.Image) -> Image.Image:
    """Return a picture with a thin grey frame, so that white paper shows on a white page."""
    frame = Image.new("L", (picture.width + 2, picture.height + 2), 170)
    frame.paste(picture, (1, 1))
    return frame


def assembled(document: pypdfium2.PdfDocument, paper: dict[str, object]) -> Image.Image:
    """Return all pages taped together, each laid over its neighbours as the ticket says."""
    dots = 12.0
    tiles = paper["tiles"]
    window = paper["window"]
    assert isinstance(tiles, list) and isinstance(window, list)
    left, bottom, wide, high = window
    pixels = dots / 25.4
    across = max(tile["x"] for tile in tiles) + wide
    up = max(tile["y"] for tile in tiles) + high
    plane = Image.new("L", (round(across * pixels), round(up * pixels)), 255)
    for tile in tiles:
        sheet = page(document, tile["page"], dots)
        cut = sheet.crop(
            (
                round(left * pixels),
                sheet.height - round((bottom + high) * pixels),
                round((left + wide) * pixels),
                sheet.height - round(bottom * pixels),
            )
        )
        plane.paste(
            cut, (round(tile["x"] * pixels), plane.height - round((tile["y"] + high) * pixels))
        )
    return plane


def beside(pictures: list[Image.Image]) -> Image.Image:
    """Return pictures of one height in a row."""
    row = Image.new("L", (sum(one.width + 8 for one in pictures), pictures[0].height), 255)
    left = 0
    for one in pictures:
        row.paste(framed(one).resize(one.size), (left, 0))
        left += one.width + 8
    return row


def _leaf(document: pypdfium2.PdfDocument, words: str) -> int:
    """Return the number of the first page that says some words."""
    for number, leaf in enumerate(document, start=1):
        if words in leaf.get_textpage().get_text_range():
            return number
    raise LookupError(words)


def nest() -> Image.Image:
    """Return two pages of the nested example: one at its waist, one at its hem."""
    pattern = drafting.draft(drafting.load(SIZES))
    layout = printed(pattern, PaperName.A4, effort=Effort.QUICK)
    document = pypdfium2.PdfDocument(pdf_bytes(layout.document))
    first = len(layout.document.pages) - len(layout.sheets.tiles) + 1
    names = [tile.name for tile in layout.sheets.tiles]
    picture = beside([page(document, first + names.index(name), 70) for name in ("A6", "C3")])
    document.close()
    return picture


def cover() -> Image.Image:
    """Return the cover of the nested example as it is published."""
    drawn = cover_picture(drafting.draft(drafting.load(SIZES)))
    size = {"width": drawn.box.width, "height": drawn.box.height}
    data = png_bytes(drawn.drawing, **size, pixels=PIXELS)
    return Image.open(io.BytesIO(data)).resize((720, 378))


def main() -> None:
    """Write every picture."""
    with tempfile.TemporaryDirectory() as folder:
        pattern = drafting.draft(drafting.load(SHEET))
        written = write_draft(pattern, Path(folder))
        document = pypdfium2.PdfDocument(written.files[0].path)
        plans = pypdfium2.PdfDocument(
            next(one.path for one in written.files if one.path.name.endswith("-lay.pdf"))
        )
        booklet = pypdfium2.PdfDocument(
            next(one.path for one in written.files if one.path.name.endswith("-booklet.pdf"))
        )
        leaves = [1, *(_leaf(booklet, words) for words in ("quarter of the line", "cut through"))]
        figures = json.loads(written.files[-1].path.read_text(encoding="utf-8"))
        paper = figures["paper"]["a4"]
        waist = next(tile["page"] for tile in paper["tiles"] if tile["name"] == "B4")
        pictures = {
            "ticket.png": page(document, 1),
            "cut-and-know.png": page(document, 2),
            "page.png": page(document, waist),
            "taped-together.png": assembled(document, paper),
            "lay.png": page(plans, 1),
            "booklet.png": beside([page(booklet, number) for number in leaves]),
        }
        pictures["nest.png"] = nest()
        pictures["cover.png"] = cover()
        for name, picture in pictures.items():
            framed(picture).quantize(16).save(HERE / name, optimize=True)
        document.close()
        plans.close()


if __name__ == "__main__":
    main()
