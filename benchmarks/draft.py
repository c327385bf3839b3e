"""How long one draft takes, warm, without any rendering: python benchmarks/draft.py

Every example sheet is read once and drafted again and again; caches are emptied between, as
for a new wearer. Times are in milliseconds, and as ratios to a floor measured in the same run:
a thousand points on a circle, worked out in plain Python.
"""

import math
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import drafting
from drafting import cloth, gathered, gored, levelled, outline, piece, splits, tilted
from drafting.errors import DraftingError

HERE = Path(__file__).resolve().parent
SHEETS = HERE.parent / "measurements_examples"

PLAIN, SOLVED, LAID = 5.0, 30.0, 200.0
"""Aims in milliseconds: for plain circles, for drafts that solve a curve, and for those whose
panels do not fit their cloth, so that several ways of dividing them are laid."""

SOLVES = ("character-skirt", "signal-skirt", "box-office-skirt")
LAYS = ("finale-skirt",)


def spent(action: Callable[[], object], times: int) -> float:
    """Return the median time that an action takes, in milliseconds."""
    found = []
    for _ in range(times):
        empty_caches()
        begin = time.perf_counter()
        action()
        found.append((time.perf_counter() - begin) * 1000)
    return statistics.median(found)


def empty_caches() -> None:
    """Forget what earlier drafts left behind, so that each is worked out anew."""
    piece.cutting_line.cache_clear()
    cloth.panel_width.cache_clear()
    splits.panels_length.cache_clear()
    splits.corners.cache_clear()
    outline.outline_of.cache_clear()
    levelled.line_of.cache_clear()
    gathered.line_of.cache_clear()
    gored.lean_at_waist.cache_clear()
    tilted.solved.cache_clear()


def floor() -> None:
    """Do the work that times are compared with."""
    for k in range(1000):
        math.cos(k / 1000), math.sin(k / 1000)


def main() -> None:
    """Print a line for each example sheet; end with 1 if an aim is missed."""
    unit = spent(floor, 200)
    missed = False
    print(f"floor {unit:.3f} ms")
    for sheet in sorted(SHEETS.glob("*.toml")):
        spec = drafting.load(sheet)
        try:
            took = spent(partial(drafting.draft, spec), 40)
        except DraftingError as error:
            print(f"{sheet.stem}: {error}")
            continue
        aim = SOLVED if sheet.stem in SOLVES else LAID if sheet.stem in LAYS else PLAIN
        missed |= took > aim
        print(f"{sheet.stem:26} {took:6.2f} ms  {took / unit:6.1f} x floor  aim {aim:g} ms")
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
