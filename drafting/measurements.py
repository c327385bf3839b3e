"""Which measures a body can have, and what to fill in for those not taken. Millimetres.

Knows nothing of sheets or files: measures come in by name, faults and findings go out.
The limits are classroom estimates, wide on purpose; a ``low`` to ``high`` refuses, a
``usual`` range only asks.
"""

import math
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from drafting.errors import Fault, quoted
from drafting.findings import Finding, Level
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

NAMES = {
    "waist": "waist",
    "hip": "hip",
    "hip_depth": "hip depth",
    "waist_to_knee": "waist to knee",
    "floor_front": "waist to floor in front",
    "floor_side": "waist to floor at the side",
    "floor_left": "waist to floor on the left",
    "floor_right": "waist to floor on the right",
    "floor_back": "waist to floor at the back",
    "height": "height",
    "heel": "heel",
    "step": "step",
}
"""Every measure of a body by its key, and how it is spoken of."""

SHOE_SHARE = 0.95
"""The body rises a little less than its heel, since it tips forward."""

FLOOR_LENGTHS = ("floor_front", "floor_side", "floor_left", "floor_right", "floor_back")

ADULT_HEIGHT: Mm = 1680.0
ADULT_STEP: Mm = 700.0
STEP_OF_HEIGHT = 0.42
"""One ordinary step as a part of the height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A measure that the sheet gives.

    Attributes:
        text: how the sheet writes it, or empty when it comes from the size the sheet names.
    """

    value: Mm
    text: str = ""


# "27.2 in" may come out a hair off; a limit itself is always allowed.
_HAIR: Mm = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a measure may be (``low`` to ``high``) and what most bodies have (``usual``), in mm."""

    usual_low: Mm
    usual_high: Mm
    low: Mm
    high: Mm

    def allow(self, value: Mm) -> bool:
        """Tell whether a body can have that measure; nan it cannot."""
        return self.low - _HAIR <= value <= self.high + _HAIR

    def expect(self, value: Mm) -> bool:
        """Tell whether most bodies have about that measure."""
        return self.usual_low - _HAIR <= value <= self.usual_high + _HAIR


def _limits(usual_low: Mm, usual_high: Mm, low: Mm, high: Mm) -> Limits:
    return Limits(usual_low=usual_low, usual_high=usual_high, low=low, high=high)


_ADULT_FLOOR, _CHILD_FLOOR = _limits(920, 1180, 780, 1350), _limits(440, 1000, 380, 1100)

# The heights are ours; the children's usual ones are those that the child's limits hold for.
_LIMITS = {
    Figure.ADULT: {
        "waist": _limits(560, 1250, 450, 1800),
        "hip": _limits(780, 1450, 650, 2000),
        "hip_depth": _limits(170, 240, 120, 300),
        "waist_to_knee": _limits(500, 660, 420, 760),
        **dict.fromkeys(FLOOR_LENGTHS, _ADULT_FLOOR),
        "height": _limits(1450, 2000, 1200, 2300),
        "heel": _limits(0, 100, 0, 180),
        "step": _limits(500, 800, 350, 1000),
    },
    Figure.CHILD: {
        "waist": _limits(460, 720, 400, 950),
        "hip": _limits(480, 920, 430, 1150),
        "hip_depth": _limits(90, 190, 70, 220),
        "waist_to_knee": _limits(240, 540, 180, 620),
        **dict.fromkeys(FLOOR_LENGTHS, _CHILD_FLOOR),
        "height": _limits(800, 1640, 700, 1800),
        "heel": _limits(0, 40, 0, 60),
        "step": _limits(250, 650, 200, 750),
    },
}
_HIP_LESS_WAIST = {
    Figure.ADULT: _limits(80, 400, -150, 600),
    Figure.CHILD: _limits(10, 260, -120, 350),
}
_FLOOR_SPREAD = {Figure.ADULT: _limits(0, 40, 0, 100), Figure.CHILD: _limits(0, 25, 0, 60)}
_FLOOR_OF_HEIGHT = (0.57, 0.67)
_KNEE_OF_HEIGHT = (0.30, 0.39)

# Half a tenth of a millimetre: "104 cm" may come out as 1039.9999….
_SAME: Mm = 0.05


def limits(measure: str, figure: Figure) -> Limits:
    """Return the limits of one measure of ``NAMES``."""
    return _LIMITS[figure][measure]


# --- what cannot be ------------------------------------------------------------------------


def measure_faults(
    known: Mapping[str, Given], *, figure: Figure, units: Units
) -> tuple[Fault, ...]:
    """Return what makes the measures impossible; the key of each fault is a measure's name.

    Args:
        known: the measures the sheet writes, and those of the size it names.
        units: in which lengths are told.
    """
    broken = {
        name: _range_fault(name, one, figure, units)
        for name, one in known.items()
        if one.text and not limits(name, figure).allow(one.value)
    }
    sound = {name: one for name, one in known.items() if name not in broken}
    return (*broken.values(), *_contradictions(sound, figure, units))


def _range_fault(name: str, one: Given, figure: Figure, units: Units) -> Fault:
    held = limits(name, figure)
    low, high = length_text(held.low, units), length_text(held.high, units)
    whose = "A child's" if figure is Figure.CHILD else "An adult's"
    allowed = f"{whose} {NAMES[name]} can be from {low} to {high}."
    return Fault(
        what=f"{name} is {_as_given(one, units)}.",
        allowed=f"{allowed} {_suspicion(name, one, held, units)}".strip(),
        key=name,
        given=one.text,
    )


def _as_given(one: Given, units: Units) -> str:
    """Return the measure as the sheet writes it, with its length when that adds something."""
    shown = length_text(one.value, units) if math.isfinite(one.value) else ""
    written = quoted(one.text)[1:-1]
    return written if _plain(written) == _plain(shown) else f"{written} ({shown})"


def _plain(text: str) -> str:
    return text.replace("\u00a0", " ").replace(".0 ", " ").replace(",", ".")


def _suspicion(name: str, one: Given, held: Limits, units: Units) -> str:
    """Return what probably went wrong, or nothing: a stride for a step, or the wrong unit."""
    if name == "step" and held.expect(one.value / 2):
        return "That looks like a stride, which is two steps: give the half of it."
    if meant := slip(one, held.usual_low, held.usual_high, units):
        unit = _SPOKEN[meant.rsplit(" ", 1)[1]]
        return f'The number would be right in {unit}: did you mean "{meant}"?'
    return ""


_SPOKEN = {"mm": "mm", "cm": "cm", "in": "inches"}
_IN_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_NUMBER_AND_UNIT = re.compile(r"\s*([\d.,/\s¼-¾⅐-⅞]+)(\D*)")


def slip(one: Given, usual_low: Mm, usual_high: Mm, units: Units) -> str | None:
    """Return the measure with the unit that was probably meant ("74 cm" for "74 mm"), or None.

    Args:
        units: what the number means when the text has no unit.
    """
    parts = _NUMBER_AND_UNIT.fullmatch(one.text)
    if parts is None:
        return None
    number, written = parts[1].strip(), _unit(parts[2].strip().lower(), units)
    if written is None:
        return None
    for meant, in_mm in _IN_MM.items():
        other = one.value * in_mm / _IN_MM[written]
        if meant != written and usual_low <= other <= usual_high:
            return f"{number} {meant}"
    return None


def _unit(text: str, bare: Units) -> str | None:
    if not text:
        return bare.value
    for unit, beginnings in {
        "mm": ("mm", "milli"),
        "cm": ("cm", "centi"),
        "in": ("in", '"', "″", "”", "''"),
    }.items():
        if text.startswith(beginnings):
            return unit
    return None


def _contradictions(known: Mapping[str, Given], figure: Figure, units: Units) -> Iterator[Fault]:
    side = "floor_left" if "floor_left" in known else "floor_side"
    for shorter, longer in (
        ("hip_depth", "waist_to_knee"),
        ("waist_to_knee", side),
        ("hip_depth", side),
    ):
        if _both(known, shorter, longer) and known[shorter].value >= known[longer].value:
            yield _contradiction(
                known,
                shorter,
                longer,
                f"The {NAMES[shorter]} ({_told(known, shorter, units)}) is not less than the"
                f" {NAMES[longer]} ({_told(known, longer, units)}).",
                "Take both again from the same elastic at the waist.",
            )
    if _both(known, "hip", "waist"):
        more = known["hip"].value - known["waist"].value
        held = _HIP_LESS_WAIST[figure]
        if not held.allow(more):
            yield _contradiction(
                known,
                "waist",
                "hip",
                f"The hip ({_told(known, 'hip', units)}) and the waist"
                f" ({_told(known, 'waist', units)}) are too far apart for one body.",
                f"The hip can be up to {length_text(-held.low, units)} less or"
                f" {length_text(held.high, units)} more.",
            )
    yield from _spread_fault(known, figure, units)


def _spread_fault(known: Mapping[str, Given], figure: Figure, units: Units) -> Iterator[Fault]:
    floors = _written_floors(known)
    if len(floors) > 1:
        short, long = min(floors, key=floors.__getitem__), max(floors, key=floors.__getitem__)
        most = _FLOOR_SPREAD[figure].high
        if not floors[long] - floors[short] <= most + _SAME:
            yield _contradiction(
                known,
                short,
                long,
                f"The {NAMES[long]} ({_told(known, long, units)}) and the {NAMES[short]}"
                f" ({_told(known, short, units)}) are too far apart for one body.",
                f"They may differ by {length_text(most, units)}.",
            )


def _contradiction(
    known: Mapping[str, Given], first: str, second: str, what: str, allowed: str
) -> Fault:
    """Return a fault blamed on the second measure, or on the first if the sheet writes only it."""
    key = second if known[second].text else first
    return Fault(what=what, allowed=allowed, key=key, given=known[key].text)


def _both(known: Mapping[str, Given], first: str, second: str) -> bool:
    """Tell whether both are known and the sheet itself writes one of them."""
    return first in known and second in known and bool(known[first].text or known[second].text)


def _told(known: Mapping[str, Given], name: str, units: Units) -> str:
    return length_text(known[name].value, units)


def _written_floors(known: Mapping[str, Given]) -> dict[str, Mm]:
    return {name: known[name].value for name in FLOOR_LENGTHS if name in known and known[name].text}


# --- what is worth asking ------------------------------------------------------------------


def measure_findings(
    known: Mapping[str, Given], *, figure: Figure, units: Units, accept: Collection[str]
) -> tuple[Finding, ...]:
    """Return a caution for each measure, or pair of measures, worth taking again.

    Args:
        known: measures without a fault: those the sheet writes and those of the size it names.
        accept: measures that are right all the same; nothing is asked about them.
    """
    asked = [
        _unusual(name, one, figure, units)
        for name, one in known.items()
        if one.text and name not in accept and not limits(name, figure).expect(one.value)
    ]
    odd = [
        _caution("measure-odd", what, do)
        for names, what, do in _oddities(known, figure, units)
        if not any(name in accept for name in names)
    ]
    return (*asked, *odd)


def _caution(code: str, what: str, do: str) -> Finding:
    return Finding(level=Level.CAUTION, code=code, what=what, do=do)


def _unusual(name: str, one: Given, figure: Figure, units: Units) -> Finding:
    held = limits(name, figure)
    low, high = _range(held.usual_low, held.usual_high, units)
    whose, most = ("The child's", "children") if figure is Figure.CHILD else ("Your", "adults")
    told = length_text(one.value, units)
    again = "Measure again"
    if meant := slip(one, held.usual_low, held.usual_high, units):
        again = f'Measure again, or write "{meant}" if you meant that'
    return _caution(
        "measure-unusual",
        f"{whose} {NAMES[name]} is {told}; most {most} have {low} to {high}.",
        f'{again}; if it is right, add "{name}" to accept under [wearer].',
    )


def _range(low: Mm, high: Mm, units: Units) -> tuple[str, str]:
    """Return both ends as text, the unit on the second only."""
    return length_text(low, units).rsplit("\u00a0", 1)[0], length_text(high, units)


_Oddity = tuple[tuple[str, ...], str, str]


def _oddities(known: Mapping[str, Given], figure: Figure, units: Units) -> Iterator[_Oddity]:
    if _both(known, "hip", "waist"):
        yield from _hip_oddity(known, figure, units)
    floors = _written_floors(known)
    spread = max(floors.values()) - min(floors.values()) if floors else 0.0
    usual = _FLOOR_SPREAD[figure].usual_high
    if spread > usual + _SAME:
        yield (
            tuple(floors),
            f"The lengths from waist to floor differ by {length_text(spread, units)};"
            f" most differ by {length_text(usual, units)} at most.",
            "Measure them again with the weight on both feet; if they are right, add one of"
            " them to accept under [wearer].",
        )
    side = "floor_left" if "floor_left" in known else "floor_side"
    yield from _height_oddity(known, side, _FLOOR_OF_HEIGHT, units)
    yield from _height_oddity(known, "waist_to_knee", _KNEE_OF_HEIGHT, units)


def _hip_oddity(known: Mapping[str, Given], figure: Figure, units: Units) -> Iterator[_Oddity]:
    hip, waist = known["hip"].value, known["waist"].value
    held = _HIP_LESS_WAIST[figure]
    do = 'Measure both again; if they are right, add "hip" to accept under [wearer].'
    if hip < waist:
        yield (
            ("hip", "waist"),
            f"The hip ({length_text(hip, units)}) is less than the waist"
            f" ({length_text(waist, units)}).",
            do,
        )
    elif not held.expect(hip - waist):
        low, high = _range(held.usual_low, held.usual_high, units)
        yield (
            ("hip", "waist"),
            f"The hip is {length_text(hip - waist, units)} more than the waist; most are"
            f" {low} to {high} more.",
            do,
        )


def _height_oddity(
    known: Mapping[str, Given], name: str, parts: tuple[float, float], units: Units
) -> Iterator[_Oddity]:
    if not ("height" in known and name in known and known[name].text):
        return
    height, value = known["height"].value, known[name].value
    if not parts[0] * height < value < parts[1] * height:
        low, high = _range(parts[0] * height, parts[1] * height, units)
        yield (
            (name, "height"),
            f"The {NAMES[name]} is {length_text(value, units)}; at a height of"
            f" {length_text(height, units)} it is mostly {low} to {high}.",
            f'Measure both again; if they are right, add "{name}" to accept under [wearer].',
        )


# --- what was not measured -----------------------------------------------------------------


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
            _caution(
                "measure-estimated",
                f"{listed} {verb} not measured; {are} only estimated, from {source},"
                " and children differ.",
                "Measure the child before you cut, and write the measures under [wearer].",
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
        if abs(size.waist - waist) < _SAME:
            return f"size {size.name}"
    low, high = neighbours(waist)
    if waist < low.waist:
        return f"below {low.name}, its smallest"
    if waist > high.waist:
        return f"above {high.name}, its largest"
    return f"between {low.name} and {high.name}"
