"""Steps of the skirt's hem: levelled over all that holds it out, then finished.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import say
from drafting.piece import EdgeKind
from drafting.spec import HemFinish
from render.booklet import habits
from render.booklet.making import HEM_SEAM, Making
from render.booklet.model import Step
from render.pictures.picture import Picture


def levelling(making: Making, picture: Picture | None) -> Step | None:
    """Return the step that levels the hem over everything that holds the skirt out."""
    if not making.sews_skirt:
        return None
    height = making.spec.skirt.hem_above_floor
    on_form = making.spec.scale != 1
    over = (
        say("Put the skirt on the half-scale form, over everything that goes under it.")
        if on_form
        else say(
            "Put the skirt on with its shoes, over the finished lining and ruffle: held out by"
            " them it hangs shorter, so a hem levelled without them is not level."
        )
        if making.ruffle
        else say("Put the skirt on with its shoes.")
    )
    do = [
        over,
        say(
            "Turn the form past a ruler stood on the table, and mark one height with pins or chalk."
        )
        if on_form
        else say(
            "Somebody else walks round with a ruler stood on the floor and marks one height with"
            " pins or chalk; the wearer turns in place and looks straight ahead."
        ),
    ]
    if height is not None:
        do.append(
            say("The hem was drafted to lie {height} above the floor.", height=making.long(height))
        )
    do.append(
        say(
            "Find the lowest height at which there is still a hem allowance below the mark"
            " everywhere, mark that height all round, and draw the marks to one smooth line."
        )
    )
    do.append(_below_the_line(making))
    return Step(
        name="level",
        title=say("Try on and level the hem"),
        do=tuple(do),
        check=say(
            "At {count} places round the skirt the line lies at one height over the floor, give"
            " or take"
            " {off}.",
            count=habits.LEVEL_MARKS,
            off=making.little(habits.LEVEL_OFF),
        ),
        cautions=(say("Pins out before the skirt comes off, and count them."),),
        pictures=(picture,) if picture else (),
        hands=20,
        first=40,
    )


def _below_the_line(making: Making) -> str:
    allowance = making.skirt.hem_allowance or _flounce_hem(making)
    if making.spec.skirt.hem is HemFinish.BOUND or not allowance:
        return say("The line is the edge: nothing is left below it.")
    deep = making.long(allowance)
    if making.lining is None:
        return say("Below the line {deep} stays for the hem; cut off the rest.", deep=deep)
    return say(
        "Below the line {deep} stays for the hem; the rest is cut off, but not before the next"
        " step.",
        deep=deep,
    )


HEM_MINUTES = {
    HemFinish.NARROW: 6.5,
    HemFinish.TURNED: 20.0,
    HemFinish.ROLLED: 1.5,
    HemFinish.FACED: 10.0,
    HemFinish.BIAS_FACED: 7.5,
    HemFinish.BRAID: 12.5,
    HemFinish.BOUND: 9.0,
}
"""Minutes to a metre of hem for a first skirt; a practised hand takes about two thirds."""


def hemming(making: Making, pictures: tuple[Picture, ...]) -> Step | None:
    """Return the step that finishes the skirt's hem."""
    if not making.sews_skirt:
        return None
    finish = making.spec.skirt.hem
    metres = making.skirt.sweep / 1000
    return Step(
        name="hem",
        title=say("Hem the skirt"),
        do=tuple(_hem_words(making)),
        check=say(
            "The hem measures {sweep} all round, give or take {percent} %, and lies flat without"
            " a tuck.",
            sweep=making.long(making.skirt.sweep),
            percent=habits.LINE_OFF,
        ),
        pictures=pictures,
        hands=10 + 0.65 * HEM_MINUTES[finish] * metres,
        first=15 + HEM_MINUTES[finish] * metres,
    )


def _flounce_hem(making: Making) -> float:
    """Return the hem allowance of a flounce, whose lower edge is the skirt's; 0 without one."""
    flounce = making.piece("flounce")
    edges = flounce.edges if flounce else ()
    return max((edge.allowance for edge in edges if edge.kind is EdgeKind.HEM), default=0.0)


def _hem_words(making: Making) -> Iterator[str]:
    figures, wish = making.pattern.figures, making.spec.skirt
    hem, allowance = figures.hem, making.skirt.hem_allowance or _flounce_hem(making)
    finish = wish.hem
    if finish is HemFinish.NARROW and allowance:
        yield say(
            "Trim the allowance to {whole}. Turn it up by {half} and press, turn it by {half} again"
            " and stitch close to the upper fold. Stretch nothing; ease the fullness in with the"
            " iron.",
            whole=making.long(allowance),
            half=making.long(allowance / 2),
        )
    elif finish is HemFinish.NARROW:
        yield say("Turn the edge up twice, narrowly, and stitch close to the upper fold.")
    elif finish is HemFinish.TURNED:
        if allowance:
            yield say("The hem is {deep} deep.", deep=making.long(allowance))
        yield say(
            "Neaten the raw edge. Turn the allowance up, ease in what is too full with a"
            " row of long stitches near the edge, press, and hem it by hand or by a blind"
            " stitch."
        )
    elif finish is HemFinish.ROLLED:
        yield say(
            "Roll the edge with an overlocker or a rolling foot, trimming to the line as it runs."
        )
    elif finish is HemFinish.FACED:
        assert hem is not None and hem.facing_depth is not None
        yield say(
            "Join the facing's pieces, neaten their upper edge, and sew them to the hem, right"
            " sides together, mark to mark (seam {seam}). Clip, stitch the allowances to the facing"
            " beside the seam, turn it in, {deep} deep, and catch it down.",
            seam=HEM_SEAM,
            deep=making.long(hem.facing_depth),
        )
    elif finish is HemFinish.BIAS_FACED:
        assert hem is not None and hem.strip_length is not None and hem.strip_width is not None
        yield say(
            "Join bias strips {wide} wide to {long}, sew them to the hem, right sides together"
            " (seam {seam}), turn them in whole, and stitch the folded upper edge down. Join the"
            " ends where they meet.",
            wide=making.long(hem.strip_width),
            long=making.long(hem.strip_length),
            seam=HEM_SEAM,
        )
    elif finish is HemFinish.BRAID:
        assert hem is not None and hem.braid_length is not None and hem.braid_width is not None
        yield say(
            "Lay {long} of horsehair braid, {wide} wide, on the right side along the hem line,"
            " stitch it by its lower edge, turn it inside, and draw up its upper edge by the thread"
            " in it until it lies flat; catch that edge down at the seams. Lap the ends and cap"
            " them"
            " with a scrap of cloth: they scratch.",
            long=making.long(hem.braid_length),
            wide=making.long(hem.braid_width),
        )
    else:
        assert hem is not None and hem.strip_length is not None and hem.strip_width is not None
        yield say(
            "Join bias strips {wide} wide to {long}. Lay the strip along the edge, right sides"
            " together (seam {seam}), stitch, fold it over the edge, and sew it down inside by"
            " hand. Join the ends where they meet.",
            wide=making.long(hem.strip_width),
            long=making.long(hem.strip_length),
            seam=HEM_SEAM,
        )
