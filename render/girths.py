"""The waist and the hem that a print off its size would change, from the pieces it really holds.

Millimetres. Imports drafting's values.
"""

from collections.abc import Collection, Iterator
from typing import NamedTuple

from drafting.figures import LayerFigures
from drafting.pattern import Pattern
from drafting.piece import Piece
from drafting.spec import CutKind, WaistFinish
from drafting.units import Mm
from drafting.waist_part import is_shortened


class Girths(NamedTuple):
    """How much of a waist and a hem is as long as paper makes it; 0 where none is."""

    waist: Mm
    hem: Mm


NONE = Girths(0.0, 0.0)


def girths(pattern: Pattern, printed: Collection[Piece]) -> Girths:
    """Return the girths that the printed pieces set, of the skirt or else of its lining.

    A waist that is gathered, or drawn up by elastic, becomes as long as its band or elastic
    whatever its panels measure. The hem counts where the pieces that carry it are printed;
    below a printed waist part it is taped, and grows by as much as the waist does.
    """
    for part, figures in (("skirt", pattern.figures.skirt), ("lining", pattern.figures.lining)):
        panels = [piece for piece in printed if _is_panel(piece, part)]
        if figures is None or not panels:
            continue
        if any(is_shortened(piece) for piece in panels):
            hem = figures.waistline
        else:
            shown = {piece.name for piece in printed}
            hem = figures.sweep if set(_carrying_the_hem(pattern, part)) <= shown else 0.0
        return Girths(_waist(pattern, part, figures), hem)
    return NONE


def _is_panel(piece: Piece, part: str) -> bool:
    named = piece.name.startswith(f"{part} ")
    return named and any(edge.name == "waist" for edge in piece.edges)


def _waist(pattern: Pattern, part: str, figures: LayerFigures) -> Mm:
    elastic = part == "skirt" and pattern.spec.skirt.waist_finish is WaistFinish.CASING
    return 0.0 if elastic or figures.gather_ratio is not None else figures.waistline


def _carrying_the_hem(pattern: Pattern, part: str) -> Iterator[str]:
    """Yield the names of the pieces that a layer's lowest edge is made of."""
    skirt = pattern.spec.skirt
    names = [piece.name for piece in pattern.pieces]
    if part == "skirt" and skirt.flounce is not None:
        yield "flounce ring"
    elif part == "skirt" and skirt.cut is CutKind.TIERED:
        yield max(name for name in names if name.startswith("skirt tier "))
    else:
        for piece in pattern.pieces:
            # A corner pieced onto a panel carries its own part of the hem.
            pieced = any(edge.pieced for edge in piece.edges)
            if _is_panel(piece, part) or (pieced and piece.cloth == part):
                yield piece.name
