"""The hem cut through from top to bottom: skirt, ruffle and lining, one inside the other.

Millimetres on the page. Heights are in true proportion; from outside to inside everything is
drawn wider than it is, so that the layers can be told apart. Imports the pattern and ink.
"""

import itertools
import math

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.ruffle import TOP_ALLOWANCE
from drafting.units import Mm, length_text
from render.drawing import Anchor, Drawing, together
from render.pictures.ink import (
    EDGE,
    RUFFLE_ANGLE,
    TICK,
    Label,
    arrow,
    double_arrow,
    extent,
    framed,
    hatched,
    labels,
    line,
    outline,
    words,
)
from render.pictures.picture import Picture
from render.pictures.section import THICK, Sign, broken_off, folded, layer, ribbon, stitch

TALL_ENOUGH: Mm = 112.0
"""Height of the drawing from its broken edge down to the skirt's hem."""

SHOWN_ABOVE = 0.16
"""How much is shown above the ruffle's line, as a share of what lies below it."""

LINING_ALONE: Mm = 150.0
"""How much of a skirt and its lining is shown where there is no ruffle."""

STEPS = 24
"""Short straight runs that a curve of the ruffle is drawn with."""

WORDS: Mm = 34.0
"""Width of a column of words."""

SKIRT_AT, ALLOWANCE_AT, LINING_AT = 0.0, 22.8, 25.0
"""Where the layers lie from outside to inside, at the level of the ruffle's line."""

CHAIN_AT: Mm = LINING_AT + 9.0


def hem_section(pattern: Pattern) -> Picture | None:
    """Return the hem cut through, or None for a skirt without a lining."""
    if pattern.spec.lining is None or pattern.figures.lining is None:
        return None
    return _with_ruffle(pattern) if pattern.figures.ruffle is not None else _lining_alone(pattern)


def _with_ruffle(pattern: Pattern) -> Picture:
    figures, spec, units = pattern.figures, pattern.spec, pattern.spec.units
    ruffle, wish, lining = figures.ruffle, spec.ruffle, spec.lining
    assert ruffle is not None and wish is not None and lining is not None
    below = ruffle.depth + wish.above_hem + lining.shorter
    by = TALL_ENOUGH / (below * (1 + SHOWN_ABOVE))
    top = TALL_ENOUGH
    lining_hem = lining.shorter * by
    edge = lining_hem + wish.above_hem * by
    seam = edge + ruffle.depth * by
    drawn = [
        layer((Point(SKIRT_AT, top), Point(SKIRT_AT, 0.0)), Sign.SKIRT),
        layer((Point(LINING_AT, top), Point(LINING_AT, lining_hem)), Sign.LINING),
        _ruffle(seam, edge, min(TOP_ALLOWANCE * by, 0.3 * (seam - edge))),
        stitch(seam, ALLOWANCE_AT - THICK / 2, LINING_AT + THICK / 2),
        broken_off(SKIRT_AT - 3, LINING_AT + 3, top),
    ]
    if ruffle.tiers:
        drawn += _tier_seams(pattern, seam, by)
    texts = {
        "line": length_text(ruffle.line_below_waist, units),
        "depth": length_text(ruffle.depth, units),
        "above": length_text(wish.above_hem, units),
        "shorter": length_text(lining.shorter, units),
    }
    cover = length_text(wish.above_hem + lining.shorter, units)
    drawn += [
        _chain(CHAIN_AT, (0.0, lining_hem, edge, seam)),
        arrow(Point(CHAIN_AT, seam), Point(CHAIN_AT, top - 1)),
        labels(
            (
                Label(
                    words=say(
                        "up to the waist seam, {length} from the ruffle's line",
                        length=texts["line"],
                    ),
                    to=Point(CHAIN_AT, (seam + top) / 2),
                ),
                Label(
                    words=say("ruffle, {depth} deep", depth=texts["depth"]),
                    to=Point(CHAIN_AT, (seam + edge) / 2),
                ),
                Label(
                    words=say("ruffle ends {length} above the lining's hem", length=texts["above"]),
                    to=Point(CHAIN_AT, (edge + lining_hem) / 2),
                ),
                Label(
                    words=say("lining {length} shorter than the skirt", length=texts["shorter"]),
                    to=Point(CHAIN_AT, lining_hem / 2),
                ),
            ),
            CHAIN_AT + 6,
            most=WORDS,
        ),
        _cover(edge),
        labels(
            (
                Label(words=say("skirt"), to=Point(SKIRT_AT - 0.65, top - 3)),
                Label(words=say("lining"), to=Point(LINING_AT, top - 7.5)),
                Label(
                    words=say("ruffle's line: sewn to the outside of the lining"),
                    to=Point(ALLOWANCE_AT, seam),
                ),
                Label(words=say("ruffle"), to=Point(_hanging(2 / 3)[0], (2 * edge + seam) / 3)),
                Label(
                    words=say("skirt hangs {length} below the ruffle and covers it", length=cover),
                    to=Point(SKIRT_AT - 4, edge / 2),
                ),
            ),
            SKIRT_AT - 9,
            most=WORDS,
            anchor=Anchor.END,
        ),
    ]
    uneven = not math.isclose(
        figures.skirt.length_front, figures.skirt.length_side, abs_tol=1
    ) or not math.isclose(figures.skirt.length_back, figures.skirt.length_side, abs_tol=1)
    caption = say(
        "The hem cut through. The ruffle is sewn to the outside of the lining and hangs down over"
        " its own allowance. Heights are in proportion; the layers are drawn wider apart than they"
        " hang."
    )
    if uneven:
        caption = " ".join(
            (
                caption,
                say(
                    "Where the skirt is longer, the ruffle's line lies as much lower on the lining."
                ),
            )
        )
    alt = say(
        "From outside to inside: skirt, ruffle, lining. The ruffle is sewn {line} below the"
        " lining's waist seam and is {depth} deep; its lower edge lies {above} above the lining's"
        " hem, and the lining ends {shorter} above the skirt's hem.",
        **texts,
    )
    return framed("hem-section", _with_sides(together(*drawn), LINING_AT), caption=caption, alt=alt)


def _hanging(share: float) -> tuple[Mm, Mm]:
    """Return the middle and the width of the ruffle's body, a share of its depth down.

    It stands further out, and its gathers spread wider, towards its lower edge.
    """
    out = share * share * (3 - 2 * share)
    return ALLOWANCE_AT - 4.4 - 9.5 * out, THICK + 8.0 * out


def _ruffle(seam: Mm, edge: Mm, allowance: Mm) -> Drawing:
    """Return the ruffle: it turns down over its own allowance, which points to the hem."""
    begin, wide = _hanging(0.0)
    turn = folded(ALLOWANCE_AT, seam - allowance, (seam + 2.2, begin), end=seam - 1.0)
    left, right = ribbon(turn, wide)
    # The layer comes up and turns to the left, so its right side lies outside the turn.
    outer, inner = list(right), list(left)
    high = seam - 1.0
    for k in range(1, STEPS + 1):
        y = high + (edge - high) * k / STEPS
        middle, wide = _hanging(k / STEPS)
        outer.append(Point(middle - wide / 2, y))
        inner.append(Point(middle + wide / 2, y))
    shape = (*outer, *reversed(inner))
    return together(hatched(shape, RUFFLE_ANGLE, 1.4), outline(shape, pen=EDGE))


def _tier_seams(pattern: Pattern, seam: Mm, by: float) -> list[Drawing]:
    """Return where one tier of a ruffle is gathered onto the one above it."""
    assert pattern.figures.ruffle is not None
    whole, down, found = pattern.figures.ruffle.depth, 0.0, []
    for tier in pattern.figures.ruffle.tiers[:-1]:
        down += tier.depth
        middle, wide = _hanging(down / whole)
        found.append(stitch(seam - down * by, middle - wide / 2, middle + wide / 2))
    return found


def _chain(x: Mm, heights: tuple[Mm, ...]) -> Drawing:
    """Return an upright line of measures, one above the other, with a tick between them."""
    drawn = [line(Point(x - TICK / 2, y), Point(x + TICK / 2, y)) for y in heights]
    drawn += [line(Point(LINING_AT + 2.0, y), Point(x - TICK / 2, y)) for y in heights[1:]]
    drawn.append(line(Point(SKIRT_AT + 2.0, heights[0]), Point(x - TICK / 2, heights[0])))
    drawn += [
        double_arrow(Point(x, low), Point(x, high)) for low, high in itertools.pairwise(heights)
    ]
    return together(*drawn)


def _cover(edge: Mm) -> Drawing:
    """Return how far the skirt hangs below the ruffle, measured outside it."""
    x = SKIRT_AT - 4
    return together(
        line(Point(x - TICK / 2, edge), Point(_hanging(1.0)[0] - 5.4, edge)),
        line(Point(x - TICK / 2, 0.0), Point(SKIRT_AT - 1.2, 0.0)),
        double_arrow(Point(x, 0.0), Point(x, edge)),
    )


def _with_sides(drawn: Drawing, inside: Mm) -> Drawing:
    """Return the section with its two sides named above all else."""
    top = extent(drawn).top + 2
    return together(
        drawn,
        words(say("outside"), Point(SKIRT_AT - 2, top), anchor=Anchor.END, bold=True),
        words(say("inside"), Point(inside + 2, top), bold=True),
    )


def _lining_alone(pattern: Pattern) -> Picture:
    spec, units, lining = pattern.spec, pattern.spec.units, pattern.spec.lining
    assert lining is not None
    shown = max(LINING_ALONE * spec.scale, 3 * lining.shorter)
    high = 70.0
    lining_hem = lining.shorter * high / shown
    shorter = length_text(lining.shorter, units)
    inside = LINING_AT - 8
    drawn = together(
        layer((Point(SKIRT_AT, high), Point(SKIRT_AT, 0.0)), Sign.SKIRT),
        layer((Point(inside, high), Point(inside, lining_hem)), Sign.LINING),
        broken_off(SKIRT_AT - 3, inside + 3, high),
        line(Point(SKIRT_AT + 1.2, 0.0), Point(CHAIN_AT + TICK / 2, 0.0)),
        line(Point(inside + 1.2, lining_hem), Point(CHAIN_AT + TICK / 2, lining_hem)),
        double_arrow(Point(CHAIN_AT, 0.0), Point(CHAIN_AT, lining_hem)),
        labels(
            (
                Label(words=say("lining"), to=Point(inside + 0.65, high / 2)),
                Label(
                    words=say("lining {length} shorter than the skirt", length=shorter),
                    to=Point(CHAIN_AT, lining_hem / 2),
                ),
            ),
            CHAIN_AT + 6,
            most=WORDS,
        ),
        labels(
            (Label(words=say("skirt"), to=Point(SKIRT_AT - 0.65, high / 2)),),
            SKIRT_AT - 9,
            most=WORDS,
            anchor=Anchor.END,
        ),
    )
    caption = say(
        "The hem cut through. Heights are in proportion; the layers are drawn wider apart than"
        " they hang."
    )
    alt = say(
        "From outside to inside: skirt, lining. The lining ends {shorter} above the skirt's hem.",
        shorter=shorter,
    )
    return framed("hem-section", _with_sides(drawn, inside), caption=caption, alt=alt)
