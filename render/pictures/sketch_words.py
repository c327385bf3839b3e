"""The words of the sketch: beside the front view, beside the opening, for those who cannot see it.

Millimetres on the page. Imports the pattern, the silhouettes and ink.
"""

from collections.abc import Iterator

from drafting.geometry import Point
from drafting.language import say
from drafting.pattern import Pattern
from drafting.spec import Closure
from drafting.units import Mm, length_text
from render.drawing import Drawing
from render.pictures.ink import Label, labels, leader
from render.pictures.silhouette import HALF_OF_GIRTH, View, lining_silhouette

COLUMN: Mm = 30.0
"""Width of the words between the two views."""

BESIDE: Mm = 8.0
"""Room for words to the right of the back view, beyond its hem."""


def open_for(pattern: Pattern) -> Mm:
    """Return how long the skirt's seam stays open; of an owned skirt that is not known."""
    return pattern.figures.skirt.opening if pattern.figures.opening is not None else 0.0


def lining_open_for(pattern: Pattern) -> Mm:
    """Return how long the lining's seam stays open."""
    lining = pattern.figures.lining
    return lining.opening if lining is not None and pattern.figures.opening is not None else 0.0


def _shown_open(pattern: Pattern) -> Mm:
    """Return how long the opening is that is drawn: the skirt's, or under an owned one its own."""
    owned = pattern.spec.skirt.owned is not None
    return lining_open_for(pattern) if owned else open_for(pattern)


def names(pattern: Pattern, view: View, widest: Mm) -> Drawing:
    """Return the words between the views, with leaders to the front one."""
    figures, units, shape = pattern.figures, pattern.spec.units, view.shape
    column = widest * view.by + 4
    named = [
        Label(
            words=say("waist {length}", length=length_text(figures.waist.finished, units)),
            to=view.at(0.0, 0.8),
        ),
        Label(words=_length_words(pattern), to=view.at(shape.length * 0.66, 1.0)),
        Label(
            words=say("hem {length} round", length=length_text(figures.skirt.sweep, units)),
            to=view.at(shape.length, 1.0),
        ),
    ]
    if figures.lining is not None:
        lining = View(shape=lining_silhouette(pattern, figures.lining), by=view.by)
        named.append(
            Label(
                words=say(
                    "lining {length} long",
                    length=length_text(figures.lining.length_front, units),
                ),
                to=lining.at(figures.lining.length_front * 0.3, 1.0),
            )
        )
    if figures.ruffle is not None:
        down = figures.ruffle.line_below_waist + 0.6 * figures.ruffle.depth
        named.append(
            Label(
                words=say("ruffle {depth} deep", depth=length_text(figures.ruffle.depth, units)),
                to=view.at(down, 0.62),
            )
        )
    opened = _shown_open(pattern)
    if opened and pattern.spec.skirt.closure is Closure.LEFT_SIDE:
        named.append(Label(words=_opening_words(pattern), to=view.at(opened * 0.6, 0.93)))
    return labels(named, column, most=COLUMN - 6)


def _length_words(pattern: Pattern) -> str:
    skirt, units = pattern.figures.skirt, pattern.spec.units
    front, side, back = (
        length_text(length, units)
        for length in (skirt.length_front, skirt.length_side, skirt.length_back)
    )
    if front == side == back:
        return say("skirt {length} long", length=front)
    return say(
        "skirt {front} long in front, {side} at the sides, {back} at the back",
        front=front,
        side=side,
        back=back,
    )


def _opening_words(pattern: Pattern) -> str:
    length = length_text(_shown_open(pattern), pattern.spec.units)
    if pattern.spec.skirt.owned is not None:
        return say("lining open {length}", length=length)
    return say("opening {length}", length=length)


def opening_name(pattern: Pattern, view: View, widest: Mm) -> Drawing:
    """Return the opening's words beside the back view's waist."""
    long = _shown_open(pattern)
    if not long or pattern.spec.skirt.closure is not Closure.CENTRE_BACK:
        return Drawing()
    wearer = pattern.spec.wearer
    x = wearer.waist * HALF_OF_GIRTH * view.by + 5
    room = max(widest * view.by + BESIDE - x, 14.0)
    return leader(
        _opening_words(pattern),
        Point(x, 0.075 * wearer.height * view.by),
        view.at(long * 0.45, 0.0),
        most=room,
    )


def told(pattern: Pattern) -> Iterator[str]:
    """Yield what is drawn, in words."""
    figures, units = pattern.figures, pattern.spec.units
    yield say(
        "Front and back view: {skirt}, waist {waist}, hem {hem} round.",
        skirt=_length_words(pattern),
        waist=length_text(figures.waist.finished, units),
        hem=length_text(figures.skirt.sweep, units),
    )
    if figures.lining is not None:
        length = length_text(figures.lining.length_front, units)
        yield say("Under it a lining {length} long.", length=length)
    if figures.ruffle is not None:
        yield say(
            "On the lining a ruffle {depth} deep, sewn {line} below the waist seam.",
            depth=length_text(figures.ruffle.depth, units),
            line=length_text(figures.ruffle.line_below_waist, units),
        )
    if pattern.spec.skirt.owned is not None:
        if lining_open_for(pattern):
            long = length_text(lining_open_for(pattern), units)
            yield say("Under the skirt's own closure the lining opens {length}.", length=long)
    elif open_for(pattern):
        long = length_text(open_for(pattern), units)
        yield (
            say("It opens {length} down the centre back.", length=long)
            if pattern.spec.skirt.closure is Closure.CENTRE_BACK
            else say("It opens {length} down the left side.", length=long)
        )
