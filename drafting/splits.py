"""How a layer is divided where its panels do not fit the cloth: the way that takes least of it.

Millimetres. Imports the boxes and shapes of cloth, and pieced; the laying is loaded only where
panels do not fit.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from drafting.allowance import Widths
from drafting.circle import fewest_panels
from drafting.cloth.boxes import MOST_PANELS, bare_panels, panel_width, usable_width
from drafting.errors import DraftingError
from drafting.outline import Cut
from drafting.piece import Piece
from drafting.pieced import Unbroken, pieced
from drafting.spec import Closure, Cloth, Grain
from drafting.units import Mm

MORE_PANELS = 4
"""So many panels more than needed are tried: with narrower ones rows may close up."""

WORTH = 0.05
"""What another seam must save of the cloth's length: every seam is work."""

TRIALS = 40
"""Shapes placed to see what a division takes: a look, where a lay plan takes its time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """How a layer is divided.

    Attributes:
        pieced: how wide the corners are, finished, that are pieced onto its panels, 0 for none.
        instead: panels that it would be cut in otherwise, 0 where there was no choice.
        saved: length of cloth that its panels take less than that way.
    """

    cut: Cut
    pieced: Mm = 0.0
    instead: int = 0
    saved: Mm = 0.0


def chosen(
    cut: Cut,
    of: Cloth,
    allowances: Widths,
    *,
    grain: Grain,
    closure: Closure,
    unbroken: Unbroken | None,
) -> Split:
    """Return a layer as it was asked for if that fits its cloth, else divided so that it does.

    More panels than needed, or corners pieced on, are chosen only where they save a part of the
    cloth that is worth their seams. Where nothing fits, the layer stays as it is.

    Args:
        unbroken: what corners must keep clear of, None where none may be pieced on.
    """
    usable = usable_width(of)
    if math.isinf(panel_width(cut, allowances, grain)) and cut.fullness is not None:
        # So wide an angle leaves no room for its seam, on any cloth; half a circle always does.
        cut = cut.divided(max(cut.panels, fewest_panels(cut.fullness)))
    if panel_width(cut, allowances, grain) <= usable:
        return Split(cut=cut)
    fewest = _fewest(cut, allowances, grain, usable)
    # Gathered lengths stand side by side whatever their number: more of them save nothing.
    split = Split(cut=fewest or cut)
    if fewest is not None and cut.hem_radius is not None:
        split = _in_more(fewest, of, allowances, grain)
    if unbroken is None:
        return split
    found = corners(cut, of, allowances, grain, closure, unbroken)
    if found is None:
        return split
    if fewest is None:
        return Split(cut=cut, pieced=found.width)
    otherwise = panels_length(split.cut, of, allowances, grain)
    if found.length > (1 - WORTH) * otherwise:
        return split
    return Split(
        cut=cut,
        pieced=found.width,
        instead=split.cut.panels,
        saved=otherwise - found.length,
    )


def _fewest(cut: Cut, allowances: Widths, grain: Grain, usable: Mm) -> Cut | None:
    """Return a layer in no more panels than it takes for them to fit, or None if none do."""
    made = cut
    while panel_width(made, allowances, grain) > usable:
        if made.panels >= MOST_PANELS:
            return None
        made = made.divided(made.panels + 1)
    return made


def _in_more(fewest: Cut, of: Cloth, allowances: Widths, grain: Grain) -> Split:
    """Return a layer in so many panels as are worth their seams, the fewest or a few more."""
    usable = usable_width(of)
    least = best = panels_length(fewest, of, allowances, grain)
    split = Split(cut=fewest)
    most = min(fewest.panels + MORE_PANELS, MOST_PANELS)
    for panels in range(fewest.panels + 1, most + 1):
        made = fewest.divided(panels)
        if panel_width(made, allowances, grain) > usable:
            continue
        takes = panels_length(made, of, allowances, grain)
        if takes <= (1 - WORTH) * best:
            best = takes
            split = Split(cut=made, instead=fewest.panels, saved=least - takes)
    return split


@lru_cache(maxsize=256)
def panels_length(cut: Cut, of: Cloth, allowances: Widths, grain: Grain) -> Mm:
    """Return about how much cloth the panels of a layer take by themselves.

    Slid together at a quick look: an upper bound of what a lay plan would find. Infinite where
    a panel cannot be drawn.
    """
    try:
        bare = bare_panels(cut, allowances, grain, half=False)
        return laid_length(bare, of)
    except DraftingError:
        return math.inf


def laid_length(bare: tuple[Piece, ...], of: Cloth) -> Mm:
    """Return about how much of a cloth some panels and their corners take."""
    # Laying loads an array library, which drafts whose panels fit never need.
    from drafting.cloth.shapes import shapes_of
    from drafting.cloth.sliding import jobs, slid

    shapes = shapes_of(bare, bare[0].cloth, of)
    return slid(jobs(shapes), usable_width(of), trials=TRIALS)[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """What piecing a layer's corners on comes to: how wide the widest is, what cloth it takes."""

    width: Mm
    length: Mm


@lru_cache(maxsize=256)
def corners(
    cut: Cut, of: Cloth, allowances: Widths, grain: Grain, closure: Closure, unbroken: Unbroken
) -> Corners | None:
    """Return a layer in the panels that were asked for, with corners, or None if none will do."""
    usable = usable_width(of)
    try:
        bare = bare_panels(cut, allowances, grain, half=of.fold, closure=closure)
        made = [pieced(panel, usable, grain, unbroken) for panel in bare]
    except DraftingError:
        return None
    parts = [one for one in made if one is not None]
    width = max((one.width for one in parts), default=0.0)
    if len(parts) < len(made) or not width:
        return None
    pieces = tuple(piece for one in parts for piece in one.pieces)
    return Corners(width=width, length=laid_length(pieces, of))
