"""Steps that make one garment of skirt and lining: hanging, joining, comparing, the end.

Imports the making, its habits and the booklet's values.
"""

from drafting.advice_ruffle import COVER
from drafting.language import say
from render.booklet import habits
from render.booklet.making import WAIST_SEAM, Making
from render.booklet.model import Step
from render.booklet.waist_steps import gathered_edge
from render.pictures.picture import Picture


def hanging(making: Making) -> Step | None:
    """Return the step that lets the skirt hang, or None for one that hardly grows."""
    skirt = making.skirt
    if not making.grows or not skirt.hang_hours:
        return None
    do = [
        say(
            "Baste a spare tape to the waist seam and hang the skirt from it, on a form or a wide"
            " hanger, for {hours} hours. Where it hangs on the bias it grows; what grows now is"
            " trimmed before the hem, not after.",
            hours=skirt.hang_hours,
        ),
        say(
            "For this cloth and cut it may grow by up to about {drop}, an estimate.",
            drop=making.long(making.grows),
        ),
    ]
    if skirt.hem_spare:
        do.append(
            say(
                "{spare} below the hem allowance is there to spare for it.",
                spare=making.long(skirt.hem_spare),
            )
        )
    return Step(
        name="hang",
        title=say("Let the skirt hang"),
        do=tuple(do),
        check=say(
            "Measure from waist to edge on the straight grain, on the bias and half way between,"
            " twice, {again} hours apart: the two readings differ by no more than {off}.",
            again=habits.READ_AGAIN,
            off=making.little(habits.STRETCH_STOPS),
        ),
        hands=10,
        first=15,
    )


def joining(making: Making) -> Step | None:
    """Return the step that joins the lining to the skirt, or None without a lining."""
    if making.lining is None:
        return None
    facing = (
        say(
            "Slip the lining into the skirt, the side with the ruffle against the wrong side of"
            " the skirt: the ruffle lies between the two and touches no skin."
        )
        if making.ruffle
        else say("Slip the lining into the skirt, wrong side to wrong side.")
    )
    do = [facing]
    if making.sews_skirt:
        do.append(
            say(
                "Match the edges of the opening first, then the marks and the seams that lie at the"
                " same place, and baste the two waist edges together on the seam line (seam"
                " {seam}).",
                seam=WAIST_SEAM,
            )
        )
    else:
        do.append(
            say(
                "Open the inside of the skirt's waist finish. Match the edges of the opening,"
                " centre front and both sides, sew the lining in with the skirt's own seam"
                " allowance, and close the finish again. What the lining is shorter there is eased"
                " in."
            )
        )
    if making.opens:
        do.append(
            say(
                "Turn the edges of the lining's slit under and hem them to the tape of the zip,"
                " {clear} from its teeth.",
                clear=making.hand(habits.LINING_CLEAR),
            )
        )
    flat = making.skirt.waistline if making.sews_skirt else making.lining.waistline
    return Step(
        name="join",
        title=say("Join lining and skirt at the waist"),
        do=tuple(do),
        check=say(
            "The quarters agree, the lining is not twisted, and the waist seam measures {waist},"
            " give or take {off}, before it is taped.",
            waist=making.long(gathered_edge(making, flat)),
            off=making.little(habits.WAIST_OFF),
        )
        if making.sews_skirt
        else say(
            "The quarters agree, the lining is not twisted, and the waist is as long as it was."
        ),
        hands=25,
        first=45,
    )


def comparing(making: Making, section: Picture | None) -> Step | None:
    """Return the step that looks at the two hems before any is cut, or None without a lining."""
    lining, wish = making.lining, making.spec.lining
    if lining is None or wish is None:
        return None
    do = [
        say("Before you cut, look at the lining under the marked line, all round.")
        if making.half_scale and making.sews_skirt
        else say(
            "Look at the lining's hem against the skirt's, all round, with the wearer standing and"
            " then on a step."
        )
        if not making.sews_skirt
        else say(
            "Before you cut, look at the lining under the marked line, all round, with the wearer"
            " standing and then on a step."
        ),
        say(
            "Held out, the skirt hangs shorter than it measures. Where lining or ruffle would show"
            " below it, take a tuck in the lining above the ruffle's line, all round, until it is"
            " hidden again."
        )
        if making.ruffle is not None
        else say("Where the lining would show, hem it higher."),
    ]
    check = say(
        "The lining ends about {gap} above the skirt's hem and does not show.",
        gap=making.long(wish.shorter),
    )
    if making.ruffle is not None:
        check = say(
            "The lining ends about {gap} above the skirt's hem, and the skirt covers the ruffle by"
            " {cover} or more.",
            gap=making.long(wish.shorter),
            cover=making.long(COVER * making.spec.scale),
        )
    return Step(
        name="compare",
        title=say("Compare the two hems"),
        do=tuple(do),
        check=check,
        pictures=(section,) if section else (),
        hands=10,
        first=15,
    )


def the_end(making: Making) -> Step:
    """Return the last step."""
    return Step(
        name="end",
        title=say("Press, tidy and try"),
        do=(
            say(
                "Press the seams once more from the inside, cut every thread end, and sew in a"
                " label that says size, cloth and care."
            ),
        ),
        check=say(
            "Walk, sit, climb a step, turn: nothing shows, nothing catches, nothing scratches."
        ),
        hands=15,
        first=30,
    )
