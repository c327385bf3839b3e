"""How the panels of a layer are to be drawn. Millimetres; imports the spec's words."""

from dataclasses import dataclass

from drafting.allowance import Widths
from drafting.piece import FoldWay
from drafting.spec import Closure, Grain
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelWishes:
    """How a layer's panels are to be drawn.

    Attributes:
        part: ``skirt`` or ``lining``; begins the piece's name and names its cloth.
        half: draw half of the panel, to a fold.
        hem_quarters: mark the hem at the quarters of the body, for what is gathered or joined
            to it all round; else in the middle of each panel.
        opening: length of the slit below the waist seam, or 0 for none.
        vent: length that the closure seam is left open up from the hem, or 0 for none.
        seam: number of the seams between panels; ``waist_seam`` of the seam at the waist,
            ``hem_seam`` of what is sewn to the hem, or empty for a hem that is turned.
        ruffle_line: how far below the waist seam a ruffle is sewn, at the least length, or None.
        ruffle_words: what is written along that line; ``ruffle_name`` in fewer words.
        hem_words: what is written along the hem; ``waist_words`` along the waist.
        hem_goes_on: a flounce or a tier is sewn to the hem.
        pocket: from where to where below the waist the side seams are left open for pockets.
        gathered: the waist edge is gathered; its rows are drawn.
        godet: how far up from the hem a godet is set into every seam, or 0.
        shape: what a panel that is like all others is called: panel, gore, length.
    """

    part: str
    allowances: Widths
    grain: Grain
    closure: Closure
    opening: Mm = 0.0
    vent: Mm = 0.0
    seam: str = ""
    waist_seam: str = ""
    hem_seam: str = ""
    hem_quarters: bool = False
    half: bool = False
    fold_way: FoldWay = FoldWay.NONE
    ruffle_line: Mm | None = None
    ruffle_words: str = ""
    ruffle_name: tuple[str, ...] = ()
    waist_words: str = "waist"
    hem_words: str = "hem"
    hem_goes_on: bool = False
    pocket: tuple[Mm, Mm] | None = None
    godet: Mm = 0.0
    gathered: bool = False
    shape: str = "panel"
    notes: tuple[str, ...] = ()
