"""Front and back of the finished skirt on a plain figure: a sketch in proportion.

Millimetres on the page; lengths straight down are true to one scale, widths follow the model of
``silhouette``. Imports the pattern, the silhouette and ink.
"""

import math
from collections.abc import Iterator

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.places import first_seam
from drafting.spec import Closure, WaistFinish
from drafting.units import Mm
from drafting.waistband import CASING_ROOM
from render.drawing import Anchor, Drawing, Pen, placed, together
from render.pictures.figure import figure
from render.pictures.ink import (
    HIDDEN,
    OUTLINE,
    THIN,
    dot,
    framed,
    line,
    words,
)
from render.pictures.picture import WIDE, Picture
from render.pictures.silhouette import (
    HALF_OF_GIRTH,
    SAMPLES,
    View,
    levels,
    lining_silhouette,
    skirt_silhouette,
)
from render.pictures.sketch_words import (
    BESIDE,
    COLUMN,
    lining_open_for,
    names,
    open_for,
    opening_name,
    told,
)

HIGHEST: Mm = 108.0
"""Most height of the figure on the page."""

SPARE_PER_FOLD: Mm = 240.0
"""How much more than it spans a hem must measure for each fold that hangs in it."""


BINDING: Mm = 8.0
OPENED = Pen(width=0.8)
LINING_OPENED = Pen(width=0.6, dash=(1.4, 0.9))
"""The opening of a lining under a skirt whose own opening is not known."""

PANEL_SEAM = Pen(width=0.3)
"""A seam: heavier than a fold, lighter than an edge."""

AT_SIDE = 0.93
"""A seam at the very side is drawn so far across, inside the outline."""

TURN = math.pi / 2


def front_and_back(pattern: Pattern) -> Picture | None:
    """Return front and back of the finished skirt, worn; None where nothing could be drafted."""
    if not pattern.pieces:
        return None
    shape = skirt_silhouette(pattern)
    wearer = pattern.spec.wearer
    widest = max(shape.half(shape.length), wearer.height * 0.13)
    by = min((WIDE - COLUMN - BESIDE - 8) / (4 * widest), HIGHEST / (wearer.height + wearer.heel))
    view = View(shape=shape, by=by)
    apart = 2 * widest * by + COLUMN + 6
    front, back = worn(pattern, by, back=False), worn(pattern, by, back=True)
    foot = (-(wearer.floor_side + wearer.heel) + shape.seam_below) * by - 5.5
    drawn = together(
        front,
        placed(back, x=apart),
        names(pattern, view, widest),
        placed(opening_name(pattern, view, widest), x=apart),
        words(say("front"), Point(0.0, foot), anchor=Anchor.MIDDLE, bold=True),
        words(say("back"), Point(apart, foot), anchor=Anchor.MIDDLE, bold=True),
    )
    caption = [
        say(
            "The finished skirt on a body of these measures. Lengths are in proportion; how it"
            " stands out is a sketch, not a prediction of how your cloth will hang."
        )
    ]
    if pattern.figures.lining is not None:
        caption.append(say("Dashed lines lie hidden under the skirt."))
    return framed("front-and-back", drawn, caption=" ".join(caption), alt=" ".join(told(pattern)))


def worn(pattern: Pattern, by: float, *, back: bool) -> Drawing:
    """Return one side of the finished skirt on its wearer, without words.

    Its waist seam lies at the height of the origin, its middle at x = 0.

    Args:
        by: paper millimetres to one of the body.
    """
    shape = skirt_silhouette(pattern)
    return together(
        figure(pattern.spec.wearer, by, shape.seam_below, shape.length),
        _garment(pattern, View(shape=shape, by=by), back=back),
    )


def _garment(pattern: Pattern, view: View, *, back: bool) -> Drawing:
    shape, figures = view.shape, pattern.figures
    parts = [
        line(*view.run(-1.0, 0.0, shape.length), pen=OUTLINE),
        line(*view.run(1.0, 0.0, shape.length), pen=OUTLINE),
        *_hem_and_folds(
            view, figures.skirt.sweep, _lowest(pattern), seam_sides(pattern, back=back)
        ),
        *_waist(pattern, view),
        *_seams(pattern, view, back=back),
    ]
    if not back:
        parts += _hidden(pattern, view)
    if back == (pattern.spec.skirt.closure is Closure.CENTRE_BACK):
        parts += _opening(pattern, view)
    return together(*parts)


def _lowest(pattern: Pattern) -> Mm:
    """Return the depth of the lowest part: of the flounce, of the last tier, or of it all."""
    down = levels(pattern.figures)
    return pattern.figures.skirt.length_front - (down[-1] if down else 0.0)


def visible_folds(sweep: Mm, half: Mm, scale: float) -> int:
    """Return how many folds of a hem are seen from one side.

    Args:
        half: half of what the hem spans.
        scale: of the draft.
    """
    spare = sweep - half / HALF_OF_GIRTH
    return max(round(spare / SPARE_PER_FOLD / scale / 2), 0)


def _hem_and_folds(view: View, sweep: Mm, depth: Mm, seams: tuple[float, ...]) -> Iterator[Drawing]:
    shape = view.shape
    folds = visible_folds(sweep, shape.half(shape.length), shape.wearer.height / 1680)
    if folds < 1:
        yield line(*view.across(shape.length), pen=OUTLINE)
        return
    bulge = min(2.0, 0.30 * view.by * shape.half(shape.length) * 2 / folds)
    hem = []
    for k in range(folds):
        for step in range(SAMPLES // 2 + 1):
            share = step / (SAMPLES // 2)
            angle = -TURN + math.pi * (k + share) / folds
            here = view.at(shape.length, math.sin(angle))
            fall = bulge * math.sin(math.pi * share) * (0.25 + 0.75 * math.cos(angle))
            hem.append(Point(here.x, here.y + _lift(bulge, angle) - fall))
    yield line(*hem, pen=OUTLINE)
    for k in range(1, folds):
        angle = -TURN + math.pi * k / folds
        side = math.sin(angle)
        if any(abs(side - seam) < 0.06 for seam in seams):
            continue  # the seam shows there
        foot = view.at(shape.length, side)
        reach = depth * (0.66 if k % 2 else 0.42)
        run = view.run(side, shape.length, shape.length - reach)
        yield line(Point(foot.x, foot.y + _lift(bulge, angle)), *run[2:], pen=THIN)


def _lift(bulge: Mm, angle: float) -> Mm:
    """Return how far the hem rises between two folds, so that it is level on the whole."""
    return 0.5 * bulge * math.cos(angle)


def _waist(pattern: Pattern, view: View) -> Iterator[Drawing]:
    skirt, figures = pattern.spec.skirt, pattern.figures
    yield line(*view.across(0.0), pen=OUTLINE)
    high = {
        WaistFinish.BAND: figures.contour.height if figures.contour else skirt.band,
        WaistFinish.CASING: skirt.elastic + CASING_ROOM,
        WaistFinish.BIAS: BINDING * pattern.spec.scale,
    }.get(skirt.waist_finish, 0.0)
    lower = view.at(0.0, 1.0)
    if high:
        girth = figures.waist.top or figures.waist.finished
        x, y = girth * HALF_OF_GIRTH * view.by, high * view.by
        yield line(Point(-lower.x, lower.y), Point(-x, y), Point(x, y), lower, pen=OUTLINE)
        if skirt.waist_finish is WaistFinish.CASING:
            for k in range(1, 10):
                at = x * math.sin(-TURN + math.pi * k / 10)
                yield line(Point(at, 0.15 * y), Point(at, 0.85 * y))
    if figures.skirt.gather_ratio is not None:
        for k in range(1, 14):
            side = math.sin(-TURN + math.pi * k / 14)
            yield line(*view.run(side, 4, view.shape.length * (0.13 if k % 2 else 0.08)))


def _seams(pattern: Pattern, view: View, *, back: bool) -> Iterator[Drawing]:
    figures = pattern.figures
    down = levels(figures)
    for level in down:
        yield line(*view.across(level), pen=PANEL_SEAM)
        if figures.tiers:
            for k in range(1, 18):
                side = math.sin(-TURN + math.pi * k / 18)
                yield line(*view.run(side, level + 3, level + (26 if k % 2 else 16)))
    end = down[0] if down else view.shape.length
    opened = open_for(pattern)
    for side in seam_sides(pattern, back=back):
        start = opened if opened < end and _opens_at(pattern, side, back=back) else 0.0
        if figures.godets is None:
            yield line(*view.run(side, start, end), pen=PANEL_SEAM)
            continue
        top = end - figures.godets.depth
        yield line(*view.run(side, start, top), pen=PANEL_SEAM)
        if abs(side) >= AT_SIDE:
            continue  # a godet at the side is seen on edge
        # What a godet spans of the hem that is seen, by its share of the sweep.
        spread = math.pi * figures.godets.sweep / figures.skirt.sweep / figures.skirt.panels
        apex = view.at(top, side)
        for edge in (-spread, spread):
            yield line(apex, view.at(end, math.sin(math.asin(side) + edge)), pen=PANEL_SEAM)


def seam_sides(pattern: Pattern, *, back: bool) -> tuple[float, ...]:
    """Return how far across each seam of the panels is seen; of an owned skirt none is known."""
    if pattern.spec.skirt.owned is not None:
        return ()
    panels = pattern.figures.skirt.panels
    start = first_seam(panels, _closure(pattern))
    found = []
    for k in range(panels):
        share = start + k / panels
        angle = math.tau * (share if back else share - 0.5)
        if math.cos(angle) > -0.05:
            found.append(min(max(math.sin(angle), -AT_SIDE), AT_SIDE))
    return tuple(found)


def _opens_at(pattern: Pattern, side: float, *, back: bool) -> bool:
    """Tell whether the seam there is the one that opens."""
    if _closure(pattern) is Closure.LEFT_SIDE:
        return side == (-AT_SIDE if back else AT_SIDE)
    return _closure(pattern) is Closure.CENTRE_BACK and back and abs(side) < 1e-9


def _closure(pattern: Pattern) -> Closure:
    return pattern.spec.skirt.closure


def _hidden(pattern: Pattern, view: View) -> Iterator[Drawing]:
    """Yield the lining and the ruffle under the skirt."""
    figures = pattern.figures
    if figures.lining is None:
        return
    lining = View(shape=lining_silhouette(pattern, figures.lining), by=view.by)
    yield line(*lining.run(-1.0, 0.0, lining.shape.length), pen=HIDDEN)
    yield line(*lining.run(1.0, 0.0, lining.shape.length), pen=HIDDEN)
    yield line(*lining.across(lining.shape.length), pen=HIDDEN)
    if figures.ruffle is None:
        return
    top = figures.ruffle.line_below_waist
    yield line(*lining.across(top), pen=HIDDEN)
    lower = ruffle_edge(pattern, view)
    for side, end in ((-1.0, lower[0]), (1.0, lower[-1])):
        yield line(lining.at(top, side), end, pen=HIDDEN)
    # Its edge waves, for it is gathered.
    waved = [
        Point(p.x, p.y + 0.5 * math.sin(math.tau * 7 * k / (len(lower) - 1)))
        for k, p in enumerate(lower)
    ]
    yield line(*waved, pen=HIDDEN)


def ruffle_edge(pattern: Pattern, view: View) -> list[Point]:
    """Return the ruffle's lower edge, as wide as the skirt over it lets it stand."""
    ruffle = pattern.figures.ruffle
    assert ruffle is not None
    return view.across(ruffle.line_below_waist + ruffle.depth, -0.95, 0.95)


def _opening(pattern: Pattern, view: View) -> Iterator[Drawing]:
    owned = pattern.spec.skirt.owned is not None
    long = lining_open_for(pattern) if owned else open_for(pattern)
    if not long:
        return
    side = 0.0 if pattern.spec.skirt.closure is Closure.CENTRE_BACK else AT_SIDE
    yield line(*view.run(side, 0.0, long), pen=LINING_OPENED if owned else OPENED)
    yield dot(view.at(long, side), 0.8)
