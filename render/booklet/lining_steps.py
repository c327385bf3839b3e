"""Steps of the lining before its ruffle: seams, the slit, hanging, its hem, the ruffle's line.

Imports the making, its habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import listed, say
from drafting.spec import SeamFinish
from render.booklet import habits
from render.booklet.making import LINING_SEAMS, RUFFLE_SEAM, Making
from render.booklet.model import Step
from render.booklet.skirt_steps import plain_closure, seam_words


def sewing_the_lining(making: Making) -> Iterator[Step]:
    """Yield the steps that end with a lining that is hemmed, its ruffle's line chalked."""
    lining = making.lining
    if lining is None:
        return
    numbers = tuple(making.seams(LINING_SEAMS))
    do = [
        say("Staystitch the lining's waist as you did the skirt's.")
        if making.curved
        else say(
            "Staystitch the lining's waist {above} above its seam line, inside the allowance, from"
            " either end of the edge towards its middle.",
            above=making.little(habits.STAY_ABOVE),
        )
    ]
    french = making.spec.skirt.seams is SeamFinish.FRENCH
    do.append(
        say(
            "Pin the lining's seams from the waist to the hem, wrong sides together (seam"
            " {number}).",
            number=listed(numbers),
        )
        if french
        else say(
            "Sew the lining's seams from the waist to the hem, right sides together (seam"
            " {number}).",
            number=listed(numbers),
        )
    )
    do.append(seam_words(making))
    if making.opens and lining.opening > 0:
        do.append(
            say(
                "The closure seam begins at the mark where the opening ends, {long} below the waist"
                " seam; above it the lining stays open for its own slit. Neaten both edges of the"
                " slit.",
                long=making.long(lining.opening),
            )
        )
        if french:
            do.append(plain_closure())
    if lining.vent:
        do.append(
            say(
                "That seam also ends {vent} above the hem: hem both edges of this vent and sew a"
                " bar across its top.",
                vent=making.long(lining.vent),
            )
        )
    yield Step(
        name="lining-seams",
        title=say("Sew the lining"),
        do=tuple(do),
        check=say(
            "The lining's waist measures {waist} all round along its seam line, give or take"
            " {off}, the slit"
            " laid shut.",
            waist=making.long(lining.waistline),
            off=making.little(habits.WAIST_OFF),
        )
        if lining.opening
        else say(
            "The lining's waist measures {waist} all round along its seam line, give or take"
            " {off}.",
            waist=making.long(lining.waistline),
            off=making.little(habits.WAIST_OFF),
        ),
        hands=15 + 4 * lining.panels * lining.length_side / 1000,
        first=35 + 10 * lining.panels * lining.length_side / 1000,
    )
    yield _hem(making)
    if making.ruffle is not None:
        yield _line(making)


def _hem(making: Making) -> Step:
    lining = making.lining
    assert lining is not None
    do = []
    if (lining.bias_drop_most or 0.0) >= habits.LEAST_GROWTH:
        do.append(
            say(
                "Hang the lining from its waist for {hours} hours and cut its edge"
                " level: where it hangs on the bias it has grown.",
                hours=lining.hang_hours,
            )
        )
    turn = (lining.hem_allowance or 0.0) / 2
    do.append(
        say(
            "Turn the edge up by {half}, press, turn it by {half} again and stitch close to the"
            " upper fold.",
            half=making.long(turn),
        )
        if turn
        else say("Turn the edge up twice, narrowly, and stitch close to the upper fold.")
    )
    lengths = {lining.length_front, lining.length_side, lining.length_back}
    return Step(
        name="lining-hem",
        title=say("Hem the lining"),
        do=tuple(do),
        check=say(
            "From waist seam to hem it measures {long} everywhere, give or take {off}.",
            long=making.long(lining.length_side),
            off=making.little(habits.SEAM_OFF),
        )
        if len(lengths) == 1
        else say(
            "From waist seam to hem it measures {front} at the front, {side} at the sides and"
            " {back} at the back, give or take {off}.",
            front=making.long(lining.length_front),
            side=making.long(lining.length_side),
            back=making.long(lining.length_back),
            off=making.little(habits.SEAM_OFF),
        ),
        hands=10 + 5 * lining.sweep / 1000,
        first=20 + 8 * lining.sweep / 1000,
    )


def _line(making: Making) -> Step:
    lining, ruffle = making.lining, making.ruffle
    assert lining is not None and ruffle is not None
    even = lining.length_front == lining.length_side == lining.length_back
    least = min(
        lining.length_front,
        lining.length_side,
        lining.length_back,
        lining.length_left or lining.length_side,
        lining.length_right or lining.length_side,
    )
    up = making.long(least - ruffle.line_below_waist)
    where = (
        say(
            "On the right side of the lining, the side that will face the skirt, chalk a line all"
            " round {below} below the waist seam, which is {up} above the hem.",
            below=making.long(ruffle.line_below_waist),
            up=up,
        )
        if even
        else say(
            "On the right side of the lining, the side that will face the skirt, chalk a line all"
            " round {up} above the hem, however long the lining is there.",
            up=up,
        )
    )
    return Step(
        name="line",
        title=say("Chalk the ruffle's line"),
        do=(
            where,
            say(
                "Mark its quarters along the line itself, by tape and not by eye: centre back, both"
                " sides, centre front, {quarter} apart (seam {seam}). Mark the middle of each"
                " quarter too.",
                quarter=making.long(ruffle.line_quarter),
                seam=RUFFLE_SEAM,
            ),
        ),
        check=say(
            "The line measures {line} all round, give or take {percent} %. It is shorter than the"
            " hem of"
            " {hem}, and the ruffle is made for the line.",
            line=making.long(ruffle.line_length),
            percent=habits.LINE_OFF,
            hem=making.long(lining.sweep),
        ),
        hands=10,
        first=25,
    )
