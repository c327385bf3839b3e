"""The step that finishes the waist: band, facing, casing, binding, or a bodice; its tape.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import say
from drafting.spec import Closure, WaistFinish
from drafting.units import Mm
from render.booklet import habits
from render.booklet.making import WAIST_SEAM, Making
from render.booklet.model import Step
from render.pictures.picture import Picture


def gathered_edge(making: Making, flat: Mm) -> Mm:
    """Return how long a flat waist seam is once it is gathered; a casing leaves it flat."""
    lining = making.lining
    return flat if making.casing or lining is None else lining.waistline


def waist_finish(making: Making, pictures: tuple[Picture, ...]) -> Step | None:
    """Return the step that finishes the waist; None where the skirt has one already."""
    if not making.sews_skirt:
        return None
    finish = making.spec.skirt.waist_finish
    made = {
        WaistFinish.BAND: _band,
        WaistFinish.FACING: _facing,
        WaistFinish.CASING: _casing,
        WaistFinish.BIAS: _bias,
        WaistFinish.BODICE: _bodice,
    }[finish]
    title, do, check, hands, first = made(making)
    return Step(
        name="waist",
        title=title,
        do=tuple(do),
        check=check,
        pictures=pictures,
        hands=hands,
        first=first,
    )


_Told = tuple[str, list[str], str, float, float]


def _tape(making: Making) -> Iterator[str]:
    """Yield how the waist seam is held, and how its edge comes to that length."""
    yield say(
        "Cut a stay tape to {waist}, quarter it, and baste it over the waist seam line on the wrong"
        " side: sewn into the seam, it holds the waist to this.",
        waist=making.long(making.finished_waist),
    )
    edge = (
        making.lining.waistline if making.lining else gathered_edge(making, making.skirt.waistline)
    )
    less = making.finished_waist - edge
    if making.skirt.gather_ratio is None and less >= LEAST_EASE:
        yield say(
            "The edge was cut {less} shorter than the tape, because it stretches: pin it at the"
            " quarters and stretch it gently to the tape between them.",
            less=making.little(round(less)),
        )
    if making.curved:
        low, high = (making.hand(x) for x in habits.CLIPS)
        yield say(
            "Clip the curved allowance every {low} to {high}, to within {short} of the"
            " staystitching.",
            low=low,
            high=high,
            short=making.little(habits.CLIP_SHORT),
        )


LEAST_EASE: Mm = 1.0
"""A waist that is shorter than its tape by less is as long."""


def _closed(making: Making) -> str:
    return say(
        "Closed, the waist measures {waist}, give or take {off}, and the marks lie at the centre"
        " front and"
        " the sides.",
        waist=making.long(making.finished_waist),
        off=making.little(habits.WAIST_OFF),
    )


def _band(making: Making) -> _Told:
    figures, wish = making.pattern.figures, making.spec.skirt
    interfaced = wish.interfacing
    do: list[str] = []
    if figures.contour is not None:
        if interfaced:
            do.append(
                say(
                    "Interface the outer band. Its upper edge is shorter than its lower one:"
                    " keep them apart."
                )
            )
        else:
            do.append(say("The band's upper edge is shorter than its lower one: keep them apart."))
        do += _tape(making)
        do += [
            say(
                "Sew the lower edge of the outer band ({bottom}) to the waist seam, mark to mark"
                " (seam {seam}). Sew the inner band to it along the upper edge ({top}), trim, turn,"
                " and sew its turned lower edge down inside.",
                bottom=making.long(figures.contour.bottom),
                top=making.long(figures.contour.top),
                seam=WAIST_SEAM,
            ),
            say("Sew a hook and eye above the end of the zip."),
        ]
    else:
        if interfaced:
            do.append(say("Interface the band, and press its fold in."))
        do += _tape(making)
        do.append(
            say(
                "Lay the band on the skirt's waist, right sides together, mark to mark (seam"
                " {seam}), and stitch. Trim the allowances in steps and press them up into the"
                " band.",
                seam=WAIST_SEAM,
            )
        )
        if making.opens:
            do.append(
                say(
                    "Beyond its last mark the band laps over: at the back this is the end on the"
                    " wearer's left."
                )
                if making.closure is Closure.CENTRE_BACK
                else say(
                    "Beyond its last mark the band laps over: at the side this is the front end."
                )
            )
        do.append(
            say(
                "Fold the band right sides together along its fold line, {high} above the seam, and"
                " stitch across both ends; turn it, and sew the inner edge down over the seam.",
                high=making.long(wish.band),
            )
        )
        if making.opens:
            do.append(
                say(
                    "Sew the hook {back} in from the end that laps over, and the bar where it"
                    " comes to lie with the band closed on its mark.",
                    back=making.little(habits.HOOK_BACK),
                )
            )
    return say("Sew on the band"), do, _closed(making), 35, 75


def _facing(making: Making) -> _Told:
    figures = making.pattern.figures
    assert figures.facing is not None
    do = [
        *_tape(making),
        say("Interface the facing, join its pieces, and neaten its outer edge.")
        if making.spec.skirt.interfacing
        else say("Join the facing's pieces and neaten its outer edge."),
        say(
            "Sew it to the waist, right sides together (seam {seam}). Trim the allowances in steps,"
            " clip them, and stitch the allowances to the facing {under} beside the seam, so that"
            " it rolls inside.",
            seam=WAIST_SEAM,
            under=making.little(habits.UNDERSTITCH),
        ),
        say(
            "Turn it in, {deep} deep, and catch it down at the seams alone.",
            deep=making.long(figures.facing.depth),
        ),
    ]
    if making.opens:
        do.append(say("Turn its ends under beside the zip and sew a hook and eye above it."))
    return say("Face the waist"), do, _closed(making), 35, 70


def _casing(making: Making) -> _Told:
    figures, wish = making.pattern.figures, making.spec.skirt
    assert figures.casing is not None
    do = [
        say(
            "Join the casing to a ring, leaving {gap} of its end seam open to thread the elastic,"
            " and sew one edge to the skirt's waist, right sides together, mark to mark (seam"
            " {seam}).",
            gap=making.hand(habits.THREADING_GAP),
            seam=WAIST_SEAM,
        ),
        say(
            "Fold it over along its fold line, turn the other edge under, and stitch it down on"
            " the seam."
        ),
        say(
            "Cut {long} of elastic, {wide} wide, a first guess: thread it, pin its ends, try the"
            " skirt on, and only then sew the ends over each other and close the gap.",
            long=making.long(figures.casing.elastic or 0.0),
            wide=making.long(wish.elastic),
        ),
    ]
    return (
        say("Sew on the casing"),
        do,
        say(
            "The skirt passes the hips, the elastic is not twisted, and it holds without pinching."
        ),
        30,
        60,
    )


def _bias(making: Making) -> _Told:
    do = [
        *_tape(making),
        say(
            "Trim the waist allowance evenly, lay the bias strip on it right sides together (seam"
            " {seam}), stitch, fold it over the raw edges, and sew it down inside. Turn its ends in"
            " at the opening.",
            seam=WAIST_SEAM,
        ),
        say("Sew a hook and eye above the end of the zip."),
    ]
    return say("Bind the waist"), do, _closed(making), 30, 60


def _bodice(making: Making) -> _Told:
    do = [
        say(
            "Sew the skirt's waist to the bodice's waist seam, right sides together, centre to"
            " centre and side to side (seam {seam}): both close to {waist}. Sew a tape of that"
            " length into the seam.",
            seam=WAIST_SEAM,
            waist=making.long(making.finished_waist),
        ),
        say("The zip runs on into the bodice; sew it when both are joined."),
    ]
    return say("Sew the skirt to the bodice"), do, _closed(making), 40, 80
