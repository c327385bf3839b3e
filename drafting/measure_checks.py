"""Which measures cannot be, and which are worth taking again. Millimetres.

Measures come in by name, faults and findings go out.
"""

import math
import re
from collections.abc import Collection, Iterator, Mapping

from drafting.errors import Fault, quoted
from drafting.findings import Finding, Level
from drafting.half_scale import Scale
from drafting.language import said_later, say
from drafting.measurements import (
    FLOOR_LENGTHS,
    NAMES,
    SAME,
    BodyLimits,
    Given,
    Limits,
    limits_of,
    measure_words,
)
from drafting.spec import Figure
from drafting.units import Mm, Units, length_text

# --- what cannot be ------------------------------------------------------------------------


def measure_faults(
    known: Mapping[str, Given], *, figure: Figure, units: Units, scale: Scale = Scale.FULL
) -> tuple[Fault, ...]:
    """Return what makes the measures impossible; the key of each fault is a measure's name.

    Args:
        known: the measures the sheet writes, and those of the size it names.
        units: in which lengths are told.
    """
    body = limits_of(figure, scale)
    broken = {
        name: _range_fault(name, one, body, units)
        for name, one in known.items()
        if one.text and not body.measures[name].allow(one.value)
    }
    sound = {name: one for name, one in known.items() if name not in broken}
    return (*broken.values(), *_contradictions(sound, body, units))


def _range_fault(name: str, one: Given, body: BodyLimits, units: Units) -> Fault:
    held = body.measures[name]
    low, high = length_text(held.low, units), length_text(held.high, units)
    allowed = f"{body.whose} {NAMES[name]} can be from {low} to {high}."
    return Fault(
        what=f"{name} is {_as_given(one, units)}.",
        allowed=f"{allowed} {_suspicion(name, one, body, units)}".strip(),
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


def _suspicion(name: str, one: Given, body: BodyLimits, units: Units) -> str:
    """Return what probably went wrong, or nothing: a stride for a step, or the wrong unit."""
    held = body.measures[name]
    if body.doubled and held.allow(2 * one.value):
        return f"If that was measured on the form, write {length_text(2 * one.value, units)}."
    if name == "step" and held.expect(one.value / 2):
        return "That looks like a stride, which is two steps: give the half of it."
    said = []
    if meant := slip(one, held.usual_low, held.usual_high, units):
        unit = _SPOKEN[meant.rsplit(" ", 1)[1]]
        said.append(f'The number would be right in {unit}: did you mean "{meant}"?')
    child = limits_of(Figure.CHILD, Scale.FULL).measures[name]
    if body.whose == "An adult's" and one.value < held.low and child.allow(one.value):
        said.append('If it is a child, write figure = "child" under [wearer].')
    return " ".join(said)


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


def _contradictions(known: Mapping[str, Given], body: BodyLimits, units: Units) -> Iterator[Fault]:
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
        held = body.hip_less_waist
        if not held.allow(more):
            yield _contradiction(
                known,
                "waist",
                "hip",
                f"The hip ({_told(known, 'hip', units)}) and the waist"
                f" ({_told(known, 'waist', units)}) are too far apart for one body.",
                _hip_allowed(held, units),
            )
    yield from _spread_fault(known, body, units)


def _hip_allowed(held: Limits, units: Units) -> str:
    least, most = length_text(abs(held.low), units), length_text(held.high, units)
    if held.low < 0:
        return f"The hip can be up to {least} less or {most} more."
    return f"The hip can be {least} to {most} more."


def _spread_fault(known: Mapping[str, Given], body: BodyLimits, units: Units) -> Iterator[Fault]:
    floors = _written_floors(known)
    if len(floors) > 1:
        short, long = min(floors, key=floors.__getitem__), max(floors, key=floors.__getitem__)
        most = body.floor_spread.high
        if not floors[long] - floors[short] <= most + SAME:
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
    known: Mapping[str, Given],
    *,
    figure: Figure,
    units: Units,
    accept: Collection[str],
    scale: Scale = Scale.FULL,
) -> tuple[Finding, ...]:
    """Return a caution for each measure, or pair of measures, worth taking again.

    Args:
        known: measures without a fault: those the sheet writes and those of the size it names.
        accept: measures that are right all the same; nothing is asked about them.
        scale: of a half-scale form nothing is asked, for within its limits all will do.
    """
    if scale is Scale.HALF:
        return ()
    body = limits_of(figure, scale)
    asked = [
        _unusual(name, one, figure, units)
        for name, one in known.items()
        if one.text and name not in accept and not body.measures[name].expect(one.value)
    ]
    odd = [
        _caution("measure-odd", what, do)
        for names, what, do in _oddities(known, body, units)
        if not any(name in accept for name in names)
    ]
    return (*asked, *odd)


def _caution(code: str, what: str, do: str) -> Finding:
    return Finding(level=Level.CAUTION, code=code, what=what, do=do)


def _unusual(name: str, one: Given, figure: Figure, units: Units) -> Finding:
    held = limits_of(figure, Scale.FULL).measures[name]
    low, high = _range(held.usual_low, held.usual_high, units)
    # TRANSLATORS: {measure} has no article; word it so that it stands by itself.
    what = (
        said_later("The child's {measure} is {length}; most children have {low} to {high}.")
        if figure is Figure.CHILD
        else said_later("Your {measure} is {length}; most adults have {low} to {high}.")
    )
    meant = slip(one, held.usual_low, held.usual_high, units)
    if name == "step" and one.value > held.usual_high and held.expect(one.value / 2):
        do = said_later(
            "That looks like a stride, which is two steps: give the half of it; if it is right,"
            ' add "{key}" to accept under [wearer].'
        )
    elif meant:
        do = said_later(
            'Measure again, or write "{meant}" if you meant that; if it is right, add "{key}" to'
            " accept under [wearer]."
        )
    else:
        do = said_later('Measure again; if it is right, add "{key}" to accept under [wearer].')
    told = length_text(one.value, units)
    return _caution(
        "measure-unusual",
        say(what, measure=measure_words(name), length=told, low=low, high=high),
        say(do, key=name, meant=meant),
    )


def _range(low: Mm, high: Mm, units: Units) -> tuple[str, str]:
    """Return both ends as text, the unit on the second only."""
    return length_text(low, units).rsplit("\u00a0", 1)[0], length_text(high, units)


_Oddity = tuple[tuple[str, ...], str, str]


_FLOOR_OF_HEIGHT = (0.57, 0.67)
_KNEE_OF_HEIGHT = (0.30, 0.39)


def _oddities(known: Mapping[str, Given], body: BodyLimits, units: Units) -> Iterator[_Oddity]:
    if _both(known, "hip", "waist"):
        yield from _hip_oddity(known, body, units)
    floors = _written_floors(known)
    spread = max(floors.values()) - min(floors.values()) if floors else 0.0
    usual = body.floor_spread.usual_high
    if spread > usual + SAME:
        yield (
            tuple(floors),
            say(
                "The lengths from waist to floor differ by {spread}; most differ by {usual} at"
                " most.",
                spread=length_text(spread, units),
                usual=length_text(usual, units),
            ),
            say(
                "Measure them again with the weight on both feet; if they are right, add one of"
                " them to accept under [wearer]."
            ),
        )
    side = "floor_left" if "floor_left" in known else "floor_side"
    yield from _height_oddity(known, side, _FLOOR_OF_HEIGHT, units)
    yield from _height_oddity(known, "waist_to_knee", _KNEE_OF_HEIGHT, units)


def _hip_oddity(known: Mapping[str, Given], body: BodyLimits, units: Units) -> Iterator[_Oddity]:
    hip, waist = known["hip"].value, known["waist"].value
    held = body.hip_less_waist
    do = _both_again("hip")
    if hip < waist:
        yield (
            ("hip", "waist"),
            say(
                "The hip ({hip}) is less than the waist ({waist}).",
                hip=length_text(hip, units),
                waist=length_text(waist, units),
            ),
            do,
        )
    elif not held.expect(hip - waist):
        low, high = _range(held.usual_low, held.usual_high, units)
        yield (
            ("hip", "waist"),
            say(
                "The hip is {more} more than the waist; most are {low} to {high} more.",
                more=length_text(hip - waist, units),
                low=low,
                high=high,
            ),
            do,
        )


def _both_again(key: str) -> str:
    return say(
        'Measure both again; if they are right, add "{key}" to accept under [wearer].', key=key
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
            say(
                # TRANSLATORS: {measure} has no article; word it so that it stands by itself.
                "The {measure} is {length}; at a height of {height} it is mostly {low} to {high}.",
                measure=measure_words(name),
                length=length_text(value, units),
                height=length_text(height, units),
                low=low,
                high=high,
            ),
            _both_again(name),
        )
