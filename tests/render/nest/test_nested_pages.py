"""Eight sizes on one set of pages: each as if drafted alone, each told apart, each to be had alone.

The written file is read with pikepdf; lines of one size are compared with that size's own draft.
"""

import io
import itertools
import math
import shutil
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from shapely import LineString, STRtree, unary_union
from shapely.geometry import Point as Spot

import drafting
from drafting.geometry import flattened
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, cutting_line
from drafting.spec import PaperName
from render.drawing import Document, Drawing, Layer
from render.nest.pens import size_pen
from render.pages import Printed, printed
from render.pdf import pdf_bytes
from render.piece_drawing import LineKind
from render.placement import Effort

SHEETS = Path(__file__).parents[3] / "measurements_examples" / "in_sizes"
STEMS = ("front-row-skirt", "promenade-skirt")
MM = 25.4 / 72


@cache
def pattern_of(stem: str) -> Pattern:
    return drafting.draft(drafting.load(SHEETS / f"{stem}.toml"))


@cache
def layout_of(stem: str) -> Printed:
    return printed(pattern_of(stem), PaperName.A4, effort=Effort.QUICK)


@cache
def written(stem: str) -> bytes:
    return pdf_bytes(layout_of(stem).document)


@cache
def one_size(stem: str) -> Printed:
    """Return the middle size drafted and printed for itself."""
    graded = pattern_of(stem)
    size = graded.spec.wearer.size
    (alone,) = (one for one in graded.sizes if one.spec.wearer.size == size)
    return printed(alone, PaperName.A4, effort=Effort.QUICK)


# --- reading the file -----------------------------------------------------------------------

Line = tuple[tuple[float, float], ...]


def lines_of(pdf: bytes) -> Iterator[tuple[int, frozenset[str], str, float, Line]]:
    """Yield the strokes of a file: page, its sizes, its layer, its width, its points in mm."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        for number, page in enumerate(opened.pages):
            held = page.Resources
            named = held.Properties.items() if "/Properties" in held else ()
            groups = {str(key): _names(value) for key, value in named}
            marks: list[tuple[str, ...]] = []
            width, points = 0.0, list[tuple[float, float]]()
            for instruction in pikepdf.parse_content_stream(page):
                assert isinstance(instruction, pikepdf.ContentStreamInstruction)
                operands, op = instruction.operands, str(instruction.operator)
                if op == "BDC":
                    marks.append(groups[str(operands[1])])
                elif op == "EMC":
                    marks.pop()
                elif op == "w":
                    width = float(operands[0]) * MM
                elif op in "ml":
                    points += [(float(operands[0]) * MM, float(operands[1]) * MM)]
                elif op == "c":
                    points += _curve(points[-1], [float(n) * MM for n in operands])
                elif op == "h":
                    points.append(points[0])
                elif op in {"S", "n"}:
                    of = frozenset(n for mark in marks for n in mark if n.startswith("size "))
                    layer = next((n for mark in marks for n in mark if n not in of), "")
                    if op == "S":
                        yield number, of, layer, width, tuple(points)
                    points = []


def _names(group: pikepdf.Object) -> tuple[str, ...]:
    if str(group.Type) == "/OCMD":
        assert str(group.P) == "/AnyOn"
        return tuple(str(one.Name) for one in group.OCGs)
    return (str(group.Name),)


def _curve(a: tuple[float, float], n: list[float]) -> list[tuple[float, float]]:
    found = []
    for k in range(1, 25):
        t = k / 24
        s = 1 - t
        w = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
        found.append((
            w[0] * a[0] + w[1] * n[0] + w[2] * n[2] + w[3] * n[4],
            w[0] * a[1] + w[1] * n[1] + w[2] * n[3] + w[3] * n[5],
        ))  # fmt: skip
    return found


@cache
def taped(stem: str) -> tuple[tuple[frozenset[str], str, float, LineString], ...]:
    """Return every line of the pattern's pages on the plane, as it is taped."""
    layout = layout_of(stem)
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    grid = layout.sheets.grid
    found = []
    for page, sizes, layer, width, points in lines_of(written(stem)):
        if page < tickets or len(points) < 2:
            continue
        window = layout.sheets.tiles[page - tickets].window
        dx, dy = window.left - grid.margin, window.bottom - grid.margin
        found.append((sizes, layer, width, LineString([(x + dx, y + dy) for x, y in points])))
    return tuple(found)


def drawn_alone(stem: str, size: str, layer: str) -> Iterator[LineString]:
    """Yield where a size's lines must lie on the plane, from that size drafted for itself."""
    layout = layout_of(stem)
    spec = drafting.read_sheet(_for_one(SHEETS / f"{stem}.toml", size))
    alone = {piece.name: piece for piece in drafting.draft(spec).pieces}
    for placement in layout.sheets.placements:
        piece = alone[placement.piece.name]
        if layer == "cutting lines":
            paths = [cutting_line(piece)]
        else:
            paths = [
                edge.path for edge in piece.edges
                if edge.kind is not EdgeKind.FOLD and edge.allowance > 0
            ]  # fmt: skip
            paths += [line.path for line in piece.inner_lines]
        for path in paths:
            points = flattened(placement.on_plane(path), error=0.003)
            ends = [(p.x, p.y) for p in points]
            start = placement.on_plane(path)[0].start
            end = placement.on_plane(path)[-1].end
            closed = math.dist(start, end) < 1e-6
            yield LineString([*ends, ends[0]] if closed else ends)


def _for_one(path: Path, size: str) -> str:
    """Return a graded sheet's text as a sheet for one wearer of a size."""
    kept = [line for line in path.read_text().splitlines() if not line.startswith("sizes")]
    text = "\n".join(kept)
    wearer = f'[wearer]\nsize = "{size}"\n'
    return text.replace("[wearer]\n", wearer) if "[wearer]" in text else f"{text}\n{wearer}"


# --- true -----------------------------------------------------------------------------------


@pytest.mark.parametrize("stem", STEMS)
@pytest.mark.parametrize("layer", ["cutting lines", "stitching lines"])
def test_every_size_lies_on_paper_where_it_lies_drafted_alone(stem: str, layer: str) -> None:
    sizes = pattern_of(stem).spec.publish.sizes
    for size in sizes:
        mine = [
            line for of, on, _, line in taped(stem)
            if on == layer and (not of or f"size {size}" in of)
        ]  # fmt: skip
        true = list(drawn_alone(stem, size, layer))
        near = unary_union(true).buffer(0.05)
        # What is drawn for this size is nothing but this size's lines …
        for line in mine:
            assert near.covers(line), (size, line.bounds)
        # … and all of them, but for the gaps that names of sizes stand in.
        tree = STRtree(mine)
        for path in true:
            gap = 0.0
            for at in range(0, int(path.length), 4):
                spot = path.interpolate(at)
                close = tree.query(Spot(spot).buffer(0.06), predicate="intersects")
                gap = 0.0 if len(close) else gap + 4
                assert gap <= 24, (size, spot)


@pytest.mark.parametrize("stem", STEMS)
def test_no_line_is_drawn_twice(stem: str) -> None:
    by_page: dict[int, list[LineString]] = {}
    for page, _, layer, _, points in lines_of(written(stem)):
        if layer == "cutting lines" and len(points) > 1:
            by_page.setdefault(page, []).append(LineString(points))
    for lines in by_page.values():
        tree = STRtree(lines)
        for k, line in enumerate(lines):
            near = line.buffer(0.004)
            others = [lines[j] for j in tree.query(near, predicate="intersects") if j > k]
            for other in others:
                # Lines may cross, and run into each other at a slant; none lies on another.
                over = other.intersection(near).length
                assert over <= 0.5 * min(line.length, other.length) + 5, line.bounds


# --- told apart -----------------------------------------------------------------------------


def test_no_two_sizes_share_rhythm_and_weight_and_neighbours_share_neither() -> None:
    pens = [size_pen(place) for place in range(8)]
    assert len({(pen.width, pen.dash) for pen in pens}) == 8
    for one, other in itertools.pairwise(pens):
        assert one.width != other.width
        assert one.dash != other.dash
    assert all(pen.grey == 0 and pen.dash and pen.width >= 0.5 for pen in pens)
    for place in range(8):
        sewn = size_pen(place, LineKind.STITCHING)
        assert sewn.width >= 0.25
        assert sewn.grey <= 0.5
        assert sewn.dash == pens[place].dash
        assert sum(sewn.dash[::2]) >= 0.6 * sum(sewn.dash)


@pytest.mark.parametrize("stem", STEMS)
def test_a_size_is_named_every_150_mm_along_its_cutting_line(stem: str) -> None:
    layout = layout_of(stem)
    grid = layout.sheets.grid
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    names: dict[str, list[tuple[float, float]]] = {}
    for tile, page in zip(layout.sheets.tiles, layout.document.pages[tickets:], strict=True):
        dx, dy = tile.window.left - grid.margin, tile.window.bottom - grid.margin
        for text in page.drawing.texts:
            if text.bold and text.layer is Layer.TEXT:
                names.setdefault(text.text, []).append((text.at.x + dx, text.at.y + dy))
    every = pattern_of(stem).spec.publish.sizes
    for size in every:
        mine = [
            spot for words, spots in names.items() for spot in spots
            if words in (size, "all sizes") or _within(words, size, every)
        ]  # fmt: skip
        tree = STRtree([Spot(spot) for spot in mine])
        for path in drawn_alone(stem, size, "cutting lines"):
            ring = itertools.chain(range(0, int(path.length), 5), range(0, 150, 5))
            since = 0
            for at in ring:
                spot = path.interpolate(at)
                # A name's middle stands on its line, its baseline half its height beside it.
                since = 0 if len(tree.query(spot.buffer(4), predicate="intersects")) else since + 5
                assert since <= 150 + 5 + 10, (size, spot)


def _within(words: str, size: str, every: tuple[str, ...]) -> bool:
    first, dash, last = words.partition("–")
    if not dash or first not in every or last not in every:
        return False
    return every.index(first) <= every.index(size) <= every.index(last)


@pytest.mark.parametrize("stem", STEMS)
def test_no_cutting_line_runs_through_the_name_of_another_size(stem: str) -> None:
    layout = layout_of(stem)
    grid = layout.sheets.grid
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    cut = [line for _, on, _, line in taped(stem) if on == "cutting lines"]
    tree = STRtree(cut)
    crossed = total = 0
    for tile, page in zip(layout.sheets.tiles, layout.document.pages[tickets:], strict=True):
        dx, dy = tile.window.left - grid.margin, tile.window.bottom - grid.margin
        for text in page.drawing.texts:
            if text.bold and text.text in pattern_of(stem).spec.publish.sizes:
                c, s = math.cos(text.angle), math.sin(text.angle)
                up = 0.69 * text.size / 2
                middle = (text.at.x + dx - s * up, text.at.y + dy + c * up)
                total += 1
                crossed += bool(len(tree.query(Spot(middle).buffer(0.8), predicate="intersects")))
    assert total > 100
    assert crossed <= total * 0.02


# --- to be had alone ------------------------------------------------------------------------

Painter = Callable[[bytes, Path, int], bytes]


def by_pdfium(pdf: bytes, _: Path, page: int) -> bytes:
    document = pypdfium2.PdfDocument(pdf)
    try:
        return bytes(document[page].render(scale=1.5, grayscale=True).buffer)
    finally:
        document.close()


def by_poppler(pdf: bytes, folder: Path, page: int) -> bytes:
    source, number = folder / "in.pdf", str(page + 1)
    source.write_bytes(pdf)
    command = ["pdftoppm", "-r", "108", "-gray", "-f", number, "-l", number, "-singlefile"]
    subprocess.run([*command, str(source), str(folder / "page")], check=True)
    return (folder / "page.pgm").read_bytes()


PAINTERS = [
    pytest.param(by_pdfium, id="pdfium"),
    pytest.param(by_poppler, id="poppler", marks=pytest.mark.skipif(
        shutil.which("pdftoppm") is None, reason="poppler is not here")),
]  # fmt: skip


def shown_alone(pdf: bytes, size: str) -> bytes:
    """Return the file as a reader sees it who hid every other size's layer."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        others = [
            group for group in opened.Root.OCProperties.OCGs
            if str(group.Name).startswith("size ") and str(group.Name) != f"size {size}"
        ]  # fmt: skip
        opened.Root.OCProperties.D.OFF = pikepdf.Array(others)
        opened.save(out)
    return out.getvalue()


def for_one(document: Document, size: str) -> Document:
    """Return the document as if the other sizes had never been drawn; it has no layers of sizes."""

    def kept(drawing: Drawing) -> Drawing:
        return Drawing(
            strokes=tuple(replace(s, sizes=()) for s in drawing.strokes
                          if not s.sizes or size in s.sizes),
            texts=tuple(replace(t, sizes=()) for t in drawing.texts
                        if not t.sizes or size in t.sizes),
        )  # fmt: skip

    pages = tuple(replace(page, drawing=kept(page.drawing)) for page in document.pages)
    return replace(document, pages=pages, sizes=())


SHOWN = [
    pytest.param(size, *painter.values, id=f"{painter.id}-{size}", marks=painter.marks)
    for painter in PAINTERS
    for size in ([f"P0{k}" for k in range(1, 9)] if painter is PAINTERS[0] else ["P01", "P06"])
]


@pytest.mark.parametrize(("size", "paint"), SHOWN)
def test_a_size_shown_alone_is_that_size_drawn_alone(
    size: str, paint: Painter, tmp_path: Path
) -> None:
    layout = layout_of("front-row-skirt")
    pdf = written("front-row-skirt")
    alone, never = shown_alone(pdf, size), pdf_bytes(for_one(layout.document, size))
    tickets = len(layout.document.pages) - len(layout.sheets.tiles)
    crowded = [
        number for number, page in enumerate(layout.document.pages)
        if number >= tickets and len({s.sizes for s in page.drawing.strokes}) > 8
    ]  # fmt: skip
    assert len(crowded) > 2
    for number in crowded[:1]:
        seen = paint(alone, tmp_path, number)
        assert seen == paint(never, tmp_path, number)
        assert seen != paint(pdf, tmp_path, number)


def test_a_reader_lists_the_sizes_first(tmp_path: Path) -> None:
    with pikepdf.open(io.BytesIO(written("front-row-skirt"))) as pdf:
        shown = [str(group.Name) for group in pdf.Root.OCProperties.D.Order]
    assert shown[:8] == [f"size P0{k}" for k in range(1, 9)]
    assert shown[8:] == ["cutting lines", "stitching lines", "marks", "text"]


@pytest.mark.parametrize("stem", STEMS)
def test_all_sizes_take_at_most_three_times_the_bytes_of_one(stem: str) -> None:
    assert bare(written(stem)) <= 3 * bare(pdf_bytes(one_size(stem).document))


def bare(pdf: bytes) -> int:
    """Return the bytes of a file without those of its fonts."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        fonts = sum(
            len(one.read_raw_bytes()) for one in opened.objects
            if isinstance(one, pikepdf.Stream) and "/Length1" in one
        )  # fmt: skip
    assert fonts
    return len(pdf) - fonts


def test_the_same_sheet_gives_the_same_bytes() -> None:
    again = printed(
        drafting.draft(drafting.load(SHEETS / "promenade-skirt.toml")),
        PaperName.A4,
        effort=Effort.QUICK,
    )
    assert pdf_bytes(again.document) == written("promenade-skirt")
