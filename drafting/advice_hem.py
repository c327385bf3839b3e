"""What a cutter would say of the length and the hem: floor, stairs, stride, curve, bias.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

import math
from collections.abc import Iterator

from drafting import hem, lining
from drafting.circle import Flare
from drafting.findings import Finding, caution, note, stop
from drafting.gored import ShapedGores
from drafting.layer import LEAST_DROP, Layer
from drafting.plan import Plan, layers
from drafting.spec import HemFinish, LevelAt
from drafting.tilted import Tilted
from drafting.units import Mm, length_text, radius_text

SHORTEST: Mm = 100.0
LONGEST: Mm = 1600.0
"""Finished lengths that this draft holds for."""

HELD_OUT = (15, 25, 35)
"""How far from the plumb a ruffle holds a skirt, in degrees: a little, much, very much."""

BRAID_RADII = 8
"""A braid lies flat on a hem whose radius is more than so many of its widths."""

TRODDEN: Mm = 20.0
"""A hem nearer the floor than this is stepped on (10 to 40)."""


def on_length(plan: Plan) -> Iterator[Finding]:
    """Yield what is worth saying of the length: the floor, stairs, a hem held out."""
    units, scale = plan.spec.units, plan.spec.scale
    floor, lengths = plan.floor.less(plan.waist.drop), plan.skirt.around
    clear = min(
        floor.front - lengths.front,
        floor.left - lengths.left,
        floor.back - lengths.back,
        floor.right - lengths.right,
    )
    levelled = plan.spec.skirt.hem_above_floor is not None
    if levelled and not SHORTEST * scale <= lengths.least <= LONGEST * scale:
        yield stop(
            "level-hem-out-of-reach",
            f"A hem {length_text(clear, units)} above the floor makes the skirt"
            f" {length_text(max(lengths.least, 0.0), units)} long.",
            f"Choose a height that leaves {length_text(SHORTEST * scale, units)} to"
            f" {length_text(LONGEST * scale, units)} of skirt.",
        )
        return
    if clear < 0:
        yield stop(
            "longer-than-floor",
            # Counted from the natural waist, as the sheet counts both.
            f"The skirt is {length_text(lengths.most + plan.waist.drop, units)} long and the floor"
            f" lies {length_text(plan.floor.least, units)} below the waist.",
            f"Make it at most {length_text(plan.floor.least - TRODDEN * scale, units)}, or check"
            " which of the two was mismeasured.",
        )
    elif clear < TRODDEN * scale - 1e-6:
        yield caution(
            "trodden-on",
            f"The hem hangs {length_text(clear, units)} above the floor.",
            f"Leave at least {length_text(TRODDEN * scale, units)}, and take care on stairs,"
            " escalators and bicycles.",
        )
    elif clear < 0.12 * floor.least:
        yield note(
            "long-hem",
            f"The hem hangs {length_text(clear, units)} above the floor.",
            "Take care on stairs, escalators and bicycles, and level the hem in the shoes you"
            " will wear.",
        )
    asked = plan.spec.skirt.level is LevelAt.WAIST
    if asked and not lengths.even and not isinstance(plan.skirt.cut, Tilted):
        yield caution(
            "levelled-at-hem",
            "Only circles and plain gores take a tilted waistline; this skirt is levelled at its"
            " hem instead.",
            'Write level = "hem", or cut it from a circle.',
        )
    if plan.ruffle is not None:
        yield _rise(plan, lengths.least)


def _rise(plan: Plan, long: Mm) -> Finding:
    """Return by how much a hem rises that a ruffle holds out: L (1 - cos) of the angle."""
    units = plan.spec.units
    small, middle, large = (
        length_text(long * (1 - math.cos(math.radians(angle))), units) for angle in HELD_OUT
    )
    return note(
        "hem-rises",
        "Held out by its ruffle the skirt hangs shorter: at 25 degrees from the plumb its hem"
        f" rises about {middle}, at 15 about {small}, at 35 about {large}; an estimate that is"
        " not in the pattern.",
        "Level the hem over the finished lining and ruffle before you cut it.",
    )


def on_hem(plan: Plan) -> Iterator[Finding]:
    """Yield whether each hem's allowance lies flat on its curve, and what a braid needs."""
    units = plan.spec.units
    for part, layer in layers(plan):
        limit = hem.deepest_hem(
            layer.hem_radius, ease=layer.behaviour.hem_ease, finish=layer.finish
        )
        wanted = plan.flounce_widths.hem if layer.below else layer.allowances.hem
        if wanted > limit:
            yield caution(
                "hem-too-deep",
                f"The {part}'s hem allowance of {radius_text(wanted, units)} is too deep for"
                f" this curve ({radius_text(limit, units)} at most, an estimate for its cloth).",
                "Bind the edge or face it: nothing that can be turned lies flat there."
                if limit < hem.LEAST_HEM
                else f"Turn {radius_text(limit, units)} or less"
                + (
                    " round the braid."
                    if layer.finish is HemFinish.BRAID
                    else ", roll the edge, or face it with a strip cut to the curve."
                ),
            )
        if layer.finish is HemFinish.BOUND and layer.allowances.hem > 0:
            yield note(
                "bound-allowance",
                f"The {part}'s hem has {radius_text(layer.allowances.hem, units)} of allowance, and"
                " a binding takes none.",
                "Cut it off along the stitching line before you bind the edge.",
            )
        braid = plan.spec.skirt.braid
        if layer.finish is HemFinish.BRAID and layer.hem_radius is not None:
            yield from _braid(plan, layer.hem_radius, braid)


def _braid(plan: Plan, radius: Mm, braid: Mm) -> Iterator[Finding]:
    units = plan.spec.units
    if radius <= BRAID_RADII * braid:
        yield caution(
            "braid-too-wide",
            f"A braid {length_text(braid, units)} wide wants a hem radius over"
            f" {length_text(BRAID_RADII * braid, units)}; this hem's is"
            f" {radius_text(radius, units)}.",
            f"Take a braid of {radius_text(radius / BRAID_RADII, units)} or less.",
        )


def on_bias(plan: Plan) -> Iterator[Finding]:
    """Yield how far each hem drops on the bias, its spare, and how long to hang it."""
    units = plan.spec.units
    for part, layer in layers(plan):
        kind = layer.behaviour
        if not kind.woven:
            yield note(
                "hang",
                f"The {part}'s cloth has no bias of the woven kind; net and knits stretch across.",
                f"Hang it {kind.hang_hours} hours before you mark its hem.",
            )
            continue
        if layer.below is not None and layer.below.flounce is not None:
            yield note(
                "hang",
                f"The {part} ends in a flounce, which drops on the bias as it hangs.",
                f"Hang it {kind.hang_hours} hours from its finished waist before the flounce is"
                " hemmed, mark the level from the floor, and trim.",
            )
            continue
        asked = plan.spec.skirt.trim_bias and part == "skirt"
        trimmed = asked and isinstance(layer.cut, Flare) and layer.cut.drop > 0
        most = layer.most_drop
        if asked and not trimmed and most >= LEAST_DROP:
            yield _untrimmed()
        if most < LEAST_DROP or (layer.below is not None and layer.below.tiers):
            continue
        if layer.below is not None:
            yield note(
                "bias-drop",
                f"Where the {part} hangs on the bias its lower edge drops about"
                f" {length_text(most, units)}, an estimate for its cloth.",
                f"Hang it {kind.hang_hours} hours before the flounce is sewn on, and level that"
                " edge; then hang it again before you hem the flounce.",
            )
            continue
        spare = layer.allowances.spare
        taken = (
            f" Half of it, {length_text(most / 2, units)}, is taken off the printed hem."
            if trimmed
            else ""
        )
        room = (
            f"{length_text(spare, units)} is spare below the hem"
            if spare
            else f"leave {length_text(most, units)} to spare below the hem"
        )
        yield note(
            "bias-drop",
            f"Where the {part} hangs on the bias its hem drops about {length_text(most, units)},"
            f" an estimate for its cloth; none on the straight grain.{taken}",
            f"Hang it {kind.hang_hours} hours from its finished waist before you hem it, mark the"
            f" level from the floor, and trim; {room}.",
        )


def _untrimmed() -> Finding:
    return caution(
        "bias-not-trimmed",
        "The hem is not trimmed beforehand: the two edges of a panel lie at different angles to"
        " the grain, or the hem is no plain curve, and its seams would not true.",
        "Take trim_bias out; or cut an even circle, its panels centred on the grain or a quarter"
        " circle each.",
    )


def on_walking(plan: Plan) -> Iterator[Finding]:
    """Yield whether one ordinary step finds room in each layer's sweep."""
    units = plan.spec.units
    checks: list[tuple[str, Layer, Mm]] = []
    if not plan.owned:
        checks.append(("skirt", plan.skirt, plan.walking_sweep))
    if plan.lining is not None and plan.lining_walking_sweep is not None:
        checks.append(("lining", plan.lining, plan.lining_walking_sweep))
    for part, layer, least in checks:
        sweep = layer.sweep
        what = (
            f"The {part}'s sweep is {length_text(sweep, units)}; a step of"
            f" {length_text(plan.spec.wearer.step, units)} needs about"
            f" {length_text(least, units)} there, an estimate."
        )
        # The gathers of a skirt do not count against it: its hem is free.
        girth, below = layer.cut.waistline, layer.length
        if isinstance(layer.cut, ShapedGores):  # their flare begins at the hip
            girth, below = layer.cut.hipline, layer.length - layer.cut.hip_depth
        wanted = (lining.STAIRS * least - girth) / (math.tau * below)
        do = f"Cut the {part} from at least {math.ceil(wanted * 100) / 100:g} of a circle."
        if layer.hem_radius is None:
            do = "Gather more at the waist (gather_ratio)."
        if layer.below is not None and layer.below.tiers:
            do = "Raise the ratios of the tiers."
        elif layer.below is not None or layer.godets:
            do = f"Cut the {part} fuller, or give its flounce or its godets more."
        knee = plan.spec.wearer.waist_to_knee - plan.waist.drop
        frees_knee = 0 < layer.vent >= layer.length - knee
        if frees_knee and sweep < lining.STAIRS * least:
            yield note(
                "vent",
                what,
                f"Leave its closure seam open for {length_text(layer.vent, units)} up from the hem,"
                " a vent from above the knee; hem its edges and bar-tack its top.",
            )
        elif sweep < least:
            yield stop("sweep-too-small", what, do)
        elif sweep < lining.STAIRS * least:
            yield caution("sweep-tight", what, do + " That leaves room for stairs.")
