"""Reads a spec sheet: text in, a ``Spec`` out, or every fault of the sheet at once.

Lengths come out in millimetres. The keys are in ``sheet_models`` and what they may
hold in ``sheet_values`` (pydantic, loaded when a sheet is read), lines and slips of the pen in
``toml_places``, the defaults in ``sheet_defaults``. Here it all comes together.
"""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.errors import Fault, SheetError
from drafting.measurements import NAMES, Given, measure_faults
from drafting.sheet_defaults import UNTITLED, made_spec
from drafting.sizes import Size, for_height, size_named
from drafting.spec import Figure, Spec
from drafting.toml_places import line_of, places, read_tables
from drafting.units import Units

if TYPE_CHECKING:
    from drafting.sheet_models import SheetTable, WearerTable
    from drafting.sheet_values import Context

MOST_BYTES = 1_000_000

_Path = tuple[str, ...]
_Faults = list[tuple[_Path, Fault]]


# --- reading -------------------------------------------------------------------------------


def load(path: Path) -> Spec:
    """Return the spec in a file; its stem is the title of a sheet that has none.

    Raises:
        OSError: the file cannot be read.
        SheetError: it is no sheet, or has faults.
    """
    return read_sheet(load_text(path), name=path.name, title_if_none=path.stem)


def load_text(path: Path) -> str:
    """Return the text of a sheet's file, for a caller that reads it with changes.

    Raises:
        OSError: the file cannot be read.
        SheetError: it is too long, or not UTF-8.
    """
    with path.open("rb") as file:
        return _decoded(file.read(MOST_BYTES + 1), path.name)


def _decoded(data: bytes, name: str) -> str:
    if len(data) > MOST_BYTES:
        what = "The file is over 1 MB, far more than a spec sheet holds."
        raise SheetError(name, (Fault(what=what, allowed="Is it the right file?"),))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        fault = Fault(
            what="This line holds letters that are not UTF-8.",
            allowed='Save the sheet again with the encoding "UTF-8".',
            line=error.object[: error.start].count(b"\n") + 1,
        )
        raise SheetError(name, (fault,)) from None


def read_sheet(text: str, *, name: str = "sheet", title_if_none: str = UNTITLED) -> Spec:
    """Return the spec that a sheet's text asks for.

    Args:
        name: how the sheet is called in messages.
        title_if_none: the title of a sheet that gives none.

    Raises:
        SheetError: the sheet has faults; all are told, in the order of its lines.
    """
    reading = read_tables(text)
    spec, faults = _spec_or_faults(reading.tables, title_if_none, partial=bool(reading.slips))
    if spec is not None and not reading.slips:
        return spec
    found = places(reading.text)
    slipped = {slip.line for slip in reading.slips}
    placed = [replace(fault, line=line_of(path, found)) for path, fault in faults]
    kept = [fault for fault in placed if fault.line not in slipped]
    raise SheetError(name, tuple(sorted([*reading.slips, *kept], key=lambda fault: fault.line)))


def sheet_tables(text: str, *, name: str = "sheet") -> dict[str, Any]:
    """Return the bare tables of a sheet, for a caller that changes keys and reads them again.

    Raises:
        SheetError: some line cannot be read.
    """
    reading = read_tables(text)
    if reading.slips:
        raise SheetError(name, reading.slips)
    return reading.tables


def spec_from_tables(
    tables: Mapping[str, Any], *, name: str = "sheet", title_if_none: str = UNTITLED
) -> Spec:
    """Return the spec that the tables of a sheet ask for; its faults have no lines.

    Raises:
        SheetError: the tables have faults; all are told.
    """
    spec, faults = _spec_or_faults(tables, title_if_none, partial=False)
    if spec is None:
        raise SheetError(name, tuple(fault for _, fault in faults))
    return spec


def _spec_or_faults(
    tables: Mapping[str, Any], title: str, *, partial: bool
) -> tuple[Spec | None, _Faults]:
    """Return the spec, or None and the faults.

    ``partial`` tables lack lines that could not be read: nothing is said to be missing.
    """
    from drafting import sheet_models

    context = _context(tables)
    sheet, told, unread = sheet_models.read(tables, context)
    faults = list(told)
    figure = sheet.wearer.figure or Figure.ADULT
    size = size_named(sheet.wearer.size) if sheet.wearer.size and figure is Figure.ADULT else None
    known = _known_measures(sheet.wearer, tables, size)
    if ("wearer", "figure") not in unread:
        faults += [
            (("wearer", fault.key), replace(fault, key=f"wearer.{fault.key}"))
            for fault in measure_faults(known, figure=figure, units=context.shown)
        ]
    faults += _half_given_floor(sheet.wearer, unread)
    faults += _two_lengths(sheet)
    if sheet.wearer.size and figure is Figure.CHILD:
        faults.append(_grown_size(sheet.wearer.size))
    if not partial:
        faults += _missing(sheet, unread)
    if faults or partial:
        return None, faults
    return made_spec(sheet, known, size, context.shown, title), []


def _context(tables: Mapping[str, Any]) -> "Context":
    """Return how the sheet's numbers are read: its ``units``, looked at before all else."""
    from drafting.sheet_values import Context, near

    if "units" not in tables:
        return Context()
    given = tables["units"]
    word = " ".join(given.split()).lower() if isinstance(given, str) else ""
    if word in tuple(Units):
        return Context(bare=Units(word), shown=Units(word))
    nearest = near(word, tuple(Units))
    return Context(shown=Units(nearest) if nearest else Units.CM, unsure=True)


def _known_measures(
    wearer: "WearerTable", tables: Mapping[str, Any], size: Size | None
) -> dict[str, Given]:
    """Return the measures that the sheet writes and, behind them, those of its size."""
    from drafting.sheet_values import measure_text

    written = {
        key: Given(value=value, text=measure_text(tables["wearer"][key]))
        for key in NAMES
        if (value := getattr(wearer, key)) is not None
    }
    if size is None:
        return written
    sized = for_height(size, wearer.height)
    return {
        key: written[key] if key in written else Given(value=getattr(sized, key))
        for key in NAMES
        if key in written or hasattr(sized, key)
    }


# --- what only the whole sheet can tell ----------------------------------------------------


def _missing(sheet: "SheetTable", unread: frozenset[_Path]) -> _Faults:
    faults: _Faults = []
    wearer = sheet.wearer
    faulty = {("wearer",), ("wearer", "waist"), ("wearer", "size")} & unread
    if wearer.waist is None and not wearer.size and not faulty:
        faults.append((
            ("wearer", "waist"),
            Fault(
                what="The sheet gives neither a waist nor a size.",
                allowed='Write waist = "74 cm", or size = "P05", under [wearer].',
                key="wearer.waist",
            ),
        ))  # fmt: skip
    given = sheet.model_fields_set
    if "ruffle" in given and "lining" not in given and not {("ruffle",), ("lining",)} & unread:
        faults.append((
            ("ruffle",),
            Fault(
                what="A ruffle is sewn to a lining, and the sheet has none.",
                allowed="Add the line [lining], or take [ruffle] out.",
                key="ruffle",
            ),
        ))  # fmt: skip
    return faults


def _two_lengths(sheet: "SheetTable") -> _Faults:
    """Return a fault for a length beside a level hem, which is a length too."""
    if sheet.skirt.length is None or sheet.skirt.hem_above_floor is None:
        return []
    fault = Fault(
        what="hem_above_floor is given beside length.",
        allowed="Give length for one length all round, or hem_above_floor for a level hem.",
        key="skirt.hem_above_floor",
    )
    return [(("skirt", "hem_above_floor"), fault)]


def _half_given_floor(wearer: "WearerTable", unread: frozenset[_Path]) -> _Faults:
    """Return a fault for one side given without the other, or beside ``floor_side``."""
    left, right, both = wearer.floor_left, wearer.floor_right, wearer.floor_side
    if {("wearer", key) for key in ("floor_left", "floor_right", "floor_side")} & unread:
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
    return [(("wearer", key), Fault(what=what, allowed=allowed, key=f"wearer.{key}"))]


def _grown_size(size: str) -> tuple[_Path, Fault]:
    fault = Fault(
        what=f"size {size} is an adult's, and the figure is a child.",
        allowed="Give the child's waist, and height if you have it, in place of the size.",
        key="wearer.size",
        given=size,
    )
    return ("wearer", "size"), fault
