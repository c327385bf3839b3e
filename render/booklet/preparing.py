"""Steps before the machine is threaded: washing, paper, laying and cutting, marking.

Imports the making, its habits and the booklet's values.
"""

import math
from collections.abc import Iterator

from drafting.language import decimal, listed, say, say_counted
from drafting.piece_names import piece_words
from drafting.spec import PaperName, Scope, SeamFinish, Strips
from render.booklet import habits
from render.booklet.making import Making
from render.booklet.model import Step
from render.paper import ROLLS
from render.pictures.picture import Picture


def preparing(making: Making, *, taping: Picture | None, arcs: Picture | None) -> Iterator[Step]:
    """Yield the steps that end with every piece cut and marked."""
    yield _wash(making)
    yield _paper(making, taping)
    yield _cut(making, arcs)
    yield _mark(making)


def _wash(making: Making) -> Step:
    square = making.hand(habits.SQUARE)
    do = [
        say(
            "Sew a square of {square} in bright thread into a corner of each large cloth, wash the"
            " cloth as the finished skirt will be washed, dry it, and press it flat along the"
            " grain.",
            square=square,
        )
    ]
    if making.is_net:
        do.append(say("Net is not washed: let it lie flat overnight."))
    do.append(
        say(
            "Draw a thread across each end, or tear the cloth, and cut the ends square to the"
            " selvage."
        )
    )
    return Step(
        name="wash",
        title=say("Wash, press and square the cloth"),
        do=tuple(do),
        check=say(
            "The bright square measures less than {square} now: what it has lost is what your"
            " cloth really shrinks. If that is more than the shopping list allows for, lay all"
            " pieces out before you cut any.",
            square=square,
        )
        if making.shopping
        else say(
            "The bright square measures less than {square} now: what it has lost is what your"
            " cloth really shrinks. Lay all pieces out before you cut any.",
            square=square,
        ),
        cautions=(
            say("Try the iron on a scrap of each cloth first; synthetics melt, and wool felts."),
        ),
        hands=20,
        first=30,
    )


def _paper(making: Making, taping: Picture | None) -> Step:
    wish = making.spec.print
    papers = wish.papers
    if wish.scope is Scope.CARD:
        do = [
            say(
                "Nothing is taped: the printed card holds the measures. Draw each piece straight"
                " onto the cloth with tape, chalk and a pin as its pivot, stitching lines first,"
                " then the allowances outside them."
            )
        ]
    elif PaperName.PROJECTOR in papers:
        do = [
            say(
                "Set the projector so that every square of its grid measures what is written in"
                " it, both ways. Lay the cloth under it flat and square, and cut along the light,"
                " or chalk it."
            )
        ]
    elif any(paper in ROLLS or paper in (PaperName.A0, PaperName.A1) for paper in papers):
        do = [
            say(
                "Measure the test square and the check line before you leave the copy shop. Cut"
                " the pieces apart along their heavy lines."
            )
        ]
    else:
        do = [
            say(
                "Print the ticket page alone and measure its test square both ways. Print the"
                " rest only when it is right: with no scaling, on one side."
            ),
            _joining_pages(making),
            say(
                "Each join has a number, and half a ring on either page: it lies true when the ring"
                " is whole and both halves carry the same number. Rows first, then row to row."
            ),
        ]
    if wish.scope is Scope.WAIST:
        do.append(
            say(
                "The paper holds the waist of each piece alone. Pin it to the cloth, measure out"
                " along every ray as far as is written on it, and join the ends with chalk."
            )
        )
    if wish.strips is Strips.LISTED and any(piece.rectangle for piece in making.pattern.pieces):
        do.append(
            say(
                "Bands and strips are not printed: their measures stand in the cut list. Draw"
                " them on the cloth with rule and chalk."
            )
        )
    return Step(
        name="paper",
        title=say("Put the pattern together"),
        do=tuple(do),
        check=say(
            "Measure the waist and one straight edge of a large piece along their stitching"
            " lines: their true lengths stand on its label."
        )
        if wish.scope is not Scope.CARD
        else say(
            "Measure each drawn waist along its stitching line: its true length stands here"
            " in the table of seams."
        ),
        cautions=(
            say(
                "Close the blade of a cutter each time you lay it down, and cut away from yourself."
            ),
        ),
        pictures=(taping,) if taping else (),
        hands=25,
        first=45,
    )


def _joining_pages(making: Making) -> str:
    overlap = making.spec.print.overlap
    if overlap > 0:
        return say(
            "Cut each page along its solid lines at the left and the top. Lay it on its neighbour"
            " up to the dotted line and glue; pages overlap by {overlap} mm.",
            overlap=decimal(f"{overlap:g}"),
        )
    return say("Cut each page along its solid lines, butt them together and tape the back.")


def _cut(making: Making, arcs: Picture | None) -> Step:
    pieces = making.pattern.pieces
    count = sum(piece.count + sum(more for _, more in piece.also) for piece in pieces)
    do = [
        _laid(making),
        say(
            "Cut each notch as a snip {deep} deep into the allowance, never further.",
            deep=making.little(making.shortest_snip),
        ),
    ]
    if making.curved and making.tells(waist_grown(making)) and not making.casing:
        do.append(
            say(
                "Leave the waist edge for last and cut it exactly. It is easily cut too deep: cut"
                " small, try on, then trim. Every {little} too deep adds {grown} to the waist.",
                little=making.little(habits.CUT_TOO_DEEP),
                grown=making.long(waist_grown(making)),
            )
        )
    if making.cloth is not None and any(piece.half for piece in pieces):
        do.append(
            say(
                "A piece drawn as a half is laid as its plan shows. Where the plan says “fold"
                " here”, chalk round the half, turn the paper over on that line, and chalk the"
                " other half; or fold the cloth back along it, right sides together, and cut both"
                " at once."
            )
        )
    if making.spec.cloths.skirt.one_way:
        do.append(
            say(
                "The skirt's cloth has a nap or a one-way print: all its pieces point the"
                " same way, as on the plan."
            )
        )
    mirrored = [piece_words(piece.name) for piece in pieces if piece.mirrored]
    if mirrored:
        do.append(
            say(
                "Mirrored pairs are cut from double cloth, right sides together, or the paper is"
                " turned over for the second: {names}.",
                names=listed(mirrored),
            )
            if making.on_paper
            else say(
                "Mirrored pairs are cut from double cloth, right sides together, or the second is"
                " chalked as the mirror image of the first: {names}.",
                names=listed(mirrored),
            )
        )
    return Step(
        name="cut",
        title=say("Lay and cut"),
        do=tuple(do),
        check=say_counted(
            "Both ends of every grain arrow lie equally far from the selvage, give or take {off}."
            " Count what"
            " you have cut against the cut list: {count} piece.",
            "Both ends of every grain arrow lie equally far from the selvage, give or take {off}."
            " Count what"
            " you have cut against the cut list: {count} pieces.",
            count,
            off=making.little(habits.GRAIN_OFF),
        ),
        cautions=(say("Scissors lie closed, cutters shut. Count the pins back into their box."),),
        pictures=(arcs,) if arcs else (),
        hands=10 + 2.5 * count,
        first=20 + 5.0 * count,
    )


def _laid(making: Making) -> str:
    """Return how the pieces come onto the cloth and along which line they are cut."""
    if making.cloth and making.on_paper:
        return say(
            "Lay each cloth as its lay plan shows, right side as the plan says, selvages parallel"
            " to the table's edge. Weigh the paper down or pin it inside the allowance, and cut"
            " along the heavy line."
        )
    if making.cloth:
        return say(
            "Lay each cloth as its lay plan shows, right side as the plan says, selvages parallel"
            " to the table's edge. Chalk the pieces where the plan shows them, and cut along"
            " their outermost lines."
        )
    if making.on_paper:
        return say(
            "Lay the pieces with their grain arrows along the selvage. Weigh the paper down or pin"
            " it inside the allowance, and cut along the heavy line."
        )
    return say(
        "Chalk the pieces with their grain along the selvage, and cut along their outermost lines."
    )


def waist_grown(making: Making) -> float:
    """Return by how much the waist grows that is cut ``habits.CUT_TOO_DEEP`` too deep.

    Source: the waist is an arc through 2 pi F, so its length grows by that times the depth.
    """
    fullness = making.skirt.fullness or 0.0
    return math.tau * fullness * habits.CUT_TOO_DEEP


def _mark(making: Making) -> Step:
    do = [
        say(
            "Before you lift the paper, transfer what is inside the pieces: dots, fold lines, the"
            " places round the waist (centre front, centre back, sides), and the number of each"
            " seam. Chalk on the wrong side; test on a scrap that it brushes out. Strips drawn by"
            " rule get their marks from the table."
        )
        if making.on_paper
        else say(
            "Before you go on, mark what is inside the pieces: dots, fold lines, the places round"
            " the waist (centre front, centre back, sides), and the number of each seam. Chalk on"
            " the wrong side; test on a scrap that it brushes out."
        )
    ]
    if making.spec.skirt.seams is SeamFinish.FRENCH:
        do.append(
            say(
                "Beside French seams mark inside the allowance, on both sides of the cloth: their"
                " first pass is sewn right side out."
            )
        )
    if making.ruffle is not None:
        do.append(
            say(
                "The ruffle's line on the lining is marked on the right side: that side faces the"
                " skirt, and the ruffle is sewn to it. Thread-trace it if chalk would rub off."
            )
        )
    return Step(
        name="mark",
        title=say("Mark"),
        do=tuple(do),
        check=say(
            "Every mark in the table of marks is on the cloth, on the side that you will see while"
            " you sew."
        ),
        hands=15,
        first=30,
    )
