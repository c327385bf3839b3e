"""Workings of what the waist seam is sewn to: band, casing, binding, shaped band, facing.

Millimetres. Imports the waistband's constants and the model.
"""

import math
from collections.abc import Iterator

from drafting.gored import ShapedGores
from drafting.language import say
from drafting.spec import Closure
from drafting.waistband import (
    BINDING_END,
    CASING_ROOM,
    ELASTIC_JOIN,
    ELASTIC_SHARE,
    NEARLY_STRAIGHT,
    OVERLAP,
)
from drafting.working.draft import Draft
from drafting.working.model import How, Law, Working


def waist_finish(draft: Draft) -> Iterator[Working]:
    """Yield the workings of the one finish that a waist has."""
    yield from _band(draft)
    yield from _casing(draft)
    yield from _binding(draft)
    yield from _contour(draft)
    yield from _facing(draft)


def _band(draft: Draft) -> Iterator[Working]:
    held, plan, slate = draft.figures.band, draft.plan, draft.slate
    if held is None:
        return
    allowance = plan.skirt.allowances.waist
    lap = "" if plan.closure is Closure.NONE else " + lap"
    yield slate.worked(
        "band.cut_length",
        say("cut length of the band"),
        say("finished waist seam + overlap + an allowance at each end"),
        f"f{lap} + 2 * w",
        held.cut_length,
        How(law=Law.HABIT, note=say("by the finished waist, not by the flat seam of the skirt")),
        f=plan.waist.finished,
        lap=OVERLAP,
        w=allowance,
    )
    yield slate.worked(
        "band.cut_width",
        say("cut width of the band"),
        say("twice the finished height + an allowance on both sides"),
        "2 * hb + 2 * w",
        held.cut_width,
        How(law=Law.HABIT),
        hb=plan.spec.skirt.band,
        w=allowance,
    )


def _casing(draft: Draft) -> Iterator[Working]:
    held, plan, slate = draft.figures.casing, draft.plan, draft.slate
    if held is None:
        return
    allowance, wish, wearer = plan.skirt.allowances.waist, plan.spec.skirt, plan.spec.wearer
    yield slate.worked(
        "casing.cut_length",
        say("cut length of the casing"),
        say("flat waist seam + an allowance at each end"),
        "c + 2 * w",
        held.cut_length,
        How(law=Law.HABIT),
        c=plan.waist.line,
        w=allowance,
    )
    yield slate.worked(
        "casing.cut_width",
        say("cut width of the casing"),
        say("twice (width of the elastic + room) + an allowance on both sides"),
        "2 * (El + room) + 2 * w",
        held.cut_width,
        How(law=Law.HABIT),
        El=wish.elastic,
        room=CASING_ROOM,
        w=allowance,
    )
    if held.elastic is not None:
        yield slate.worked(
            "casing.elastic",
            say("elastic to cut"),
            say("share × girth of the body at the waist seam + what the join takes"),
            "share * (W + (H - W) * max(min(D / d0, 1), 0)) + take",
            held.elastic,
            How(law=Law.HABIT),
            share=ELASTIC_SHARE,
            W=wearer.waist,
            H=wearer.hip,
            D=wish.drop,
            d0=wearer.hip_depth,
            take=ELASTIC_JOIN,
        )


def _binding(draft: Draft) -> Iterator[Working]:
    held, plan = draft.figures.binding, draft.plan
    if held is not None:
        yield draft.slate.worked(
            "binding.cut_length",
            say("cut length of the waist's bias binding"),
            say("finished waist seam + what is turned in at each end"),
            "f + 2 * end",
            held.cut_length,
            How(law=Law.HABIT),
            f=plan.waist.finished,
            end=BINDING_END,
        )


def _contour(draft: Draft) -> Iterator[Working]:
    held, plan, slate = draft.figures.contour, draft.plan, draft.slate
    if held is None:
        return
    waist, high = plan.waist, plan.spec.skirt.band
    yield slate.worked(
        "contour.bottom",
        say("lower edge of the shaped band"),
        say("finished waist seam"),
        "f",
        held.bottom,
        f=waist.finished,
    )
    yield slate.worked(
        "contour.top",
        say("upper edge of the shaped band"),
        say("lower edge − what the body is smaller there, and no less than a little"),
        "f - max(f - T, lean)",
        held.top,
        f=waist.finished,
        T=waist.top,
        lean=NEARLY_STRAIGHT,
    )
    yield slate.worked(
        "contour.top_radius",
        say("radius of its upper edge"),
        say("upper edge × height / (lower edge − upper edge)"),
        "T * hb / (f - T)",
        held.top_radius,
        T=held.top,
        hb=high,
        f=held.bottom,
    )
    yield slate.worked(
        "contour.bottom_radius",
        say("radius of its lower edge"),
        say("upper radius + height"),
        "rt + hb",
        held.bottom_radius,
        rt=held.top_radius,
        hb=high,
    )


def _facing(draft: Draft) -> Iterator[Working]:
    held, plan, slate = draft.figures.facing, draft.plan, draft.slate
    if held is None:
        return
    waist, cut = plan.waist, plan.skirt.cut
    yield slate.worked(
        "facing.waistline",
        say("waist seam of the facing"),
        say("flat waist seam, its gathers drawn up"),
        "c / G",
        held.waistline,
        c=waist.line,
        G=waist.gather_ratio,
    )
    if held.waist_radius is None or held.outer_radius is None or cut.waist_radius is None:
        return
    if isinstance(cut, ShapedGores):
        yield slate.worked(
            "facing.waist_radius",
            say("radius of the facing's waist seam"),
            say("waist seam of a gore / the angle between its sides at the waist, drawn up"),
            "c / (2 * n * pi * B / 180) / G",
            held.waist_radius,
            c=waist.line,
            n=cut.panels,
            B=math.degrees(cut._waist_lean()),
            G=waist.gather_ratio,
        )
    else:
        yield slate.worked(
            "facing.waist_radius",
            say("radius of the facing's waist seam"),
            say("radius of the skirt's waist seam, its gathers drawn up"),
            "r / G",
            held.waist_radius,
            r=cut.waist_radius,
            G=waist.gather_ratio,
        )
    yield slate.worked(
        "facing.outer_radius",
        say("radius of the facing's outer edge"),
        say("radius of its waist seam + depth"),
        "r + df",
        held.outer_radius,
        r=held.waist_radius,
        df=held.depth,
    )
