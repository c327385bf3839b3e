"""What the sizes of a table may be, each by itself and one after the other. Millimetres.

Lines of a CSV come in as they were read, faults go out. The limits are classroom estimates,
wide on purpose: what they stop is a slip of the pen, of a column or of a unit.

- A step of the waist is 15 to 120 mm, a child's 10 to 60. Smaller steps differ by less than a
  waist does in a day; over larger ones a skirt fits nobody in between.
- The hip grows too, by 150 mm a step at most.
- It is never less than the waist, nor over 400 mm more, a child's 260: beyond that two columns
  have changed places, or one is in another unit.
- Lengths never fall, and rise by 30 mm (hip depth), 60 mm (to the knee) and 100 mm (to the
  floor) a step at most, the stature by 160: children's sizes go by 60 or 120 mm of it.
- The waist stands at between half and three quarters of the stature.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.errors import Fault, quoted
from drafting.half_scale import Scale
from drafting.measurements import NAMES, SAME, limits_of
from drafting.sizes import plain_name
from drafting.spec import Figure
from drafting.units import Mm, Units, length_text

LONGEST_NAME = 12

_NAME = re.compile(r"[A-Za-z0-9](?:[ ._-]?[A-Za-z0-9])*")
_FLOORS = ("floor_front", "floor_side", "floor_back")
_WAIST_STEP = {Figure.ADULT: (15.0, 120.0), Figure.CHILD: (10.0, 60.0)}
_HIP_OVER_WAIST = {Figure.ADULT: 400.0, Figure.CHILD: 260.0}
_MOST_HIP_STEP: Mm = 150.0
_MOST_RISE: Mapping[str, Mm] = {
    "hip_depth": 30.0,
    "waist_to_knee": 60.0,
    **dict.fromkeys(_FLOORS, 100.0),
    "height": 160.0,
}
_SIDE_OF_HEIGHT = (0.5, 0.75)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a size table, as far as it could be read.

    Attributes:
        line: its number in the file, from 1.
        name: the size's name as it is written.
        measures: lengths by column, those that could not be read left out.
        named: whether the name could be read.
    """

    line: int
    name: str
    measures: Mapping[str, Mm]
    named: bool = True


# --- each size by itself -------------------------------------------------------------------


def line_faults(line: Line, figure: Figure, units: Units) -> list[Fault]:
    """Return what is wrong with one size: its name, a measure, or two that contradict."""
    faults = [*_name_faults(line), *_range_faults(line, figure, units)]
    wrong = {fault.key for fault in faults}
    sound = {name: value for name, value in line.measures.items() if name not in wrong}
    return [*faults, *_contradictions(sound, line.line, figure, units)]


def _name_faults(line: Line) -> Iterator[Fault]:
    if not line.named:
        return
    name = line.name
    if not name:
        what = "The size has no name."
    elif len(name) > LONGEST_NAME:
        what = f"size is {quoted(name)}, which is {len(name)} characters long."
    elif not _NAME.fullmatch(name):
        what = f"size is {quoted(name)}, which is no plain name."
    else:
        return
    allowed = (
        f"A size's name stands in files and on layers: up to {LONGEST_NAME} letters from A to Z and"
        " figures, single spaces, hyphens or points between them."
    )
    yield Fault(what=what, allowed=allowed, key="size", given=name, line=line.line)


def _range_faults(line: Line, figure: Figure, units: Units) -> Iterator[Fault]:
    body = limits_of(figure, Scale.FULL)
    for name, value in line.measures.items():
        held = body.measures[name]
        if not held.allow(value):
            low, high = length_text(held.low, units), length_text(held.high, units)
            allowed = f"{body.whose} {NAMES[name]} can be from {low} to {high}."
            yield _fault(name, value, line.line, units, ".", allowed)


def _contradictions(
    known: Mapping[str, Mm], line: int, figure: Figure, units: Units
) -> Iterator[Fault]:
    yield from _hip_contradiction(known, line, figure, units)
    for longer in _FLOORS:
        yield from _not_shorter(known, "waist_to_knee", longer, line, units)
    yield from _not_shorter(known, "hip_depth", "waist_to_knee", line, units)
    floors = {name: known[name] for name in _FLOORS if name in known}
    spread = limits_of(figure, Scale.FULL).floor_spread
    if floors and not spread.allow(max(floors.values()) - min(floors.values())):
        low, high = min(floors, key=floors.__getitem__), max(floors, key=floors.__getitem__)
        less = f", {length_text(floors[high] - floors[low], units)} less than {high}."
        allowed = f"They can differ by {length_text(spread.high, units)}."
        yield _fault(low, floors[low], line, units, less, allowed)
    if "height" in known and "floor_side" in known:
        least, most = (part * known["height"] for part in _SIDE_OF_HEIGHT)
        if not least <= known["floor_side"] <= most:
            of = f" at a height of {length_text(known['height'], units)}."
            allowed = f"It can be from {length_text(least, units)} to {length_text(most, units)}."
            yield _fault("floor_side", known["floor_side"], line, units, of, allowed)


def _hip_contradiction(
    known: Mapping[str, Mm], line: int, figure: Figure, units: Units
) -> Iterator[Fault]:
    if "waist" not in known or "hip" not in known:
        return
    more = known["hip"] - known["waist"]
    most = _HIP_OVER_WAIST[figure]
    waist = f"the waist of {length_text(known['waist'], units)}"
    if more < -SAME:
        allowed = "Have two columns changed places?"
        yield _fault("hip", known["hip"], line, units, f", less than {waist}.", allowed)
    elif more > most + SAME:
        told = f", {length_text(more, units)} more than {waist}."
        allowed = f"It can be {length_text(most, units)} more."
        yield _fault("hip", known["hip"], line, units, told, allowed)


def _not_shorter(
    known: Mapping[str, Mm], shorter: str, longer: str, line: int, units: Units
) -> Iterator[Fault]:
    if shorter in known and longer in known and known[shorter] >= known[longer]:
        told = f", no less than {longer}, which is {length_text(known[longer], units)}."
        yield _fault(shorter, known[shorter], line, units, told, "Have they changed places?")


# --- one after the other -------------------------------------------------------------------


def table_faults(
    lines: Sequence[Line], figure: Figure, units: Units, *, whole: bool
) -> list[Fault]:
    """Return what is wrong between sizes: names alike, and steps that no sizes have.

    Args:
        whole: whether each size is sound by itself, so that what is lacking is not unread.
    """
    faults = list(_names_alike(lines))
    for low, high in pairwise(lines):
        for name in high.measures:
            if name in low.measures:
                faults += _step_faults(name, low, high, figure, units)
    if len(lines) < 2 and whole:
        what = "There is no size." if not lines else "There is one size alone."
        allowed = "A table has two or more, smallest first: measures are read between them."
        faults.append(Fault(what=what, allowed=allowed, line=lines[0].line if lines else 0))
    return faults


def _names_alike(lines: Sequence[Line]) -> Iterator[Fault]:
    plain = [plain_name(line.name) for line in lines]
    count = Counter(plain)
    for at, (line, name) in enumerate(zip(lines, plain, strict=True)):
        if name and count[name] > 1 and name in plain[:at]:
            first = lines[plain.index(name)]
            yield Fault(
                what=f"size {quoted(line.name)} is called as the one in line {first.line} is,"
                f" {quoted(first.name)}.",
                allowed="Capitals, spaces and hyphens tell no sizes apart.",
                key="size",
                given=line.name,
                line=line.line,
            )


def _step_faults(name: str, low: Line, high: Line, figure: Figure, units: Units) -> Iterator[Fault]:
    step = high.measures[name] - low.measures[name]
    before = f"the {length_text(low.measures[name], units)} of line {low.line}"
    least, most = _steps(name, figure)
    if step <= SAME and name in ("waist", "hip"):
        what = f", no more than {before}."
        allowed = "Waist and hip grow from size to size: the smallest stands first."
    elif step < -SAME:
        what, allowed = f", less than {before}.", "Lengths stay or grow from size to size."
    elif not least - SAME <= step <= most + SAME:
        what = f", {length_text(step, units)} more than {before}."
        allowed = f"A step can be up to {length_text(most, units)}."
        if least:
            ends = length_text(least, units), length_text(most, units)
            allowed = f"A step can be from {ends[0]} to {ends[1]}."
    else:
        return
    yield _fault(name, high.measures[name], high.line, units, what, allowed)


def _steps(name: str, figure: Figure) -> tuple[Mm, Mm]:
    """Return the least and the most that a measure grows by."""
    if name == "waist":
        return _WAIST_STEP[figure]
    return 0.0, _MOST_HIP_STEP if name == "hip" else _MOST_RISE[name]


def _fault(name: str, value: Mm, line: int, units: Units, what: str, allowed: str) -> Fault:
    given = length_text(value, units)
    return Fault(what=f"{name} is {given}{what}", allowed=allowed, key=name, given=given, line=line)
