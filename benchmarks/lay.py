"""How much cloth each lay takes: python benchmarks/lay.py [quick|usual|thorough] [against [S]]

Prints each plan's length over the area bound and over rows of boxes, and how long it took. With
``against``, the packing solver is also let run three times, S seconds each (20), on the same
polygons, and the plan's length is told over the best of these runs; cloths are then of their
sheet's own width alone, a quarter of an hour in all.
"""

import math
import statistics
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import drafting
from drafting.cloth import usable_width
from drafting.cloth.in_rows import copies
from drafting.cloth.laying import lay_of
from drafting.cloth.lays import Lay
from drafting.cloth.shapes import Shape, shapes
from drafting.effort import Effort
from drafting.geometry import flattened
from drafting.pattern import Pattern
from drafting.spec import Cloth

SHEETS = Path(__file__).resolve().parent.parent / "measurements_examples"

WIDTHS = (None, 1120.0, 1500.0, 2800.0)
"""The sheet's own, and others that the trade sells."""


def drafts(widths: Sequence[float | None] = WIDTHS) -> list[tuple[str, str, Pattern]]:
    """Return every example at several widths, where there is something to pack."""
    found = []
    for sheet in sorted(SHEETS.glob("*.toml")):
        spec = drafting.load(sheet)
        for name in ("skirt", "lining"):
            for width in widths:
                cloth: Cloth = getattr(spec.cloths, name)
                if width is not None and (abs(width - cloth.width) < 50 or name == "lining"):
                    continue
                of = cloth if width is None else replace(cloth, width=width)
                cloths = replace(spec.cloths, **{name: replace(of, fold=False)})
                pattern = drafting.draft(replace(spec, cloths=cloths))
                cut = shapes(pattern, name) if pattern.pieces else ()
                if sum(shape.count for shape in cut) > 1:
                    title = f"{sheet.stem} {name} {of.width / 10:.0f}"
                    found.append((title, name, pattern))
    return found


def packed(cut: tuple[Shape, ...], width: float, seconds: int, seed: int) -> float:
    """Return the length that the solver comes to in so many seconds, on polygons as exact."""
    import spyrrow

    items = []
    for k, shape in enumerate(cut):
        for flipped in sorted(set(copies(shape))):
            points = flattened(shape.lying(flipped=flipped), outside=True, error=0.5)[:-1]
            turns = [math.degrees(turn) for turn in shape.turns]
            count = copies(shape).count(flipped)
            items.append(spyrrow.Item(f"{k} {flipped}", [(*p,) for p in points], count, turns))
    strip = spyrrow.StripPackingInstance("lay", width, items)
    config = spyrrow.StripPackingConfig(total_computation_time=seconds, num_workers=2, seed=seed)
    return float(strip.solve(config).width)


def measured(title: str, pattern: Pattern, name: str, effort: Effort, against: int) -> list[float]:
    """Print a row; return the ratios to the bound and to rows, the seconds, and to the solver."""
    of: Cloth = getattr(pattern.spec.cloths, name)
    cut = shapes(pattern, name)
    began = time.perf_counter()
    plan: Lay = lay_of(cut, name, of, effort, units=pattern.spec.units)
    took = time.perf_counter() - began
    found = [plan.length / plan.lower_bound, plan.length / plan.rows_length, took]
    told = (
        f"{title:32} {len(plan.laid):3} pieces, {plan.length:7.0f} mm, {found[0]:.2f} of the bound,"
        f" {found[1]:.2f} of rows, {took:5.2f} s, {plan.method.value}"
    )
    if against:
        best = plan.length
        try:
            best = min(packed(cut, usable_width(of), against, seed) for seed in (11, 12, 13))
        except BaseException as error:
            # The solver panics at a shape as wide as the cloth; no plan of its is better then.
            if isinstance(error, KeyboardInterrupt):
                raise
            told += f" ({type(error).__name__})"
        found.append(plan.length / best)
        told += f", {found[3]:.3f} of the solver's best"
    print(told, flush=True)
    return found


def main() -> None:
    """Print a row a lay, then the median and the worst of each figure."""
    words = sys.argv[1:]
    against = 0
    if "against" in words:
        at = words.index("against")
        against = int(words[at + 1]) if at + 1 < len(words) else 20
        words = words[:at]
    effort = Effort(words[0]) if words else Effort.THOROUGH
    # Against minutes of the solver, each cloth is laid at its own width alone.
    widths = WIDTHS[:1] if against else WIDTHS
    rows = [
        measured(title, pattern, name, effort, against) for title, name, pattern in drafts(widths)
    ]
    names = ("of the bound", "of rows", "seconds", "of the solver's best")
    for name, figures in zip(names, zip(*rows, strict=True), strict=False):
        print(f"{name}: median {statistics.median(figures):.3f}, worst {max(figures):.3f}")
    print(f"{len(rows)} lays")


if __name__ == "__main__":
    main()
