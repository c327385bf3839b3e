"""What a cutter would say of the lining and the ruffle on it.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

import math
from collections.abc import Iterator

from drafting import ruffle
from drafting.cloth import usable_width
from drafting.findings import Finding, caution, note, stop
from drafting.plan import SHORTEST_LINING, Plan
from drafting.spec import Closure, Figure
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
            f"The lining's sweep ({length_text(plan.lining.sweep, units)}) is more than"
            f" the skirt's ({length_text(plan.skirt.sweep, units)}).",
            _narrower(plan),
        )
    assert plan.spec.lining is not None
    shorter = plan.spec.lining.shorter
    whole = plan.skirt.length
    long = whole - shorter
    if long < SHORTEST_LINING * scale - 1e-6:
        yield stop(
            "lining-too-short",
            f"A lining {length_text(shorter, units)} shorter than a skirt of"
            f" {length_text(whole, units)} leaves {length_text(long, units)}; a"
            f" lining is at least {length_text(SHORTEST_LINING * scale, units)} long.",
            "Make the lining less shorter than the skirt, or leave it out.",
        )
    if not 20 * scale <= shorter <= 50 * scale:
        yield caution(
            "lining-length",
            f"The lining is {length_text(shorter, units)} shorter than the skirt; "
            f"{length_text(20 * scale, units)} to {length_text(50 * scale, units)} is usual.",
            "Shorter shows on stairs less but hides a ruffle less too; longer peeps out.",
        )


def on_vent(plan: Plan) -> Iterator[Finding]:
    """Yield where a vent that was asked for has less room than that."""
    wish, units = plan.spec.lining, plan.spec.units
    if wish is None or plan.lining is None or wish.vent is None:
        return
    if plan.lining.vent < wish.vent - 0.5:
        yield caution(
            "vent-shortened",
            f"A vent of {length_text(wish.vent, units)} would meet the opening; it is left"
            f" {length_text(plan.lining.vent, units)} long.",
            "Ask for a shorter vent, or give the lining more fullness.",
        )


def _narrower(plan: Plan) -> str:
    """Return how much narrower a lining must be that is wider than its skirt."""
    assert plan.lining is not None
    cut = plan.lining.cut
    most = (plan.skirt.sweep - cut.waistline) / (math.tau * cut.length)
    if most < 0.2:
        if plan.owned:
            return "The skirt is too narrow for a lining cut from a circle; line it with gores."
        return "Leave the lining out, or make the skirt fuller: it would crumple inside."
    return (
        f"Cut it from at most {math.floor(most * 100) / 100:g} of a circle, or it will crumple"
        " inside."
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
            f"A ruffle of {length_text(drafted.depth, units)} does not fit on a lining of"
            f" {length_text(plan.lining.cut.length, units)}.",
            f"Make it at most {length_text(room, units)} deep."
            if room > 20
            else "Set it nearer the lining's hem, or make the lining longer.",
        )
        return
    if below < plan.waist.hip_depth:
        yield caution(
            "ruffle-above-hip",
            f"The ruffle starts {length_text(below, units)} below the waist, above the hip line"
            f" at {length_text(plan.waist.hip_depth, units)}.",
            "Gathers above the hip add to it; make the ruffle less deep.",
        )
    lowest = below + drafted.depth
    cover = plan.skirt.length - lowest
    if cover < COVER * plan.spec.scale - 1e-6:
        yield caution(
            "ruffle-peeps-out",
            f"The skirt hangs only {length_text(max(cover, 0.0), units)} below the ruffle;"
            f" {length_text(COVER * plan.spec.scale, units)} hides it.",
            "Shorten the lining, or set the ruffle higher above its hem.",
        )
    around = plan.skirt.girth_at(min(lowest, plan.skirt.length))
    if drafted.widest > HELD * around:
        most = drafted.gather_ratio * HELD * around / drafted.widest
        low = drafted.habit.ratios[0]
        do = f"Gather it at most {most:.1f} to 1, or take a fuller skirt."
        if most < low:
            # Its cloth would not stand up so little gathered.
            do = "Gather it less (gather_ratio, tier_ratio) or make it less deep"
            do += "; or leave it out." if plan.owned else "; or take a fuller skirt."
        yield caution(
            "ruffle-not-held",
            f"The flat ruffle is {length_text(drafted.widest, units)} and the skirt"
            f" measures {length_text(around, units)} over it: it will fold on itself.",
            do,
        )
    if (
        plan.spec.wearer.figure is Figure.ADULT
        and not drafted.tiers
        and not (120 * scale <= drafted.depth <= 350 * scale)
    ):
        yield caution(
            "ruffle-depth-unusual",
            f"The ruffle is {length_text(drafted.depth, units)} deep;"
            f" {length_text(120 * scale, units)} to {length_text(350 * scale, units)} is usual.",
            "Very shallow ruffles do not hold a skirt, very deep ones fall flat; try two.",
        )
    if not drafted.ring and plan.closure is not Closure.NONE:
        yield note(
            "ruffle-open",
            f"The ruffle starts {length_text(below, units)} below the waist, and the lining is"
            f" open for {length_text(plan.lining.opening, units)}: too near for a closed ring.",
            "It is sewn open, its two ends hemmed beside the opening.",
        )


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
            f"The ruffle gathers {drafted.gather_ratio:.3g} to 1; {drafted.cloth.value} is"
            f" usually gathered {low:g} to {high:g}.",
            "Sew a sample 10 cm long at two ratios before cutting.",
        )
    if drafted.strips == 0:
        yield stop(
            "cloth-too-narrow",
            f"The ruffle's cloth has {length_text(usable, units)} between its selvages, less"
            " than its joins take.",
            "Check the width under [cloth.ruffle].",
        )
    elif drafted.strips > 60:
        yield caution(
            "many-strips",
            f"The ruffle is joined from {drafted.strips} strips.",
            "Cut it along the length of the cloth, or buy a wider one.",
        )
    if drafted.gathered_length > LONG_GATHERING:
        yield caution(
            "long-gathering",
            f"There are {length_text(drafted.gathered_length, units)} to gather.",
            "Allow an evening for it, and gather over a cord."
            if drafted.gathered_length < FAR_TOO_LONG
            else "That is more than anyone gathers: lower the ratios.",
        )
    if plan.spec.ruffle is not None and plan.spec.ruffle.doubled and drafted.tiers:
        yield caution(
            "tiers-single",
            f"A ruffle of {len(drafted.tiers)} tiers is cut single, though the sheet asks for it"
            " doubled.",
            "Take doubled out, or take one tier.",
        )
    near = ruffle.join_clearance(drafted, plan.lining.cut.panels)
    if near is not None and near < NEAR_A_SEAM:
        yield note(
            "join-near-seam",
            f"A join of the ruffle comes within {length_text(near, units)} of a lining seam.",
            "Shift the ring until the nearest joins lie evenly on both sides of the seam."
            if drafted.ring
            else "Make one strip longer and the next one shorter.",
        )
