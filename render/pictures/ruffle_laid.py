"""The two ways of laying a ruffle on its line: body up and turned down, or body down under a tape.

Millimetres on the booklet's page; y is 0 on the ruffle's line, x runs away from the lining
towards the skirt. Each stage is cut through, and small beside that seen from the skirt. Not to
scale: an allowance is drawn large. Imports the pattern, the habits of the hand, cloth cut through
and the inks of pictures.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry import Point
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.units import Mm, length_text
from render import style
from render.booklet.habits import TAPE, TRIM_TO
from render.drawing import Drawing, Pen, placed, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.legend import legend, number
from render.pictures.picture import SMALL_TYPE, Picture
from render.pictures.section import THICK, Ends, Sign, broken_off, layer, stitch

STEP: Mm = 60.5
"""From one stage to the next."""

TO_THE_RIGHT: Mm = 12.0
"""Where the numbers to the right of a section stand."""

BESIDE: Mm = 23.5
WIDTH: Mm = 25.5
SMALLER = 0.62
"""Where the cloth seen from the skirt begins, how wide it is, its heights over the section's."""

RUN: Mm = THICK + 0.4
"""From the lining's middle to the middle of a ruffle that lies on it."""

GATHER = Pen(width=0.3)
_LEAD: Mm = SMALL_TYPE * style.LEADING


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Sizes of one way in its picture.

    Attributes:
        up, down: the lining above the ruffle's line and below it.
        body: the ruffle's, from the line to its free edge.
        allowance: the ruffle's, from the line to its raw edge.
    """

    up: Mm
    down: Mm
    body: Mm
    allowance: Mm


TURNED = Laid(up=32.0, down=33.0, body=27.0, allowance=10.0)
TAPED = Laid(up=18.0, down=24.0, body=19.0, allowance=9.0)
"""The second way is the rarer one, and smaller."""


@in_its_language
def laid_pictures(pattern: Pattern) -> tuple[Picture, ...]:
    """Return both ways of laying the ruffle, each before and after; none without a ruffle."""
    if pattern.figures.ruffle is None:
        return ()
    return _turned_down(pattern), _taped(pattern)


def _turned_down(pattern: Pattern) -> Picture:
    ruffle, units = pattern.figures.ruffle, pattern.spec.units
    assert ruffle is not None
    allowance = length_text(ruffle.seam_from_edge, units)
    laid = TURNED
    a, body = laid.allowance, laid.body
    first = together(
        _section(laid, ((0.0, -a), (0.0, 0.3 * body), (1.0, 0.6 * body), (3.0, body))),
        _sewn_through(0.0),
        _seen(laid, raw=-a, free=body, hidden=None),
    )
    over = ((0.0, 0.4), (0.6, 1.6), (1.8, 2.1), (3.0, 1.6), (3.6, 0.4), (4.2, -0.3 * body))
    second = together(
        _section(laid, ((0.0, -a), *over, (7.0, -body))),
        _sewn_through(0.0),
        _seen(laid, raw=0.0, free=-body, hidden=-a),
    )
    return _stages(
        "ruffle-turned-down",
        laid,
        (first, say("first: body up, sewn on the line")),
        (second, say("then: turned down over its own allowance")),
        (
            ("1", (0.0, 0.75 * laid.up)), ("2", (-1.8, 0.0)),
            ("3", (RUN, 0.35 * body)), ("4", (RUN, -a + 1.0)),
        ),
        (
            ("1", (0.0, 0.75 * laid.up)), ("2", (-1.8, 0.0)),
            ("3", (RUN + 6.0, -0.75 * body)), ("4", (RUN, -a + 1.0)),
        ),
        (
            ("1", say("lining, the side that faces the skirt")),
            ("2", say("the ruffle's line, sewn along")),
            ("3", say("the ruffle's body")),
            ("4", say("raw edge, {far} below the line", far=allowance)),
            ("5", say("this way to the skirt")),
        ),
        caption=say(
            "Laid body up and sewn on the line, the ruffle turns down and hides its raw edge."
        ),
        alt=say(
            "On the side of the lining that faces the skirt the ruffle lies with its body up and"
            " its raw edge {far} below the line. Sewn on the line, it falls down over its own"
            " allowance.",
            far=allowance,
        ),
    )  # fmt: skip


def _taped(pattern: Pattern) -> Picture:
    ruffle, units = pattern.figures.ruffle, pattern.spec.units
    assert ruffle is not None
    allowance = length_text(ruffle.seam_from_edge, units)
    tape = length_text(TAPE, units)
    laid = TAPED
    a, body = laid.allowance, laid.body
    high = a * TAPE / ruffle.seam_from_edge
    trimmed = a * TRIM_TO / ruffle.seam_from_edge
    down = ((0.0, 0.0), (0.6, -0.4 * body), (2.6, -body))
    beyond = RUN + THICK / 2 + 0.9
    first = together(
        _section(laid, ((0.0, a), *down)),
        _sewn_through(0.0),
        _seen(laid, raw=a, free=-body, hidden=None),
    )
    second = together(
        _section(laid, ((0.0, trimmed), *down)),
        _tape_section(beyond, -1.5, high - 1.5),
        _seen(laid, raw=-1.5, free=-body, hidden=trimmed),
        _tape(-1.5, high - 1.5),
    )
    return _stages(
        "ruffle-taped",
        laid,
        (first, say("first: body down, sewn on the line")),
        (second, say("then: the raw edge under a tape")),
        (
            ("1", (0.0, 0.75 * laid.up)), ("2", (-1.8, 0.0)),
            ("4", (RUN, a - 1.0)), ("3", (RUN + 1.5, -0.7 * body)),
        ),
        (
            ("1", (0.0, 0.75 * laid.up)), ("2", (-0.9, 0.0)), ("4", (RUN, trimmed - 0.6)),
            ("5", (beyond, high - 2.4)), ("3", (RUN + 1.5, -0.7 * body)),
        ),
        (
            ("1", say("lining, the side that faces the skirt")),
            ("2", say("the ruffle's line, sewn along")),
            ("3", say("the ruffle's body")),
            (
                "4",
                say(
                    "raw edge, {far} above the line; trimmed to {kept} before it is covered",
                    far=allowance,
                    kept=length_text(TRIM_TO, units),
                ),
            ),
            ("5", say("tape {wide} wide, stitched along both edges", wide=tape)),
            ("6", say("this way to the skirt")),
        ),
        caption=say(
            "Laid body down, the ruffle lies flatter; a tape stitched along both edges covers"
            " its raw edge."
        ),
        alt=say(
            "On the side of the lining that faces the skirt the ruffle lies with its body down"
            " and its raw edge {far} above the line. A tape {wide} wide covers that edge, stitched"
            " along both of its own.",
            far=allowance,
            wide=tape,
        ),
    )  # fmt: skip


Numbers = Sequence[tuple[str, tuple[Mm, Mm]]]
"""What is numbered beside a section, and the point of it that a number names."""


def _stages(
    name: str,
    laid: Laid,
    first: tuple[Drawing, str],
    second: tuple[Drawing, str],
    first_numbers: Numbers,
    second_numbers: Numbers,
    rows: Sequence[tuple[str, str]],
    *,
    caption: str,
    alt: str,
) -> Picture:
    """Return both stages side by side, their titles above them and their numbers below."""
    to_skirt = rows[-1][0]
    drawn = []
    most = STEP - 8.0
    high = max(len(wrapped(title, SMALL_TYPE, most, bold=True)) for _, title in (first, second))
    for k, ((stage, title), numbers) in enumerate(
        ((first, first_numbers), (second, second_numbers))
    ):
        both = together(
            stage,
            ink.words(title, Point(-8.0, laid.up + 3.0 + (high - 1) * _LEAD), most=most, bold=True),
            _numbered(numbers),
            ink.arrow(Point(4.0, laid.up - 2.0), Point(11.0, laid.up - 2.0)),
            ink.beside(to_skirt, Point(12.0, laid.up - 2.0), bold=True),
            ink.words(
                say("seen from the skirt"),
                Point(BESIDE, -laid.down * SMALLER - 4.0),
                most=WIDTH,
            ),
        )
        drawn.append(placed(both, x=k * STEP))
    left = -10.0
    drawn.append(legend(rows, left, -laid.down - 3.0, STEP + BESIDE + WIDTH - left, 2))
    return ink.framed(name, together(*drawn), caption=caption, alt=alt)


def _numbered(numbers: Numbers) -> Drawing:
    """Return numbers on that side of a section where what they name is seen.

    Those on the right keep apart, from the top down.
    """
    drawn, last = [], math.inf
    for mark, (x, y) in sorted(numbers, key=lambda one: -one[1][1]):
        if x < RUN - 0.1:
            drawn.append(number(mark, Point(-7.0, y), Point(x, y)))
            continue
        at = min(y, last - _LEAD)
        drawn.append(number(mark, Point(TO_THE_RIGHT, at), Point(x, y)))
        last = at
    return together(*drawn)


def _section(laid: Laid, run: Sequence[tuple[Mm, Mm]]) -> Drawing:
    """Return lining and ruffle cut through, the skirt's side on the right.

    Args:
        run: the ruffle from its raw edge to its free edge, out from where it lies flat.
    """
    return together(
        layer((Point(0.0, laid.up), Point(0.0, -laid.down)), Sign.LINING),
        broken_off(-2.5, 2.5, laid.up),
        layer([Point(RUN + dx, y) for dx, y in run], Sign.RUFFLE, ends=Ends.BOTH_RAW),
    )


def _sewn_through(y: Mm) -> Drawing:
    return stitch(y, -THICK / 2, RUN + THICK / 2)


def _tape_section(x: Mm, bottom: Mm, top: Mm) -> Drawing:
    """Return the tape on edge, its two stitchings, and the seam under it."""
    corners = [Point(x - 0.4, bottom), Point(x + 0.4, bottom), Point(x + 0.4, top),
               Point(x - 0.4, top)]  # fmt: skip
    return together(
        ink.outline(corners, pen=ink.EDGE),
        ink.line(Point(-THICK / 2, 0.0), Point(RUN + THICK / 2, 0.0), pen=ink.EDGE),
        *(stitch(y, -THICK / 2, x + 0.4) for y in (bottom + 0.8, top - 0.8)),
    )


def _seen(laid: Laid, *, raw: Mm, free: Mm, hidden: Mm | None) -> Drawing:
    """Return the ruffle on the lining as it is seen from the skirt, small beside the section.

    Lining and ruffle stay white, so that gathers are seen; all heights are the section's.

    Args:
        raw: upper or lower end of what is seen of the ruffle; its raw edge, or the turn over it.
        free: its free edge, which swings.
        hidden: the raw edge where the ruffle itself or a tape covers it.
    """
    k, left, right = SMALLER, BESIDE, BESIDE + WIDTH
    top, foot = k * laid.up, -k * laid.down
    swing = [
        Point(left + WIDTH * n / 64, k * free + 0.8 * math.sin(math.tau * n / 12.8))
        for n in range(65)
    ]
    rim = [*swing, Point(right, k * raw), Point(left, k * raw)]
    upper, lower = max(p.y for p in rim), min(p.y for p in rim)
    drawn = [
        ink.line(Point(left, foot), Point(right, foot), pen=ink.EDGE),
        *(
            ink.line(Point(x, a), Point(x, b), pen=ink.EDGE)
            for x in (left, right)
            for a, b in ((foot, lower), (upper, top))
        ),
        broken_off(left - 1.0, right + 1.0, top),
        ink.outline(rim, pen=ink.EDGE),
    ]
    for n in range(1, 11):
        x = left + WIDTH * n / 11
        reach = (0.8, 0.45, 0.65)[n % 3]
        drawn.append(
            ink.line(Point(x, 0.0), Point(x + 0.7 * math.sin(n), reach * k * free), pen=GATHER)
        )
        if hidden is None:
            drawn.append(ink.line(Point(x, 0.0), Point(x, 0.75 * k * raw), pen=GATHER))
    if hidden is None:
        drawn.append(ink.line(Point(left, k * raw), Point(right, k * raw), pen=ink.OUTLINE))
        drawn.append(ink.line(Point(left, 0.0), Point(right, 0.0), pen=ink.STITCHES))
    else:
        y = k * hidden
        drawn.append(ink.line(Point(left + 0.5, y), Point(right - 0.5, y), pen=ink.HIDDEN))
    return together(*drawn)


def _tape(bottom: Mm, top: Mm) -> Drawing:
    """Return a tape laid over the gathers, stitched along both edges."""
    low, high = SMALLER * bottom, SMALLER * top
    left, right = BESIDE, BESIDE + WIDTH
    corners = [Point(left, low), Point(right, low), Point(right, high), Point(left, high)]
    return together(
        ink.outline(corners, pen=ink.EDGE),
        *(
            ink.line(Point(left + 0.6, y), Point(right - 0.6, y), pen=ink.STITCHES)
            for y in (low + 0.8, high - 0.8)
        ),
    )
