"""What is filled in for measures that were not taken. Millimetres.

They come from the size named, or by the waist from the sizes nearest; a child's are estimated.
"""

from collections.abc import Mapping

from drafting.findings import Finding, Level
from drafting.language import listed, say, say_counted
from drafting.measurements import FLOOR_LENGTHS, NAMES, SAME, measure_words
from drafting.sizes import (
    Size,
    child_height,
    child_measures,
    for_height,
    measures_for_waist,
    neighbours,
    size_table,
)
from drafting.spec import Figure
from drafting.units import Mm, Units, length_text

ADULT_HEIGHT: Mm = 1680.0
ADULT_STEP: Mm = 700.0
STEP_OF_HEIGHT = 0.42
"""One ordinary step as a part of the height."""


def whole_body(
    written: Mapping[str, Mm], *, figure: Figure, size: Size | None = None
) -> dict[str, Mm]:
    """Return every measure a draft needs: those written, the others from the size or by waist.

    Args:
        written: at least a waist, unless a size is named; the measures here always win.

    Raises:
        KeyError: neither a waist nor a size is given.
    """
    height = written.get("height")
    if size is not None:
        found = for_height(size, height)
    elif figure is Figure.CHILD:
        found = child_measures(written["waist"], height)
    else:
        found = measures_for_waist(written["waist"], height)
    body = {name: getattr(found, name) for name in NAMES if hasattr(found, name)}
    body.update(written)
    if "floor_left" in written and "floor_right" in written:
        body["floor_side"] = (written["floor_left"] + written["floor_right"]) / 2
    body.setdefault("heel", 0.0)
    body.setdefault(
        "height", ADULT_HEIGHT if figure is Figure.ADULT else child_height(body["waist"])
    )
    if "step" not in body:
        known_height = height is not None or figure is Figure.CHILD
        body["step"] = STEP_OF_HEIGHT * body["height"] if known_height else ADULT_STEP
    return body


_ESTIMATED = ("hip", "hip_depth", "waist_to_knee", "floor_front", "floor_side", "floor_back")


def estimate_findings(
    written: Mapping[str, Mm], *, figure: Figure, size: Size | None, units: Units
) -> tuple[Finding, ...]:
    """Return the remark that tells which measures were not taken, and what they come from.

    A named size is what was asked for, and needs none.
    """
    missing = [name for name in _ESTIMATED if name not in written]
    if "floor_left" in written and "floor_right" in written and "floor_side" in missing:
        missing.remove("floor_side")
    if size is not None or not missing:
        return ()
    child = figure is Figure.CHILD
    # The measures begin an English sentence and end a French one.
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


def _listed(missing: list[str]) -> str:
    floors = [name for name in missing if name in FLOOR_LENGTHS]
    names = [measure_words(name) for name in missing if name not in floors]
    if len(floors) > 1:
        names.append(say("the lengths from waist to floor"))
    else:
        names += [measure_words(name) for name in floors]
    return listed(names)


def _where(waist: Mm) -> str:
    """Return which sizes a waist is read from."""
    for size in size_table():
        if abs(size.waist - waist) < SAME:
            return say("size {size}", size=size.name)
    low, high = neighbours(waist)
    if waist < low.waist:
        return say("below {size}, its smallest", size=low.name)
    if waist > high.waist:
        return say("above {size}, its largest", size=high.name)
    return say("between {low} and {high}", low=low.name, high=high.name)
