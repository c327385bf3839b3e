"""What a cutter would say of godets, flounces, tiers, pockets, and a skirt already sewn.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

from collections.abc import Iterator

from drafting.advice_ruffle import FAR_TOO_LONG, LONG_GATHERING
from drafting.findings import Finding, caution, note, stop
from drafting.plan import Plan
from drafting.pockets import pocket_findings
from drafting.tiers import gathering_metres
from drafting.units import length_text

SMALL_INNER = 60.0
"""An inner edge of a flounce on a smaller radius is hard to clip and sew evenly, in mm."""


def on_godets(plan: Plan) -> Iterator[Finding]:
    """Yield whether the godets find room below the opening and the hip."""
    godets, units = plan.spec.skirt.godets, plan.spec.units
    if godets is None:
        return
    top = plan.skirt.cut.length - godets.depth
    lowest = max(plan.skirt.opening, plan.waist.hip_depth)
    if top < plan.skirt.opening:
        yield stop(
            "godet-meets-opening",
            f"Godets {length_text(godets.depth, units)} deep begin"
            f" {length_text(max(top, 0), units)} below the waist, and the opening ends at"
            f" {length_text(plan.skirt.opening, units)}.",
            f"Make them at most {length_text(plan.skirt.cut.length - lowest, units)} deep.",
        )
    elif top < plan.waist.hip_depth:
        yield caution(
            "godet-above-hip",
            f"Godets {length_text(godets.depth, units)} deep begin {length_text(top, units)} below"
            f" the waist, above the hip at {length_text(plan.waist.hip_depth, units)}.",
            "Shallower godets flare from below the hip, which looks longer and sits flatter.",
        )


def on_flounce(plan: Plan) -> Iterator[Finding]:
    """Yield what is worth saying of a flounce's curve and of its place."""
    flounce = plan.skirt.below.flounce if plan.skirt.below else None
    units = plan.spec.units
    if flounce is None:
        return
    if plan.skirt.cut.length < plan.waist.hip_depth:
        yield caution(
            "flounce-above-hip",
            f"The flounce begins {length_text(plan.skirt.cut.length, units)} below the waist, above"
            f" the hip at {length_text(plan.waist.hip_depth, units)}.",
            "Make it less deep, so that the skirt fits over the hip first.",
        )
    if flounce.waist_radius < SMALL_INNER * plan.spec.scale:
        yield caution(
            "flounce-tight",
            f"The flounce's inner edge has a radius of {length_text(flounce.waist_radius, units)},"
            " hard to clip and sew evenly.",
            "Lower its ratio or make it deeper; staystitch the inner edge and clip it every 1 cm.",
        )
    yield note(
        "flounce-rings",
        f"The flounce is sewn to {length_text(flounce.waistline, units)} of edge and is cut as"
        f" {flounce.panels} ring{'s' if flounce.panels > 1 else ''}, joined.",
        "The middle of a ring is waste; cut facings or pockets from it.",
    )


def on_tiers(plan: Plan) -> Iterator[Finding]:
    """Yield how much there is to gather, and whether the tiers have room."""
    below, units = plan.skirt.below, plan.spec.units
    if below is None or not below.tiers:
        return
    room = plan.skirt.length - plan.skirt.cut.length
    if below.tiers[0].depth < 30 * plan.spec.scale:
        yield stop(
            "tiers-too-shallow",
            f"Below a yoke of {length_text(plan.skirt.cut.length, units)} the skirt leaves"
            f" {length_text(room, units)} for {len(below.tiers)} tiers.",
            "Make the skirt longer, the yoke shorter, or take fewer tiers.",
        )
    if any(tier.strips == 0 for tier in below.tiers):
        yield stop(
            "cloth-too-narrow",
            f"The tiers' cloth has {length_text(plan.skirt.usable, units)} between its selvages,"
            " less than their joins take.",
            "Check the width under [cloth.skirt].",
        )
    if plan.skirt.cut.length < plan.waist.hip_depth:
        yield caution(
            "yoke-above-hip",
            f"The yoke ends {length_text(plan.skirt.cut.length, units)} below the waist, above the"
            f" hip at {length_text(plan.waist.hip_depth, units)}.",
            "Let it reach the hip, so that nothing is gathered where the body is narrowest.",
        )
    if gathering_metres(below.tiers) * 1000 > LONG_GATHERING:
        yield caution(
            "long-gathering",
            f"There are {length_text(gathering_metres(below.tiers) * 1000, units)} to gather.",
            "Allow an evening for it, and gather over a cord; or lower the ratios of the tiers."
            if gathering_metres(below.tiers) * 1000 < FAR_TOO_LONG
            else "That is more than anyone gathers: lower the ratios of the tiers.",
        )


def on_pockets(plan: Plan) -> Iterator[Finding]:
    """Yield where pockets cannot go."""
    yield from pocket_findings(plan)


def on_owned(plan: Plan) -> Iterator[Finding]:
    """Yield what is checked against a skirt that is sewn already."""
    owned, units = plan.spec.skirt.owned, plan.spec.units
    if owned is None:
        return
    body = plan.spec.wearer.waist
    if not 0 <= owned.waist - body <= 40 * plan.spec.scale:
        yield caution(
            "owned-waist",
            f"The skirt's waist seam is {length_text(owned.waist, units)} and your waist"
            f" {length_text(body, units)}.",
            "Measure both again: the lining is drafted to the skirt's seam.",
        )
    yield note(
        "owned-skirt",
        f"The lining is drafted to go into a skirt of {length_text(owned.length, units)} with a"
        f" waist seam of {length_text(owned.waist, units)} and a sweep of"
        f" {length_text(owned.sweep, units)}; the skirt itself is not drawn.",
        "Open its waist finish, sew the lining in with the skirt's own seam allowance, close it.",
    )
