"""The step of the opening: its stay, its zip and what becomes of a zip that is too long.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import say
from drafting.spec import WaistFinish
from drafting.waist_pieces import STAY_WIDTH
from render.booklet import habits
from render.booklet.making import (
    Making,
)
from render.booklet.model import Step
from render.pictures.picture import Picture


def opening_step(making: Making, opening: Picture | None) -> Step:
    """Return the step that finishes the opening: stay, zip, the bar at its end."""
    return Step(
        name="opening",
        title=say("Finish the opening"),
        do=tuple(_opening_told(making)),
        check=say(
            "Both upper ends are level, the zip runs freely, and the hips pass through: the"
            " opening reaches {long} below the waist seam.",
            long=making.long(making.skirt.opening),
        ),
        cautions=(
            say("Run the slider down before you cut a zip above it, or it comes off in your hand."),
        )
        if making.pattern.figures.opening and making.pattern.figures.opening.zip
        else (),
        pictures=(opening,) if opening else (),
        hands=25,
        first=60,
    )


def _opening_told(making: Making) -> Iterator[str]:
    found = making.pattern.figures.opening
    assert found is not None
    if making.piece("opening stay"):
        yield say(
            "Piece {number}, the opening stay, is a strip of interfacing {wide} wide: iron or baste"
            " one to the wrong side of either edge of the skirt's opening, so that it does not"
            " stretch.",
            number=making.numbered("opening stay"),
            wide=making.long(STAY_WIDTH),
        )
    if found.zip is not None:
        yield say(
            "Baste the opening shut along the seam line and press. Lay the closed zip face down on"
            " the allowances, baste it, and stitch both sides from the bottom up with the zip foot."
            " Take the basting out."
        )
        yield _zip_length(making)
    yield say(
        "Sew a bar of stitches, a few wide zigzags on the spot, across the lower end of the"
        " opening: all the pull comes there."
    )
    lining = making.lining
    if lining is not None and lining.opening > making.skirt.opening + 1:
        yield say(
            "The lining's slit is cut longer, {long}: below the zip it simply hangs open.",
            long=making.long(lining.opening),
        )


def _zip_length(making: Making) -> str:
    """Return what becomes of a zip that is longer than the skirt's opening."""
    finish, zip_ = making.spec.skirt.waist_finish, making.pattern.figures.opening
    assert zip_ is not None and zip_.zip is not None
    sold = making.long(zip_.zip)
    if finish is WaistFinish.BAND and making.pattern.figures.contour is None:
        return say(
            "The zip you bought is {zip}: its lower stop lies at the mark where the opening ends,"
            " and what stands above the waist seam is cut off there once the band is on, after a"
            " bar of stitches across the teeth on either side.",
            zip=sold,
        )
    if finish in (WaistFinish.BAND, WaistFinish.BODICE):
        return say(
            "The zip you bought is {zip}: its lower stop lies at the mark where the opening ends,"
            " and it runs on above the waist seam.",
            zip=sold,
        )
    return say(
        "The zip you bought is {zip}: its upper stop lies {top} below the waist seam, and it is"
        " shortened from below, by a bar of stitches across the teeth at the mark where the opening"
        " ends; cut it {below} under that.",
        zip=sold,
        top=making.little(habits.ZIP_TOP),
        below=making.hand(habits.ZIP_CUT),
    )
