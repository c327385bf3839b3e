"""What a cutter would say of the lining and the ruffle on it.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

import math
from collections.abc import Iterator

from drafting import ruffle
from drafting.cloth import usable_width
from drafting.findings import Finding, caution, note, stop
from drafting.language import decimal, said_later, say
from drafting.plan import SHORTEST_LINING, Plan
from drafting.spec import Closure, Figure, RuffleCloth
from drafting.units import Mm, length_text

LONG_GATHERING: Mm = 15_000.0
"""More than this to gather is worth saying before the cloth is cut."""

FAR_TOO_LONG: Mm = 60_000.0
"""More than this is no evening's work."""

COVER: Mm = 25.0
"""How far the skirt must hang below the ruffle to hide it (20 to 50)."""

HELD = 1.3
"""A flat ruffle longer than this times the skirt's girth there folds over on itself."""

NEAR_A_SEAM: Mm = 40.0
"""A ruffle's join nearer than this to a lining seam makes a lump."""


def on_lining(plan: Plan) -> Iterator[Finding]:
    """Yield what is worth saying of the lining's sweep and length."""
    if plan.lining is None:
        return
    units = plan.spec.units
    scale = plan.spec.scale
    if plan.lining.sweep > plan.skirt.sweep:
        yield caution(
            "lining-wider",
            say(
                "The lining's sweep ({lining}) is more than the skirt's ({skirt}).",
                lining=length_text(plan.lining.sweep, units),
                skirt=length_text(plan.skirt.sweep, units),
            ),
            _narrower(plan),
        )
    assert plan.spec.lining is not None
    shorter = plan.spec.lining.shorter
    whole = plan.skirt.length
    long = whole - shorter
    if long < SHORTEST_LINING * scale - 1e-6:
        yield stop(
            "lining-too-short",
            say(
                "A lining {shorter} shorter than a skirt of {skirt} leaves {left}; a lining is at"
                " least {least} long.",
                shorter=length_text(shorter, units),
                skirt=length_text(whole, units),
                left=length_text(long, units),
                least=length_text(SHORTEST_LINING * scale, units),
            ),
            say("Make the lining less shorter than the skirt, or leave it out."),
        )
    if not 20 * scale <= shorter <= 50 * scale:
        yield caution(
            "lining-length",
            say(
                "The lining is {shorter} shorter than the skirt; {least} to {most} is usual.",
                shorter=length_text(shorter, units),
                least=length_text(20 * scale, units),
                most=length_text(50 * scale, units),
            ),
            say("Shorter shows on stairs less but hides a ruffle less too; longer peeps out."),
        )


def on_vent(plan: Plan) -> Iterator[Finding]:
    """Yield where a vent that was asked for has less room than that."""
    wish, units = plan.spec.lining, plan.spec.units
    if wish is None or plan.lining is None or wish.vent is None:
        return
    if plan.lining.vent < wish.vent - 0.5:
        yield caution(
            "vent-shortened",
            say(
                "A vent of {asked} would meet the opening; it is left {left} long.",
                asked=length_text(wish.vent, units),
                left=length_text(plan.lining.vent, units),
            ),
            say("Ask for a shorter vent, or give the lining more fullness."),
        )


def _narrower(plan: Plan) -> str:
    """Return how much narrower a lining must be that is wider than its skirt."""
    assert plan.lining is not None
    cut = plan.lining.cut
    most = (plan.skirt.sweep - cut.waistline) / (math.tau * cut.length)
    if most < 0.2:
        if plan.owned:
            return say(
                "The skirt is too narrow for a lining cut from a circle; line it with gores."
            )
        return say("Leave the lining out, or make the skirt fuller: it would crumple inside.")
    return say(
        "Cut it from at most {most} of a circle, or it will crumple inside.",
        most=decimal(f"{math.floor(most * 100) / 100:g}"),
    )


def on_ruffle_place(plan: Plan) -> Iterator[Finding]:
    """Yield whether the ruffle has its place, is covered, and is held by the skirt."""
    drafted, units, scale = plan.ruffle, plan.spec.units, plan.spec.scale
    if drafted is None or plan.lining is None or plan.spec.ruffle is None:
        return
    below = drafted.line_below_waist
    if below < ruffle.HIGHEST_LINE:
        wish = plan.spec.ruffle
        room = plan.lining.cut.length - wish.above_hem - ruffle.HIGHEST_LINE
        yield stop(
            "ruffle-too-deep",
            say(
                "A ruffle of {ruffle} does not fit on a lining of {lining}.",
                ruffle=length_text(drafted.depth, units),
                lining=length_text(plan.lining.cut.length, units),
            ),
            say("Make it at most {most} deep.", most=length_text(room, units))
            if room > 20
            else say("Set it nearer the lining's hem, or make the lining longer."),
        )
        return
    if below < plan.waist.hip_depth:
        yield caution(
            "ruffle-above-hip",
            say(
                "The ruffle starts {below} below the waist, above the hip line at {hip}.",
                below=length_text(below, units),
                hip=length_text(plan.waist.hip_depth, units),
            ),
            say("Gathers above the hip add to it; make the ruffle less deep."),
        )
    lowest = below + drafted.depth
    cover = plan.skirt.length - lowest
    if cover < COVER * plan.spec.scale - 1e-6:
        yield caution(
            "ruffle-peeps-out",
            say(
                "The skirt hangs only {cover} below the ruffle; {enough} hides it.",
                cover=length_text(max(cover, 0.0), units),
                enough=length_text(COVER * plan.spec.scale, units),
            ),
            say("Shorten the lining, or set the ruffle higher above its hem."),
        )
    around = plan.skirt.girth_at(min(lowest, plan.skirt.length))
    if drafted.widest > HELD * around:
        most = drafted.gather_ratio * HELD * around / drafted.widest
        low = drafted.habit.ratios[0]
        do = say(
            "Gather it at most {ratio} to 1, or take a fuller skirt.", ratio=decimal(f"{most:.1f}")
        )
        if most < low:
            # Its cloth would not stand up so little gathered.
            do = (
                say(
                    "Gather it less (gather_ratio, tier_ratio) or make it less deep; or leave it"
                    " out."
                )
                if plan.owned
                else say(
                    "Gather it less (gather_ratio, tier_ratio) or make it less deep; or take a"
                    " fuller skirt."
                )
            )
        yield caution(
            "ruffle-not-held",
            say(
                "The flat ruffle is {ruffle} and the skirt measures {skirt} over it: it will fold"
                " on itself.",
                ruffle=length_text(drafted.widest, units),
                skirt=length_text(around, units),
            ),
            do,
        )
    if (
        plan.spec.wearer.figure is Figure.ADULT
        and not drafted.tiers
        and not (120 * scale <= drafted.depth <= 350 * scale)
    ):
        yield caution(
            "ruffle-depth-unusual",
            say(
                "The ruffle is {depth} deep; {least} to {most} is usual.",
                depth=length_text(drafted.depth, units),
                least=length_text(120 * scale, units),
                most=length_text(350 * scale, units),
            ),
            say("Very shallow ruffles do not hold a skirt, very deep ones fall flat; try two."),
        )
    if not drafted.ring and plan.closure is not Closure.NONE:
        yield note(
            "ruffle-open",
            say(
                "The ruffle starts {below} below the waist, and the lining is open for {opening}:"
                " too near for a closed ring.",
                below=length_text(below, units),
                opening=length_text(plan.lining.opening, units),
            ),
            say("It is sewn open, its two ends hemmed beside the opening."),
        )


_USUALLY = {
    RuffleCloth.SOFT_TULLE: said_later(
        "The ruffle gathers {ratio} to 1; soft tulle is usually gathered {least} to {most}."
    ),
    RuffleCloth.STIFF_NET: said_later(
        "The ruffle gathers {ratio} to 1; stiff net is usually gathered {least} to {most}."
    ),
    RuffleCloth.SILK_ORGANZA: said_later(
        "The ruffle gathers {ratio} to 1; silk organza is usually gathered {least} to {most}."
    ),
    RuffleCloth.POLYESTER_ORGANZA: said_later(
        "The ruffle gathers {ratio} to 1; polyester organza is usually gathered {least} to {most}."
    ),
    RuffleCloth.COTTON_ORGANDY: said_later(
        "The ruffle gathers {ratio} to 1; cotton organdy is usually gathered {least} to {most}."
    ),
    RuffleCloth.CRINOLINE_CANVAS: said_later(
        "The ruffle gathers {ratio} to 1; crinoline canvas is usually gathered {least} to {most}."
    ),
}


def on_ruffle_work(plan: Plan) -> Iterator[Finding]:
    """Yield what is worth saying of the strips and the gathering."""
    drafted, units = plan.ruffle, plan.spec.units
    if drafted is None or plan.lining is None:
        return
    if drafted.line_below_waist < ruffle.HIGHEST_LINE:
        return  # it has no place, which on_ruffle_place() says; its other numbers mean nothing
    usable = usable_width(plan.spec.cloths.ruffle)
    low, high = drafted.habit.ratios
    if not low <= drafted.gather_ratio <= high:
        yield caution(
            "ruffle-ratio-unusual",
            say(
                _USUALLY[drafted.cloth],
                ratio=decimal(f"{drafted.gather_ratio:.3g}"),
                least=decimal(f"{low:g}"),
                most=decimal(f"{high:g}"),
            ),
            say("Sew a sample 10 cm long at two ratios before cutting."),
        )
    if drafted.strips == 0:
        yield stop(
            "cloth-too-narrow",
            say(
                "The ruffle's cloth has {usable} between its selvages, less than its joins take.",
                usable=length_text(usable, units),
            ),
            say("Check the width under [cloth.ruffle]."),
        )
    elif drafted.strips > 60:
        yield caution(
            "many-strips",
            say("The ruffle is joined from {count} strips.", count=drafted.strips),
            say("Cut it along the length of the cloth, or buy a wider one."),
        )
    if drafted.gathered_length > LONG_GATHERING:
        yield caution(
            "long-gathering",
            say(
                "There are {length} to gather.", length=length_text(drafted.gathered_length, units)
            ),
            say("Allow an evening for it, and gather over a cord.")
            if drafted.gathered_length < FAR_TOO_LONG
            else say("That is more than anyone gathers: lower the ratios."),
        )
    if plan.spec.ruffle is not None and plan.spec.ruffle.doubled and drafted.tiers:
        yield caution(
            "tiers-single",
            say(
                "A ruffle of {count} tiers is cut single, though the sheet asks for it doubled.",
                count=len(drafted.tiers),
            ),
            say("Take doubled out, or take one tier."),
        )
    near = ruffle.join_clearance(drafted, plan.lining.cut.panels)
    if near is not None and near < NEAR_A_SEAM:
        yield note(
            "join-near-seam",
            say(
                "A join of the ruffle comes within {distance} of a lining seam.",
                distance=length_text(near, units),
            ),
            say("Shift the ring until the nearest joins lie evenly on both sides of the seam.")
            if drafted.ring
            else say("Make one strip longer and the next one shorter."),
        )
