"""Steps of the ruffle: quarters, gathering both ways, tiers, pinning, sewing on.

Imports the making, the ruffle's habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import listed, say, say_counted
from drafting.ruffle import Method
from drafting.spec import Figure, RuffleCloth
from render.booklet import habits
from render.booklet.making import RUFFLE_SEAM, Making
from render.booklet.model import Step
from render.booklet.strip_steps import edge_step, join_step
from render.pictures.picture import Picture


def sewing_the_ruffle(
    making: Making,
    *,
    rows: tuple[Picture, ...],
    quarters: tuple[Picture, ...],
    laid: tuple[Picture, ...],
) -> Iterator[Step]:
    """Yield the steps that end with the ruffle hanging from its line on the lining."""
    if making.ruffle is None:
        return
    yield join_step(making)
    yield edge_step(making)
    yield _mark(making, quarters)
    yield _gather(making, rows)
    if making.ruffle.tiers:
        yield _tiers(making)
    yield _pin(making)
    yield _sew_on(making, laid)
    yield _finish(making)


def _mark(making: Making, quarters: tuple[Picture, ...]) -> Step:
    ruffle, lining = making.ruffle, making.lining
    assert ruffle is not None and lining is not None
    do = [
        say(
            "Mark the ruffle's upper edge in quarters along the seam line, {flat} apart, and halve"
            " each to eighths.",
            flat=making.long(ruffle.flat_quarter),
        )
    ]
    if ruffle.join_from_seam is not None and ruffle.ring:
        do.append(
            say_counted(
                "Choose the first mark so that no join comes to lie on the lining's seam: at best"
                " they keep {clear} from it.",
                "Choose the first mark so that no join comes to lie on one of the lining's seams:"
                " at best they keep {clear} from them.",
                lining.panels,
                clear=making.long(ruffle.join_from_seam),
            )
        )
    if ruffle.tiers:
        do.append(say("Mark the upper edge of every other tier in quarters in the same way."))
    return Step(
        name="quarters",
        title=say("Mark the quarters"),
        do=tuple(do),
        check=say(
            "All four quarters are {flat} long, give or take {off}.",
            flat=making.long(ruffle.flat_quarter),
            off=making.little(habits.QUARTER_OFF),
        ),
        pictures=quarters,
        hands=10,
        first=20,
    )


def _tiers(making: Making) -> Step:
    ruffle = making.ruffle
    assert ruffle is not None
    do = [say("Begin with the lowest tier: each is light while it is gathered.")]
    for order, tier in reversed(list(enumerate(ruffle.tiers[1:], start=2))):
        do.append(
            say(
                "Tier {number}: draw {flat} up to {edge} and sew it to the lower edge of the tier"
                " above, mark to mark, right sides together. Zigzag the allowance and press it"
                " upwards.",
                number=order,
                flat=making.long(tier.flat_length),
                edge=making.long(tier.flat_length / tier.gather_ratio),
            )
        )
    return Step(
        name="ruffle-tiers",
        title=say("Join the tiers of the ruffle"),
        do=tuple(do),
        check=say("No tier is sewn on inside out, and all their quarters lie below each other."),
        hands=10 + 10 * sum(t.flat_length for t in ruffle.tiers[1:]) / 1000,
        first=30 + 20 * sum(t.flat_length for t in ruffle.tiers[1:]) / 1000,
    )


def _gather(making: Making, rows: tuple[Picture, ...]) -> Step:
    ruffle = making.ruffle
    assert ruffle is not None
    chosen = ruffle.method
    told = {way.method: _way(making, way.method) for way in ruffle.ways}
    first = told[chosen]
    other = next(words for method, words in told.items() if method != chosen)
    seam = making.long(ruffle.seam_from_edge)
    do = [
        say(
            "The seam line lies {seam} from the raw edge. Gather in {sections} sections, each from"
            " one mark to another. A cord runs on across the joins; rows of stitches stop short of"
            " each join and begin again after it.",
            seam=seam,
            sections=ruffle.sections,
        ),
        say("For this ruffle: {way}", way=first),
        say("Or, if you prefer: {way}", way=other),
    ]
    flat = (ruffle.gathered_length or ruffle.flat_length) / 1000
    cautions: tuple[str, ...] = ()
    if making.spec.wearer.figure is Figure.CHILD:
        cautions = (
            say(
                "On a child's skirt no cord may stay: pull it out when the ruffle is sewn on, or"
                " cut it off inside the seam."
            ),
        )
    return Step(
        name="gather",
        title=say("Sew the gathering rows"),
        do=tuple(do),
        check=say(
            "Every section has a free end of {tails} or more at either side, none of them sewn"
            " fast, and nothing lies on the seam line itself.",
            tails=making.hand(habits.TAILS),
        ),
        cautions=cautions,
        pictures=rows,
        hands=10 + 4 * flat,
        first=20 + 8 * flat,
    )


def _way(making: Making, method: str) -> str:
    ruffle = making.ruffle
    assert ruffle is not None
    way = next(one for one in ruffle.ways if one.method == method)
    if way.method == Method.CORD:
        wide, long = habits.ZIGZAG
        assert way.cord_metres is not None
        return say(
            "a zigzag over a cord. Lay a smooth strong cord {row} from the raw edge, which is"
            " {above} above the seam line, and zigzag over it {wide} wide and {length} long, never"
            " through it. Wind its ends in a figure of eight round a pin. It takes about {cord} of"
            " cord and {thread} of thread, an estimate.",
            row=making.long(way.rows_from_edge[0]),
            above=making.little(habits.CORD_ABOVE),
            wide=making.stitch(wide),
            length=making.stitch(long),
            cord=making.metres(way.cord_metres),
            thread=making.metres(way.thread_metres),
        )
    inside = all(row < ruffle.seam_from_edge for row in way.rows_from_edge)
    rows = listed([making.long(row) for row in way.rows_from_edge])
    if inside:
        return say(
            "{count} rows of stitches {stitch} long, with strong thread on the bobbin and a loose"
            " upper thread, {rows} from the raw edge. They lie inside the allowance, so that no"
            " needle holes show; the seam is sewn just below the lower one. Leave {tails} of thread"
            " at each end and pull the bobbin threads from both ends. It takes about {thread} of"
            " thread, an estimate.",
            count=len(way.rows_from_edge),
            stitch=making.stitch(habits.LONG_STITCH),
            rows=rows,
            tails=making.hand(habits.TAILS),
            thread=making.metres(way.thread_metres),
        )
    return say(
        "{count} rows of stitches {stitch} long, with strong thread on the bobbin and a loose upper"
        " thread, {rows} from the raw edge: one above the seam line and one below, so that the"
        " gathers lie flat between them. The row below is pulled out when the seam is sewn. Leave"
        " {tails} of thread at each end and pull the bobbin threads from both ends. It takes about"
        " {thread} of thread, an estimate.",
        count=len(way.rows_from_edge),
        stitch=making.stitch(habits.LONG_STITCH),
        rows=rows,
        tails=making.hand(habits.TAILS),
        thread=making.metres(way.thread_metres),
    )


def _pin(making: Making) -> Step:
    ruffle, wish = making.ruffle, making.spec.ruffle
    assert ruffle is not None and wish is not None
    near, far = (making.hand(x) for x in habits.PINS)
    do = [
        say(
            "Pin the ruffle's quarters to the quarters of the line, pins across the seam: centre"
            " back, both sides, centre front."
        ),
        say(
            "Draw the {flat} between two marks up to {line}, wind the ends round a pin, and spread"
            " the gathers from the eighth mark to both sides until the line is filled. Pin every"
            " {near} to {far}.",
            flat=making.long(ruffle.flat_quarter),
            line=making.long(ruffle.line_quarter),
            near=near,
            far=far,
        ),
    ]
    if wish.cloth in (RuffleCloth.SILK_ORGANZA, RuffleCloth.POLYESTER_ORGANZA):
        do.append(say("Pins leave holes in organza: take fine ones, inside the allowance."))
    return Step(
        name="pin",
        title=say("Draw up and pin"),
        do=tuple(do),
        check=say(
            "At any place {sample} of the line holds about {flat} of flat ruffle, give or take"
            " {percent} %.",
            sample=making.hand(habits.SAMPLE),
            flat=making.long(making.handy(habits.SAMPLE) * ruffle.gather_ratio),
            percent=habits.SAMPLE_OFF,
        ),
        cautions=(say("Count the pins as you set them, and count them out again."),),
        hands=15 + 6 * ruffle.line_length / 1000,
        first=40 + 15 * ruffle.line_length / 1000,
    )


def _sew_on(making: Making, laid: tuple[Picture, ...]) -> Step:
    ruffle = making.ruffle
    assert ruffle is not None
    near, far = (making.hand(x) for x in habits.STOP_EVERY)
    return Step(
        name="sew-on",
        title=say("Sew the ruffle to the lining"),
        do=(
            say(
                "Lay the ruffle on the side of the lining that faces the skirt, right sides"
                " together, its body pointing up and its raw edge {edge} below the chalked line, so"
                " that its seam line lies on the line (seam {seam}).",
                edge=making.long(ruffle.seam_from_edge),
                seam=RUFFLE_SEAM,
            ),
            say(
                "Stitch with the gathers uppermost, {stitch} long, on the line. Stop with the"
                " needle down every {near} to {far} and even out what lies ahead.",
                stitch=making.stitch(habits.SEAM_STITCH),
                near=near,
                far=far,
            ),
            say(
                "The other way, flatter and with one more row: lay it body down, its seam line on"
                " the chalked line and its raw edge {edge} above it, stitch, pull out the cord,"
                " trim"
                " to {trim}, and cover the raw edge with a tape {tape} wide, stitched along both"
                " its"
                " edges. The tape is not in the list of notions: {line} of it.",
                edge=making.long(ruffle.seam_from_edge),
                trim=making.little(habits.TRIM_TO),
                tape=making.hand(habits.TAPE),
                line=making.long(ruffle.line_length),
            ),
        ),
        check=say(
            "No fold and no gathering thread is caught below the line. Turn it over and"
            " look before you unthread."
        ),
        pictures=laid,
        hands=10 + 6 * ruffle.line_length / 1000,
        first=20 + 14 * ruffle.line_length / 1000,
    )


def _finish(making: Making) -> Step:
    lining, ruffle, wish = making.lining, making.ruffle, making.spec.ruffle
    assert lining is not None and ruffle is not None and wish is not None
    do = [
        say("Pull out the cord, or the gathering threads that show."),
        say(
            "Stitch again {second} inside the allowance, trim it to {trim}, and zigzag it.",
            second=making.little(habits.SECOND_ROW),
            trim=making.little(habits.TRIM_TO),
        ),
        say(
            "Turn the ruffle down: it falls over its own allowance and hides it. One that was laid"
            " body down and taped hangs as it should already."
        ),
    ]
    cautions: tuple[str, ...] = ()
    if making.is_net or wish.cloth is RuffleCloth.POLYESTER_ORGANZA:
        do.append(
            say(
                "Steam the allowance towards the hem from {away} away, without touching it. Never"
                " press gathers flat.",
                away=making.hand(habits.STEAM_OFF),
            )
        )
        cautions = (
            say(
                "Net and synthetics melt under an iron that touches them, and stick to"
                " skin while they are hot."
            ),
        )
    else:
        do.append(
            say(
                "Press the allowance towards the hem with the point of the iron, up to the gathers"
                " and never over them."
            )
        )
    return Step(
        name="turn-down",
        title=say("Stitch again, trim and turn down"),
        do=tuple(do),
        check=say(
            "The ruffle's lower edge hangs {above} above the lining's hem all round, give or take"
            " {off}.",
            above=making.long(wish.above_hem),
            off=making.little(habits.LEVEL_OFF),
        )
        if making.tells(wish.above_hem)
        else say(
            "The ruffle's lower edge hangs level with the lining's hem all round, give or take"
            " {off}.",
            off=making.little(habits.LEVEL_OFF),
        ),
        cautions=cautions,
        hands=15,
        first=30,
    )
