"""Size tables, and measures read between their sizes. Millimetres.

Imports the standard library and ``drafting.units`` only. The project's table beside this file
is in centimetres, for women of 168 cm; it is nobody's standard. Where a sheet names a table of
its own (``own_sizes``), that one is handed on as ``table``.
"""

import csv
from bisect import bisect_right
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from drafting.units import Mm

TABLE_HEIGHT: Mm = 1680.0
"""Stature of the wearers of the project's table."""

MEASURES = (
    "waist",
    "hip",
    "hip_depth",
    "waist_to_knee",
    "floor_front",
    "floor_side",
    "floor_back",
)
"""What a size tells of a body, its stature left out."""

CHILD_HEIGHTS: tuple[Mm, Mm] = (800.0, 1640.0)
"""Statures between which a child's is looked for when only a waist is known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """The measures of one size, in mm; floor lengths are barefoot.

    Attributes:
        name: name in the table, or empty for measures read between two sizes.
        height: stature that the lengths belong to, or None where it is not known.
    """

    name: str = ""
    waist: Mm
    hip: Mm
    hip_depth: Mm
    waist_to_knee: Mm
    floor_front: Mm
    floor_side: Mm
    floor_back: Mm
    height: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeTable:
    """A table of sizes, smallest first; two or more.

    Attributes:
        file: the reader's own file, as the sheet names it; empty for the project's table.
    """

    sizes: tuple[Size, ...]
    file: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the sizes, smallest first."""
        return tuple(size.name for size in self.sizes)

    @property
    def has_heights(self) -> bool:
        """Whether it is known for each size which stature its lengths belong to."""
        return all(size.height is not None for size in self.sizes)

    def name_of(self, written: str) -> str:
        """Return the name of a size as the table has it, or an empty text if it has none such.

        Case, spaces, hyphens, points and underscores do not matter.
        """
        wanted = plain_name(written)
        return next((name for name in self.names if plain_name(name) == wanted), "")


def plain_name(name: str) -> str:
    """Return a size's name as it is compared: its letters and figures, in small letters."""
    return "".join(c for c in name.lower() if c.isalnum())


# What 80 mm of stature add; girths stay. Source: the stature rule of the size table.
_PER_80_MM = {
    "hip_depth": 8.0,
    "waist_to_knee": 28.0,
    "floor_front": 50.0,
    "floor_side": 50.0,
    "floor_back": 50.0,
}

# Two children of our own making, between whom a child's missing measures are estimated.
_SMALL_CHILD_HEIGHT, _TALL_CHILD_HEIGHT = 1040.0, 1640.0
_SMALL_CHILD = Size(
    waist=530.0,
    hip=580.0,
    hip_depth=115.0,
    waist_to_knee=320.0,
    floor_front=600.0,
    floor_side=610.0,
    floor_back=605.0,
)
_TALL_CHILD = Size(
    waist=660.0,
    hip=860.0,
    hip_depth=185.0,
    waist_to_knee=560.0,
    floor_front=1000.0,
    floor_side=1015.0,
    floor_back=1005.0,
)


@cache
def project_table() -> SizeTable:
    """Return the project's own table."""
    with Path(__file__).with_name("size_table.csv").open(encoding="utf-8", newline="") as table:
        return SizeTable(
            sizes=tuple(
                Size(
                    name=row["size"],
                    height=TABLE_HEIGHT,
                    # A tenth of a millimetre is finer than the table; it undoes
                    # 19.6 * 10 = 196.00…3.
                    **{name: round(float(row[name]) * 10, 1) for name in MEASURES},
                )
                for row in csv.DictReader(table)
            )
        )


def size_table() -> tuple[Size, ...]:
    """Return the sizes of the project's table, smallest first."""
    return project_table().sizes


def size_named(name: str, table: SizeTable | None = None) -> Size:
    """Return the size called ``name``, of the project's table unless another is given.

    Raises:
        KeyError: the table holds no such size.
    """
    for size in (table or project_table()).sizes:
        if size.name == name:
            return size
    raise KeyError(name)


def neighbours(waist: Mm, table: SizeTable | None = None) -> tuple[Size, Size]:
    """Return the two sizes that a waist is read between.

    A waist beyond either end is read by going on from the two sizes nearest to it.
    """
    sizes = (table or project_table()).sizes
    waists = [size.waist for size in sizes]
    upper = min(max(bisect_right(waists, waist), 1), len(sizes) - 1)
    return sizes[upper - 1], sizes[upper]


def measures_for_waist(waist: Mm, height: Mm | None = None, table: SizeTable | None = None) -> Size:
    """Return the measures read from a table by waist, and by height when it is known."""
    for size in (table or project_table()).sizes:
        if size.waist == waist:
            return for_height(size, height)
    low, high = neighbours(waist, table)
    between = _between(low, high, (waist - low.waist) / (high.waist - low.waist))
    return for_height(replace(between, waist=waist), height)


def for_height(size: Size, height: Mm | None) -> Size:
    """Return ``size`` for a wearer of that height; girths stay as they are.

    A size of which no stature is known stays as it is.
    """
    if height is None or size.height is None or height == size.height:
        return size
    steps = (height - size.height) / 80.0
    longer = {name: getattr(size, name) + more * steps for name, more in _PER_80_MM.items()}
    return replace(size, height=height, **longer)


def child_height(waist: Mm) -> Mm:
    """Return a child's height estimated from the waist: a guess, held within 80 to 164 cm."""
    share = (waist - _SMALL_CHILD.waist) / (_TALL_CHILD.waist - _SMALL_CHILD.waist)
    guess = _SMALL_CHILD_HEIGHT + share * (_TALL_CHILD_HEIGHT - _SMALL_CHILD_HEIGHT)
    return min(max(guess, CHILD_HEIGHTS[0]), CHILD_HEIGHTS[1])


def child_measures(waist: Mm, height: Mm | None = None) -> Size:
    """Return an estimate of a child's measures, from height if known and else from the waist.

    The waist is the one given; the hip is never less than it. An estimate, to be said so
    wherever it is shown: children of one height differ by more than sizes do.
    """
    tall = child_height(waist) if height is None else height
    share = (tall - _SMALL_CHILD_HEIGHT) / (_TALL_CHILD_HEIGHT - _SMALL_CHILD_HEIGHT)
    guess = _between(_SMALL_CHILD, _TALL_CHILD, share)
    return replace(guess, waist=waist, hip=max(guess.hip, waist))


def _between(low: Size, high: Size, share: float) -> Size:
    """Return the measures at ``share`` of the way from ``low`` (0) to ``high`` (1)."""
    height = None
    if low.height is not None and high.height is not None:
        height = low.height + share * (high.height - low.height)
    return Size(
        height=height,
        **{
            name: getattr(low, name) + share * (getattr(high, name) - getattr(low, name))
            for name in MEASURES
        },
    )
