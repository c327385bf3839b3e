"""Workings of the waist: the finished seam, the flat one, what gathers and stretch do to it.

Millimetres and degrees. Imports the waist's constants, bias and the model.
"""

import math
from collections.abc import Iterator

from drafting import bias
from drafting.circle import fewest_panels
from drafting.cloth import usable_width
from drafting.cloth.kinds import behaviour
from drafting.language import say
from drafting.layer import SIDE_ALLOWANCE, grain_of
from drafting.opening import PASSING_EASE
from drafting.spec import CutKind, WaistFinish
from drafting.working.draft import Draft, Part
from drafting.working.letters import Kind
from drafting.working.model import How, Law, Working


def finished_waist(draft: Draft) -> Iterator[Working]:
    """Yield the finished waist seam, and a shaped band's upper edge."""
    spec, figures = draft.plan.spec, draft.figures
    wish, wearer, slate = spec.skirt, spec.wearer, draft.slate
    key, title = "waist.finished", say("finished waist seam")
    if wish.owned is not None:
        yield slate.worked(
            key,
            title,
            say("waist seam of the skirt that is sewn already, as measured"),
            "Wm",
            figures.waist.finished,
            How(law=Law.HABIT),
            Wm=wish.owned.waist,
        )
    elif wish.waist_finish is WaistFinish.BODICE and wish.bodice_waist is not None:
        yield slate.worked(
            key,
            title,
            say("waist seam of the bodice, as measured"),
            "Wm",
            figures.waist.finished,
            How(law=Law.HABIT),
            Wm=wish.bodice_waist,
        )
    elif wish.drop > 0:
        yield slate.worked(
            key,
            title,
            say("girth of the body there, evenly from waist to hip + ease"),
            "W + (H - W) * min(D / d0, 1) + eD",
            figures.waist.finished,
            How(law=Law.MODEL),
            W=wearer.waist,
            H=wearer.hip,
            D=wish.drop,
            d0=wearer.hip_depth,
            eD=wish.drop_ease,
        )
    else:
        yield slate.worked(
            key,
            title,
            say("waist of the body + ease"),
            "W + e",
            figures.waist.finished,
            How(law=Law.HABIT),
            W=wearer.waist,
            e=wish.waist_ease,
        )
    if figures.waist.top is None:
        return
    key, title = "waist.top", say("upper edge of the shaped band")
    if wish.drop <= 0:
        yield slate.worked(
            key,
            title,
            say("as long as the waist seam, which lies at the natural waist"),
            "f",
            figures.waist.top,
            How(law=Law.MODEL),
            f=figures.waist.finished,
        )
        return
    yield slate.worked(
        key,
        title,
        say(
            "girth of the body a band's height above the seam + ease, evenly from one to the other"
        ),
        "W + (H - W) * min(max(D - hb, 0) / d0, 1) + e + (eD - e) * max(D - hb, 0) / D",
        figures.waist.top,
        How(law=Law.MODEL),
        W=wearer.waist,
        H=wearer.hip,
        D=wish.drop,
        hb=wish.band,
        d0=wearer.hip_depth,
        e=wish.waist_ease,
        eD=wish.drop_ease,
    )


def flat_waist(part: Part) -> Iterator[Working]:
    """Yield a layer's flat waist seam and what leads to it."""
    draft = part.draft
    waist, slate = draft.plan.waist, draft.slate
    yield from _stretch(part)
    if not part.of_lining:
        yield from _gathers(part)
    pulled_on = draft.plan.spec.skirt.waist_finish is WaistFinish.CASING
    gathers = waist.gather_ratio
    with_skirt = part.of_lining and pulled_on and not draft.plan.owned
    stretch = waist.stretch if with_skirt or not part.of_lining else waist.lining_stretch
    if part.of_lining and not with_skirt:
        gathers = 1.0
    note = say("the edge is cut shorter than the seam by what it stretches as it is handled")
    if with_skirt:
        note = say("elastic draws up both layers, so the lining is as wide as the skirt")
    if gathers == 1:
        yield slate.worked(
            part.key("waistline"),
            say("flat waist seam"),
            say("finished waist seam / (1 + stretch)"),
            "f / (1 + s)",
            part.figures.waistline,
            How(law=Law.HABIT, note=note),
            f=waist.finished,
            s=stretch,
        )
    else:
        yield slate.worked(
            part.key("waistline"),
            say("flat waist seam"),
            say("finished waist seam × gather ratio / (1 + stretch)"),
            "f * G / (1 + s)",
            part.figures.waistline,
            How(law=Law.HABIT, note=note),
            f=waist.finished,
            G=gathers,
            s=stretch,
        )
    yield slate.worked(
        part.key("panel_waist"),
        say("waist seam of one panel"),
        say("flat waist seam / number of panels"),
        "c / n",
        part.figures.panel_waist or 0.0,
        c=part.line,
        n=part.figures.panels,
    )


def _stretch(part: Part) -> Iterator[Working]:
    """Yield the stretch of a waist whose sheet leaves it to the cloth."""
    spec = part.draft.plan.spec
    wish = spec.lining if part.of_lining else spec.skirt
    if wish is None or spec.skirt.waist_stretch is not None or not part.figures.waist_stretch:
        return
    cloth = spec.cloths.lining if part.of_lining else spec.cloths.skirt
    count = wish.gores if wish.cut is CutKind.GORED else wish.panels
    angle = math.tau * wish.fullness / (count or fewest_panels(wish.fullness))
    first = -bias.grain_from_edge(angle, grain_of(spec, part.name))
    yield part.draft.slate.worked(
        part.key("waist_stretch"),
        say("share by which the cut waist edge stretches"),
        say(
            "full stretch of the cloth × mean of sin² of twice the angle from the grain, over"
            " the waist of a panel"
        ),
        "give * (1 / 2 - (sin(4 * A2) - sin(4 * A1)) / (8 * pi * (A2 - A1) / 180))",
        part.figures.waist_stretch,
        How(kind=Kind.NUMBER, law=Law.MODEL),
        give=behaviour(cloth.kind).waist_give,
        A1=math.degrees(first) + 0.0,
        A2=math.degrees(first + angle),
    )


def _gathers(part: Part) -> Iterator[Working]:
    """Yield a gather ratio that the sheet does not give itself."""
    spec, waist, slate = part.draft.plan.spec, part.draft.plan.waist, part.draft.slate
    wish, ratio = spec.skirt, part.figures.gather_ratio
    key, title = part.key("gather_ratio"), say("gather ratio at the waist")
    if ratio is None:
        return
    if wish.cut is CutKind.TIERED:
        yield slate.worked(
            key,
            title,
            say("flat seam that the hip passes / finished waist seam"),
            "(H + eP) * (1 + s) / f",
            ratio,
            How(kind=Kind.NUMBER, law=Law.HABIT),
            H=spec.wearer.hip,
            eP=PASSING_EASE * spec.scale,
            s=waist.stretch,
            f=waist.finished,
        )
    elif wish.cut is CutKind.GATHERED and wish.full_widths:
        given = wish.allowances.side
        side = SIDE_ALLOWANCE[wish.seams] if given is None else given
        yield slate.worked(
            key,
            title,
            say("whole widths of cloth, their seams taken off / finished waist seam"),
            "max(roundup(f * G0 / (U - 2 * j)), n0) * (U - 2 * j) / f",
            ratio,
            How(kind=Kind.NUMBER, law=Law.HABIT),
            f=waist.finished,
            G0=wish.gather_ratio,
            U=usable_width(spec.cloths.skirt),
            j=side,
            n0=wish.panels or 1,
        )
