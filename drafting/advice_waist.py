"""What a cutter would say of the waist: its seam, the hip under it, the opening.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

import math
from collections.abc import Iterator

from drafting import opening
from drafting.circle import Flare, least_fullness
from drafting.cuts import HIP_EASE
from drafting.findings import Finding, caution, note, stop
from drafting.gored import ShapedGores
from drafting.language import decimal, said_later, say
from drafting.levelled import Levelled
from drafting.part_words import by_part, say_by_part
from drafting.plan import Plan, layers
from drafting.spec import Closure, CutKind, WaistFinish
from drafting.tilted import Tilted
from drafting.units import Mm, length_text

MOST_GATHERS = 4.0
"""More than this of any cloth does not go into one length of seam."""

BARELY = 0.03
"""A fullness this little above the least is worth a word."""

SMALL_RADIUS: Mm = 60.0
TINY_RADIUS: Mm = 40.0
LEAST_CUT_RADIUS: Mm = 15.0
"""Waist radii below which a curve is hard, very hard, and not possible to cut and sew."""


def on_waist(plan: Plan) -> Iterator[Finding]:
    """Yield what is worth saying of the waist seam and its finish."""
    wish, units = plan.spec.skirt, plan.spec.units
    for part, layer in layers(plan):
        radius = layer.cut.waist_radius
        if radius is None or isinstance(layer.cut, ShapedGores):
            continue
        cut = radius - layer.allowances.waist
        shown = length_text(radius, units)
        if not cut >= LEAST_CUT_RADIUS * plan.spec.scale:
            yield stop(
                "waist-radius-too-small",
                say_by_part(
                    part,
                    skirt=said_later(
                        "The skirt's waist has a radius of {radius}; with its allowance only"
                        " {left} is left to cut."
                    ),
                    lining=said_later(
                        "The lining's waist has a radius of {radius}; with its allowance only"
                        " {left} is left to cut."
                    ),
                    radius=shown,
                    left=length_text(max(cut, 0.0), units),
                ),
                say(
                    "Take less fullness and gather the waist instead, or use a narrower waist"
                    " allowance."
                ),
            )
        elif radius < SMALL_RADIUS * plan.spec.scale:
            tiny = radius < TINY_RADIUS * plan.spec.scale
            yield caution(
                "waist-radius-small",
                say(_very_hard(part) if tiny else _hard(part), radius=shown),
                say(
                    "Mark it from the paper, staystitch, clip every 1 cm, and keep the waist"
                    " allowance at 1 cm or less; or take less fullness and gather it."
                ),
            )
    flared = plan.skirt.cut.hem_radius is not None and not plan.owned
    if flared and wish.gather_ratio > 1.6:
        yield caution(
            "waist-gathers-bulky",
            say(
                "The waist gathers {ratio} to 1 on a flared skirt; over {most} the bulk outweighs"
                " the look.",
                ratio=decimal(f"{wish.gather_ratio:g}"),
                most=decimal("1.6"),
            ),
            say("Raise the fullness instead, which adds sweep without adding waist."),
        )
    if not flared and plan.waist.gather_ratio > MOST_GATHERS:
        yield caution(
            "waist-gathers-bulky",
            say(
                "The waist gathers {ratio} to 1; over {most} it cannot be drawn up evenly.",
                ratio=decimal(f"{plan.waist.gather_ratio:.3g}"),
                most=decimal(f"{MOST_GATHERS:g}"),
            ),
            say("Take fewer lengths, or leave full_widths out."),
        )
    bodice = wish.bodice_waist
    if bodice is not None and not plan.owned:
        body = plan.spec.wearer.waist
        if not -10 <= bodice - body <= 60 * plan.spec.scale:
            yield caution(
                "bodice-waist",
                say(
                    "The bodice's waist seam is {bodice} and your waist {waist}.",
                    bodice=length_text(bodice, units),
                    waist=length_text(body, units),
                ),
                say("Measure both again, the bodice closed: the skirt is drafted to its seam."),
            )
    if plan.waist.stretch > 0.04:
        yield caution(
            "waist-stretch-high",
            say(
                "A waist that stretches by {percent}%\u00a0is more than loose viscose does.",
                percent=f"{plan.waist.stretch * 100:.0f}",
            ),
            say("Try it on a scrap: cut an arc, handle it, and measure it again."),
        )
    measured = wish.drop == 0 and wish.bodice_waist is None and not plan.owned
    if measured and not 0 <= wish.waist_ease <= 30 * plan.spec.scale:
        yield caution(
            "waist-ease-unusual",
            say(
                "The waist has {ease} of ease; up to {most} is usual.",
                ease=length_text(wish.waist_ease, units),
                most=length_text(30 * plan.spec.scale, units),
            ),
            say("Check that the ease is not already in the waist measure."),
        )
    scale = plan.spec.scale
    if plan.strip is not None and wish.waist_finish is WaistFinish.BAND:
        yield from _band(plan)
    if plan.contour is not None and not 40 * scale <= wish.band <= 60 * scale:
        yield caution(
            "band-unusual",
            say(
                "The shaped band is {band} high; {least} to {most} is usual.",
                band=length_text(wish.band, units),
                least=length_text(40 * scale, units),
                most=length_text(60 * scale, units),
            ),
            say(
                "Try it in calico: the higher a shaped band, the more exactly it must follow the"
                " body."
            ),
        )
    if wish.drop and wish.hem_above_floor is None:
        yield note(
            "waist-dropped",
            say(
                "The waist seam lies {drop} below the natural waist, so the skirt hangs {hanging}"
                " below that seam.",
                drop=length_text(wish.drop, units),
                hanging=length_text(wish.length - wish.drop, units),
            ),
            say(
                "The length is counted from the natural waist: together {length}.",
                length=length_text(wish.length, units),
            ),
        )


def _very_hard(part: str) -> str:
    return by_part(
        part,
        skirt=said_later(
            "The skirt's waist has a radius of {radius}, very hard to clip and sew evenly."
        ),
        lining=said_later(
            "The lining's waist has a radius of {radius}, very hard to clip and sew evenly."
        ),
    )


def _hard(part: str) -> str:
    return by_part(
        part,
        skirt=said_later(
            "The skirt's waist has a radius of {radius}, hard to clip and sew evenly."
        ),
        lining=said_later(
            "The lining's waist has a radius of {radius}, hard to clip and sew evenly."
        ),
    )


def _band(plan: Plan) -> Iterator[Finding]:
    wish, units, scale = plan.spec.skirt, plan.spec.units, plan.spec.scale
    if wish.drop:
        yield caution(
            "straight-band-dropped",
            say(
                "A straight band on a seam {drop} below the waist gapes at its upper edge: the"
                " body is narrower there.",
                drop=length_text(wish.drop, units),
            ),
            say('Write band_shape = "contour" for a band shaped to the body.'),
        )
    if not 20 * scale <= wish.band <= 50 * scale:
        yield caution(
            "band-unusual",
            say(
                "The band is {band} high; straight bands fit at {least} to {most}.",
                band=length_text(wish.band, units),
                least=length_text(20 * scale, units),
                most=length_text(50 * scale, units),
            ),
            say("A higher band needs shaping to the body; a lower one rolls."),
        )


def on_hip(plan: Plan) -> Iterator[Finding]:
    """Yield whether each layer has room for the hip."""
    wearer, units = plan.spec.wearer, plan.spec.units
    for part, layer in layers(plan):
        flare = layer.cut
        deep, ease = plan.waist.hip_depth, HIP_EASE * plan.spec.scale
        if flare.length < deep:
            continue  # it ends above the hip
        girth = layer.girth_at(deep)
        least = least_fullness(wearer.hip, line=flare.waistline, hip_depth=deep, ease=ease)
        what = say_by_part(
            part,
            skirt=said_later(
                "At the hip line the skirt measures {girth}; your hip is {hip} and needs {room}"
                " of room."
            ),
            lining=said_later(
                "At the hip line the lining measures {girth}; your hip is {hip} and needs"
                " {room} of room."
            ),
            girth=length_text(girth, units),
            hip=length_text(wearer.hip, units),
            room=length_text(ease, units),
        )
        if isinstance(flare, ShapedGores):
            continue  # their hip line is the body's
        if flare.fullness is None:
            if girth < wearer.hip + ease:
                yield stop(
                    "hip-too-tight",
                    what,
                    say(
                        "Gather more at the waist (gather_ratio): the whole width"
                        " hangs straight down from it."
                    ),
                )
            continue
        if plan.spec.skirt.cut is CutKind.TIERED and part == "skirt":
            continue  # the yoke's cone is drafted for the hip
        if least > 4:
            yield stop(
                "hip-too-tight",
                what,
                say("Set the waist seam higher (drop): too little skirt is left above the hip."),
            )
        elif flare.fullness < least:
            yield stop(
                "hip-too-tight",
                what,
                say_by_part(
                    part,
                    skirt=said_later(
                        "Cut the skirt from at least {least} of a circle (a third, {third}, is"
                        " comfortable for most)."
                    ),
                    lining=said_later(
                        "Cut the lining from at least {least} of a circle (a third, {third}, is"
                        " comfortable for most)."
                    ),
                    least=decimal(f"{math.ceil(least * 100) / 100:g}"),
                    third=decimal("0.33"),
                ),
            )
        elif flare.fullness < least + BARELY:
            yield caution(
                "hip-barely",
                what,
                say(
                    "It will only just skim the hip; {fullness} of a circle hangs better.",
                    fullness=decimal(f"{math.ceil((least + BARELY) * 100) / 100:g}"),
                ),
            )


def on_passing(plan: Plan) -> Iterator[Finding]:
    """Whether the hip passes the waist or its opening."""
    spec, units = plan.spec, plan.spec.units
    wearer, wish = spec.wearer, spec.skirt
    need = wearer.hip + opening.PASSING_EASE * spec.scale
    if plan.owned and plan.closure is Closure.NONE:
        return  # however it is put on now, it is put on with its lining too
    if plan.closure is Closure.NONE:
        casing = wish.waist_finish is WaistFinish.CASING
        passes = plan.waist.line if casing else plan.waist.top
        if passes < need:
            ratio = need * (1 + plan.waist.stretch) / plan.waist.finished
            yield stop(
                "hip-does-not-pass",
                say(
                    "Your hip ({hip}) does not pass the waist: it lets {passes} through and {need}"
                    " is needed.",
                    hip=length_text(wearer.hip, units),
                    passes=length_text(passes, units),
                    need=length_text(need, units),
                ),
                say(
                    "Gather the waist {ratio} to 1 (gather_ratio), or choose a band with a zip.",
                    ratio=decimal(f"{math.ceil(ratio * 100) / 100:g}"),
                )
                if casing
                else say('Choose closure = "centre back" or "left side", or a casing.'),
            )
        return
    for part, layer in layers(plan):
        z = layer.opening
        if z > 0.7 * layer.length:
            yield stop(
                "opening-too-long",
                say_by_part(
                    part,
                    skirt=said_later(
                        "For the hip to pass, the skirt must open {opening} of its {length}."
                    ),
                    lining=said_later(
                        "For the hip to pass, the lining must open {opening} of its {length}."
                    ),
                    opening=length_text(z, units),
                    length=length_text(layer.length, units),
                ),
                say("Take more fullness, which passes the hip with a shorter opening.")
                if isinstance(layer.cut, Flare | Levelled | Tilted)
                else say('Make it longer, or pull it on with elastic (waist_finish = "casing").'),
            )
        elif z > plan.waist.hip_depth + opening.PAST_THE_HIP * spec.scale + 1e-6:
            yield note(
                "opening-long",
                say_by_part(
                    part,
                    skirt=said_later(
                        "The skirt opens {opening} below the waist seam, past the hip: a narrow"
                        " cone lets less through than its girth suggests."
                    ),
                    lining=said_later(
                        "The lining opens {opening} below the waist seam, past the hip: a"
                        " narrow cone lets less through than its girth suggests."
                    ),
                    opening=length_text(z, units),
                ),
                say("Keep the long opening; a shorter zip would stop at the hip."),
            )
    lining_opening = plan.lining.opening if plan.lining else 0.0
    if plan.lining and not plan.owned and abs(lining_opening - plan.skirt.opening) > 5:
        yield note(
            "openings-differ",
            say(
                "The skirt needs an opening of {skirt}, its lining {lining}.",
                skirt=length_text(plan.skirt.opening, units),
                lining=length_text(lining_opening, units),
            ),
            say("Leave each open to its own mark; the zip is chosen for the longer."),
        )
    longest = max(plan.skirt.opening, lining_opening)
    above = wish.band if wish.waist_finish is WaistFinish.BAND else 0.0
    if wish.waist_finish is WaistFinish.BODICE or plan.owned:
        return  # one zip runs up into the bodice, or is there already
    if opening.zip_length(longest + above, units) is None:
        yield caution(
            "zip-too-long",
            say(
                "The opening needs a zip of {zip}; skirt zips are sold up to {longest}.",
                zip=length_text(longest + above, units),
                longest=length_text(opening.ZIPS[units][-1], units),
            ),
            say("Buy zip by the length, or take more fullness."),
        )
