"""Steps of the ruffle's strips: a gathered sample, joined end to end, finished along an edge.

Imports the making, the ruffle's habits and the booklet's values.
"""

from drafting.language import decimal, say, say_counted
from drafting.ruffle import Join
from drafting.spec import RuffleCloth
from drafting.strips import END_HEM
from render.booklet import habits
from render.booklet.making import Making
from render.booklet.model import Step


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


def join_step(making: Making) -> Step:
    """Return the step that joins the strips, tier by tier."""
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


def edge_step(making: Making) -> Step:
    """Return the step that finishes the lower edge while it is flat."""
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
