"""A zip as it is sewn in: how much of it is used, where its bar of stitches lies, where it is cut.

Millimetres; heights on the page from the waist seam, at y 0, down to the dot. Imports the spec's
words, the habits of the hand and ink.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.language import say
from drafting.spec import WaistFinish
from drafting.units import Mm, Units, length_text
from render.booklet.habits import ZIP_CUT, ZIP_TOP
from render.drawing import Drawing, together
from render.pictures.ink import EDGE, HIDDEN, OUTLINE, Label, line, outline

HALF: Mm = 1.3
"""Half the width of a zip's teeth on the page."""

BAR: Mm = 2.8
"""Half the width of a bar of stitches across the teeth."""

TOOTH: Mm = 1.1
SLIDER: Mm = 2.4


@dataclass(frozen=True, slots=True, kw_only=True)
class ZipSewn:
    """A zip in its opening.

    Attributes:
        bought: its length as it is sold.
        used: what of it is sewn in.
        top, foot: heights on the page of its uppermost and of its lowest tooth that are used.
        bar: height of the bar of stitches across the teeth, if it is shortened.
        told: what is done with it, for those who cannot see it.
    """

    drawing: Drawing
    bought: Mm
    used: Mm
    top: Mm
    foot: Mm
    bar: tuple[Label, ...]
    told: tuple[str, ...]
    units: Units


def zip_sewn(
    finish: WaistFinish,
    *,
    bought: Mm,
    opening: Mm,
    above: Mm,
    by: float,
    foot: Mm,
    units: Units,
) -> ZipSewn:
    """Return the zip of an opening.

    With a band its lower stop is at the dot, and what is too long is cut off at the upper end;
    under a facing or a binding its top stop is near the seam, and it is shortened from below.

    Args:
        above: how far it runs up above the waist seam, through a shaped band.
        by: scale of the page.
        foot: height of the dot on the page.
    """
    if finish is WaistFinish.BODICE:
        return ZipSewn(
            drawing=together(_tapes(0.0, foot), _teeth(0.0, foot)),
            bought=bought, used=opening, top=0.0, foot=foot, bar=(), units=units,
            told=(say("Above the waist seam it runs on into the bodice."),),
        )  # fmt: skip
    below = finish in (WaistFinish.FACING, WaistFinish.BIAS)
    used = opening - ZIP_TOP if below else opening + above
    top = -ZIP_TOP * by if below else above * by
    shortened = bought - used > 1.0
    bar, told, drawn = [], [], [_tapes(top, foot), _teeth(top - SLIDER - 1.4, foot)]
    if shortened and below:
        spare = bought - used
        drawn += [_sewn_bar(foot), *_tail(foot, foot - min(ZIP_CUT, spare) * by)]
        said = length_text(ZIP_CUT, units)
        bar.append(
            Label(
                words=say("bar of stitches across the teeth; cut {tail} under it", tail=said)
                if spare > ZIP_CUT
                else say("bar of stitches across the teeth, at the dot"),
                to=Point(BAR, foot - 0.3),
            )
        )
        told.append(say("A bar of stitches across its teeth lies at the dot."))
        if spare > ZIP_CUT:
            told.append(say("It is cut {tail} under that.", tail=said))
    elif shortened:
        drawn.append(_sewn_bar(top - 0.9))
        bar.append(
            Label(
                words=say("bar of stitches across the teeth; cut off above it"),
                to=Point(BAR, top - 0.9),
            )
        )
        told.append(
            say(
                "Its lower stop lies at the dot; what is too long is cut off at the upper end,"
                " after a bar of stitches across the teeth."
            )
        )
    drawn.append(_slider(top - (1.6 if shortened and not below else 0.4)))
    return ZipSewn(
        drawing=together(*drawn), bought=bought, used=used, top=top, foot=foot,
        bar=tuple(bar), told=tuple(told), units=units,
    )  # fmt: skip


def zip_labels(sewn: ZipSewn) -> Iterator[Label]:
    """Yield the words beside a zip."""
    used = length_text(sewn.used, sewn.units)
    yield Label(
        words=say("zip, {length} of it used", length=used)
        if sewn.bar
        else say("zip {length}", length=length_text(sewn.bought, sewn.units)),
        to=Point(HALF, sewn.top + 0.36 * (sewn.foot - sewn.top)),
    )
    yield from sewn.bar


def _tapes(top: Mm, foot: Mm) -> Drawing:
    return together(
        *(line(Point(x, top), Point(x, foot), pen=EDGE) for x in (-HALF, HALF)),
    )


def _teeth(top: Mm, foot: Mm) -> Drawing:
    count = math.floor((top - foot) / TOOTH)
    return together(
        *(
            line(Point(-0.75, top - TOOTH * k), Point(0.75, top - TOOTH * k), pen=EDGE)
            for k in range(count)
        )
    )


def _tail(top: Mm, cut: Mm) -> Iterator[Drawing]:
    """Yield what of a zip goes on behind the closed seam, to where it is cut."""
    yield line(Point(-HALF, top), Point(-HALF, cut), Point(HALF, cut), Point(HALF, top), pen=HIDDEN)


def _sewn_bar(y: Mm) -> Drawing:
    """Return the bar of stitches: three threads close together across the teeth."""
    return together(
        *(line(Point(-BAR, y + dy), Point(BAR, y + dy), pen=OUTLINE) for dy in (-0.35, 0.35)),
    )


def _slider(top: Mm) -> Drawing:
    return outline(
        (
            Point(-0.9, top), Point(0.9, top), Point(0.5, top - SLIDER), Point(-0.5, top - SLIDER),
        ),
        pen=EDGE,
    )  # fmt: skip
