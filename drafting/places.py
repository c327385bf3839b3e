"""Places round the body, and where the seams of a layer fall among them.

Shares of a whole turn from centre back. Names of places are English, and said by ``either``.
Imports the spec's words and the language spoken.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from drafting.language import said_later, say
from drafting.spec import Closure

# Places round the body as shares of a whole turn from centre back, by way of the right side:
# the order in which they are met on a piece that lies right side up with its waist above.
PLACES = (
    (0.0, said_later("centre back")),
    (0.25, said_later("right side")),
    (0.5, said_later("centre front")),
    (0.75, said_later("left side")),
)

PANEL_SEAM = said_later("panel seam")
"""What a seam is called that lies at none of them."""

STROKES = {"centre front": 1, "left side": 2, "right side": 2, "centre back": 3}
"""Notch strokes: one at the front, two at the sides, three at the back; a key is printed."""


def first_seam(panels: int, closure: Closure) -> float:
    """Return where the first seam lies, as a share of a turn from centre back.

    One seam lies at the closure. With none, an even number of panels has a seam at each side
    and an odd number one at centre back.
    """
    if closure is Closure.LEFT_SIDE or (closure is Closure.NONE and panels % 2 == 0):
        return 0.75
    return 0.0


def place_name(share: float) -> str:
    """Return the name of a place round the body, or empty for one between the four."""
    for at, name in PLACES:
        if abs((share - at + 0.5) % 1 - 0.5) < 1e-9:
            return name
    return ""


def either(names: Iterable[str]) -> str:
    """Return places or seams in the language spoken: "right side or left side", each once."""
    said, *more = dict.fromkeys(say(name) for name in names)
    for other in more:
        said = say("{one} or {other}", one=said, other=other)
    return said


def seam_names(panels: int, closure: Closure) -> tuple[str, ...]:
    """Return what each seam is called, from the closure round by the right side."""
    start = first_seam(panels, closure)
    return tuple(place_name(start + k / panels) or PANEL_SEAM for k in range(panels))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceOnPanel:
    """A place of the body that falls inside some of the panels cut from one pattern.

    Attributes:
        share: where, as a share of the panel's width from its first edge.
        names: the places that fall there, on one panel or another.
        panels: on how many of the panels.
    """

    share: float
    names: tuple[str, ...]
    panels: int


def places_on_panel(
    panels: int, closure: Closure, *, half: bool = False
) -> tuple[PlaceOnPanel, ...]:
    """Return the places that fall inside a panel.

    All panels are cut from one pattern, so the places of every panel are gathered on it; on
    a half that is drawn to a fold, those of its mirror image too.
    """
    start = first_seam(panels, closure)
    found: dict[float, list[str]] = {}
    for at, name in PLACES:
        share = ((at - start) % 1) * panels
        inside = round(share - math.floor(share + 1e-9), 9)
        if half:
            inside = min(inside, round(1 - inside, 9))
        if inside > 1e-9:
            found.setdefault(inside, []).append(name)
    return tuple(
        PlaceOnPanel(share=share, names=tuple(names), panels=min(len(names), panels))
        for share, names in sorted(found.items())
    )


def place_words(place: PlaceOnPanel, panels: int) -> str:
    """Return what is written beside a place: its names, and on how many panels it is meant."""
    words = either(place.names)
    if place.panels < panels:
        return say(
            "{places}, on {some} of {all} panels", places=words, some=place.panels, all=panels
        )
    return words
