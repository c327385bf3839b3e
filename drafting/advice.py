"""What a good cutter would say about a plan: findings with the numbers and a way out.

Millimetres; shown in the sheet's units. Each part of the garment has a file of its own.
"""

import re

from drafting.advice_cloth import on_cloth
from drafting.advice_cloth import on_pieces as on_pieces
from drafting.advice_hem import on_bias, on_hem, on_length, on_walking
from drafting.advice_parts import on_flounce, on_godets, on_owned, on_pockets, on_tiers
from drafting.advice_ruffle import on_lining, on_ruffle_place, on_ruffle_work, on_vent
from drafting.advice_waist import on_hip, on_passing, on_waist
from drafting.errors import DraftingError
from drafting.findings import Finding, stop
from drafting.language import say
from drafting.plan import Plan
from drafting.units import Units, length_text


def advice(plan: Plan) -> tuple[Finding, ...]:
    """Return everything worth saying about a plan, in the order of a fitting."""
    return tuple(
        finding
        for part in (
            on_waist(plan),
            on_hip(plan),
            on_passing(plan),
            on_length(plan),
            on_hem(plan),
            on_bias(plan),
            on_walking(plan),
            on_godets(plan),
            on_flounce(plan),
            on_tiers(plan),
            on_pockets(plan),
            on_owned(plan),
            on_lining(plan),
            on_vent(plan),
            on_ruffle_place(plan),
            on_ruffle_work(plan),
            on_cloth(plan),
        )
        for finding in part
    )


_IN_MM = re.compile(r"(\d+(?:\.\d+)?) mm")


def cannot_be_drawn(error: DraftingError, units: Units) -> Finding:
    """Return the stop for a piece whose lines cannot be drawn at these measures."""
    told = _IN_MM.sub(lambda found: length_text(float(found[1]), units), str(error))
    what, _, remedy = (part.strip() for part in told.partition(";"))
    # What went wrong is an error's own words, which are English in every language.
    do = say("Use more panels, narrower seam allowances, or less fullness with gathers.")
    if remedy:
        do = f"{remedy[0].upper()}{remedy[1:]}."
    return stop("cannot-be-drawn", say("This draft cannot be drawn: {what}.", what=what), do)
