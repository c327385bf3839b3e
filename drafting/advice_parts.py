"""What a cutter would say of godets, flounces, tiers, pockets, and a skirt already sewn.

Millimetres; shown in the sheet's units. Imports the plan and the parts' formulas.
"""

from collections.abc import Iterator

from drafting.advice_ruffle import FAR_TOO_LONG, LONG_GATHERING
from drafting.findings import Finding, caution, note, stop
from drafting.language import say, say_counted
from drafting.plan import Plan
from drafting.pockets import pocket_findings
from drafting.tiers import gathering_metres
from drafting.units import Mm, Units, length_text

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
            say(
                "Godets {depth} deep begin {below} below the waist, and the opening ends at"
                " {opening}.",
                depth=length_text(godets.depth, units),
                below=length_text(max(top, 0), units),
                opening=length_text(plan.skirt.opening, units),
            ),
            say(
                "Make them at most {most} deep.",
                most=length_text(plan.skirt.cut.length - lowest, units),
            ),
        )
    elif top < plan.waist.hip_depth:
        yield caution(
            "godet-above-hip",
            say(
                "Godets {depth} deep begin {below} below the waist, above the hip at {hip}.",
                depth=length_text(godets.depth, units),
                below=length_text(top, units),
                hip=length_text(plan.waist.hip_depth, units),
            ),
            say("Shallower godets flare from below the hip, which looks longer and sits flatter."),
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
            say(
                "The flounce begins {below} below the waist, above the hip at {hip}.",
                below=length_text(plan.skirt.cut.length, units),
                hip=length_text(plan.waist.hip_depth, units),
            ),
            say("Make it less deep, so that the skirt fits over the hip first."),
        )
    if flounce.waist_radius < SMALL_INNER * plan.spec.scale:
        yield caution(
            "flounce-tight",
            say(
                "The flounce's inner edge has a radius of {radius}, hard to clip and sew evenly.",
                radius=length_text(flounce.waist_radius, units),
            ),
            say(
                "Lower its ratio or make it deeper; staystitch the inner edge and clip it every"
                " 1 cm."
            ),
        )
    yield note(
        "flounce-rings",
        say_counted(
            "The flounce is sewn to {length} of edge and is cut as {count} ring, joined.",
            "The flounce is sewn to {length} of edge and is cut as {count} rings, joined.",
            flounce.panels,
            length=length_text(flounce.waistline, units),
        ),
        say("The middle of a ring is waste; cut facings or pockets from it."),
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
            _little_room(len(below.tiers), plan.skirt.cut.length, room, units),
            say("Make the skirt longer, the yoke shorter, or take fewer tiers."),
        )
    if any(tier.strips == 0 for tier in below.tiers):
        yield stop(
            "cloth-too-narrow",
            say(
                "The tiers' cloth has {usable} between its selvages, less than their joins take.",
                usable=length_text(plan.skirt.usable, units),
            ),
            say("Check the width under [cloth.skirt]."),
        )
    if plan.skirt.cut.length < plan.waist.hip_depth:
        yield caution(
            "yoke-above-hip",
            say(
                "The yoke ends {below} below the waist, above the hip at {hip}.",
                below=length_text(plan.skirt.cut.length, units),
                hip=length_text(plan.waist.hip_depth, units),
            ),
            say("Let it reach the hip, so that nothing is gathered where the body is narrowest."),
        )
    if gathering_metres(below.tiers) * 1000 > LONG_GATHERING:
        yield caution(
            "long-gathering",
            say(
                "There are {length} to gather.",
                length=length_text(gathering_metres(below.tiers) * 1000, units),
            ),
            say(
                "Allow an evening for it, and gather over a cord; or lower the ratios of the tiers."
            )
            if gathering_metres(below.tiers) * 1000 < FAR_TOO_LONG
            else say("That is more than anyone gathers: lower the ratios of the tiers."),
        )


def _little_room(tiers: int, yoke: Mm, room: Mm, units: Units) -> str:
    # The English of one tier is that of many: the sheet's tiers are named together.
    return say_counted(
        "Below a yoke of {yoke} the skirt leaves {room} for {count} tiers.",
        "Below a yoke of {yoke} the skirt leaves {room} for {count} tiers.",
        tiers,
        yoke=length_text(yoke, units),
        room=length_text(room, units),
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
            say(
                "The skirt's waist seam is {skirt} and your waist {waist}.",
                skirt=length_text(owned.waist, units),
                waist=length_text(body, units),
            ),
            say("Measure both again: the lining is drafted to the skirt's seam."),
        )
    yield note(
        "owned-skirt",
        say(
            "The lining is drafted to go into a skirt of {length} with a waist seam of {waist} and"
            " a sweep of {sweep}; the skirt itself is not drawn.",
            length=length_text(owned.length, units),
            waist=length_text(owned.waist, units),
            sweep=length_text(owned.sweep, units),
        ),
        say(
            "Open its waist finish, sew the lining in with the skirt's own seam allowance, close"
            " it."
        ),
    )
