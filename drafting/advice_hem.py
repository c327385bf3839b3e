"""What a cutter would say of the length and the hem: floor, stairs, stride, curve, bias.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

import math
from collections.abc import Iterator

from drafting import hem, lining
from drafting.circle import Flare
from drafting.findings import Finding, caution, note, stop
from drafting.gored import ShapedGores
from drafting.language import decimal, said_later, say
from drafting.layer import LEAST_DROP, Layer
from drafting.part_words import by_part, say_by_part
from drafting.plan import Plan, layers
from drafting.spec import HemFinish, LevelAt
from drafting.tilted import Tilted
from drafting.units import Mm, Units, length_text, radius_text

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
            say(
                "A hem {height} above the floor makes the skirt {length} long.",
                height=length_text(clear, units),
                length=length_text(max(lengths.least, 0.0), units),
            ),
            say(
                "Choose a height that leaves {least} to {most} of skirt.",
                least=length_text(SHORTEST * scale, units),
                most=length_text(LONGEST * scale, units),
            ),
        )
        return
    if clear < 0:
        yield stop(
            "longer-than-floor",
            # Counted from the natural waist, as the sheet counts both.
            say(
                "The skirt is {length} long and the floor lies {floor} below the waist.",
                length=length_text(lengths.most + plan.waist.drop, units),
                floor=length_text(plan.floor.least, units),
            ),
            say(
                "Make it at most {most}, or check which of the two was mismeasured.",
                most=length_text(plan.floor.least - TRODDEN * scale, units),
            ),
        )
    elif clear < TRODDEN * scale - 1e-6:
        yield caution(
            "trodden-on",
            say("The hem hangs {clear} above the floor.", clear=length_text(clear, units)),
            say(
                "Leave at least {least}, and take care on stairs, escalators and bicycles.",
                least=length_text(TRODDEN * scale, units),
            ),
        )
    elif clear < 0.12 * floor.least:
        yield note(
            "long-hem",
            say("The hem hangs {clear} above the floor.", clear=length_text(clear, units)),
            say(
                "Take care on stairs, escalators and bicycles, and level the hem in the shoes you"
                " will wear."
            ),
        )
    asked = plan.spec.skirt.level is LevelAt.WAIST
    if asked and not lengths.even and not isinstance(plan.skirt.cut, Tilted):
        yield caution(
            "levelled-at-hem",
            say(
                "Only circles and plain gores take a tilted waistline; this skirt is levelled at"
                " its hem instead."
            ),
            say('Write level = "hem", or cut it from a circle.'),
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
        say(
            "Held out by its ruffle the skirt hangs shorter: at 25 degrees from the plumb its hem"
            " rises about {middle}, at 15 about {small}, at 35 about {large}; an estimate that is"
            " not in the pattern.",
            middle=middle,
            small=small,
            large=large,
        ),
        say("Level the hem over the finished lining and ruffle before you cut it."),
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
                say_by_part(
                    part,
                    skirt=said_later(
                        "The skirt's hem allowance of {allowance} is too deep for this curve"
                        " ({most} at most, an estimate for its cloth)."
                    ),
                    lining=said_later(
                        "The lining's hem allowance of {allowance} is too deep for this curve"
                        " ({most} at most, an estimate for its cloth)."
                    ),
                    allowance=radius_text(wanted, units),
                    most=radius_text(limit, units),
                ),
                _shallower(layer, limit, units),
            )
        if layer.finish is HemFinish.BOUND and layer.allowances.hem > 0 and layer.below is None:
            yield note(
                "bound-allowance",
                say_by_part(
                    part,
                    skirt=said_later(
                        "The skirt's hem has {allowance} of allowance, and a binding takes none."
                    ),
                    lining=said_later(
                        "The lining's hem has {allowance} of allowance, and a binding takes none."
                    ),
                    allowance=radius_text(layer.allowances.hem, units),
                ),
                say("Cut it off along the stitching line before you bind the edge."),
            )
        braid = plan.spec.skirt.braid
        if layer.finish is HemFinish.BRAID and layer.hem_radius is not None:
            yield from _braid(plan, layer.hem_radius, braid)


def _shallower(layer: Layer, limit: Mm, units: Units) -> str:
    """Return what to do about a hem that is too deep for its curve."""
    if limit < hem.LEAST_HEM:
        return say("Bind the edge or face it: nothing that can be turned lies flat there.")
    most = radius_text(limit, units)
    if layer.finish is HemFinish.BRAID:
        return say("Turn {most} or less round the braid.", most=most)
    return say(
        "Turn {most} or less, roll the edge, or face it with a strip cut to the curve.", most=most
    )


def _braid(plan: Plan, radius: Mm, braid: Mm) -> Iterator[Finding]:
    units = plan.spec.units
    if radius <= BRAID_RADII * braid:
        yield caution(
            "braid-too-wide",
            say(
                "A braid {braid} wide wants a hem radius over {least}; this hem's is {radius}.",
                braid=length_text(braid, units),
                least=length_text(BRAID_RADII * braid, units),
                radius=radius_text(radius, units),
            ),
            say("Take a braid of {most} or less.", most=radius_text(radius / BRAID_RADII, units)),
        )


def on_bias(plan: Plan) -> Iterator[Finding]:
    """Yield how far each hem drops on the bias, its spare, and how long to hang it."""
    units = plan.spec.units
    for part, layer in layers(plan):
        kind = layer.behaviour
        if not kind.woven:
            yield note(
                "hang",
                say_by_part(
                    part,
                    skirt=said_later(
                        "The skirt's cloth has no bias of the woven kind; net and knits stretch"
                        " across."
                    ),
                    lining=said_later(
                        "The lining's cloth has no bias of the woven kind; net and knits"
                        " stretch across."
                    ),
                ),
                say("Hang it {hours} hours before you mark its hem.", hours=kind.hang_hours),
            )
            continue
        if layer.below is not None and layer.below.flounce is not None:
            yield note(
                "hang",
                # Only a skirt ends in one.
                say("The skirt ends in a flounce, which drops on the bias as it hangs."),
                say(
                    "Hang it {hours} hours from its finished waist before the flounce is hemmed,"
                    " mark the level from the floor, and trim.",
                    hours=kind.hang_hours,
                ),
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
                say(
                    "Where the skirt hangs on the bias its lower edge drops about {drop}, an"
                    " estimate for its cloth.",
                    drop=length_text(most, units),
                ),
                say(
                    "Hang it {hours} hours before the flounce is sewn on, and level that edge; then"
                    " hang it again before you hem the flounce.",
                    hours=kind.hang_hours,
                ),
            )
            continue
        yield _drop(part, layer, units, trimmed=trimmed)


def _drop(part: str, layer: Layer, units: Units, *, trimmed: bool) -> Finding:
    """Return how far a plain hem drops on the bias, and what is done about it."""
    most, spare, hours = layer.most_drop, layer.allowances.spare, layer.behaviour.hang_hours
    told = by_part(
        part,
        skirt=said_later(
            "Where the skirt hangs on the bias its hem drops about {drop}, an estimate for its"
            " cloth; none on the straight grain. Half of it, {half}, is taken off the printed hem."
        )
        if trimmed
        else said_later(
            "Where the skirt hangs on the bias its hem drops about {drop}, an estimate for its"
            " cloth; none on the straight grain."
        ),
        # Only a skirt's is trimmed.
        lining=said_later(
            "Where the lining hangs on the bias its hem drops about {drop}, an estimate for its"
            " cloth; none on the straight grain."
        ),
    )
    room = (
        said_later(
            "Hang it {hours} hours from its finished waist before you hem it, mark the level from"
            " the floor, and trim; {spare} is spare below the hem."
        )
        if spare
        else said_later(
            "Hang it {hours} hours from its finished waist before you hem it, mark the level from"
            " the floor, and trim; leave {drop} to spare below the hem."
        )
    )
    drop = length_text(most, units)
    return note(
        "bias-drop",
        say(told, drop=drop, half=length_text(most / 2, units)),
        say(room, hours=hours, spare=length_text(spare, units), drop=drop),
    )


def _untrimmed() -> Finding:
    return caution(
        "bias-not-trimmed",
        say(
            "The hem is not trimmed beforehand: the two edges of a panel lie at different angles"
            " to the grain, or the hem is no plain curve, and its seams would not true."
        ),
        say(
            "Take trim_bias out; or cut an even circle, its panels centred on the grain or a"
            " quarter circle each."
        ),
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
        what = say_by_part(
            part,
            skirt=said_later(
                "The skirt's sweep is {sweep}; a step of {step} needs about {least} there, an"
                " estimate."
            ),
            lining=said_later(
                "The lining's sweep is {sweep}; a step of {step} needs about {least} there, an"
                " estimate."
            ),
            sweep=length_text(sweep, units),
            step=length_text(plan.spec.wearer.step, units),
            least=length_text(least, units),
        )
        # The gathers of a skirt do not count against it: its hem is free.
        girth, below = layer.cut.waistline, layer.length
        if isinstance(layer.cut, ShapedGores):  # their flare begins at the hip
            girth, below = layer.cut.hipline, layer.length - layer.cut.hip_depth
        wanted = (lining.STAIRS * least - girth) / (math.tau * below)
        do = say_by_part(
            part,
            skirt=said_later("Cut the skirt from at least {least} of a circle."),
            lining=said_later("Cut the lining from at least {least} of a circle."),
            least=decimal(f"{math.ceil(wanted * 100) / 100:g}"),
        )
        if layer.hem_radius is None:
            do = say("Gather more at the waist (gather_ratio).")
        if layer.below is not None and layer.below.tiers:
            do = say("Raise the ratios of the tiers.")
        elif layer.below is not None or layer.godets:
            do = say("Cut the skirt fuller, or give its flounce or its godets more.")
        knee = plan.spec.wearer.waist_to_knee - plan.waist.drop
        frees_knee = 0 < layer.vent >= layer.length - knee
        if frees_knee and sweep < lining.STAIRS * least:
            yield note(
                "vent",
                what,
                say(
                    "Leave its closure seam open for {vent} up from the hem, a vent from above the"
                    " knee; hem its edges and bar-tack its top.",
                    vent=length_text(layer.vent, units),
                ),
            )
        elif sweep < least:
            yield stop("sweep-too-small", what, do)
        elif sweep < lining.STAIRS * least:
            more = say("{remedy} That leaves room for stairs.", remedy=do)
            yield caution("sweep-tight", what, more)
