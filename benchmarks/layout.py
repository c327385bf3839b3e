"""How many pages each example takes, against the area bound: python benchmarks/layout.py"""

import math
import statistics
import sys
import time
from collections.abc import Sequence
from pathlib import Path

import drafting
from drafting.piece import Piece, cutting_box
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
    """Print a row a sheet and paper, then the median and the worst."""
    effort = Effort(sys.argv[1]) if len(sys.argv) > 1 else Effort.USUAL
    rows: list[tuple[float, float]] = []
    for sheet in sorted(SHEETS.glob("*.toml")):
        pattern = drafting.draft(drafting.load(sheet))
        pieces = [piece for piece in pattern.pieces if not piece.rectangle]
        for paper in (PaperName.A4, PaperName.LETTER):
            on = grid(paper, margin=None, overlap=10.0)
            rows.append(row(sheet.stem, pieces, on, effort))
    ratios, seconds = zip(*rows, strict=True)
    print(f"median {statistics.median(ratios):.3f}, worst {max(ratios):.2f} times the bound")
    print(f"median {statistics.median(seconds):.2f} s, worst {max(seconds):.2f} s")


if __name__ == "__main__":
    main()
