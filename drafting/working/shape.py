"""Workings of a layer's shape: its lengths, radii, angles and sweep, whatever its cut.

Millimetres and degrees. Imports the cuts and the model.
"""

import math
from collections.abc import Iterator

from drafting.circle import Flare
from drafting.cuts import HIP_EASE, LEAST_FLARE
from drafting.gored import ShapedGores
from drafting.language import say
from drafting.levelled import Levelled
from drafting.spec import CutKind
from drafting.tilted import Tilted
from drafting.units import radius_text
from drafting.working.draft import Part
from drafting.working.lengths import lengths
from drafting.working.letters import Kind
from drafting.working.model import How, Law, Working
from drafting.working.sweeps import sweep

SCANNED = 3600
"""Places round the body that are looked at for the greatest and the least length."""


def shape(part: Part) -> Iterator[Working]:
    """Yield the workings of a layer's shape."""
    yield from lengths(part)
    yield from _fullness(part)
    yield from _radii(part)
    yield from sweep(part)


def _fullness(part: Part) -> Iterator[Working]:
    figures, draft, cut = part.figures, part.draft, part.layer.cut
    spec = draft.plan.spec
    if part.cut_kind is CutKind.TIERED and figures.fullness is not None:
        yield draft.slate.worked(
            part.key("fullness"),
            say("fullness of the yoke"),
            say("what takes the waist to the hip and its room, over the depth between them"),
            "max((H + eH - c) / (2 * pi * d), F0)",
            figures.fullness,
            How(kind=Kind.NUMBER),
            H=spec.wearer.hip,
            eH=HIP_EASE * spec.scale,
            c=part.line,
            d=draft.plan.waist.hip_depth,
            F0=LEAST_FLARE,
        )
    if figures.panel_angle is not None and figures.fullness is not None:
        yield draft.slate.worked(
            part.key("panel_angle"),
            say("angle of one panel"),
            say("whole turn × fullness / number of panels"),
            "360 * F / n",
            figures.panel_angle,
            How(kind=Kind.ANGLE),
            F=figures.fullness,
            n=figures.panels,
        )
    if figures.hipline is not None:
        yield draft.slate.worked(
            part.key("hipline"),
            say("girth straight across the gores at hip depth"),
            say("hip of the body + room, and no less than the waist"),
            "max(H + eH, c)",
            figures.hipline,
            How(law=Law.HABIT),
            H=spec.wearer.hip,
            eH=HIP_EASE * spec.scale,
            c=part.line,
        )
    if isinstance(cut, Flare | Levelled) and cut.length > draft.plan.waist.hip_depth:
        yield _hip_room(part, cut)


def _hip_room(part: Part, cut: Flare | Levelled) -> Working:
    draft = part.draft
    wearer, deep = draft.plan.spec.wearer, draft.plan.waist.hip_depth
    room = HIP_EASE * draft.ease_scale
    found = cut.girth_at(deep)
    shown = draft.slate.shown(wearer.hip + room, Kind.LENGTH)
    note = say("the hip and its room need {need}", need=shown)
    return draft.slate.worked(
        part.key("girth_at_hip"),
        say("girth at hip depth"),
        say("flat waist seam + 2 × π × fullness × hip depth"),
        "c + 2 * pi * F * d",
        found,
        How(step=True, note=note),
        c=part.line,
        F=cut.fullness,
        d=deep,
    )


def _radii(part: Part) -> Iterator[Working]:
    figures, slate, cut = part.figures, part.draft.slate, part.layer.cut
    waist, hem = say("radius of the waist seam"), say("radius of the hem")
    if isinstance(cut, Flare | Levelled) and figures.waist_radius is not None:
        yield slate.worked(
            part.key("waist_radius"),
            waist,
            say("flat waist seam / (2 × π × fullness)"),
            "c / (2 * pi * F)",
            figures.waist_radius,
            How(note=_rounded(part, figures.waist_radius)),
            c=part.line,
            F=cut.fullness,
        )
        if figures.hem_radius is not None:
            yield slate.worked(
                part.key("hem_radius"),
                hem,
                say("radius of the waist seam + length of the panels"),
                "r + P",
                figures.hem_radius,
                How(note=_rounded(part, figures.hem_radius)),
                r=figures.waist_radius,
                P=cut.around.least,
            )
        if figures.hem_radius_max is not None:
            yield slate.worked(
                part.key("hem_radius_max"),
                say("greatest radius of the hem"),
                say("radius of the waist seam + greatest of the four lengths"),
                "r + Lmax",
                figures.hem_radius_max,
                r=figures.waist_radius,
                Lmax=cut.around.most,
            )
    if isinstance(cut, Tilted):
        yield from _tilted(part, cut)
    if isinstance(cut, ShapedGores):
        yield from _gore(part, cut)


def _rounded(part: Part, radius: float) -> str:
    """Return what a radius is rounded down to on paper, as rules are marked."""
    return say(
        "set out with {radius}: rounded down, as rules are marked",
        radius=radius_text(radius, part.draft.slate.units),
    )


def _gore(part: Part, cut: ShapedGores) -> Iterator[Working]:
    """Yield the lean of a shaped gore at its waist, found by trying, and its hem's radius."""
    figures, slate = part.figures, part.draft.slate
    lean, flare = math.degrees(cut._waist_lean()), math.degrees(cut.flare)
    same = {"h": cut.hipline, "n": cut.panels, "d": cut.hip_depth, "B": lean}
    steep = lean >= flare - 1e-9
    aim = cut.waistline / cut.panels
    # Between two leans the mean of the sine is the difference of the cosines over the angle.
    over = "d * (cos(A) - cos(B)) / (pi * (B - A) / 180)" if lean > flare + 1e-6 else "d * sin(B)"
    formula = (
        f"2 * (h / (2 * n) - {over}) * (pi * B / 180) / sin(B)"
        if lean > 1e-4
        else f"2 * (h / (2 * n) - {over})"
    )
    yield slate.worked(
        part.key("waist_lean"),
        say("how far a gore's sides lean out at the waist, found by trying"),
        say(
            "2 × (half the hip's width − what the side takes in) × arc over chord must give the"
            " waist seam of one gore"
        ),
        formula,
        lean,
        How(kind=Kind.ANGLE, gives=(aim, Kind.LENGTH), step=True),
        A=flare,
        **same,
    )
    if figures.hem_radius is None:
        return
    title = say("radius of the hem, from the point where a gore's sides would meet")
    if steep:
        yield slate.worked(
            part.key("hem_radius"),
            title,
            say("half the hip's width / sine of the lean + length below the hip"),
            "h / (2 * n) / sin(A) + P - d",
            figures.hem_radius,
            h=cut.hipline,
            n=cut.panels,
            A=flare,
            P=cut.length,
            d=cut.hip_depth,
        )
        return
    turn = cut._stretches()[1].long
    yield slate.worked(
        part.key("hem_radius"),
        title,
        say(
            "(half the hip's width + what the turn below it adds) / sine of the lean + length"
            " below the turn"
        ),
        "(h / (2 * n) + v * (cos(B) - cos(A)) / (pi * (A - B) / 180)) / sin(A) + P - d - v",
        figures.hem_radius,
        v=turn,
        A=flare,
        P=cut.length,
        **same,
    )


def _tilted(part: Part, cut: Tilted) -> Iterator[Working]:
    """Yield the one radius of a tilted skirt's hem, found by trying, and what follows from it."""
    figures, slate = part.figures, part.draft.slate
    assert figures.hem_radius is not None
    places = _places(cut)
    letters = [(f"q{k + 1}", f"L{k + 1}") for k in range(places)]
    numbers = {"R": figures.hem_radius}
    for k, (share, long) in enumerate(letters):
        out = math.tau * cut.around.slope(k / places) / cut.waistline
        numbers[share], numbers[long] = math.sqrt(1 - out * out), cut.around.at(k / places)
    under = " + ".join(f"{share} / (R - {long})" for share, long in letters)
    yield slate.worked(
        part.key("hem_radius"),
        say("radius of the hem, the same all round, found by trying"),
        say(
            "the mean of 1 / (radius of the hem − length), taken at even places along the waist"
            " seam, must be that of an even waist: 2 × π × fullness / flat waist seam"
        ),
        f"{places} / ({under})",
        figures.hem_radius,
        How(
            gives=(cut.waistline / (math.tau * cut.fullness), Kind.LENGTH),
            note=say(
                "the radius of the hem is changed until the waist seam turns through the whole"
                " angle; then this gives the radius of an even waist"
            ),
        ),
        **numbers,
    )
    scanned = [cut.around.at(k / SCANNED) for k in range(SCANNED)]
    for name, title, formula, expression, far in (
        (
            "waist_radius",
            say("least radius of the waist seam"),
            say("radius of the hem − greatest length anywhere"),
            "R - Lmax",
            max(scanned),
        ),
        (
            "waist_radius_max",
            say("greatest radius of the waist seam"),
            say("radius of the hem − least length anywhere"),
            "R - Lmin",
            min(scanned),
        ),
    ):
        yield slate.worked(
            part.key(name),
            title,
            formula,
            expression,
            getattr(figures, name),
            R=figures.hem_radius,
            Lmax=far,
            Lmin=far,
        )


def _places(cut: Tilted) -> int:
    """Return how many places along a waist seam tell the mean of 1 / its radius well."""

    def mean(places: int) -> float:
        total = 0.0
        for k in range(places):
            out = math.tau * cut.around.slope(k / places) / cut.waistline
            total += math.sqrt(1 - out * out) / (cut.hem_radius - cut.around.at(k / places))
        return places / total

    places = 8
    while places < 64 and abs(mean(places) - mean(2 * places)) > 0.002:
        places *= 2
    return places
