"""Steps of the ruffle: strips, lower edge, tiers, gathering both ways, pinning, sewing on.

Imports the making, the ruffle's habits and the booklet's values.
"""

from collections.abc import Iterator

from drafting.language import decimal, listed, say, say_counted
from drafting.ruffle import Join, Method
from drafting.spec import Figure, RuffleCloth
from drafting.strips import END_HEM
from render.booklet import habits
from render.booklet.making import RUFFLE_SEAM, Making
from render.booklet.model import Step
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
    yield _join(making)
    yield _edge(making)
    yield _mark(making, quarters)
    yield _gather(making, rows)
    if making.ruffle.tiers:
        yield _tiers(making)
    yield _pin(making)
    yield _sew_on(making, laid)
    yield _finish(making)


def sampling(making: Making) -> Step:
    """Return the step that comes before any strip is cut: a gathered sample."""
    ruffle = making.ruffle
    assert ruffle is not None
    return Step(
        name="sample",
        title=say("Gather a sample"),
        do=(
            say(
                "Before the strips are touched, gather a scrap with the strip of the page headed"
                " “{page}” and read its ratio. The ruffle is drafted for {ratio} to 1.",
                page=say("A gathering sample"),
                ratio=ratio_text(making),
            ),
        ),
        check=say(
            "At that ratio the scrap stands as stiffly as you wish, and its allowance can still be"
            " sewn flat. If not, have the ruffle drafted again with another ratio before you"
            " cut the strips."
        ),
        hands=10,
        first=20,
    )


def ratio_text(making: Making) -> str:
    """Return how many times as long as its line the ruffle is, as it is shown."""
    ruffle = making.ruffle
    assert ruffle is not None
    return decimal(f"{ruffle.gather_ratio:.3g}")


def _join(making: Making) -> Step:
    ruffle, habit = making.ruffle, making.habit
    assert ruffle is not None
    allowance = making.long(habit.join_allowance)
    if habit.join is Join.LAP:
        joined = say(
            "Lap the ends of the strips by {lap} and zigzag them flat; seamed, they would make a"
            " ridge.",
            lap=making.long(2 * habit.join_allowance),
        )
    elif making.is_net:
        joined = say(
            "Join the strips end to end with seams of {allowance}. Net does not fray: finger-press"
            " the seams open and leave them raw.",
            allowance=allowance,
        )
    else:
        joined = say(
            "Join the strips end to end with seams of {allowance}, sewn twice as French or felled"
            " seams: this cloth frays, and every raw edge is closed before gathering.",
            allowance=allowance,
        )
    do = [joined]
    do.append(
        say("Close the last join to a ring. Look along it first: it must not be twisted.")
        if ruffle.ring
        else say(
            "The ruffle stays open at the opening: hem each of its ends by {hem}.",
            hem=making.long(END_HEM),
        )
    )
    if ruffle.tiers:
        do.append(say("Each tier is joined from its own strips."))
    told = [(ruffle.strips, ruffle.flat_length)]
    if ruffle.tiers:
        told = [(tier.strips, tier.flat_length) for tier in ruffle.tiers]
    checks = [
        say_counted(
            "{count} strip, {flat} flat, give or take {off}",
            "{count} strips, {flat} flat, give or take {off}",
            count,
            flat=making.long(flat),
            off=making.hand(habits.SLIDE),
        )
        for count, flat in told
    ]
    strips = sum(count for count, _ in told)
    return Step(
        name="join-strips",
        title=say("Join the strips"),
        do=tuple(do),
        check=say(
            "{strips}; their right sides lie on one side all the way.", strips="; ".join(checks)
        ),
        hands=5 + 3.0 * strips,
        first=15 + 8.0 * strips,
    )


def _edge(making: Making) -> Step:
    ruffle, wish = making.ruffle, making.spec.ruffle
    assert ruffle is not None and wish is not None
    hem = making.long(making.habit.edge_hem)
    cautions: tuple[str, ...] = ()
    if making.doubled:
        do = say(
            "Fold the ring along its length, wrong sides together, and press the fold with the"
            " point of the iron. The fold is the lower edge and needs no hem; the two raw edges are"
            " gathered together as one."
        )
        check = say(
            "Both raw edges lie level all round, and the folded ruffle is {depth} deep"
            " below its seam line.",
            depth=making.long(ruffle.depth),
        )
        minutes = 3.0
    elif wish.cloth is RuffleCloth.SOFT_TULLE:
        do = say("The lower edge of tulle stays raw: it does not fray. Trim what is uneven.")
        check = _edge_check(making)
        minutes = 0.5
    elif wish.cloth is RuffleCloth.STIFF_NET:
        do = say(
            "The lower edge of net may stay raw, but raw net catches tights. Bind it now, while it"
            " is flat, if legs will be near it."
        )
        check = _edge_check(making)
        minutes = 2.0
    elif wish.cloth is RuffleCloth.CRINOLINE_CANVAS:
        do = say("Bind the lower edge now, while it is flat: a raw one scratches.")
        check = _edge_check(making)
        minutes = 8.0
    elif wish.cloth is RuffleCloth.COTTON_ORGANDY:
        do = say(
            "Organdy frays: hem the lower edge now, while it is flat. Turn {half} up twice and"
            " stitch.",
            half=making.long(making.habit.edge_hem / 2),
        )
        check = _edge_check(making)
        minutes = 6.0
    else:
        do = say(
            "Organza frays fast: roll the lower edge now, while it is flat, by hand, by a rolling"
            " foot or by an overlocker; it takes {hem}.",
            hem=hem,
        )
        check = _edge_check(making)
        minutes = 4.0
        if wish.cloth is RuffleCloth.POLYESTER_ORGANZA:
            cautions = (
                say(
                    "Singeing the edge of polyester seals it, but it melts, drips and gives off"
                    " fumes: it is no job for a child or a workroom with net in it. Rolling is"
                    " safer."
                ),
            )
    edge = (ruffle.tiers[-1].flat_length if ruffle.tiers else ruffle.flat_length) / 1000
    return Step(
        name="lower-edge",
        title=_edge_title(making),
        do=(do,),
        check=check,
        cautions=cautions,
        hands=5 + minutes * 0.6 * edge,
        first=10 + minutes * edge,
    )


def _edge_title(making: Making) -> str:
    if making.doubled:
        return say("Fold the ruffle double")
    if making.ruffle is not None and making.ruffle.tiers:
        return say("Finish the lower edge of the lowest tier")
    return say("Finish its lower edge")


def _edge_check(making: Making) -> str:
    ruffle = making.ruffle
    assert ruffle is not None
    deep = ruffle.strip_cut_depth - making.habit.edge_hem
    if ruffle.tiers:
        last = ruffle.tiers[-1]
        return say(
            "No loose ends; the last tier is {depth} deep below its seam line, give or take {off}.",
            depth=making.long(last.depth),
            off=making.little(habits.GRAIN_OFF),
        )
    return say(
        "No loose ends; from its raw upper edge to its lower edge the ruffle is {deep} deep, give"
        " or take"
        " {off}.",
        deep=making.long(deep),
        off=making.little(habits.GRAIN_OFF),
    )


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
