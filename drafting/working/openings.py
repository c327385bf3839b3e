"""Workings of openings: the slit the hip needs and which rule decided it, the vent, the zip.

Millimetres and degrees. Imports the openings' constants and the model.
"""

import math
from collections.abc import Iterator

from drafting.cuts import LEAST_FLARE, hip_fullness
from drafting.figures import above_seam
from drafting.gored import ShapedGores
from drafting.language import say
from drafting.opening import (
    PASSING_EASE,
    PAST_THE_HIP,
    SHORT_SHARE,
    SHORTEST_SLIT,
    ZIPS,
    least_slit,
)
from drafting.plan import FROM_THE_KNEE
from drafting.spec import Closure
from drafting.working.draft import Draft, Part
from drafting.working.letters import Kind
from drafting.working.model import How, Law, Working

ABOVE_VENT = 30.0
"""Seam that is left between an opening and a vent, in mm."""


def opening(part: Part) -> Iterator[Working]:
    """Yield how a layer's opening is found: the taut loop, and the rules of habit beside it."""
    plan, figures = part.draft.plan, part.figures
    if plan.closure is Closure.NONE:
        return
    waist, band = plan.waist, plan.spec.skirt.band
    found = [(_slit(part, waist.finished), waist.finished, 0.0)]
    if waist.top < waist.finished:
        # A shaped band opens too, and its narrower upper edge with it.
        found.append((_slit(part, waist.top) - band, waist.top, band))
    _, top, off = max(found)
    yield from _cone(part)
    taut, fullness = _taut(part, top), _cone_fullness(part)
    if fullness is not None and taut > 0:
        yield _loop(part, taut, top, fullness)
    yield _rule(part, taut, top, off, figures.opening)


def _cone_fullness(part: Part) -> float | None:
    ratio = 1.0 if part.of_lining else part.draft.plan.waist.gather_ratio
    return hip_fullness(part.layer.cut, ratio)


def _girth(part: Part) -> float:
    spec = part.draft.plan.spec
    return spec.wearer.hip + PASSING_EASE * spec.scale


def _taut(part: Part, top: float) -> float:
    """Return the slit that the taut loop asks for."""
    fullness, girth = _cone_fullness(part), _girth(part)
    if fullness is None:
        return max((girth - top) / 2, 0.0)
    return least_slit(min(part.line, top), girth, fullness=fullness)


def _habit(part: Part) -> tuple[float, float]:
    """Return the shortest slit by habit, and how far below the hip one may reach."""
    plan, scale = part.draft.plan, part.draft.ease_scale
    gathered = part.line > plan.waist.finished
    least = max(SHORTEST_SLIT * scale, plan.waist.hip_depth if gathered else 0.0)
    return min(least, SHORT_SHARE * part.layer.cut.length), PAST_THE_HIP * scale


def _slit(part: Part, top: float) -> float:
    taut = _taut(part, top)
    least, past = _habit(part)
    return min(
        max(taut, least, (_girth(part) - top) / 2),
        max(taut, part.draft.plan.waist.hip_depth + past),
    )


def _cone(part: Part) -> Iterator[Working]:
    cut = part.layer.cut
    if not isinstance(cut, ShapedGores):
        return
    ratio = 1.0 if part.of_lining else part.draft.plan.waist.gather_ratio
    yield part.draft.slate.worked(
        part.key("hip_fullness"),
        say("fullness of the cone above the hip"),
        say("(girth at the hip − waist seam drawn up) / (2 × π × hip depth)"),
        "max((h - c / G) / (2 * pi * d), F0)",
        _cone_fullness(part) or 0.0,
        How(kind=Kind.NUMBER, step=True),
        h=cut.hipline,
        c=cut.waistline,
        G=ratio,
        d=cut.hip_depth,
        F0=LEAST_FLARE,
    )


def _loop(part: Part, taut: float, top: float, fullness: float) -> Working:
    radius = min(part.line, top) / (math.tau * fullness)
    spec = part.draft.plan.spec
    turn = math.acos(min(radius / (radius + taut), 1.0))
    if turn <= math.pi * fullness:
        formula = (
            "2 * sqrt((rz + z) ** 2 - rz ** 2)"
            " + rz * pi * (360 * Fh - 2 * arccos(rz / (rz + z))) / 180"
        )
        words = say(
            "two tangents from the slit's end to the waist circle + the arc between them must let"
            " the hip and its room through"
        )
    else:
        formula = "2 * (rz + z) * sin(180 * Fh)"
        words = say(
            "the chord across the cloth at the slit's end must let the hip and its room through"
        )
    aim = part.draft.slate.shown(_girth(part), Kind.LENGTH)
    return part.draft.slate.worked(
        part.key("taut_loop"),
        say("slit whose taut loop lets the hip through, found by trying"),
        words,
        formula,
        taut,
        How(
            gives=(_girth(part), Kind.LENGTH),
            step=True,
            note=say(
                "hip {hip} + room {room} = {need}",
                hip=part.draft.slate.shown(spec.wearer.hip, Kind.LENGTH),
                room=part.draft.slate.shown(PASSING_EASE * spec.scale, Kind.LENGTH),
                need=aim,
            ),
        ),
        rz=radius,
        z=taut,
        Fh=fullness,
    )


def _rule(part: Part, taut: float, top: float, off: float, result: float) -> Working:
    draft = part.draft
    wearer, waist = draft.plan.spec.wearer, draft.plan.waist
    least, past = _habit(part)
    simple = (_girth(part) - top) / 2
    formula = "min(max(z, z0, (H + eP - f) / 2), max(z, d + past))"
    numbers = {"f": top}
    if off:
        formula = "min(max(z, z0, (H + eP - T) / 2), max(z, d + past)) - hb"
        numbers = {"T": top, "hb": off}
    highest = max(taut, least, simple)
    if highest > max(taut, waist.hip_depth + past):
        winner = say("habit ends it a little below the hip")
    elif taut >= highest - 1e-6:
        winner = say("the taut loop decides")
    elif least >= highest - 1e-6:
        winner = say("habit decides: a shorter opening strains at its end")
    else:
        winner = say("half the missing girth decides")
    return draft.slate.worked(
        part.key("opening"),
        say("opening below the waist seam"),
        say(
            "the longest of: the taut loop, the shortest by habit, half of what the waist lacks;"
            " by habit it ends a little below the hip, unless the loop itself asks for more"
        ),
        formula,
        result,
        How(law=Law.HABIT, note=winner),
        z=taut,
        z0=least,
        H=wearer.hip,
        eP=PASSING_EASE * draft.ease_scale,
        d=waist.hip_depth,
        past=past,
        **numbers,
    )


def vent(part: Part) -> Iterator[Working]:
    """Yield a vent's length."""
    figures, plan = part.figures, part.draft.plan
    if figures.vent is None:
        return
    given = plan.spec.lining.vent if plan.spec.lining else None
    layer, slate = part.layer, part.draft.slate
    title, key = say("vent up from the hem"), part.key("vent")
    same = {"P": layer.cut.length, "open": layer.opening, "clear": ABOVE_VENT}
    if given is not None:
        yield slate.worked(
            key,
            title,
            say("length asked for, below the opening and a seam"),
            "max(min(vent, P - open - clear), 0)",
            figures.vent,
            How(law=Law.HABIT),
            vent=given,
            **same,
        )
        return
    yield slate.worked(
        key,
        title,
        say("from a little above the knee down, below the opening and a seam"),
        "max(min(L - (Kn - D - knee), P - open - clear), 0)",
        figures.vent,
        How(law=Law.HABIT),
        L=layer.length,
        Kn=plan.spec.wearer.waist_to_knee,
        D=plan.waist.drop,
        knee=FROM_THE_KNEE * plan.spec.scale,
        **same,
    )


def closing(draft: Draft) -> Iterator[Working]:
    """Yield the longest opening, and the zip for it."""
    held, plan, slate = draft.figures.opening, draft.plan, draft.slate
    if held is None:
        return
    slits = {"open1": plan.skirt.opening, "open2": plan.lining.opening if plan.lining else 0.0}
    yield slate.worked(
        "opening.length",
        say("longest opening"),
        say("the longer of the layers' openings"),
        "max(open1, open2)" if plan.lining else "open1",
        held.length,
        **slits,
    )
    if held.zip is None:
        return
    stock = [length for length in ZIPS[plan.spec.units] if length <= held.zip + 1e-6]
    names = {f"Z{k + 1}": length for k, length in enumerate(stock)}
    yield slate.worked(
        "opening.zip",
        say("zip to buy"),
        say("the first length sold that reaches: opening + what runs above the waist seam"),
        f"sold(open + above, {', '.join(names)})",
        held.zip,
        How(law=Law.HABIT),
        open=held.length,
        above=above_seam(plan.spec),
        **names,
    )
