"""What only the whole sheet can tell: keys that are missing, doubled, or belong to another cut.

Looks at tables that ``sheet_models`` has read; loads no pydantic itself. The skirt's own keys
are looked at in ``skirt_checks``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from drafting.errors import Fault
from drafting.sheet_told import either, shown, told
from drafting.sizes import SizeTable
from drafting.skirt_defaults import LEAST_FULLNESS, MOST_FULLNESS
from drafting.spec import CutKind, Figure
from drafting.units import Mm, Units, length_text

if TYPE_CHECKING:
    from drafting.sheet_models import SheetTable

Path: TypeAlias = tuple[str, ...]
Faults: TypeAlias = list[tuple[Path, Fault]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A sheet as far as it could be read.

    Attributes:
        sheet: what could be read.
        tables: what the sheet writes, read or not.
        unread: paths whose values, or whose very names, could not be read.
        units: in which lengths are told.
        partial: lines are lacking that could not be read at all.
        size_table: the sheet's own size table; None for the project's.
    """

    sheet: "SheetTable"
    tables: Mapping[str, Any]
    unread: frozenset[Path]
    units: Units
    partial: bool
    size_table: SizeTable | None = None

    def raw(self, *path: str) -> object:
        """Return the value that the sheet writes there, or None."""
        value: object = self.tables
        for name in path:
            value = value.get(name) if isinstance(value, Mapping) else None
        return value

    def written(self, *path: str) -> bool:
        """Tell whether the sheet writes that key, be it readable or not."""
        value: object = self.tables
        for name in path:
            if not isinstance(value, Mapping) or name not in value:
                return False
            value = value[name]
        return True

    def sound(self, *path: str) -> bool:
        """Tell whether nothing that could not be read stands there or above."""
        return not any(path[:end] in self.unread for end in range(1, len(path) + 1))

    def lacks(self, *path: str) -> bool:
        """Tell whether the sheet leaves the key out for certain.

        It may only seem so where a line cannot be read, or where the table has an unknown key
        that may be this one misspelt.
        """
        if self.partial or self.written(*path) or not self.sound(*path):
            return False
        table: Any = self.sheet
        for name in path[:-1]:
            table = getattr(table, name)
        known = type(table).model_fields
        return not any(one[:-1] == path[:-1] and one[-1] not in known for one in self.unread)

    def length(self, value: Mm) -> str:
        """Return a length as messages tell it."""
        return length_text(value, self.units)

    def fault(self, path: Path, what: str, allowed: str) -> tuple[Path, Fault]:
        """Return a fault of the value at ``path``."""
        value = self.raw(*path)
        given = "" if value is None else shown(value)
        return path, Fault(what=what, allowed=allowed, key=".".join(path), given=given)


def sheet_faults(reading: Reading) -> Faults:
    """Return the faults that show between keys, those of the skirt's own table left out."""
    return [
        *_missing(reading),
        *_half_given_floor(reading),
        *_grown_size(reading),
        *_lining_faults(reading),
    ]


# --- the wearer ----------------------------------------------------------------------------


def _missing(reading: Reading) -> Faults:
    if reading.partial:
        return []
    faults: Faults = []
    wearer = reading.sheet.wearer
    readable = reading.sound("wearer", "waist") and reading.sound("wearer", "size")
    if wearer.waist is None and not wearer.size and readable:
        faults.append(
            reading.fault(
                ("wearer", "waist"),
                "The sheet gives neither a waist nor a size.",
                f'Write waist = "74 cm", or size = "{_a_size(reading)}", under [wearer].',
            )
        )
    if reading.written("ruffle") and reading.sound("ruffle") and reading.lacks("lining"):
        path, fault = reading.fault(
            ("ruffle",),
            "A ruffle is sewn to a lining, and the sheet has none.",
            "Add the line [lining], or take [ruffle] out.",
        )
        faults.append((path, fault))
    return faults


def _a_size(reading: Reading) -> str:
    return reading.size_table.names[0] if reading.size_table else "P05"


def _half_given_floor(reading: Reading) -> Faults:
    """Return a fault for one side given without the other, or beside ``floor_side``."""
    wearer = reading.sheet.wearer
    left, right, both = wearer.floor_left, wearer.floor_right, wearer.floor_side
    sides = ("floor_left", "floor_right", "floor_side")
    if not all(reading.sound("wearer", key) for key in sides):
        return []
    if left is None and right is None:
        return []
    key = "floor_left" if left is not None else "floor_right"
    if both is not None:
        what = f"{key} is given beside floor_side."
    elif left is None or right is None:
        what = f"{key} is given alone."
    else:
        return []
    allowed = "Give floor_left and floor_right, or floor_side for both."
    return [reading.fault(("wearer", key), what, allowed)]


def _grown_size(reading: Reading) -> Faults:
    wearer = reading.sheet.wearer
    if not wearer.size or wearer.figure is not Figure.CHILD or reading.size_table is not None:
        return []
    return [
        reading.fault(
            ("wearer", "size"),
            f"size {wearer.size} is an adult's, and the figure is a child.",
            "Give the child's waist, and height if you have it, in place of the size.",
        )
    ]


# --- cuts ----------------------------------------------------------------------------------


def cut_in(reading: Reading, layer: str) -> CutKind | None:
    """Return how the skirt or the lining is cut, or None while that cannot be known."""
    table = reading.sheet.skirt if layer == "skirt" else reading.sheet.lining
    if table.cut is not None:
        return table.cut
    return CutKind.CIRCLE if reading.lacks(layer, "cut") else None


def foreign_keys(reading: Reading, layer: str, homes: Mapping[str, tuple[CutKind, ...]]) -> Faults:
    """Return a fault for each key of a layer that belongs to another cut.

    Args:
        homes: the cuts that each key belongs to.
    """
    cut = cut_in(reading, layer)
    if cut is None:
        return []
    return [
        reading.fault(
            (layer, key),
            f"{key} belongs to cut = {either(tuple(home.value for home in cuts))}.",
            f'This {layer} is cut = "{cut.value}": take {key} out, or change the cut.',
        )
        for key, cuts in homes.items()
        if cut not in cuts and reading.written(layer, key)
    ]


def fullness_faults(reading: Reading, layer: str, gored: tuple[float, float]) -> Faults:
    """Return a fault for a fullness that the layer's cut cannot have.

    Args:
        gored: from how many circles to how many a gored layer may flare.
    """
    table = reading.sheet.skirt if layer == "skirt" else reading.sheet.lining
    if table.fullness is None:
        return []
    cut = cut_in(reading, layer)
    circle = (LEAST_FULLNESS, MOST_FULLNESS)
    either_cut = (min(gored[0], circle[0]), max(gored[1], circle[1]))
    ranges = {CutKind.CIRCLE: circle, CutKind.GORED: gored, None: either_cut}
    if cut not in ranges:
        return []
    low, high = ranges[cut]
    if low <= table.fullness <= high:
        return []
    whose = f"For a gored {layer} it" if cut is CutKind.GORED else "It"
    words = ', such as 0.5 or a word such as "half"'
    return [
        reading.fault(
            (layer, "fullness"),
            f"fullness is {told(reading.raw(layer, 'fullness'))}.",
            f"{whose} can be from {low:g} to {high:g} circles{words}.",
        )
    ]


def _lining_faults(reading: Reading) -> Faults:
    circle, gored = (CutKind.CIRCLE,), (CutKind.GORED,)
    return [
        *foreign_keys(reading, "lining", {"gores": gored, "shaped": gored, "panels": circle}),
        *fullness_faults(reading, "lining", gored=(0.05, 2.0)),
    ]
