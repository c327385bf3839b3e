"""What a good cutter would say about a plan: findings with the numbers and a way out.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

import math
from collections.abc import Iterator
from dataclasses import replace

from drafting import cloth, hem, lining, opening, ruffle
from drafting.circle import least_fullness
from drafting.cloth_kinds import behaviour
from drafting.cuts import Cut, around
from drafting.errors import DraftingError
from drafting.findings import Finding, Level
from drafting.levelled import Levelled
from drafting.piece import FoldWay
from drafting.plan import SHORTEST_LINING, Layer, Plan
from drafting.spec import Closure, Figure, HemFinish, WaistFinish
from drafting.units import Mm, length_text, radius_text

HIP_EASE: Mm = 40.0
"""Room at the hip line, below which a skirt strains when its wearer sits (20 to 80)."""

BARELY = 0.03
"""A fullness this little above the least is worth a word."""

SMALL_RADIUS: Mm = 60.0
TINY_RADIUS: Mm = 40.0
LEAST_CUT_RADIUS: Mm = 15.0
"""Waist radii below which a curve is hard, very hard, and not possible to cut and sew."""

COVER: Mm = 25.0
"""How far the skirt must hang below the ruffle to hide it (20 to 50)."""

HELD = 1.3
"""A flat ruffle longer than this times the skirt's girth there folds over on itself."""

SHORTEST: Mm = 100.0
LONGEST: Mm = 1600.0
"""Finished lengths that this draft holds for."""

HELD_OUT = math.radians(25)
"""How far from the plumb a full ruffle holds a skirt, in the middle of what is seen."""

TRODDEN: Mm = 20.0
"""A hem nearer the floor than this is stepped on (10 to 40)."""

_WIDE_PANEL = math.radians(100)

NEAR_A_SEAM: Mm = 40.0
"""A ruffle's join nearer than this to a lining seam makes a lump."""


def advice(plan: Plan) -> tuple[Finding, ...]:
    """Return everything worth saying about a plan, in the order of a fitting."""
    return tuple(
        finding
        for part in (
            _waist(plan),
            _hip(plan),
            _passing(plan),
            _length(plan),
            _hem(plan),
            _walking(plan),
            _lining(plan),
            _ruffle_place(plan),
            _ruffle_work(plan),
            _cloth(plan),
        )
        for finding in part
    )


def cannot_be_drawn(error: DraftingError) -> Finding:
    """Return the stop for a piece whose lines cannot be drawn at these measures."""
    return _stop(
        "cannot-be-drawn",
        f"This draft cannot be drawn: {error}.",
        "Use more panels, narrower seam allowances, or less fullness with gathers.",
    )


def _note(code: str, what: str, do: str) -> Finding:
    return Finding(level=Level.NOTE, code=code, what=what, do=do)


def _caution(code: str, what: str, do: str) -> Finding:
    return Finding(level=Level.CAUTION, code=code, what=what, do=do)


def _stop(code: str, what: str, do: str) -> Finding:
    return Finding(level=Level.STOP, code=code, what=what, do=do)


def _layers(plan: Plan) -> Iterator[tuple[str, Layer]]:
    yield "skirt", plan.skirt
    if plan.lining is not None:
        yield "lining", plan.lining


def _waist(plan: Plan) -> Iterator[Finding]:
    wish, units = plan.spec.skirt, plan.spec.units
    for part, layer in _layers(plan):
        radius = layer.cut.waist_radius
        cut = radius - layer.allowances.waist
        shown = length_text(radius, units)
        if not cut >= LEAST_CUT_RADIUS:
            yield _stop(
                "waist-radius-too-small",
                f"The {part}'s waist has a radius of {shown}; with its allowance only"
                f" {length_text(max(cut, 0.0), units)} is left to cut.",
                "Take less fullness and gather the waist instead, or use a narrower waist"
                " allowance.",
            )
        elif radius < SMALL_RADIUS:
            hard = "very hard" if radius < TINY_RADIUS else "hard"
            yield _caution(
                "waist-radius-small",
                f"The {part}'s waist has a radius of {shown}, {hard} to clip and sew evenly.",
                "Mark it from the paper, staystitch, clip every 1 cm, and keep the waist"
                " allowance at 1 cm or less; or take less fullness and gather it.",
            )
    if wish.gather_ratio > 1.6:
        yield _caution(
            "waist-gathers-bulky",
            f"The waist gathers {wish.gather_ratio:g} to 1 on a flared skirt; over 1.6 the bulk"
            " outweighs the look.",
            "Raise the fullness instead, which adds sweep without adding waist.",
        )
    if wish.waist_stretch > 0.04:
        yield _caution(
            "waist-stretch-high",
            f"A waist that stretches by {wish.waist_stretch:.0%} is more than loose viscose does.",
            "Try it on a scrap: cut an arc, handle it, and measure it again.",
        )
    if not 0 <= wish.waist_ease <= 30:
        yield _caution(
            "waist-ease-unusual",
            f"The waist has {length_text(wish.waist_ease, units)} of ease; up to"
            f" {length_text(30, units)} is usual.",
            "Check that the ease is not already in the waist measure.",
        )
    if wish.waist_finish is WaistFinish.BAND and not 20 <= wish.band <= 50:
        yield _caution(
            "band-unusual",
            f"The band is {length_text(wish.band, units)} high; straight bands fit at"
            f" {length_text(20, units)} to {length_text(50, units)}.",
            "A higher band needs shaping to the body; a lower one rolls.",
        )


def _hip(plan: Plan) -> Iterator[Finding]:
    wearer, units = plan.spec.wearer, plan.spec.units
    for part, layer in _layers(plan):
        flare = layer.cut
        girth = flare.girth_at(wearer.hip_depth)
        least = least_fullness(
            wearer.hip, line=flare.waistline, hip_depth=wearer.hip_depth, ease=HIP_EASE
        )
        what = (
            f"At the hip line the {part} measures {length_text(girth, units)}; your hip is"
            f" {length_text(wearer.hip, units)} and needs {length_text(HIP_EASE, units)} of room."
        )
        if flare.fullness < least:
            yield _stop(
                "hip-too-tight",
                what,
                f"Cut the {part} from at least {math.ceil(least * 100) / 100:g} of a circle"
                " (a third, 0.33, is comfortable for most).",
            )
        elif flare.fullness < least + BARELY:
            yield _caution(
                "hip-barely",
                what,
                f"It will only just skim the hip; {math.ceil((least + BARELY) * 100) / 100:g}"
                " of a circle hangs better.",
            )


def _passing(plan: Plan) -> Iterator[Finding]:
    """Whether the hip passes the waist or its opening."""
    spec, units = plan.spec, plan.spec.units
    wearer, wish = spec.wearer, spec.skirt
    need = wearer.hip + opening.PASSING_EASE
    if plan.closure is Closure.NONE:
        casing = wish.waist_finish is WaistFinish.CASING
        passes = plan.skirt.cut.waistline if casing else plan.finished_waist
        if passes < need:
            ratio = need * (1 + wish.waist_stretch) / plan.finished_waist
            yield _stop(
                "hip-does-not-pass",
                f"Your hip ({length_text(wearer.hip, units)}) does not pass the waist: it lets"
                f" {length_text(passes, units)} through and {length_text(need, units)} is needed.",
                f"Gather the waist {math.ceil(ratio * 100) / 100:g} to 1 (gather_ratio), or"
                " choose a band with a zip."
                if casing
                else 'Choose closure = "centre back" or "left side", or a casing.',
            )
        return
    for part, layer in _layers(plan):
        z = layer.opening
        if z > 0.7 * layer.cut.length:
            yield _stop(
                "opening-too-long",
                f"For the hip to pass, the {part} must open {length_text(z, units)} of its"
                f" {length_text(layer.cut.length, units)}.",
                "Take more fullness, which passes the hip with a shorter opening.",
            )
        elif z > wearer.hip_depth + 60:
            yield _note(
                "opening-long",
                f"The {part} opens {length_text(z, units)} below the waist seam, past the hip:"
                " a narrow cone lets less through than its girth suggests.",
                "Keep the long opening; a shorter zip would stop at the hip.",
            )
    lining_opening = plan.lining.opening if plan.lining else 0.0
    if plan.lining and abs(lining_opening - plan.skirt.opening) > 5:
        yield _note(
            "openings-differ",
            f"The skirt needs an opening of {length_text(plan.skirt.opening, units)}, its lining"
            f" {length_text(lining_opening, units)}.",
            "Leave each open to its own mark; the zip is chosen for the longer.",
        )
    longest = max(plan.skirt.opening, lining_opening)
    above = wish.band if wish.waist_finish is WaistFinish.BAND else 0.0
    if opening.zip_length(longest + above, units) is None:
        yield _caution(
            "zip-too-long",
            f"The opening needs a zip of {length_text(longest + above, units)};"
            f" skirt zips are sold up to {length_text(opening.ZIPS[units][-1], units)}.",
            "Buy zip by the length, or take more fullness.",
        )


def _length(plan: Plan) -> Iterator[Finding]:
    units, floor, lengths = plan.spec.units, plan.floor, around(plan.skirt.cut)
    clear = min(
        floor.front - lengths.front,
        floor.left - lengths.left,
        floor.back - lengths.back,
        floor.right - lengths.right,
    )
    if isinstance(plan.skirt.cut, Levelled) and not SHORTEST <= lengths.least <= LONGEST:
        yield _stop(
            "level-hem-out-of-reach",
            f"A hem {length_text(clear, units)} above the floor makes the skirt"
            f" {length_text(max(lengths.least, 0.0), units)} long.",
            f"Choose a height that leaves {length_text(SHORTEST, units)} to"
            f" {length_text(LONGEST, units)} of skirt.",
        )
        return
    if clear < 0:
        yield _stop(
            "longer-than-floor",
            f"The skirt is {length_text(lengths.most, units)} long and the floor lies"
            f" {length_text(floor.least, units)} below the waist.",
            f"Make it at most {length_text(floor.least - TRODDEN, units)}, or check which"
            " of the two was mismeasured.",
        )
    elif clear < TRODDEN:
        yield _caution(
            "trodden-on",
            f"The hem hangs {length_text(clear, units)} above the floor.",
            f"Leave at least {length_text(TRODDEN, units)}, and take care on stairs, escalators"
            " and bicycles.",
        )
    elif clear < 0.12 * floor.least:
        yield _note(
            "long-hem",
            f"The hem hangs {length_text(clear, units)} above the floor.",
            "Take care on stairs, escalators and bicycles, and level the hem in the shoes you"
            " will wear.",
        )
    if isinstance(plan.skirt.cut, Levelled) and plan.ruffle is not None:
        rise = lengths.least * (1 - math.cos(HELD_OUT))
        yield _note(
            "hem-rises",
            "Held out by its ruffle at 25 degrees from the plumb, the skirt's hem rises about"
            f" {length_text(rise, units)}, an estimate that is not in the pattern.",
            "Level the hem again over the finished lining and ruffle before you cut it.",
        )


def _hem(plan: Plan) -> Iterator[Finding]:
    units = plan.spec.units
    for part, layer in _layers(plan):
        finish = plan.spec.skirt.hem if part == "skirt" else HemFinish.NARROW
        ease = behaviour(layer.cloth.kind).hem_ease
        limit = hem.deepest_hem(layer.cut.hem_radius, ease=ease, finish=finish)
        wanted = layer.allowances.hem
        if wanted > limit:
            yield _caution(
                "hem-too-deep",
                f"The {part}'s hem allowance of {radius_text(wanted, units)} is too deep for"
                f" this curve ({radius_text(limit, units)} at most, an estimate for its cloth).",
                f"Turn {radius_text(limit, units)} or less, roll the edge, or face it with a strip"
                " cut to the curve.",
            )


def _walking(plan: Plan) -> Iterator[Finding]:
    units = plan.spec.units
    checks: list[tuple[str, Cut, Mm]] = [("skirt", plan.skirt.cut, plan.walking_sweep)]
    if plan.lining is not None and plan.lining_walking_sweep is not None:
        checks.append(("lining", plan.lining.cut, plan.lining_walking_sweep))
    for part, flare, least in checks:
        what = (
            f"The {part}'s sweep is {length_text(flare.sweep, units)}; a step of"
            f" {length_text(plan.spec.wearer.step, units)} needs about"
            f" {length_text(least, units)} there, an estimate."
        )
        # The gathers of a skirt do not count against it: its hem is free.
        wanted = (lining.STAIRS * least - flare.waistline) / (math.tau * flare.length)
        do = f"Cut the {part} from at least {math.ceil(wanted * 100) / 100:g} of a circle."
        if flare.sweep < least:
            yield _stop("sweep-too-small", what, do)
        elif flare.sweep < lining.STAIRS * least:
            yield _caution("sweep-tight", what, do + " That leaves room for stairs.")


def _lining(plan: Plan) -> Iterator[Finding]:
    if plan.lining is None:
        return
    units = plan.spec.units
    if plan.lining.cut.sweep > plan.skirt.cut.sweep:
        yield _caution(
            "lining-wider",
            f"The lining's sweep ({length_text(plan.lining.cut.sweep, units)}) is more than"
            f" the skirt's ({length_text(plan.skirt.cut.sweep, units)}).",
            "Give the lining less fullness than the skirt, or it will crumple inside.",
        )
    assert plan.spec.lining is not None
    shorter = plan.spec.lining.shorter
    long = plan.spec.skirt.length - shorter
    if long < SHORTEST_LINING:
        yield _stop(
            "lining-too-short",
            f"A lining {length_text(shorter, units)} shorter than a skirt of"
            f" {length_text(plan.spec.skirt.length, units)} leaves {length_text(long, units)}; a"
            f" lining is at least {length_text(SHORTEST_LINING, units)} long.",
            "Make the lining less shorter than the skirt, or leave it out.",
        )
    if not 20 <= shorter <= 50:
        yield _caution(
            "lining-length",
            f"The lining is {length_text(shorter, units)} shorter than the skirt; "
            f"{length_text(20, units)} to {length_text(50, units)} is usual.",
            "Shorter shows on stairs less but hides a ruffle less too; longer peeps out.",
        )


def _ruffle_place(plan: Plan) -> Iterator[Finding]:
    drafted, wearer, units = plan.ruffle, plan.spec.wearer, plan.spec.units
    if drafted is None or plan.lining is None or plan.spec.ruffle is None:
        return
    below = drafted.line_below_waist
    if below < ruffle.HIGHEST_LINE:
        wish = plan.spec.ruffle
        room = plan.lining.cut.length - wish.above_hem - ruffle.HIGHEST_LINE
        yield _stop(
            "ruffle-too-deep",
            f"A ruffle of {length_text(drafted.depth, units)} does not fit on a lining of"
            f" {length_text(plan.lining.cut.length, units)}.",
            f"Make it at most {length_text(room, units)} deep."
            if room > 20
            else "Set it nearer the lining's hem, or make the lining longer.",
        )
        return
    if below < wearer.hip_depth:
        yield _caution(
            "ruffle-above-hip",
            f"The ruffle starts {length_text(below, units)} below the waist, above the hip line"
            f" at {length_text(wearer.hip_depth, units)}.",
            "Gathers above the hip add to it; make the ruffle less deep.",
        )
    lowest = below + drafted.depth
    cover = plan.skirt.cut.length - lowest
    if cover < COVER:
        yield _caution(
            "ruffle-peeps-out",
            f"The skirt hangs only {length_text(max(cover, 0.0), units)} below the ruffle;"
            f" {length_text(COVER, units)} hides it.",
            "Shorten the lining, or set the ruffle higher above its hem.",
        )
    around = plan.skirt.cut.girth_at(lowest)
    if drafted.flat_length > HELD * around:
        yield _caution(
            "ruffle-not-held",
            f"The flat ruffle is {length_text(drafted.flat_length, units)} and the skirt"
            f" measures {length_text(around, units)} over it: it will fold on itself.",
            f"Gather it at most {HELD * around / drafted.line_length:.1f} to 1, or take a fuller"
            " skirt.",
        )
    if plan.spec.wearer.figure is Figure.ADULT and not 120 <= drafted.depth <= 350:
        yield _caution(
            "ruffle-depth-unusual",
            f"The ruffle is {length_text(drafted.depth, units)} deep;"
            f" {length_text(120, units)} to {length_text(350, units)} is usual.",
            "Very shallow ruffles do not hold a skirt, very deep ones fall flat; try two.",
        )
    if not drafted.ring and plan.closure is not Closure.NONE:
        yield _note(
            "ruffle-open",
            f"The ruffle starts {length_text(below, units)} below the waist, and the lining is"
            f" open for {length_text(plan.lining.opening, units)}: too near for a closed ring.",
            "It is sewn open, its two ends hemmed beside the opening.",
        )


def _ruffle_work(plan: Plan) -> Iterator[Finding]:
    drafted, units = plan.ruffle, plan.spec.units
    if drafted is None or plan.lining is None:
        return
    if drafted.line_below_waist < ruffle.HIGHEST_LINE:
        return  # it has no place, which _ruffle_place() says; its other numbers mean nothing
    usable = cloth.usable_width(plan.spec.cloths.ruffle)
    low, high = drafted.habit.ratios
    if not low <= drafted.gather_ratio <= high:
        yield _caution(
            "ruffle-ratio-unusual",
            f"The ruffle gathers {drafted.gather_ratio:.3g} to 1; {drafted.cloth.value} is"
            f" usually gathered {low:g} to {high:g}.",
            "Sew a sample 10 cm long at two ratios before cutting.",
        )
    if drafted.strips == 0:
        yield _stop(
            "cloth-too-narrow",
            f"The ruffle's cloth has {length_text(usable, units)} between its selvages, less"
            " than its joins take.",
            "Check the width under [cloth.ruffle].",
        )
    elif drafted.strips > 60:
        yield _caution(
            "many-strips",
            f"The ruffle is joined from {drafted.strips} strips.",
            "Cut it along the length of the cloth, or buy a wider one.",
        )
    if drafted.flat_length > 15_000:
        yield _caution(
            "long-gathering",
            f"There are {length_text(drafted.flat_length, units)} to gather.",
            "Allow an evening for it, and gather over a cord.",
        )
    near = ruffle.join_clearance(drafted, plan.lining.cut.panels)
    if near is not None and near < NEAR_A_SEAM:
        yield _note(
            "join-near-seam",
            f"A join of the ruffle comes within {length_text(near, units)} of a lining seam.",
            "Shift the ring until the nearest joins lie evenly on both sides of the seam."
            if drafted.ring
            else "Make one strip longer and the next one shorter.",
        )


def _cloth(plan: Plan) -> Iterator[Finding]:
    spec, units = plan.spec, plan.spec.units
    for part, layer in _layers(plan):
        usable = cloth.usable_width(layer.cloth)
        width = cloth.panel_width(layer.cut, layer.allowances, spec.skirt.grain)
        if math.isinf(width):
            continue  # cannot_be_drawn() says so
        if width > usable:
            yield _stop(
                "cloth-too-narrow",
                f"No panel of this {part} fits cloth with {length_text(usable, units)} between"
                " its selvages, however many it is cut in.",
                f"Buy wider cloth, or shorten the {part}.",
            )
        elif layer.cut.panels > layer.asked_panels:
            asked = layer.asked_panels
            whole = replace(layer.cut, panels=asked)
            wide = cloth.panel_width(whole, layer.allowances, spec.skirt.grain)
            cut_in = "in one" if asked == 1 else f"in {asked} panels"
            narrow = not math.isinf(wide)
            why = (
                f"Cut {cut_in}, the {part} needs cloth {length_text(wide, units)} wide, and yours"
                f" has {length_text(usable, units)} between its selvages"
                if narrow
                else f"Cut {cut_in}, the {part} leaves no room for its seam allowances"
            )
            yield _caution(
                "panel-split",
                f"{why}, so it is cut in {layer.cut.panels}.",
                "Sew the seams that this adds" + (", or buy wider cloth." if narrow else "."),
            )
        if not layer.half and layer.cut.panel_angle > _WIDE_PANEL:
            yield _note(
                "half-saves-paper",
                f"The {part} panel is printed whole.",
                f"Write fold = true under [cloth.{part}] to print half of it and save nearly half"
                " of its pages.",
            )
        if layer.half and layer.fold_way is FoldWay.NONE:
            yield _note(
                "half-drawn",
                f"The {part} panel is drawn as a half, and the cloth cannot be folded to take it.",
                "Chalk round the half, turn the paper over along its middle, chalk the other"
                " half, and cut in a single layer.",
            )
