"""The ways a layer may be cut, as the rest of the draft sees them.

A cut knows its fullness, panels, waistline, length, radii, sweep and girths; this module draws
its pieces and tells its lengths round the body, whichever it is. Imports circle and levelled.
"""

from typing import TypeAlias

from drafting.circle import Flare, PanelWishes, panel
from drafting.levelled import Around, Levelled, panels
from drafting.piece import Piece

Cut: TypeAlias = Flare | Levelled


def layer_pieces(cut: Cut, wishes: PanelWishes) -> tuple[Piece, ...]:
    """Return the pieces of one layer.

    Raises:
        GeometryError: a panel cannot be drawn at these measures.
    """
    if isinstance(cut, Levelled):
        return panels(cut, wishes)
    return (panel(cut, wishes),)


def around(cut: Cut) -> Around:
    """Return the lengths of a layer round the body."""
    if isinstance(cut, Levelled):
        return cut.around
    return Around(front=cut.length, left=cut.length, back=cut.length, right=cut.length)
