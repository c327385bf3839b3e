"""The two ways of laying a ruffle on its line: body up and turned down, or body down under a tape.

Millimetres on the booklet's page; y is 0 on the ruffle's line, x runs away from the lining
towards the skirt in a section. Not to scale: an allowance is drawn large. Imports the pattern,
the habits of the hand and the inks of pictures.
"""

import math
from collections.abc import Sequence

from drafting.geometry import Point
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.units import Mm, length_text
from render import style
from render.booklet.habits import TAPE, TRIM_TO
from render.drawing import Anchor, Drawing, placed, together
from render.fonts import wrapped
from render.pictures import ink
from render.pictures.legend import legend, number
from render.pictures.picture import SMALL_TYPE, Picture

WIDTH: Mm = 32.0
"""Width of the cloth seen from the front."""

ASIDE: Mm = 38.0
"""From a front view's left side to its section's lining."""

STEP: Mm = 63.0
"""From one stage to the next."""

UP: Mm = 32.0
DOWN: Mm = 34.0
BODY: Mm = 28.0
ALLOWANCE: Mm = 9.0
"""Of the drawing: the lining above its line and below it, the ruffle's body, its allowance."""

_LEAD: Mm = SMALL_TYPE * style.LEADING
_THICK: Mm = 1.2
"""Thickness of a cloth in a section."""


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
    first = together(
        _lining(-DOWN, -ALLOWANCE),
        _lining(BODY + 1.0, UP),
        _ruffle(-ALLOWANCE, BODY, raw=-ALLOWANCE),
        _sewn(0.0),
        _section(((0.0, -ALLOWANCE), (0.0, BODY)), sewn=(0.0,)),
    )
    second = together(
        _lining(0.0, UP),
        _lining(-DOWN, -BODY - 1.0),
        _ruffle(-BODY, 0.0, raw=None),
        ink.line(Point(0.5, -ALLOWANCE), Point(WIDTH - 0.5, -ALLOWANCE), pen=ink.HIDDEN),
        _section(
            ((0.0, -ALLOWANCE), (0.0, 0.6), (0.8, 1.6), (2.2, 1.2), (2.8, 0.0), (5.0, -BODY)),
            sewn=(0.0,),
        ),
    )
    return _stages(
        "ruffle-turned-down",
        (first, say("first: body up, sewn on the line")),
        (second, say("then: turned down over its own allowance")),
        (("1", UP - 1.2), ("2", 0.0), ("3", 0.6 * BODY), ("4", -ALLOWANCE)),
        (("1", 0.6 * UP), ("2", 0.0), ("4", -ALLOWANCE), ("3", -0.7 * BODY)),
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
    )


def _taped(pattern: Pattern) -> Picture:
    ruffle, units = pattern.figures.ruffle, pattern.spec.units
    assert ruffle is not None
    allowance = length_text(ruffle.seam_from_edge, units)
    tape = length_text(TAPE, units)
    high = ALLOWANCE * TAPE / ruffle.seam_from_edge
    trimmed = ALLOWANCE * TRIM_TO / ruffle.seam_from_edge
    first = together(
        _lining(ALLOWANCE, UP),
        _lining(-DOWN, -BODY - 1.0),
        _ruffle(-BODY, ALLOWANCE, raw=ALLOWANCE),
        _sewn(0.0),
        _section(((0.0, ALLOWANCE), (0.0, 0.0), (2.5, -BODY)), sewn=(0.0,)),
    )
    second = together(
        _lining(high - 1.0, UP),
        _lining(-DOWN, -BODY - 1.0),
        _ruffle(-BODY, -1.0, raw=None),
        _tape(-1.0, high - 1.0),
        ink.line(Point(0.5, trimmed), Point(WIDTH - 0.5, trimmed), pen=ink.HIDDEN),
        _section(((0.0, trimmed), (0.0, 0.0), (2.5, -BODY)), sewn=()),
        _tape_section(-1.0, high - 1.0),
    )
    return _stages(
        "ruffle-taped",
        (first, say("first: body down, sewn on the line")),
        (second, say("then: the raw edge under a tape")),
        (("1", 0.75 * UP), ("4", ALLOWANCE), ("2", 0.0), ("3", -0.6 * BODY)),
        (("1", 0.75 * UP), ("4", trimmed), ("5", 1.2), ("3", -0.6 * BODY)),
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
    )


Numbers = Sequence[tuple[str, Mm]]
"""What is numbered at the left of a front view, and how high it lies."""


def _stages(
    name: str,
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
    most = STEP - 13.0
    high = max(len(wrapped(title, SMALL_TYPE, most, bold=True)) for _, title in (first, second))
    for k, ((stage, title), numbers) in enumerate(
        ((first, first_numbers), (second, second_numbers))
    ):
        lines = len(wrapped(title, SMALL_TYPE, most, bold=True))
        head = Point(0.0, UP + 2.0 + (max(high, lines) - 1) * _LEAD)
        both = together(
            stage,
            ink.words(title, head, most=most, bold=True),
            *(number(mark, Point(-3.0, y), Point(2.0, y)) for mark, y in numbers),
            ink.arrow(Point(ASIDE + 3.0, UP - 3.0), Point(ASIDE + 10.0, UP - 3.0)),
            ink.beside(to_skirt, Point(ASIDE + 11.0, UP - 3.0), anchor=Anchor.START, bold=True),
        )
        drawn.append(placed(both, x=k * STEP))
    left = -6.0
    drawn.append(legend(rows, left, -DOWN - 3.0, STEP + ASIDE + 13.0 - left, 2))
    return ink.framed(name, together(*drawn), caption=caption, alt=alt)


def _lining(bottom: Mm, top: Mm) -> Drawing:
    """Return a part of the lining that is seen, with its hem where it reaches that."""
    corners = [Point(0, bottom), Point(WIDTH, bottom), Point(WIDTH, top), Point(0, top)]
    edges = [ink.line(corners[0], corners[3]), ink.line(corners[1], corners[2])]
    if bottom == -DOWN:
        edges.append(ink.line(corners[0], corners[1], pen=ink.EDGE))
    return together(ink.hatched(corners, ink.LINING_ANGLE), *edges)


def _ruffle(bottom: Mm, top: Mm, *, raw: Mm | None) -> Drawing:
    """Return the gathered ruffle; its free edge swings, its raw edge is cut straight.

    Args:
        raw: which end is the raw edge, or None where that is hidden.
    """
    free = top if raw == bottom else bottom
    other = bottom if free == top else top
    swing = [Point(WIDTH * k / 64, free + 1.0 * math.sin(math.tau * k / 12.8)) for k in range(65)]
    straight = [Point(WIDTH, other), Point(0.0, other)]
    rim = [*swing, *straight]
    line = 0.0 if bottom < 0.0 < top else other
    folds = []
    for k in range(1, 13):
        x = WIDTH * k / 13
        reach = (0.75, 0.4, 0.6)[k % 3] * (free - line)
        folds.append(ink.line(Point(x, line), Point(x + 0.7 * math.sin(k), line + reach)))
        if raw is not None:
            folds.append(ink.line(Point(x, line), Point(x, line + 0.7 * (raw - line))))
    edge = ink.OUTLINE if raw is not None else ink.EDGE
    return together(
        ink.hatched(rim, ink.RUFFLE_ANGLE),
        *folds,
        ink.line(*swing, pen=ink.EDGE),
        ink.line(*straight, pen=edge),
        ink.line(swing[0], straight[1], pen=ink.EDGE),
        ink.line(swing[-1], straight[0], pen=ink.EDGE),
    )


def _sewn(y: Mm) -> Drawing:
    """Return the stitching along the ruffle's line, the line itself seen beyond the ruffle."""
    return ink.line(Point(0.0, y), Point(WIDTH, y), pen=ink.STITCHES)


def _tape(bottom: Mm, top: Mm) -> Drawing:
    """Return a tape laid over the gathers, stitched along both edges."""
    corners = [Point(0, bottom), Point(WIDTH, bottom), Point(WIDTH, top), Point(0, top)]
    inside = 0.9
    return together(
        ink.outline(corners, pen=ink.EDGE),
        *(
            ink.line(Point(0.6, y), Point(WIDTH - 0.6, y), pen=ink.STITCHES)
            for y in (bottom + inside, top - inside)
        ),
    )


def _section(run: Sequence[tuple[Mm, Mm]], *, sewn: Sequence[Mm]) -> Drawing:
    """Return lining and ruffle cut through, the skirt's side on the right.

    Args:
        run: the ruffle from its raw edge to its free edge, out from the lining's face.
    """
    x = ASIDE
    lining = [Point(x - _THICK, -DOWN), Point(x, -DOWN), Point(x, UP), Point(x - _THICK, UP)]
    # The ruffle is drawn as two edges of one thickness beside its middle line.
    middle = [Point(x + _THICK / 2 + 0.5 + dx, y) for dx, y in run]
    left, right = _edges(middle, _THICK / 2)
    return together(
        ink.hatched(lining, ink.LINING_ANGLE, 1.0),
        ink.outline(lining, pen=ink.EDGE),
        ink.hatched((*left, *reversed(right)), ink.RUFFLE_ANGLE, 1.0),
        ink.outline((*left, *reversed(right)), pen=ink.EDGE),
        *(
            ink.line(Point(x - _THICK - 1.0, y), Point(x + _THICK + 1.5, y), pen=ink.OUTLINE)
            for y in sewn
        ),
    )


def _tape_section(bottom: Mm, top: Mm) -> Drawing:
    x = ASIDE + _THICK + 1.0
    corners = [Point(x, bottom), Point(x + 0.8, bottom), Point(x + 0.8, top), Point(x, top)]
    return together(
        ink.outline(corners, pen=ink.EDGE),
        *(
            ink.line(Point(ASIDE - _THICK - 1.0, y), Point(x + 1.6, y), pen=ink.OUTLINE)
            for y in (bottom + 0.9, top - 0.9)
        ),
    )


def _edges(middle: Sequence[Point], half: Mm) -> tuple[list[Point], list[Point]]:
    """Return both edges of a strip about its middle line."""
    left, right = [], []
    for k, p in enumerate(middle):
        before, after = middle[max(k - 1, 0)], middle[min(k + 1, len(middle) - 1)]
        turn = math.atan2(after.y - before.y, after.x - before.x)
        dx, dy = -half * math.sin(turn), half * math.cos(turn)
        left.append(Point(p.x + dx, p.y + dy))
        right.append(Point(p.x - dx, p.y - dy))
    return left, right
