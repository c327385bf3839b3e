"""The working of a draft: each of its figures with its formula and this wearer's numbers.

For whoever teaches, learns or doubts. Millimetres and degrees inside, the sheet's units in the
words. Imports the plan, the figures and the files beside it.
"""

from collections.abc import Iterator

from drafting.cloth.shopping import Shopping
from drafting.language import in_its_language
from drafting.pattern import Pattern
from drafting.plan import plan
from drafting.working.cloth import to_buy
from drafting.working.draft import Draft, parts
from drafting.working.finishes import waist_finish
from drafting.working.hems import finish, hem, walking
from drafting.working.model import Law as Law
from drafting.working.model import Slate
from drafting.working.model import Term as Term
from drafting.working.model import Working as Working
from drafting.working.model import letters_used as letters_used
from drafting.working.openings import closing, opening, vent
from drafting.working.ruffles import ruffle_workings
from drafting.working.shape import shape
from drafting.working.strips import hanging
from drafting.working.waist import finished_waist, flat_waist

NOT_WORKED: tuple[tuple[str, str], ...] = (
    ("scale", "asked for on the sheet"),
    ("waist.drop", "asked for on the sheet"),
    ("*.fullness", "asked for on the sheet; a yoke's is worked"),
    ("*.panels", "a choice: as many as asked for, or as the cloth's width takes"),
    ("*.gather_ratio", "asked for on the sheet; one that follows from cloth or hip is worked"),
    ("*.waist_stretch", "given, or a table of cloths; one by the bias law is worked"),
    ("*.hem_allowance", "asked for on the sheet; one that is left open is worked"),
    ("*.hem_spare", "asked for on the sheet; one that is left open is worked"),
    ("*.bias_drop_most", "the greatest of the drops at the angles that occur; the law is worked"),
    ("*.hang_hours", "a table of habits, by the kind of cloth"),
    ("*.bias_drops.*.angle", "places on a panel, every 15 degrees"),
    ("*.bias_drops.*.drop", "one law for all; the first place between the grains is worked"),
    ("flounce.depth", "asked for on the sheet"),
    ("godets.depth", "asked for on the sheet"),
    ("godets.angle", "asked for on the sheet"),
    ("godets.count", "one in every seam"),
    ("hem.facing_depth", "asked for on the sheet"),
    ("hem.strip_width", "a habit of the trade"),
    ("hem.braid_width", "asked for on the sheet"),
    ("ruffle.depth", "asked for on the sheet; one that is left open is worked"),
    ("ruffle.rows_from_edge.*", "a habit of the trade, by the ruffle's cloth"),
    ("ruffle.seam_from_edge", "a habit of the trade"),
    ("ruffle.ring", "a fact: its line lies below every opening, or does not"),
    ("ruffle.join_allowance", "a habit of the trade, by the ruffle's cloth"),
    ("ruffle.ways.*", "the planned way is worked; the other goes by the same formulas"),
    ("binding.cut_width", "a habit of the trade"),
    ("contour.height", "asked for on the sheet"),
    ("facing.depth", "asked for on the sheet"),
    ("cloth.*", "measures of the cloth; what to buy is worked from its lay"),
    ("truing.*", "measured along the drawn seams, edge by edge"),
)
"""Figures of the JSON without a working, and why. ``*`` stands for any part of a path."""


def not_worked(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Return the paths of a pattern's figures that have no working, and why."""
    figures, found = pattern.figures, list(NOT_WORKED)
    if figures.skirt.cut == "owned":
        found.append(("skirt.*", "of a skirt that is sewn already: measured, not drafted"))
    if not figures.skirt.opening:
        found.append(("skirt.opening", "0: it is pulled on, or sewn already"))
    if figures.lining is not None and not figures.lining.opening:
        found.append(("lining.opening", "0: it is pulled on"))
    if figures.ruffle is not None and not figures.ruffle.join_from_seam:
        found.append(("ruffle.join_from_seam", "0: a join meets a lining seam, whatever is done"))
    return tuple(found)


@in_its_language
def working(pattern: Pattern, shopping: Shopping | None = None) -> tuple[Working, ...]:
    """Return the working of every figure of a pattern that is worked out, in the draft's order.

    Nothing is returned for a draft of which a part cannot be drawn: plainer parts stand in for
    it in the figures.

    Args:
        shopping: what to buy, where lays were made; its workings come last.
    """
    planned = plan(pattern.spec)
    if planned.faults:
        return ()
    slate = Slate(units=pattern.spec.units)
    draft = Draft(plan=planned, figures=pattern.figures, slate=slate)
    found = list(_all(draft))
    if shopping is not None:
        found += to_buy(slate, shopping)
    return tuple(found)


def _all(draft: Draft) -> Iterator[Working]:
    yield from finished_waist(draft)
    for part in parts(draft):
        yield from flat_waist(part)
        yield from shape(part)
        yield from hem(part)
        yield from walking(part)
        yield from opening(part)
        yield from vent(part)
    yield from hanging(draft)
    yield from finish(draft)
    yield from ruffle_workings(draft)
    yield from closing(draft)
    yield from waist_finish(draft)
