"""How many pages each example takes, against the area bound: python benchmarks/layout.py"""

import math
import statistics
import sys
import time
from collections.abc import Sequence
from pathlib import Path

import drafting
from drafting.geometry import Arc, Line, Point
from drafting.piece import Edge, Piece, cutting_box
from drafting.spec import PaperName
from render.paper import Grid, grid
from render.placement import Effort, place
from render.tiling import cut_into_pages

SHEETS = Path(__file__).resolve().parent.parent / "measurements_examples"


def boxed(pieces: Sequence[Piece], on: Grid) -> int:
    """Return the pages of every piece laid in its own box on a corner of its own first page."""
    total = 0
    for piece in pieces:
        box = cutting_box(piece)
        across = max(1, math.ceil((box.width - on.overlap) / on.step_x))
        total += across * max(1, math.ceil((box.height - on.overlap) / on.step_y))
    return total


def sector(inner: float, outer: float, degrees: float) -> Piece:
    """Return a sector of a ring, without allowances."""
    angle, centre = math.radians(degrees), Point(0, 0)
    c, s = math.cos(angle), math.sin(angle)
    paths: dict[str, Line | Arc] = {
        "side": Line(start=Point(inner, 0), end=Point(outer, 0)),
        "hem": Arc(centre=centre, radius=outer, begin=0.0, finish=angle),
        "other side": Line(start=Point(outer * c, outer * s), end=Point(inner * c, inner * s)),
        "waist": Arc(centre=centre, radius=inner, begin=angle, finish=0.0),
    }
    return Piece(
        name="sector",
        edges=tuple(Edge(name=name, path=(path,), allowance=0) for name, path in paths.items()),
        grainline=(Point(inner + 10, 5), Point(outer - 10, 5)),
        cloth="skirt",
        count=1,
    )


def row(title: str, pieces: Sequence[Piece], on: Grid, effort: Effort) -> tuple[float, float]:
    """Print a row of the table; return pages over bound, and the seconds of the search."""
    began = time.perf_counter()
    placements = place(pieces, on, effort=effort)
    took = time.perf_counter() - began
    sheets = cut_into_pages(placements, on)
    pages, bound = len(sheets.tiles), sheets.lower_bound
    print(
        f"{title:24} {on.paper.name.value:7} {pages:3} pages, bound {bound:3},"
        f" {pages / bound:.2f} times, boxes {boxed(pieces, on):3}, {took:.2f} s",
        flush=True,
    )
    return pages / bound, took


def main() -> None:
    """Print a row a sheet and paper, and for sectors alone, then median and worst."""
    effort = Effort(sys.argv[1]) if len(sys.argv) > 1 else Effort.USUAL
    rows: list[tuple[float, float]] = []
    for sheet in sorted(SHEETS.glob("*.toml")):
        pattern = drafting.draft(drafting.load(sheet))
        pieces = [piece for piece in pattern.pieces if not piece.rectangle]
        for paper in (PaperName.A4, PaperName.LETTER):
            on = grid(paper, margin=None, overlap=10.0)
            rows.append(row(sheet.stem, pieces, on, effort))
    for margin, overlap in ((10.0, 0.0), (None, 10.0)):
        for inner, outer, degrees in ((115.0, 770.0, 90.0), (230.0, 830.0, 180.0)):
            for paper in (PaperName.A4, PaperName.LETTER):
                on = grid(paper, margin=margin, overlap=overlap)
                title = f"{degrees:g} degrees, overlap {overlap:g}"
                row(title, [sector(inner, outer, degrees)], on, effort)
    ratios, seconds = zip(*rows, strict=True)
    print(f"median {statistics.median(ratios):.3f}, worst {max(ratios):.2f} times the bound")
    print(f"median {statistics.median(seconds):.2f} s, worst {max(seconds):.2f} s")


if __name__ == "__main__":
    main()
