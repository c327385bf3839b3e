"""How many pages each example takes, against the area bound: python benchmarks/layout.py"""

import time
from pathlib import Path

import drafting
from drafting.spec import PaperName
from render.paper import grid
from render.placement import place
from render.tiling import cut_into_pages

SHEETS = Path(__file__).resolve().parent.parent / "measurements_examples"


def main() -> None:
    """Print pages, bound, their ratio and the seconds of the search, a row a sheet and paper."""
    for sheet in sorted(SHEETS.glob("*.toml")):
        pattern = drafting.draft(drafting.load(sheet))
        pieces = [piece for piece in pattern.pieces if not piece.rectangle]
        for paper in (PaperName.A4, PaperName.LETTER):
            on = grid(paper, margin=None, overlap=10.0)
            began = time.perf_counter()
            sheets = cut_into_pages(place(pieces, on), on)
            took = time.perf_counter() - began
            pages, bound = len(sheets.tiles), sheets.lower_bound
            print(
                f"{sheet.stem:24} {paper.value:7} {pages:3} pages, bound {bound:3},"
                f" {pages / bound:.2f} times, {took:.2f} s"
            )


if __name__ == "__main__":
    main()
