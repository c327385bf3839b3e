"""Workings of the ruffle: its line on the lining, its flat length, strips, thread and cord.

Millimetres; thread and cord in metres. Imports the ruffle's constants and the model.
"""

import math
from collections.abc import Iterator

from drafting import ruffle
from drafting.cloth import usable_width
from drafting.language import say
from drafting.working.draft import Draft
from drafting.working.letters import Kind
from drafting.working.model import How, Law, Working
from drafting.working.strips import strip_workings, tier_workings
from drafting.working.sweeps import line_round

ZIGZAG, ROW = 4.5, 2.3
"""Thread for each length of a zigzag over a cord, and of a row of long stitches: estimates."""

CORD_ENDS = 0.3
"""Metres of cord that the ends of one section take."""


def ruffle_workings(draft: Draft) -> Iterator[Working]:
    """Yield the workings of a ruffle."""
    held, drafted, lining = draft.figures.ruffle, draft.plan.ruffle, draft.plan.lining
    if held is None or drafted is None or lining is None:
        return
    yield from _line(draft)
    yield from _flat(draft)
    yield from _gathering(draft)


def _line(draft: Draft) -> Iterator[Working]:
    held, slate, plan = draft.figures.ruffle, draft.slate, draft.plan
    wish, lining = plan.spec.ruffle, plan.lining
    assert held is not None and wish is not None and lining is not None
    cut = lining.cut
    if wish.depth is None:
        yield slate.worked(
            "ruffle.depth",
            say("depth of the ruffle"),
            say("the usual depth, or a third of the lining if that is less"),
            "min(dr0, P / 3)",
            held.depth,
            How(law=Law.HABIT),
            dr0=ruffle.DEEPEST_DEFAULT * draft.ease_scale,
            P=cut.length,
        )
    yield slate.worked(
        "ruffle.line_below_waist",
        say("line of the ruffle, below the waist seam"),
        say("length of the lining − depth of the ruffle − what its edge lies above the hem"),
        "P - dr - up",
        held.line_below_waist,
        P=cut.length,
        dr=held.depth,
        up=wish.above_hem,
    )
    if held.line_radius is not None and cut.waist_radius is not None:
        yield slate.worked(
            "ruffle.line_radius",
            say("radius of that line"),
            say("radius of the lining's waist seam + line below it"),
            "r + y",
            held.line_radius,
            r=cut.waist_radius,
            y=held.line_below_waist,
        )
    words, formula, numbers, note = line_round(cut, held.depth + wish.above_hem)
    yield slate.worked(
        "ruffle.line_length",
        say("length of that line all round"),
        words,
        formula,
        held.line_length,
        How(note=note or say("the true length of the seam, not of the lining's hem")),
        **numbers,
    )
    yield slate.worked(
        "ruffle.line_quarter",
        say("from one quarter mark to the next, on the lining"),
        say("length of the line / 4"),
        "C / 4",
        held.line_quarter,
        C=held.line_length,
    )


def _flat(draft: Draft) -> Iterator[Working]:
    held, drafted, slate = draft.figures.ruffle, draft.plan.ruffle, draft.slate
    wish = draft.plan.spec.ruffle
    assert held is not None and drafted is not None and wish is not None
    yield slate.worked(
        "ruffle.flat_length",
        say("flat length of the ruffle"),
        say("gather ratio × length of the line"),
        "g * C",
        held.flat_length,
        g=wish.gather_ratio,
        C=held.line_length,
    )
    yield slate.worked(
        "ruffle.flat_quarter",
        say("from one quarter mark to the next, on the flat ruffle"),
        say("flat length / 4"),
        "flat / 4",
        held.flat_quarter,
        flat=held.flat_length,
    )
    yield from strip_workings(
        slate,
        ("ruffle.strips", "ruffle.strip_cut_length"),
        flat=held.flat_length,
        usable=usable_width(draft.plan.spec.cloths.ruffle),
        join=drafted.habit.join_allowance,
        ring=drafted.ring,
        strips=held.strips,
        cut=held.strip_cut_length,
    )
    title, key = say("cut depth of a strip"), "ruffle.strip_cut_depth"
    if drafted.doubled:
        yield slate.worked(
            key,
            title,
            say("twice the depth + twice the allowance: it is folded along its length"),
            "2 * dr + 2 * top",
            held.strip_cut_depth,
            How(law=Law.HABIT),
            dr=held.depth,
            top=ruffle.TOP_ALLOWANCE,
        )
    else:
        deep = "Dt" if drafted.tiers else "dr"
        first = drafted.tiers[0].depth if drafted.tiers else held.depth
        low = ruffle.TOP_ALLOWANCE if drafted.tiers else drafted.habit.edge_hem
        yield slate.worked(
            key,
            title,
            say("allowance of the gathered edge + depth + allowance of the lower edge"),
            f"top + {deep} + low",
            held.strip_cut_depth,
            How(law=Law.HABIT),
            top=ruffle.TOP_ALLOWANCE,
            **{deep: first},
            low=low,
        )
    if drafted.tiers and drafted.ways is not None:
        yield from tier_workings(
            slate,
            "ruffle.tiers",
            drafted.tiers,
            drafted.ways,
            edge=held.line_length,
            whole=held.depth,
            growth=wish.tier_growth,
        )


def _gathering(draft: Draft) -> Iterator[Working]:
    held, drafted, slate = draft.figures.ruffle, draft.plan.ruffle, draft.slate
    lining = draft.plan.lining
    assert held is not None and drafted is not None and lining is not None
    flats = [tier.flat for tier in drafted.tiers] or [drafted.flat_length]
    gathered = math.fsum(flats)
    if held.gathered_length is not None:
        names = {f"flat{k + 1}": flat for k, flat in enumerate(flats)}
        yield slate.worked(
            "ruffle.gathered_length",
            say("everything that is gathered, flat"),
            say("sum of the tiers' flat lengths"),
            " + ".join(names),
            held.gathered_length,
            **names,
        )
    metres = {"M": gathered / 1000}
    yield slate.worked(
        "ruffle.sections",
        say("sections that it is gathered in"),
        say("flat length / (4 × the longest stretch), rounded up, times four: quarters match"),
        "4 * max(roundup(M / sect / 4), 1)",
        held.sections,
        How(kind=Kind.COUNT, law=Law.HABIT),
        sect=ruffle.SECTION / 1000,
        **metres,
    )
    if drafted.method is ruffle.Method.CORD:
        yield slate.worked(
            "ruffle.thread_metres",
            say("gathering thread, about"),
            say("flat length × thread that a zigzag over a cord takes"),
            "rate * M",
            held.thread_metres,
            How(kind=Kind.METRES, law=Law.MODEL),
            rate=ZIGZAG,
            **metres,
        )
    else:
        yield slate.worked(
            "ruffle.thread_metres",
            say("gathering thread, about"),
            say("flat length × thread that a long stitch takes × number of rows"),
            "rate * M * rows",
            held.thread_metres,
            How(kind=Kind.METRES, law=Law.MODEL),
            rate=ROW,
            rows=len(held.rows_from_edge),
            **metres,
        )
    if held.cord_metres is not None:
        yield slate.worked(
            "ruffle.cord_metres",
            say("cord, about"),
            say("flat length + what the ends of each section take"),
            "M + cord * k",
            held.cord_metres,
            How(kind=Kind.METRES, law=Law.MODEL),
            cord=CORD_ENDS,
            k=held.sections,
            **metres,
        )
    if held.join_from_seam:
        seams = lining.cut.panels
        gaps = 2 * math.lcm(held.strips, seams) if drafted.ring else held.strips * seams
        yield slate.worked(
            "ruffle.join_from_seam",
            say("how near a join comes to a lining seam, at best"),
            say("length of the line / places where joins or seams could lie, half a place off")
            if drafted.ring
            else say("length of the line / (number of strips × number of panels)"),
            "C / gaps",
            held.join_from_seam,
            C=held.line_length,
            gaps=gaps,
        )
