"""Steps of the skirt itself: stays, pockets, seams, godets, opening, tiers, flounce, hanging.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import listed, say
from drafting.spec import SeamFinish
from drafting.waist_pieces import STAY_WIDTH
from render.booklet import habits
from render.booklet.making import (
    GODET_SEAM,
    HEM_SEAM,
    POCKET_SEAM,
    SKIRT_SEAMS,
    WAIST_SEAM,
    Making,
)
from render.booklet.model import Step
from render.pictures.picture import Picture


def sewing_the_skirt(
    making: Making, *, opening: Picture | None, gathers: Picture | None
) -> Iterator[Step]:
    """Yield the steps that end with a skirt that hangs from its waist, unhemmed."""
    if making.curved:
        yield _staystitch(making)
    if making.piece("pocket"):
        yield _pockets(making)
    yield _seams(making)
    if making.pattern.figures.godets:
        yield _godets(making)
    if making.opens and making.opens_by_dot:
        yield _open(making, opening)
    if making.pattern.figures.tiers:
        yield _tiers(making)
    if making.opens and not making.opens_by_dot:  # it reaches into a tier
        yield _open(making, opening)
    if making.pattern.figures.flounce:
        yield _flounce(making)
    if making.skirt.gather_ratio is not None and not making.casing:
        yield _gather(making, gathers)


def _staystitch(making: Making) -> Step:
    low, high = (making.hand(x) for x in habits.CLIPS)
    return Step(
        name="staystitch",
        title=say("Staystitch the waist"),
        do=(
            say(
                "Stitch each waist edge {above} above its seam line, inside the allowance, from"
                " each side towards the middle. A curved edge lies partly on the bias and grows as"
                " soon as it is lifted.",
                above=making.little(habits.STAY_ABOVE),
            ),
            say(
                "Do not clip it yet. After the fitting it is clipped every {low} to {high}, to"
                " within {short} of this stitching.",
                low=low,
                high=high,
                short=making.little(habits.CLIP_SHORT),
            ),
        ),
        check=say(
            "All the waist edges together measure {waist} along the seam line, give or take"
            " {off}. If they"
            " have grown, draw the stitching up a little; if that is not enough, sew it again.",
            waist=making.long(making.skirt.waistline),
            off=making.little(habits.WAIST_OFF),
        ),
        hands=5,
        first=15,
    )


def _pockets(making: Making) -> Step:
    return Step(
        name="pockets",
        title=say("Sew the pocket bags to the side seams"),
        do=(
            say(
                "With right sides together lay a bag on each edge of the two side seams, notch to"
                " notch (seam {seam}), and stitch between the notches.",
                seam=POCKET_SEAM,
            ),
            say("Press bag and allowance away from the skirt."),
            say(
                "When the side seam is sewn, stitch down to the upper notch, round the two bags,"
                " and on from the lower notch to the hem, in one run. Press the pocket towards the"
                " front."
            ),
        ),
        check=say("Both openings lie equally far below the waist, and a hand goes in flat."),
        hands=25,
        first=50,
    )


def _seams(making: Making) -> Step:
    finish = making.spec.skirt.seams
    numbers = tuple(making.seams(SKIRT_SEAMS))
    do = [
        say(
            "Lay the panels right sides together, notch to notch, pin from the waist down, and"
            " stitch along the stitching line from the waist to the hem (seams {numbers}).",
            numbers=listed(numbers),
        )
        if len(numbers) > 1
        else say(
            "Lay the edges right sides together, notch to notch, pin from the waist down, and"
            " stitch along the stitching line from the waist to the hem (seam {number}).",
            number="".join(numbers),
        ),
        seam_words(finish),
    ]
    if finish is SeamFinish.FRENCH:
        do[0] = say(
            "Lay the edges wrong sides together, notch to notch, pin from the waist down (seam"
            " {number}).",
            number=listed(numbers),
        )
    if making.opens:
        do.append(
            say(
                "In the closure seam begin at the dot, {long} below the waist seam, and secure the"
                " end well. Above it the seam stays open.",
                long=making.long(making.skirt.opening),
            )
            if making.opens_by_dot
            else say(
                "The closure seam of the yoke stays open from end to end: the opening reaches"
                " {long} below the waist seam, into the tier under it, whose note says how much of"
                " one join is left open.",
                long=making.long(making.skirt.opening),
            )
        )
    if making.skirt.cut != "gathered":
        do.append(
            say(
                "Seams on the bias are stretched a very little as they are sewn, and pressed"
                " without"
                " pulling; let the panels hang for a night first if the cloth is soft."
            )
        )
    return Step(
        name="skirt-seams",
        title=say("Sew the skirt's seams"),
        do=tuple(do),
        check=say(
            "Before stitching, two edges that meet differ by no more than {off}. After it, no seam"
            " ripples: one that does is unpicked, hung and sewn again.",
            off=making.little(habits.SEAM_OFF),
        ),
        hands=5 + 4 * making.skirt.panels * making.skirt.length_side / 1000,
        first=15 + 10 * making.skirt.panels * making.skirt.length_side / 1000,
    )


def seam_words(finish: SeamFinish) -> str:
    """Return how the raw edges of a seam are finished."""
    return {
        SeamFinish.OPEN: say("Zigzag each raw edge by itself and press the seam open."),
        SeamFinish.FRENCH: say(
            "French seams are sewn twice: first wrong sides together, then trimmed, turned and"
            " stitched again right sides together, so that the raw edges lie inside. The notes on"
            " the pieces say how wide each pass is."
        ),
        SeamFinish.BOUND: say("Press the seam open and bind each raw edge."),
        SeamFinish.OVERLOCKED: say("Overlock both raw edges together and press them to one side."),
    }[finish]


def _godets(making: Making) -> Step:
    godets = making.pattern.figures.godets
    assert godets is not None
    return Step(
        name="godets",
        title=say("Set in the godets"),
        do=(
            say(
                "Leave each seam open below its dot, {deep} up from the hem. Lay one edge of the"
                " godet on one side of the opening, right sides together, notch to notch (seam"
                " {seam}), and stitch from the dot down to the hem; then the other side.",
                deep=making.long(godets.depth),
                seam=GODET_SEAM,
            ),
            say("Each stitching begins exactly at the dot and is secured there, never across it."),
        ),
        check=say(
            "The top of each godet is a sharp point without a pleat, and both its edges end"
            " level at the hem."
        ),
        hands=12.0 * godets.count,
        first=25.0 * godets.count,
    )


def _open(making: Making, opening: Picture | None) -> Step:
    figures = making.pattern.figures
    found = figures.opening
    assert found is not None
    do = []
    if making.piece("opening stay"):
        do.append(
            say(
                "Iron or baste a strip of interfacing, {wide} wide, to the wrong side of both edges"
                " of the skirt's opening: it keeps them from stretching.",
                wide=making.long(STAY_WIDTH),
            )
        )
    if found.zip is not None:
        do.append(
            say(
                "Baste the opening shut along the seam line, press, and lay the closed zip of"
                " {zip} face down on it, its lower stop at the dot. Baste, turn, and stitch both"
                " sides from the bottom up.",
                zip=making.long(found.zip),
            )
            if making.opens_by_dot
            else say(
                "Baste the opening shut along the seam line, press, and lay the closed zip of"
                " {zip} face down on it, its lower stop at the lower end of the opening. Baste,"
                " turn, and stitch both sides from the bottom up.",
                zip=making.long(found.zip),
            )
        )
        above = making.spec.skirt.band if figures.band or figures.contour else 0.0
        if above:
            do.append(
                say(
                    "The zip may run on above the waist seam, into the band; what is too long is"
                    " cut off there, after a bar of stitches across the teeth."
                )
            )
    do.append(
        say("Sew a bar of stitches across the lower end of the opening: all the pull comes there.")
    )
    return Step(
        name="opening",
        title=say("Finish the opening"),
        do=tuple(do),
        check=say(
            "Both upper ends are level, the zip runs freely, and the hips pass through: the"
            " opening reaches {long} below the waist seam.",
            long=making.long(making.skirt.opening),
        ),
        pictures=(opening,) if opening else (),
        hands=25,
        first=60,
    )


def _tiers(making: Making) -> Step:
    tiers = making.pattern.figures.tiers
    do = [
        say(
            "Join the strips of each tier end to end to a ring, and mark both edges in quarters"
            " (the notes on the pieces say how far apart)."
        ),
        say(
            "Sew two gathering rows along the upper edge of each tier, in sections that end at the"
            " quarters."
        ),
    ]
    for order, tier in enumerate(tiers, start=1):
        do.append(
            say(
                "Tier {number}: draw {flat} up to {edge} and sew it to the edge above, quarter to"
                " quarter, right sides together, gathers uppermost.",
                number=order,
                flat=making.long(tier.flat_length),
                edge=making.long(tier.flat_length / tier.gather_ratio),
            )
        )
    do.append(say("Zigzag each gathered allowance and press it upwards, off the gathers."))
    return Step(
        name="tiers",
        title=say("Gather and join the tiers"),
        do=tuple(do),
        check=say(
            "Every quarter of a tier ends at a quarter of the edge above, and no pleat is"
            " caught in the seams (seam {seam}).",
            seam=HEM_SEAM,
        ),
        hands=10 + 14 * sum(t.flat_length for t in tiers) / 1000,
        first=30 + 30 * sum(t.flat_length for t in tiers) / 1000,
    )


def _flounce(making: Making) -> Step:
    flounce = making.pattern.figures.flounce
    assert flounce is not None
    return Step(
        name="flounce",
        title=say("Join the flounce to the skirt's edge"),
        do=(
            say(
                "Join the rings of the flounce along their short ends (seam {seam}a), leaving the"
                " last to close when it has been tried.",
                seam=HEM_SEAM,
            ),
            say(
                "Staystitch the flounce's inner edge on its seam line, and clip the allowance to"
                " within {short} of it until the edge can be laid straight.",
                short=making.little(habits.CLIP_SHORT),
            ),
            say(
                "Lay it on the skirt's lower edge, right sides together, mark to mark (seam"
                " {seam}): both measure {long}. Stitch with the flounce uppermost; zigzag and press"
                " upwards.",
                seam=HEM_SEAM,
                long=making.long(flounce.sewn_length),
            ),
        ),
        check=say("The flounce falls in even waves and no clip has reached the stitching."),
        hands=20 + 6 * flounce.sewn_length / 1000,
        first=45 + 15 * flounce.sewn_length / 1000,
    )


def _gather(making: Making, gathers: Picture | None) -> Step:
    return Step(
        name="gather-waist",
        title=say("Gather the skirt's waist"),
        do=(
            say(
                "Sew the two rows of long stitches along each waist edge, in sections that end at"
                " the seams and at the marks; leave {tails} of thread at each end.",
                tails=making.hand(habits.TAILS),
            ),
            say("How far the rows lie from the raw edge stands on the piece."),
            say(
                "Draw the flat {flat} up to {waist}, a quarter at a time, mark to mark (seam"
                " {seam}).",
                flat=making.long(making.skirt.waistline),
                waist=making.long(making.finished_waist),
                seam=WAIST_SEAM,
            ),
        ),
        check=say(
            "The four quarters are equal and the gathers lie evenly, with no flat place at a seam."
        ),
        pictures=(gathers,) if gathers else (),
        hands=10 + 6 * making.skirt.waistline / 1000,
        first=25 + 15 * making.skirt.waistline / 1000,
    )
