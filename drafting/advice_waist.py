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
from drafting.levelled import Levelled
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
                f"The {part}'s waist has a radius of {shown}; with its allowance only"
                f" {length_text(max(cut, 0.0), units)} is left to cut.",
                "Take less fullness and gather the waist instead, or use a narrower waist"
                " allowance.",
            )
        elif radius < SMALL_RADIUS * plan.spec.scale:
            hard = "very hard" if radius < TINY_RADIUS * plan.spec.scale else "hard"
            yield caution(
                "waist-radius-small",
                f"The {part}'s waist has a radius of {shown}, {hard} to clip and sew evenly.",
                "Mark it from the paper, staystitch, clip every 1 cm, and keep the waist"
                " allowance at 1 cm or less; or take less fullness and gather it.",
            )
    flared = plan.skirt.cut.hem_radius is not None and not plan.owned
    if flared and wish.gather_ratio > 1.6:
        yield caution(
            "waist-gathers-bulky",
            f"The waist gathers {wish.gather_ratio:g} to 1 on a flared skirt; over 1.6 the bulk"
            " outweighs the look.",
            "Raise the fullness instead, which adds sweep without adding waist.",
        )
    if not flared and plan.waist.gather_ratio > MOST_GATHERS:
        yield caution(
            "waist-gathers-bulky",
            f"The waist gathers {plan.waist.gather_ratio:.3g} to 1; over {MOST_GATHERS:g} it cannot"
            " be drawn up evenly.",
            "Take fewer lengths, or leave full_widths out.",
        )
    bodice = wish.bodice_waist
    if bodice is not None and not plan.owned:
        body = plan.spec.wearer.waist
        if not -10 <= bodice - body <= 60 * plan.spec.scale:
            yield caution(
                "bodice-waist",
                f"The bodice's waist seam is {length_text(bodice, units)} and your waist"
                f" {length_text(body, units)}.",
                "Measure both again, the bodice closed: the skirt is drafted to its seam.",
            )
    if plan.waist.stretch > 0.04:
        yield caution(
            "waist-stretch-high",
            f"A waist that stretches by {plan.waist.stretch:.0%} is more than loose viscose does.",
            "Try it on a scrap: cut an arc, handle it, and measure it again.",
        )
    measured = wish.drop == 0 and wish.bodice_waist is None and not plan.owned
    if measured and not 0 <= wish.waist_ease <= 30 * plan.spec.scale:
        yield caution(
            "waist-ease-unusual",
            f"The waist has {length_text(wish.waist_ease, units)} of ease; up to"
            f" {length_text(30 * plan.spec.scale, units)} is usual.",
            "Check that the ease is not already in the waist measure.",
        )
    scale = plan.spec.scale
    if plan.strip is not None and wish.waist_finish is WaistFinish.BAND:
        yield from _band(plan)
    if plan.contour is not None and not 40 * scale <= wish.band <= 60 * scale:
        yield caution(
            "band-unusual",
            f"The shaped band is {length_text(wish.band, units)} high;"
            f" {length_text(40 * scale, units)} to {length_text(60 * scale, units)} is usual.",
            "Try it in calico: the higher a shaped band, the more exactly it must follow the body.",
        )
    if wish.drop and wish.hem_above_floor is None:
        yield note(
            "waist-dropped",
            f"The waist seam lies {length_text(wish.drop, units)} below the natural waist, so the"
            f" skirt hangs {length_text(wish.length - wish.drop, units)} below that seam.",
            "The length is counted from the natural waist: together"
            f" {length_text(wish.length, units)}.",
        )


def _band(plan: Plan) -> Iterator[Finding]:
    wish, units, scale = plan.spec.skirt, plan.spec.units, plan.spec.scale
    if wish.drop:
        yield caution(
            "straight-band-dropped",
            f"A straight band on a seam {length_text(wish.drop, units)} below the waist gapes at"
            " its upper edge: the body is narrower there.",
            'Write band_shape = "contour" for a band shaped to the body.',
        )
    if not 20 * scale <= wish.band <= 50 * scale:
        yield caution(
            "band-unusual",
            f"The band is {length_text(wish.band, units)} high; straight bands fit at"
            f" {length_text(20 * scale, units)} to {length_text(50 * scale, units)}.",
            "A higher band needs shaping to the body; a lower one rolls.",
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
        what = (
            f"At the hip line the {part} measures {length_text(girth, units)}; your hip is"
            f" {length_text(wearer.hip, units)} and needs {length_text(ease, units)} of room."
        )
        if isinstance(flare, ShapedGores):
            continue  # their hip line is the body's
        if flare.fullness is None:
            if girth < wearer.hip + ease:
                yield stop(
                    "hip-too-tight",
                    what,
                    "Gather more at the waist (gather_ratio): the whole width"
                    " hangs straight down from it.",
                )
            continue
        if plan.spec.skirt.cut is CutKind.TIERED and part == "skirt":
            continue  # the yoke's cone is drafted for the hip
        if least > 4:
            yield stop(
                "hip-too-tight",
                what,
                "Set the waist seam higher (drop): too little skirt is left above the hip.",
            )
        elif flare.fullness < least:
            yield stop(
                "hip-too-tight",
                what,
                f"Cut the {part} from at least {math.ceil(least * 100) / 100:g} of a circle"
                " (a third, 0.33, is comfortable for most).",
            )
        elif flare.fullness < least + BARELY:
            yield caution(
                "hip-barely",
                what,
                f"It will only just skim the hip; {math.ceil((least + BARELY) * 100) / 100:g}"
                " of a circle hangs better.",
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
                f"Your hip ({length_text(wearer.hip, units)}) does not pass the waist: it lets"
                f" {length_text(passes, units)} through and {length_text(need, units)} is needed.",
                f"Gather the waist {math.ceil(ratio * 100) / 100:g} to 1 (gather_ratio), or"
                " choose a band with a zip."
                if casing
                else 'Choose closure = "centre back" or "left side", or a casing.',
            )
        return
    for part, layer in layers(plan):
        z = layer.opening
        if z > 0.7 * layer.length:
            yield stop(
                "opening-too-long",
                f"For the hip to pass, the {part} must open {length_text(z, units)} of its"
                f" {length_text(layer.length, units)}.",
                "Take more fullness, which passes the hip with a shorter opening."
                if isinstance(layer.cut, Flare | Levelled | Tilted)
                else 'Make it longer, or pull it on with elastic (waist_finish = "casing").',
            )
        elif z > plan.waist.hip_depth + opening.PAST_THE_HIP * spec.scale + 1e-6:
            yield note(
                "opening-long",
                f"The {part} opens {length_text(z, units)} below the waist seam, past the hip:"
                " a narrow cone lets less through than its girth suggests.",
                "Keep the long opening; a shorter zip would stop at the hip.",
            )
    lining_opening = plan.lining.opening if plan.lining else 0.0
    if plan.lining and not plan.owned and abs(lining_opening - plan.skirt.opening) > 5:
        yield note(
            "openings-differ",
            f"The skirt needs an opening of {length_text(plan.skirt.opening, units)}, its lining"
            f" {length_text(lining_opening, units)}.",
            "Leave each open to its own mark; the zip is chosen for the longer.",
        )
    longest = max(plan.skirt.opening, lining_opening)
    above = wish.band if wish.waist_finish is WaistFinish.BAND else 0.0
    if wish.waist_finish is WaistFinish.BODICE or plan.owned:
        return  # one zip runs up into the bodice, or is there already
    if opening.zip_length(longest + above, units) is None:
        yield caution(
            "zip-too-long",
            f"The opening needs a zip of {length_text(longest + above, units)};"
            f" skirt zips are sold up to {length_text(opening.ZIPS[units][-1], units)}.",
            "Buy zip by the length, or take more fullness.",
        )
