"""Pockets in the side seams: where the seam is left open, and the bag that hangs behind it.

Millimetres. The bag's straight edge lies along the seam; the rest of it hangs towards the
front, between skirt and lining. Imports the plan, geometry, piece, places and the spec's words.
"""

import math
from collections.abc import Iterator, Sequence

from drafting.findings import Finding, caution, note
from drafting.geometry import (
    MEETING,
    Arc,
    Line,
    Path,
    Point,
    distance,
    path_length,
    point_along,
    straight,
)
from drafting.language import said_later, say, say_counted
from drafting.panel_marks import seams_at
from drafting.piece import Edge, Mark, Notch, NotchKind, Piece
from drafting.places import seam_names
from drafting.plan import Plan
from drafting.spec import Closure, CutKind, Figure, WaistFinish
from drafting.truing import Seam, Side
from drafting.units import Mm, Units, length_text, radius_text

TOP = {Figure.ADULT: 60.0, Figure.CHILD: 45.0}
"""From the waist seam to the opening: a bent arm's hand slips in below the waist, not at it."""

OPENING = {Figure.ADULT: 160.0, Figure.CHILD: 120.0}
"""Length of the opening: a hand is passed flat through it, knuckles and thumb."""

HAND = {Figure.ADULT: 1.0, Figure.CHILD: 0.75}
"""A bag against a grown person's; a child's hand is about three quarters as long."""

FINISH_CLEAR: Mm = 10.0
"""The opening begins at least so far below a waist facing, which is caught down past its edge."""

MARGIN: Mm = 20.0
"""The bag's straight edge goes on so far above and below the opening, to hold its ends."""

WIDTH: Mm = 150.0
"""Width of the bag: a hand lies across it as far as the wrist."""

HANG: Mm = 100.0
"""How far the bag hangs below the opening, so that what is in it does not fall out."""

LEAST_HANG: Mm = 60.0
"""A bag that hangs less than this below its opening holds nothing; there is no pocket then."""

UPPER_ROUND: Mm = 50.0
LOWER_ROUND: Mm = 55.0
"""Radii of the bag's two rounded corners: no fluff gathers in them, and they sew in one go."""

SLOPE = 1.25
"""How much steeper than its chord the lower edge sets out; the rest is a curve into the bottom."""

BAG_ALLOWANCE: Mm = 10.0
"""Allowance round the bag, neatened by sewing it twice."""

RUFFLE_CLEAR: Mm = 20.0
"""The whole bag stays so far above the ruffle's line, that no gathers lie under a hand."""

PANEL_SHARE = 0.8
"""The bag reaches no lower than this share of the panel, or its shape would show at the hem."""

BELOW_HIP: Mm = 60.0
"""An opening that ends lower than this below the hip makes an arm stretch."""

GRAIN: Mm = 150.0
GRAIN_SHARE = 0.6
"""Length of the grainline, or that share of a small bag's depth."""

SEAM = "7"


# --- where ---------------------------------------------------------------------------------


def pocket_sides(plan: Plan) -> tuple[str, ...]:
    """Return the sides of the body where a panel seam lies that is not the closure's."""
    if not plan.spec.skirt.pockets or plan.owned:
        return ()
    seams = seam_names(plan.skirt.cut.panels, plan.closure)
    return tuple(
        name for name in ("right side", "left side") if name in seams and name != plan.closure.value
    )


def pocket_place(plan: Plan) -> tuple[Mm, Mm] | None:
    """Return from where to where below the waist seam the side seams are left open, if they are."""
    return _opening(plan) if pocket_sides(plan) and _shortage(plan) is None else None


def _opening(plan: Plan) -> tuple[Mm, Mm]:
    """Return where the opening would be, whether or not there is room."""
    wish, figure, scale = plan.spec.skirt, plan.spec.wearer.figure, plan.spec.scale
    top = TOP[figure] * scale
    if wish.waist_finish is WaistFinish.FACING:
        top = max(top, wish.facing + FINISH_CLEAR * scale)
    return top, top + OPENING[figure] * scale


def _hand(plan: Plan) -> float:
    """Return what a grown person's bag is multiplied by."""
    return HAND[plan.spec.wearer.figure] * plan.spec.scale


def _limits(plan: Plan) -> dict[str, Mm]:
    """Return how far below the waist seam the bag's cloth may reach, and what sets that."""
    found = {"panel": PANEL_SHARE * plan.skirt.cut.length}
    if plan.ruffle is not None:
        found["ruffle"] = plan.ruffle.line_below_waist - RUFFLE_CLEAR * plan.spec.scale
    return found


def _needs(plan: Plan) -> dict[str, Mm]:
    """Return how far below the waist seam the shortest pocket reaches, by what it must clear."""
    _, bottom = _opening(plan)
    bag = bottom + LEAST_HANG * _hand(plan) + BAG_ALLOWANCE
    return {"panel": bag, "ruffle": bag, "godet": bottom + MARGIN * plan.spec.scale}


def _shortage(plan: Plan) -> tuple[str, Mm, Mm] | None:
    """Return what leaves the least room for a pocket: its name, what is needed, what there is."""
    room = _limits(plan)
    godets = plan.spec.skirt.godets
    if godets is not None:
        room["godet"] = plan.skirt.cut.length - godets.depth
    needs = _needs(plan)
    lacking = [(needs[name] - have, name) for name, have in room.items() if have < needs[name]]
    if not lacking:
        return None
    _, worst = max(lacking)
    return worst, needs[worst], room[worst]


def _hang(plan: Plan) -> Mm:
    """Return how far the bag hangs below the opening: in full, or as far as there is room."""
    _, bottom = _opening(plan)
    return min(HANG * _hand(plan), min(_limits(plan).values()) - BAG_ALLOWANCE - bottom)


# --- the bag -------------------------------------------------------------------------------


def bag_edge(straight_edge: Mm, below: Mm, hand: float) -> Path:
    """Return the rounded edge of a bag, from the lower end of its straight edge to the upper.

    The straight edge runs down from the origin and the bag lies to the right of it.

    Args:
        straight_edge: its length.
        below: how far the bag hangs below that edge.
        hand: 1 for a grown person's hand.
    """
    wide, upper, lower = WIDTH * hand, UPPER_ROUND * hand, LOWER_ROUND * hand
    floor = -straight_edge - below
    across = wide - lower
    # A line down at this slope, then an arc that comes out level at the bottom: with length l
    # and radius r, across = l cos + r sin and below = l sin + r (1 - cos).
    slope = SLOPE * math.atan2(below, across)
    c, s = math.cos(slope), math.sin(slope)
    radius = (across * s - below * c) / (1 - c)
    run = (across - radius * s) / c
    leaves = Point(run * c, -straight_edge - run * s)
    return (
        Line(start=Point(0.0, -straight_edge), end=leaves),
        Arc(
            centre=Point(across, floor + radius),
            radius=radius,
            begin=-math.pi / 2 - slope,
            finish=-math.pi / 2,
        ),
        Arc(centre=Point(across, floor + lower), radius=lower, begin=-math.pi / 2, finish=0.0),
        Line(start=Point(wide, floor + lower), end=Point(wide, -upper)),
        Arc(centre=Point(wide - upper, -upper), radius=upper, begin=0.0, finish=math.pi / 2),
        Line(start=Point(wide - upper, 0.0), end=Point(0.0, 0.0)),
    )


def _bag(plan: Plan, top: Mm, bottom: Mm) -> Piece:
    margin, hand, hang = MARGIN * plan.spec.scale, _hand(plan), _hang(plan)
    long = bottom - top + 2 * margin
    deep = long + hang - margin
    grain = min(GRAIN, GRAIN_SHARE * deep)
    side, units = plan.skirt.allowances.side, plan.spec.units
    aside, high = WIDTH * hand / 2, -(deep - grain) / 2
    return Piece(
        name="pocket bag",
        edges=(
            Edge(
                name="opening",
                path=straight(Point(0.0, 0.0), Point(0.0, -long)),
                allowance=side,
                words=say("side seam, {width} outside it", width=radius_text(side, units)),
            ),
            Edge(
                name="bag",
                path=bag_edge(long, hang - margin, hand),
                allowance=BAG_ALLOWANCE,
                words=say(
                    "bag to bag, {width} outside it", width=radius_text(BAG_ALLOWANCE, units)
                ),
            ),
        ),
        grainline=(Point(aside, high), Point(aside, high - grain)),
        cloth="lining" if plan.lining is not None else "skirt",
        count=2 * len(pocket_sides(plan)),
        mirrored=True,
        notches=tuple(
            Notch(
                edge=0,
                at=at,
                kind=NotchKind.BALANCE,
                strokes=order,
                seam=SEAM,
                words=words,
                mark=mark,
            )
            for order, at, words, mark in (
                (1, margin, say("opening from here"), Mark.POCKET_BEGINS),
                (2, long - margin, say("opening to here"), Mark.POCKET_ENDS),
            )
        ),
        notes=_notes(plan, top, bottom),
    )


def _notes(plan: Plan, top: Mm, bottom: Mm) -> tuple[str, ...]:
    """Return what the bag's label says: where it goes, and which way it hangs."""
    units, sides = plan.spec.units, pocket_sides(plan)
    where = _IN_BOTH if len(sides) == 2 else _IN_ONE[sides[0]]
    found = [
        say(where, top=length_text(top, units), bottom=length_text(bottom, units)),
        say("two bags to a pocket; press towards the front"),
    ]
    if _hang(plan) < HANG * _hand(plan) - MEETING:
        found.append(
            say("cut shorter than usual, to stay clear of the ruffle's line")
            if _nearest(plan) == "ruffle"
            else say("cut shorter than usual, to stay clear of the hem")
        )
    return tuple(found)


_IN_BOTH = said_later("in both side seams, open {top} to {bottom} below the waist")
_IN_ONE = {
    "right side": said_later("in the right side seam only, open {top} to {bottom} below the waist"),
    "left side": said_later("in the left side seam only, open {top} to {bottom} below the waist"),
}


def _nearest(plan: Plan) -> str:
    limits = _limits(plan)
    return min(limits, key=lambda name: limits[name])


def pocket_parts(plan: Plan, panels: Sequence[Piece]) -> tuple[tuple[Piece, ...], tuple[Seam, ...]]:
    """Return the bag, and the seams round it and to every panel that has a pocket's marks.

    Raises:
        GeometryError: the bag cannot be drawn with these allowances.
    """
    place = pocket_place(plan)
    if place is None:
        return (), ()
    bag = _bag(plan, *place)
    between = (Mark.POCKET_BEGINS, Mark.POCKET_ENDS)
    opening = Side(piece=bag.name, edge=0, between=between)
    round_it = Side(piece=bag.name, edge="bag")
    seams = [
        Seam(number=SEAM, name="pocket bag to its pair", first=(round_it,), second=(round_it,))
    ]
    seams += [
        Seam(
            number=SEAM,
            name=f"pocket bag to {panel.name}, {_sides_of(plan, panel, edge)}",
            first=(opening,),
            second=(Side(piece=panel.name, edge=edge, between=between),),
        )
        for panel in panels
        for edge in _marked_edges(panel, place[0])
    ]
    return (bag,), tuple(seams)


def _sides_of(plan: Plan, panel: Piece, edge: int) -> str:
    """Return the names of the seams that an edge may be; half a panel stands for both its own."""
    cut = plan.skirt.cut
    both = cut.alike and panel.half and cut.panels == 2
    return " or ".join(seam_names(2, plan.closure) if both else seams_at(panel.edges[edge]))


def _marked_edges(panel: Piece, top: Mm) -> tuple[int, ...]:
    """Return the straight edges of a panel that carry the mark where a pocket begins.

    The marks, and nothing else, say where a bag is sewn, so that the two never disagree.
    """
    marks = [dot.at for dot in panel.dots if dot.mark is Mark.POCKET_BEGINS]
    begins = {0: top, 2: path_length(panel.edges[2].path) - top}
    return tuple(
        edge
        for edge, at in begins.items()
        if any(distance(point_along(panel.edges[edge].path, at), mark) < MEETING for mark in marks)
    )


# --- what is said --------------------------------------------------------------------------


def pocket_findings(plan: Plan) -> Iterator[Finding]:
    """Yield why there is no pocket, or what is worth knowing of the one there is."""
    if not plan.spec.skirt.pockets or plan.owned:
        return
    sides = pocket_sides(plan)
    if not sides:
        yield _no_seam(plan)
        return
    lacking = _shortage(plan)
    if lacking is not None:
        yield _no_room(plan, *lacking)
        return
    yield from _on_place(plan, sides)


def _no_seam(plan: Plan) -> Finding:
    """Return that no seam lies at a side, and which numbers or closure give one."""
    count, keys = plan.skirt.cut.panels, _panels_key(plan)
    fours, evens = 4 * math.ceil(count / 4), 2 * math.ceil(count / 2)
    if plan.closure is Closure.CENTRE_BACK:
        do = say(
            "Set {key} = {fours} for a pocket at each side, or closure ="
            ' "left side" with {key} = {evens} for one at the right.',
            key=keys,
            fours=fours,
            evens=evens,
        )
    elif plan.closure is Closure.LEFT_SIDE:
        do = say(
            "Set {key} = {evens} for a pocket at the right side; the left is the closure's.",
            key=keys,
            evens=evens,
        )
    else:
        do = say("Set {key} = {evens}, which puts a seam at each side.", key=keys, evens=evens)
    panels = (
        say_counted("{count} gore", "{count} gores", count)
        if plan.spec.skirt.cut is CutKind.GORED
        else say_counted("{count} panel", "{count} panels", count)
    )
    return caution("pocket-no-seam", say(_NO_SEAM[plan.closure], panels=panels), do)


# TRANSLATORS: {panels} is such as "4 panels".
_NO_SEAM = {
    Closure.NONE: said_later(
        "The skirt has {panels} and no closure, so no seam is free for a pocket at a side."
    ),
    Closure.CENTRE_BACK: said_later(
        "The skirt has {panels} and a closure at centre back, so no seam is free for a pocket at a"
        " side."
    ),
    Closure.LEFT_SIDE: said_later(
        "The skirt has {panels} and a closure at the left side, so no seam is free for a pocket at"
        " a side."
    ),
}


def _panels_key(plan: Plan) -> str:
    """Return the sheet's key that sets how many panels there are."""
    return "gores" if plan.spec.skirt.cut is CutKind.GORED else "panels"


def _no_room(plan: Plan, worst: str, need: Mm, have: Mm) -> Finding:
    """Return that the shortest pocket is too long, by how much, and what would make room."""
    units = plan.spec.units
    more, deep = _at_least(need - have, units), ""
    longer = said_later("Make the skirt {more} longer, or leave the pockets out.")
    if worst == "godet":
        because = said_later(
            "A pocket reaches {need} below the waist, and the godets begin {there} below it: none"
            " is drawn."
        )
        do = said_later(
            "Make the godets {more} less deep, or the skirt {more} longer, or leave the pockets"
            " out."
        )
    elif worst == "ruffle":
        because = said_later(
            "A pocket reaches {need} below the waist, and the ruffle on the lining leaves {there}:"
            " none is drawn."
        )
        do = longer
        if plan.ruffle is not None and need - have < plan.ruffle.depth / 2:
            do = said_later(
                "Make the ruffle {more} less deep, or the skirt {more} longer, or leave the"
                " pockets out."
            )
    else:
        because = said_later(
            "A pocket reaches {need} below the waist, and a panel {length} long leaves {there}:"
            " none is drawn."
        )
        panel = need / PANEL_SHARE
        more, deep = _at_least(panel - plan.skirt.cut.length, units), _at_least(panel, units)
        do = longer
        if plan.spec.skirt.cut is CutKind.TIERED:
            because = said_later(
                "A pocket reaches {need} below the waist, and a yoke {length} deep leaves {there}:"
                " none is drawn."
            )
            do = said_later("Make the yoke {deep} deep, or leave the pockets out.")
        elif plan.spec.skirt.flounce is not None:
            do = said_later(
                "Make the flounce {more} less deep, or the skirt {more} longer, or leave the"
                " pockets out."
            )
    what = say(
        because,
        need=length_text(need, units),
        there=length_text(max(have, 0.0), units),
        length=length_text(plan.skirt.cut.length, units),
    )
    return caution("pocket-no-room", what, say(do, more=more, deep=deep))


def _at_least(length: Mm, units: Units) -> str:
    """Return a length rounded up as far as it is shown, so that doing as told is enough."""
    step = 1.0 if units is Units.CM else 25.4 / 8
    return length_text(math.ceil(length / step - 1e-9) * step, units)


def _on_place(plan: Plan, sides: tuple[str, ...]) -> Iterator[Finding]:
    units, (_, bottom) = plan.spec.units, _opening(plan)
    if len(sides) == 1:
        yield note(
            "pocket-one-side",
            say("The closure takes the left side, so there is 1 pocket, in the right side seam."),
            say(
                'For 2 pockets set closure = "centre back" and {key} = {panels}.',
                key=_panels_key(plan),
                panels=4 * math.ceil(plan.skirt.cut.panels / 4),
            ),
        )
    if bottom - plan.waist.hip_depth > BELOW_HIP * plan.spec.scale:
        yield note(
            "pocket-below-hip",
            say(
                "The pocket's opening ends {bottom} below the waist seam and your hip lies at"
                " {hip}.",
                bottom=length_text(bottom, units),
                hip=length_text(plan.waist.hip_depth, units),
            ),
            say(
                "Reach for it at a fitting; if your arm must stretch, move both dots and the bag"
                " up."
            ),
        )
