"""What is filled in for measures that were not taken. Millimetres.

They come from the size named, or by the waist from the sizes nearest; a child's are estimated,
unless the sheet has a size table of its own.
"""

from collections.abc import Mapping

from drafting.findings import Finding, Level
from drafting.language import listed, say, say_counted
from drafting.measurements import FLOOR_LENGTHS, SAME, measure_words
from drafting.sizes import (
    MEASURES,
    Size,
    SizeTable,
    child_height,
    child_measures,
    for_height,
    measures_for_waist,
    neighbours,
    project_table,
)
from drafting.spec import Figure
from drafting.units import Mm, Units, length_text

ADULT_HEIGHT: Mm = 1680.0
ADULT_STEP: Mm = 700.0
STEP_OF_HEIGHT = 0.42
"""One ordinary step as a part of the height."""


def whole_body(
    written: Mapping[str, Mm],
    *,
    figure: Figure,
    size: Size | None = None,
    table: SizeTable | None = None,
) -> dict[str, Mm]:
    """Return every measure a draft needs: those written, the others from the size or by waist.

    Args:
        written: at least a waist, unless a size is named; the measures here always win.
        table: the sheet's own size table; None for the project's.

    Raises:
        KeyError: neither a waist nor a size is given.
    """
    height = written.get("height")
    if size is not None:
        found = for_height(size, height)
    elif figure is Figure.CHILD and table is None:
        found = child_measures(written["waist"], height)
    else:
        found = measures_for_waist(written["waist"], height, table)
    body = {name: getattr(found, name) for name in MEASURES}
    body.update(written)
    if "floor_left" in written and "floor_right" in written:
        body["floor_side"] = (written["floor_left"] + written["floor_right"]) / 2
    body.setdefault("heel", 0.0)
    of_table = found.height if table is not None else None
    if "height" not in body:
        guess = ADULT_HEIGHT if figure is Figure.ADULT else child_height(body["waist"])
        body["height"] = guess if of_table is None else of_table
    if "step" not in body:
        known_height = (height or of_table) is not None or figure is Figure.CHILD
        body["step"] = STEP_OF_HEIGHT * body["height"] if known_height else ADULT_STEP
    return body


_ESTIMATED = ("hip", "hip_depth", "waist_to_knee", "floor_front", "floor_side", "floor_back")


def estimate_findings(
    written: Mapping[str, Mm],
    *,
    figure: Figure,
    size: Size | None,
    units: Units,
    table: SizeTable | None = None,
) -> tuple[Finding, ...]:
    """Return the remark that tells which measures were not taken, and what they come from.

    A named size is what was asked for, and needs none.

    Args:
        table: the sheet's own size table; None for the project's.
    """
    missing = [name for name in _ESTIMATED if name not in written]
    if "floor_left" in written and "floor_right" in written and "floor_side" in missing:
        missing.remove("floor_side")
    if not missing:
        return ()
    unused = _height_unused(missing, written, units, table)
    if size is not None:
        return unused
    child = figure is Figure.CHILD
    # The measures begin an English sentence and end a French one.
    if table is not None:
        told = _read_from_own(missing, written, units, table)
    else:
        told = _not_measured(missing, written, units, child=child)
    what = told[0].upper() + told[1:]
    if child:
        return (
            Finding(
                level=Level.CAUTION,
                code="measure-estimated",
                what=what,
                do=say("Measure the child before you cut, and write the measures under [wearer]."),
            ),
            *unused,
        )
    return (
        Finding(
            level=Level.NOTE,
            code="measure-estimated",
            what=what,
            do=say(
                "Measure what you can and write it under [wearer]; your own measures always win."
            ),
        ),
        *unused,
    )


def _height_unused(
    missing: list[str], written: Mapping[str, Mm], units: Units, table: SizeTable | None
) -> tuple[Finding, ...]:
    """Return a note where a height is written that an own table has no use for."""
    if table is None or table.has_heights or "height" not in written or missing == ["hip"]:
        return ()
    height = length_text(written["height"], units)
    return (
        Finding(
            level=Level.NOTE,
            code="height-unused",
            what=say(
                "Your own size table has no column for the height: its lengths are used as they"
                " are, whatever the height of {height}.",
                height=height,
            ),
            do=say(
                "Add a column height to the table, or measure the lengths and write them under"
                " [wearer]."
            ),
        ),
    )


def _not_measured(
    missing: list[str], written: Mapping[str, Mm], units: Units, *, child: bool
) -> str:
    """Return which measures were not taken, and what they come from instead."""
    count, measures = len(missing), _listed(missing)
    waist = length_text(written["waist"], units)
    height = length_text(written["height"], units) if "height" in written else ""
    if child and height:
        return say_counted(
            "{measures} was not measured; it is only estimated, from a height of {height}, and"
            " children differ.",
            "{measures} were not measured; they are only estimated, from a height of {height}, and"
            " children differ.",
            count,
            measures=measures,
            height=height,
        )
    if child:
        return say_counted(
            "{measures} was not measured; it is only estimated, from a waist of {waist}, and"
            " children differ.",
            "{measures} were not measured; they are only estimated, from a waist of {waist}, and"
            " children differ.",
            count,
            measures=measures,
            waist=waist,
        )
    if height:
        return say_counted(
            "{measures} was not measured; it is read from the size table for a waist of {waist}"
            " and a height of {height} ({sizes}).",
            "{measures} were not measured; they are read from the size table for a waist of"
            " {waist} and a height of {height} ({sizes}).",
            count,
            measures=measures,
            waist=waist,
            height=height,
            sizes=_where(written["waist"]),
        )
    return say_counted(
        "{measures} was not measured; it is read from the size table for a waist of {waist}"
        " ({sizes}).",
        "{measures} were not measured; they are read from the size table for a waist of {waist}"
        " ({sizes}).",
        count,
        measures=measures,
        waist=waist,
        sizes=_where(written["waist"]),
    )


def _read_from_own(
    missing: list[str], written: Mapping[str, Mm], units: Units, table: SizeTable
) -> str:
    """Return which measures were not taken, and where in the sheet's own table they stand."""
    count, measures = len(missing), _listed(missing)
    waist, sizes = length_text(written["waist"], units), _where(written["waist"], table)
    if "height" in written and table.has_heights:
        return say_counted(
            "{measures} was not measured; it is read from your own size table for a waist of"
            " {waist} and a height of {height} ({sizes}).",
            "{measures} were not measured; they are read from your own size table for a waist of"
            " {waist} and a height of {height} ({sizes}).",
            count,
            measures=measures,
            waist=waist,
            height=length_text(written["height"], units),
            sizes=sizes,
        )
    return say_counted(
        "{measures} was not measured; it is read from your own size table for a waist of {waist}"
        " ({sizes}).",
        "{measures} were not measured; they are read from your own size table for a waist of"
        " {waist} ({sizes}).",
        count,
        measures=measures,
        waist=waist,
        sizes=sizes,
    )


def _listed(missing: list[str]) -> str:
    floors = [name for name in missing if name in FLOOR_LENGTHS]
    names = [measure_words(name) for name in missing if name not in floors]
    if len(floors) > 1:
        names.append(say("the lengths from waist to floor"))
    else:
        names += [measure_words(name) for name in floors]
    return listed(names)


def _where(waist: Mm, table: SizeTable | None = None) -> str:
    """Return which sizes a waist is read from."""
    for size in (table or project_table()).sizes:
        if abs(size.waist - waist) < SAME:
            return say("size {size}", size=size.name)
    low, high = neighbours(waist, table)
    if waist < low.waist:
        return say("below {size}, its smallest", size=low.name)
    if waist > high.waist:
        return say("above {size}, its largest", size=high.name)
    return say("between {low} and {high}", low=low.name, high=high.name)
