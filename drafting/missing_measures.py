"""What is filled in for measures that were not taken. Millimetres.

They come from the size named, or by the waist from the sizes nearest; a child's are estimated.
"""

from collections.abc import Mapping

from drafting.findings import Finding, Level
from drafting.measurements import FLOOR_LENGTHS, NAMES, SAME
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
    verb, are = ("were", "they are") if len(missing) > 1 else ("was", "it is")
    waist = length_text(written["waist"], units)
    source = f"a waist of {waist}"
    if "height" in written:
        source += f" and a height of {length_text(written['height'], units)}"
    listed = _listed(missing)
    listed = listed[0].upper() + listed[1:]
    if figure is Figure.CHILD:
        if "height" in written:
            source = f"a height of {length_text(written['height'], units)}"
        return (
            Finding(
                level=Level.CAUTION,
                code="measure-estimated",
                what=f"{listed} {verb} not measured; {are} only estimated, from {source},"
                " and children differ.",
                do="Measure the child before you cut, and write the measures under [wearer].",
            ),
        )
    return (
        Finding(
            level=Level.NOTE,
            code="measure-estimated",
            what=f"{listed} {verb} not measured; {are} read from the size table for {source}"
            f" ({_where(written['waist'])}).",
            do="Measure what you can and write it under [wearer]; your own measures always win.",
        ),
    )


def _listed(missing: list[str]) -> str:
    floors = [name for name in missing if name in FLOOR_LENGTHS]
    names = [NAMES[name] for name in missing if name not in floors]
    names += ["the lengths from waist to floor"] if len(floors) > 1 else [NAMES[f] for f in floors]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _where(waist: Mm) -> str:
    """Return which sizes a waist is read from."""
    for size in size_table():
        if abs(size.waist - waist) < SAME:
            return f"size {size.name}"
    low, high = neighbours(waist)
    if waist < low.waist:
        return f"below {low.name}, its smallest"
    if waist > high.waist:
        return f"above {high.name}, its largest"
    return f"between {low.name} and {high.name}"
