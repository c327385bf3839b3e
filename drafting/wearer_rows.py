"""Many wearers of one sheet: a row of a table takes the place of the sheet's own wearer.

Imports the reading of sheets. The columns are the keys of ``[wearer]``; cells are text, read
as the sheet's own values are.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from drafting.errors import Fault, SheetError
from drafting.measurements import NAMES
from drafting.own_sizes import Beside
from drafting.sheet import read_sheet, sheet_tables, size_table_of, spec_from_tables
from drafting.sizes import SizeTable
from drafting.spec import Figure
from drafting.toml_places import line_of, places
from drafting.units import Units

COLUMNS = ("label", "size", *NAMES, "figure", "accept")
"""What a row may give, in the order of ``[wearer]``."""

MEASURES = tuple(NAMES)
"""Those of them that are lengths."""

_OF_THE_STAGE = ("heel", "step")
"""What a production asks of all its wearers alike: the shoes, and how they walk."""

_STAND_INS: Mapping[str, tuple[Mapping[str, str], ...]] = {
    Figure.ADULT: ({"size": "P01"}, {"size": "P05"}, {"size": "P12"}),
    Figure.CHILD: ({"waist": "54 cm"}, {"waist": "60 cm"}, {"waist": "66 cm"}),
}
"""Bodies to try a sheet on: what is wrong for all of them is wrong with the sheet."""


def with_wearer(tables: Mapping[str, Any], cells: Mapping[str, str]) -> dict[str, Any]:
    """Return a sheet's tables with the wearer of a row in place of their own.

    Measures of two bodies never meet in one draft: of the sheet's ``[wearer]`` a row is given
    only what it leaves empty of ``figure``, and, where that is the same, ``heel`` and ``step``.
    The rest that it leaves empty is read from the size table, as for any sheet.
    """
    own = tables.get("wearer")
    own = own if isinstance(own, Mapping) else {}
    wearer: dict[str, Any] = {key: cells[key] for key in COLUMNS if key in cells}
    if "accept" in wearer:
        wearer["accept"] = [part for part in re.split(r"[\s,;]+", cells["accept"]) if part]
    figure = own.get("figure")
    shares = "figure" not in wearer or wearer["figure"].lower() == (figure or Figure.ADULT)
    if figure is not None and "figure" not in wearer:
        wearer["figure"] = figure
    if shares:
        wearer = {**{key: own[key] for key in _OF_THE_STAGE if key in own}, **wearer}
    return {**tables, "wearer": wearer}


def tables_for_rows(
    text: str, *, name: str = "sheet", beside: Beside | None = None
) -> dict[str, Any]:
    """Return the tables of a sheet that many wearers are to be drafted by.

    Args:
        beside: a way to read a size table of its own.

    Raises:
        SheetError: a line cannot be read, it lists graded sizes, or it has faults that no
            wearer could mend; a wearer of its own need be neither there nor right.
    """
    tables = sheet_tables(text, name=name)
    publish = tables.get("publish")
    if isinstance(publish, Mapping) and publish.get("sizes"):
        fault = Fault(
            what="publish.sizes asks for several sizes, and a batch drafts one wearer a row.",
            allowed="Take it out of the sheet, or draft the sizes with: hemsweep draft",
            key="publish.sizes",
            line=line_of(("publish", "sizes"), places(text)),
        )
        raise SheetError(name, (fault,))
    table = size_table_of(tables, text=text, name=name, beside=beside)
    if faults := _faults_for_all(text, tables, name, beside, table):
        raise SheetError(name, faults)
    return tables


def _faults_for_all(
    text: str,
    tables: Mapping[str, Any],
    name: str,
    beside: Beside | None,
    table: SizeTable | None,
) -> tuple[Fault, ...]:
    """Return the faults that the sheet has whoever wears it, on their lines."""
    own = tables.get("wearer")
    figure = own.get("figure") if isinstance(own, Mapping) else None
    bodies = _STAND_INS.get(str(figure), _STAND_INS[Figure.ADULT])
    if table is not None:
        names = table.names
        bodies = tuple({"size": name} for name in (names[0], names[len(names) // 2], names[-1]))
    tried = [_faults(with_wearer(tables, body), name, beside) for body in bodies]
    alike = [fault for fault in tried[0] if all(_among(fault, others) for others in tried[1:])]
    if not alike:
        return ()
    placed = _placed(text, name, beside)
    found = [next((one for one in placed if _same(one, fault)), fault) for fault in alike]
    return tuple(sorted(found, key=lambda fault: fault.line))


def _faults(tables: Mapping[str, Any], name: str, beside: Beside | None) -> tuple[Fault, ...]:
    try:
        spec_from_tables(tables, name=name, beside=beside)
    except SheetError as error:
        return error.faults
    return ()


def _placed(text: str, name: str, beside: Beside | None) -> tuple[Fault, ...]:
    try:
        read_sheet(text, name=name, beside=beside)
    except SheetError as error:
        return error.faults
    return ()


def _same(one: Fault, other: Fault) -> bool:
    return (one.key, one.what) == (other.key, other.what)


def _among(fault: Fault, others: tuple[Fault, ...]) -> bool:
    return any(_same(fault, other) for other in others)


def units_of(tables: Mapping[str, Any]) -> Units:
    """Return the units in which a sheet without faults shows its results."""
    given = tables.get("units", Units.CM)
    return Units(" ".join(given.split()).lower())


def column_faults(error: SheetError) -> Iterator[tuple[str, str, str]]:
    """Yield the column, what is wrong and what would do, for each fault of a row's tables.

    The column is empty for what is no cell's own fault.
    """
    for fault in error.faults:
        table, _, key = fault.key.partition(".")
        # Lines are those of the sheet's own size table, which may be another figure's.
        place = f"{error.name}, line {fault.line}: " if fault.line else ""
        yield key if table == "wearer" else "", place + fault.what, fault.allowed
