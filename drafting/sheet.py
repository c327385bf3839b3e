"""Reads a spec sheet: text in, a ``Spec`` out, or every fault of the sheet at once.

Lengths come out in millimetres. The keys are in ``sheet_models`` and what they may
hold in ``sheet_values``, ``sheet_words`` and ``sheet_texts`` (pydantic, loaded when a sheet is
read), what only the whole sheet can tell in ``sheet_checks`` and ``skirt_checks``, lines and
slips of the pen in ``toml_places``, the defaults in ``sheet_defaults`` and ``skirt_defaults``.
Here it all comes together.
"""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.errors import Fault, SheetError
from drafting.graded_sheet import (
    asks_for_sizes,
    for_size,
    graded,
    one_body_faults,
    scope_faults,
    with_those_of_sizes,
)
from drafting.half_scale import Scale
from drafting.language import Language, speaking
from drafting.measure_checks import measure_faults
from drafting.measurements import NAMES, Given
from drafting.missing_measures import whole_body
from drafting.own_sizes import MOST_BYTES as MOST_TABLE_BYTES
from drafting.own_sizes import Beside, KeyFault, own_table
from drafting.sheet_checks import Faults, Reading, sheet_faults
from drafting.sheet_defaults import UNTITLED, made_spec, written_measures
from drafting.sheet_told import Context, measure_text, near
from drafting.sizes import MEASURES, Size, SizeTable, for_height, size_named
from drafting.skirt_checks import skirt_faults
from drafting.spec import Figure, Spec
from drafting.toml_places import line_of, places, read_tables
from drafting.units import Mm, Units

if TYPE_CHECKING:
    from drafting.sheet_models import WearerTable

MOST_BYTES = 1_000_000


# --- reading -------------------------------------------------------------------------------


def load(path: Path) -> Spec:
    """Return the spec in a file; its stem is the title of a sheet that has none.

    Raises:
        OSError: the file cannot be read.
        SheetError: it is no sheet, or has faults.
    """
    text = load_text(path)
    return read_sheet(text, name=path.name, title_if_none=path.stem, beside=beside(path))


def beside(sheet: Path) -> Beside:
    """Return a way to read what lies beside a sheet's file, or in a folder below it."""
    folder = sheet.parent

    def found(name: str) -> bytes:
        path = folder / name
        # A link may lead anywhere, and a pipe never ends.
        if path.exists() and not path.resolve().is_relative_to(folder.resolve()):
            raise PermissionError(13, "it leads out of the sheet's folder", str(path))
        if path.exists() and not path.is_file() and not path.is_dir():
            raise OSError(22, "it is no file", str(path))
        with path.open("rb") as file:
            return file.read(MOST_TABLE_BYTES + 1)

    return found


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


def read_sheet(
    text: str,
    *,
    name: str = "sheet",
    title_if_none: str = UNTITLED,
    beside: Beside | None = None,
) -> Spec:
    """Return the spec that a sheet's text asks for.

    Args:
        name: how the sheet is called in messages.
        title_if_none: the title of a sheet that gives none.
        beside: a way to read a file by its path from the sheet's folder, for the size table of
            a sheet that has its own; ``beside(path)`` here is one for a sheet's file.

    Raises:
        SheetError: the sheet has faults; all are told, in the order of its lines. Or its own
            size table has, and those are told.
    """
    reading = read_tables(text)
    spec, faults = _spec_or_faults(
        reading.tables, title_if_none, beside, partial=bool(reading.slips)
    )
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
    tables: Mapping[str, Any],
    *,
    name: str = "sheet",
    title_if_none: str = UNTITLED,
    beside: Beside | None = None,
) -> Spec:
    """Return the spec that the tables of a sheet ask for; its faults have no lines.

    Raises:
        SheetError: the tables have faults; all are told.
    """
    spec, faults = _spec_or_faults(tables, title_if_none, beside, partial=False)
    if spec is None:
        raise SheetError(name, tuple(fault for _, fault in faults))
    return spec


def size_table_of(
    tables: Mapping[str, Any], *, text: str, name: str = "sheet", beside: Beside | None = None
) -> SizeTable | None:
    """Return the size table that a sheet has of its own, or None.

    Raises:
        SheetError: the sheet's ``text`` leads to no table, or the table has faults.
    """
    with speaking(Language.ENGLISH):
        try:
            return own_table(tables, beside, _context(tables))
        except KeyFault as error:
            line = line_of((error.fault.key,), places(text))
            raise SheetError(name, (replace(error.fault, line=line),)) from None


def _spec_or_faults(
    tables: Mapping[str, Any], title: str, beside: Beside | None, *, partial: bool
) -> tuple[Spec | None, Faults]:
    """Return the spec, or None and the faults, which are English as the sheet's keys are.

    ``partial`` tables lack lines that could not be read: nothing is said to be missing.
    """
    with speaking(Language.ENGLISH):
        context = _context(tables)
        try:
            # Without its table a sheet's sizes mean nothing: no more is said of such a sheet.
            context = replace(context, table=own_table(tables, beside, context))
        except KeyFault as error:
            return None, [((error.fault.key,), error.fault)]
        if asks_for_sizes(tables):
            return _read_graded(tables, title, context, partial=partial)
        return _read(tables, title, context, partial=partial)


def _language(tables: Mapping[str, Any]) -> Language:
    """Return the language a sheet asks for; English where it asks for none that is spoken."""
    publish = tables.get("publish")
    wanted = publish.get("language") if isinstance(publish, Mapping) else None
    return Language(wanted) if wanted in tuple(Language) else Language.ENGLISH


def _read(
    tables: Mapping[str, Any], title: str, context: Context, *, partial: bool
) -> tuple[Spec | None, Faults]:
    from drafting import sheet_models

    table = context.table
    sheet, told, unread = sheet_models.read(tables, context)
    reading = Reading(
        sheet=sheet,
        tables=tables,
        unread=unread,
        units=context.shown,
        partial=partial,
        size_table=table,
    )
    figure = sheet.wearer.figure or Figure.ADULT
    sized = sheet.wearer.size and (figure is Figure.ADULT or table is not None)
    size = size_named(sheet.wearer.size or "", table) if sized else None
    known = _known_measures(sheet.wearer, tables, size)
    faults = [*told, *_body_faults(reading, known, figure)]
    body = (
        None if any(path[0] == "wearer" for path, _ in faults) else _body(sheet.wearer, size, table)
    )
    faults += sheet_faults(reading)
    faults += skirt_faults(reading, body)
    if faults or partial:
        return None, faults
    with speaking(_language(tables)):
        return made_spec(sheet, known, size, context, title), []


def _read_graded(
    tables: Mapping[str, Any], title: str, context: Context, *, partial: bool
) -> tuple[Spec | None, Faults]:
    """Return the spec of a sheet that asks for several sizes, or None and its faults.

    What is wrong in every size is told once, what is wrong in one of them with its name.
    """
    from drafting import sheet_models

    sheet, own, _ = sheet_models.read(tables, context)
    sizes = sheet.publish.sizes or ()
    read = {name: _read(for_size(tables, name), title, context, partial=partial) for name in sizes}
    faults = with_those_of_sizes(list(own), {name: found for name, (_, found) in read.items()})
    faults += [*scope_faults(sheet.print.scope), *one_body_faults(tables)]
    if faults or partial:
        return None, faults
    with speaking(_language(tables)):
        return graded(tuple(spec for spec, _ in read.values() if spec), tables), []


def _body_faults(reading: Reading, known: Mapping[str, Given], figure: Figure) -> Faults:
    """Return what no body can have, unless whose body it is could not be read."""
    if not reading.sound("wearer", "figure") or not reading.sound("scale"):
        return []
    scale = reading.sheet.scale or Scale.FULL
    return [
        (("wearer", fault.key), replace(fault, key=f"wearer.{fault.key}"))
        for fault in measure_faults(known, figure=figure, units=reading.units, scale=scale)
    ]


def _body(
    wearer: "WearerTable", size: Size | None, table: SizeTable | None
) -> Mapping[str, Mm] | None:
    """Return every measure of the body, or None while neither waist nor size is known."""
    if wearer.waist is None and size is None:
        return None
    figure = wearer.figure or Figure.ADULT
    return whole_body(written_measures(wearer), figure=figure, size=size, table=table)


def _context(tables: Mapping[str, Any]) -> Context:
    """Return how the sheet's numbers are read: its ``units``, looked at before all else."""
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
        if key in written or key in MEASURES
    }
