"""Steps that make one garment of skirt and lining: hanging, joining, the waist, the hem, the end.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.advice_ruffle import COVER
from drafting.language import say
from drafting.piece import EdgeKind
from drafting.spec import Closure, HemFinish, WaistFinish
from drafting.units import Mm
from render.booklet import habits
from render.booklet.making import HEM_SEAM, WAIST_SEAM, Making
from render.booklet.model import Step
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
            waist=making.long(_gathered(making, flat)),
            off=making.little(habits.WAIST_OFF),
        )
        if making.sews_skirt
        else say(
            "The quarters agree, the lining is not twisted, and the waist is as long as it was."
        ),
        hands=25,
        first=45,
    )


def _gathered(making: Making, flat: Mm) -> Mm:
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
    edge = making.lining.waistline if making.lining else _gathered(making, making.skirt.waistline)
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
