"""Steps of the skirt itself: stays, pockets, seams, godets, opening, tiers, flounce, hanging.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import listed, say
from drafting.places import PLACES, seam_names
from drafting.spec import SeamFinish
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
from render.booklet.opening_steps import opening_step
from render.pictures.picture import Picture

NAMED = frozenset(name for _, name in PLACES)
"""Places of the body that have a name: a seam between them has none."""


def sewing_the_skirt(
    making: Making, *, seam: Picture | None, opening: Picture | None, gathers: Picture | None
) -> Iterator[Step]:
    """Yield the steps that end with a skirt that hangs from its waist, unhemmed."""
    if making.curved:
        yield _staystitch(making)
    if making.piece("pocket"):
        yield _pockets(making)
    yield _seams(making, seam)
    if making.pattern.figures.godets:
        yield _godets(making)
    if making.opens and making.opens_by_dot:
        yield opening_step(making, opening)
    if making.pattern.figures.tiers:
        yield _tiers(making)
    if making.opens and not making.opens_by_dot:  # it reaches into a tier
        yield opening_step(making, opening)
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
                " either end of the edge towards its middle. A curved edge lies partly on the"
                " bias and grows as"
                " soon as it is lifted.",
                above=making.little(habits.STAY_ABOVE),
            ),
            say(
                "Do not clip it yet: when the waist is finished it is clipped every {low} to"
                " {high}, to within {short} of this stitching.",
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


def _seams(making: Making, seam: Picture | None) -> Step:
    finish = making.spec.skirt.seams
    numbers = listed(tuple(making.seams(SKIRT_SEAMS)))
    long = making.skirt.panels * making.skirt.length_side / 1000
    slow = 2 if finish is SeamFinish.FRENCH else 1
    return Step(
        name="skirt-seams",
        title=say("Sew the skirt's seams"),
        do=tuple(_seams_told(making, numbers)),
        check=say(
            "Before stitching, two edges that meet differ by no more than {off}. After it, no seam"
            " ripples: one that does is unpicked, hung and sewn again.",
            off=making.little(habits.SEAM_OFF),
        ),
        pictures=(seam,) if seam else (),
        hands=5 + 5 * slow * long,
        first=15 + 11 * slow * long,
    )


def _seams_told(making: Making, numbers: str) -> Iterator[str]:
    finish, godets = making.spec.skirt.seams, making.pattern.figures.godets
    places = [place for place in seam_names(making.skirt.panels, making.closure) if place in NAMED]
    if places:
        yield say(
            "Seams lie at: {places}.",
            places=", ".join(say(place) for place in dict.fromkeys(places)),
        )
    if finish is SeamFinish.FRENCH:
        yield say(
            "Lay the edges wrong sides together, notch to notch, and pin from the waist down (seam"
            " {number}).",
            number=numbers,
        )
    else:
        yield say(
            "Lay the edges right sides together, notch to notch, pin from the waist down, and"
            " stitch on the stitching line, from the waist downwards (seam {number}).",
            number=numbers,
        )
    if godets is not None:
        yield say(
            "Stop and fasten at the mark where the godet begins, {deep} above the hem: below it the"
            " seam stays open for the godet.",
            deep=making.long(godets.depth),
        )
    yield seam_words(making)
    if making.opens:
        yield (
            say(
                "The closure seam begins at the mark where the opening ends, {long} below the waist"
                " seam: fasten it well there. Above it the seam stays open.",
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
        if finish is SeamFinish.FRENCH:
            yield plain_closure()
    if making.skirt.cut != "gathered" and making.skirt.bias_drop:
        yield say(
            "Seams on the bias are stretched a very little as they are sewn, and pressed without"
            " pulling; let the panels hang for a night first if the cloth is soft."
        )


def plain_closure() -> str:
    """Return how the closure seam is sewn beside French seams, which leave nothing to lie open."""
    return say(
        "The closure seam itself is no French seam: neaten its two edges, sew it right sides"
        " together, and press it open, so that the allowances lie flat beside the opening."
    )


def seam_words(making: Making) -> str:
    """Return how the raw edges of a seam are finished."""
    finish = making.spec.skirt.seams
    if finish is SeamFinish.FRENCH:
        return say(
            "French seams are sewn twice. First wrong sides together, {first} outside the stitching"
            " line; trim both allowances to {trim}, turn, press, and sew again right sides"
            " together, on the stitching line, which lies {second} from the fold. The raw edges are"
            " inside then.",
            first=making.little(habits.FRENCH_SECOND),
            trim=making.little(habits.FRENCH_TRIM),
            second=making.little(habits.FRENCH_SECOND),
        )
    return {
        SeamFinish.OPEN: say("Zigzag each raw edge by itself and press the seam open."),
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
                "Lay one edge of a godet on one side of the open seam, right sides together, notch"
                " to notch (seam {seam}), and stitch from the mark down to the hem; then the other"
                " side.",
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
            seam=listed(tuple(making.seams(HEM_SEAM))),
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
