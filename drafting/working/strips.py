"""Workings of what hangs from a layer or makes up a ruffle: tiers, flounces, godets, strips.

Millimetres and degrees. Imports the parts' constants and the model.
"""

import math
from collections.abc import Iterator

from drafting.flounce import ring_count
from drafting.godet import _top
from drafting.language import say
from drafting.strips import END_HEM
from drafting.tiers import StripWays, Tier
from drafting.working.draft import Draft
from drafting.working.letters import Kind
from drafting.working.model import How, Law, Slate, Working
from drafting.working.sweeps import line_round

LEFT_OPEN = math.degrees(1e-3)
"""Angle that is left open in a ring of a flounce, in degrees."""


def strip_workings(
    slate: Slate,
    keys: tuple[str, str],
    *,
    flat: float,
    usable: float,
    join: float,
    ring: bool,
    strips: int,
    cut: float,
) -> Iterator[Working]:
    """Yield how many strips a flat length takes, and how long each is cut.

    Args:
        keys: of the two figures.
        ring: whether they close to a ring; otherwise the ends are hemmed.
    """
    if strips < 1:
        return
    titles = say("number of strips"), say("cut length of a strip")
    same = {"flat": flat, "U": usable, "j": join, "end": END_HEM, "N": strips}
    if ring:
        yield slate.worked(
            keys[0],
            titles[0],
            say("flat length / (width of the cloth − both joins), rounded up"),
            "roundup(flat / (U - 2 * j))",
            strips,
            How(kind=Kind.COUNT),
            **same,
        )
        yield slate.worked(
            keys[1],
            titles[1],
            say("flat length / number of strips + both joins"),
            "flat / N + 2 * j",
            cut,
            **same,
        )
        return
    yield slate.worked(
        keys[0],
        titles[0],
        say("(flat length + hems at both ends, less a join) / (width − both joins), rounded up"),
        "max(roundup((flat - 2 * j + 2 * end) / (U - 2 * j)), 1)",
        strips,
        How(kind=Kind.COUNT),
        **same,
    )
    yield slate.worked(
        keys[1],
        titles[1],
        say("(flat length + joins + hems at both ends) / number of strips"),
        "(flat + 2 * j * (N - 1) + 2 * end) / N",
        cut,
        **same,
    )


def tier_workings(
    slate: Slate,
    key: str,
    tiers: tuple[Tier, ...],
    ways: StripWays,
    *,
    edge: float,
    whole: float,
    growth: float,
) -> Iterator[Working]:
    """Yield the workings of every tier.

    Args:
        key: of the list of them.
        edge: length that the first is sewn to; ``whole`` is the depth of all together.
        growth: depth of a tier over the depth of the one above it.
    """
    count = len(tiers)
    for order, tier in enumerate(tiers):
        here = f"{key}.{order}"
        if abs(growth - 1) < 1e-9:
            words, formula = say("depth of all tiers / their number"), "V / Nt"
        else:
            words = say("a geometric series: each tier deeper than the one above by its growth")
            formula = "V * (X - 1) / (X ** Nt - 1) * X ** order"
        yield slate.worked(
            f"{here}.depth",
            say("depth of the tier"),
            words,
            formula,
            tier.depth,
            V=whole,
            X=growth,
            Nt=count,
            order=order,
        )
        yield slate.worked(
            f"{here}.flat_length",
            say("flat length of the tier"),
            say("gather ratio × the edge that it is sewn to"),
            "g * C",
            tier.flat,
            g=tier.ratio,
            C=edge,
        )
        yield from strip_workings(
            slate,
            (f"{here}.strips", f"{here}.strip_cut_length"),
            flat=tier.flat,
            usable=ways.usable,
            join=ways.join,
            ring=ways.ring,
            strips=tier.strips,
            cut=tier.cut_length,
        )
        yield slate.worked(
            f"{here}.strip_cut_depth",
            say("cut depth of a strip"),
            say("allowance of the gathered edge + depth + allowance of the lower edge"),
            "top + Dt + low",
            tier.cut_depth,
            How(law=Law.HABIT),
            top=ways.top,
            Dt=tier.depth,
            low=ways.hem if order == count - 1 else ways.seam,
        )
        edge = tier.flat


def hanging(draft: Draft) -> Iterator[Working]:
    """Yield what hangs from the skirt's own panels: tiers, a flounce, godets."""
    plan, figures = draft.plan, draft.figures
    below, wish = plan.skirt.below, plan.spec.skirt
    if below is not None and below.tiers and below.ways is not None:
        yield from tier_workings(
            draft.slate,
            "tiers",
            below.tiers,
            below.ways,
            edge=plan.skirt.cut.sweep,
            whole=plan.skirt.length - plan.skirt.cut.length,
            growth=wish.tiers.growth,
        )
    yield from _flounce(draft)
    if figures.godets is not None and wish.godets is not None:
        blunt = _top(wish.godets.angle)
        formula = "(Dg + tip) * pi * Ag / 180 * n" if blunt else "Dg * pi * Ag / 180 * n"
        yield draft.slate.worked(
            "godets.sweep",
            say("what the godets add to the sweep"),
            say("depth × angle of a godet × number of godets"),
            formula,
            figures.godets.sweep,
            Dg=wish.godets.depth,
            Ag=math.degrees(wish.godets.angle),
            n=figures.godets.count,
            tip=blunt,
        )


def _flounce(draft: Draft) -> Iterator[Working]:
    held, plan, slate = draft.figures.flounce, draft.plan, draft.slate
    wish = plan.spec.skirt.flounce
    if held is None or wish is None:
        return
    side, waist = plan.skirt.allowances.side, plan.skirt.allowances.waist
    yield slate.worked(
        "flounce.inner_radius",
        say("inner radius of the flounce"),
        say("depth / (outer edge over inner edge − 1)"),
        "df0 / (ratio - 1)",
        held.inner_radius,
        df0=wish.depth,
        ratio=wish.ratio,
    )
    yield slate.worked(
        "flounce.outer_radius",
        say("outer radius of the flounce"),
        say("inner radius + depth"),
        "ri + df0",
        held.outer_radius,
        ri=held.inner_radius,
        df0=wish.depth,
    )
    words, formula, numbers, note = line_round(plan.skirt.cut, 0.0)
    yield slate.worked(
        "flounce.sewn_length",
        say("edge that the flounce is sewn to"),
        words,
        formula,
        held.sewn_length,
        How(note=note),
        **numbers,
    )
    fits = ring_count(held.sewn_length, held.inner_radius, join=side, inner=waist) == held.rings
    formula = (
        "roundup(max(C / (2 * pi * ri - 2 * j),"
        " C / (ri * pi * (360 - 2 * arcsin(j / (ri - w)) - slit) / 180)))"
    )
    yield slate.worked(
        "flounce.rings",
        say("number of rings"),
        say("edge sewn to / what a slit ring gives between its joins, rounded up"),
        formula if fits else f"max({formula}, N)",
        held.rings,
        How(
            kind=Kind.COUNT,
            note="" if fits else say("the cloth is too narrow for so few; it takes this many"),
        ),
        C=held.sewn_length,
        ri=held.inner_radius,
        j=side,
        w=waist,
        slit=LEFT_OPEN,
        N=held.rings,
    )
    yield slate.worked(
        "flounce.ring_angle",
        say("angle of a ring"),
        say("edge sewn to / number of rings, as an angle at the inner radius"),
        "C / N / ri * 180 / pi",
        held.ring_angle,
        How(kind=Kind.ANGLE),
        C=held.sewn_length,
        N=held.rings,
        ri=held.inner_radius,
    )
    yield slate.worked(
        "flounce.sweep",
        say("outer edge of the flounce"),
        say("edge sewn to × outer radius / inner radius"),
        "C * ro / ri",
        held.sweep,
        C=held.sewn_length,
        ro=held.outer_radius,
        ri=held.inner_radius,
    )
