"""What a hem's finish is cut from: facings of the panels' shape, and bias strips.

Millimetres. Imports the plan, piece, edging and waistband.
"""

import math
from collections.abc import Sequence

from drafting.edging import edging
from drafting.language import say
from drafting.layer import Layer
from drafting.piece import Piece
from drafting.spec import HemFinish
from drafting.strips import JOINT
from drafting.truing import Seam, Side
from drafting.units import Mm
from drafting.waistband import BINDING, Strip, bias_piece

STRIP_SPARE: Mm = 60.0
"""Beyond the hem's own length, to join a strip's ends where they meet."""

FACING_STRIP: Mm = 40.0
"""Width of a bias facing as cut (35 to 40)."""

BRAID_SPARE: Mm = 30.0
"""Beyond the hem's own length, to lap and cap the ends of a braid."""


def needs_seam(finish: HemFinish) -> bool:
    """Tell whether a finish is sewn to the hem, so that its edge is a seam and no turn-up."""
    return finish in (HemFinish.FACED, HemFinish.BIAS_FACED)


def strip_length(sweep: Mm, usable: Mm) -> Mm:
    """Return how much bias strip goes round a hem, its joints included.

    Source: S + 60 and 20 for each joint; strips run at 45 degrees across the cloth.
    """
    across = max(usable, 1.0) * math.sqrt(2)
    joints = max(math.ceil((sweep + STRIP_SPARE) / across) - 1, 0)
    return sweep + STRIP_SPARE + JOINT * joints


def braid_length(sweep: Mm) -> Mm:
    """Return how much braid goes round a hem: S + 30."""
    return sweep + BRAID_SPARE


def hem_strip(layer: Layer, usable: Mm) -> Strip | None:
    """Return the bias strip that a bound or a bias-faced hem takes, as it is cut."""
    if layer.finish not in (HemFinish.BOUND, HemFinish.BIAS_FACED):
        return None
    wide = BINDING if layer.finish is HemFinish.BOUND else FACING_STRIP
    return Strip(cut_length=strip_length(layer.sweep, usable), cut_width=wide, allowance=10.0)


def hem_pieces(
    layer: Layer, panels: Sequence[Piece], *, depth: Mm, usable: Mm, allowance: Mm, at: str = "hem"
) -> tuple[tuple[Piece, ...], tuple[Seam, ...]]:
    """Return the pieces that finish a hem, and the seams that sew them on.

    Args:
        panels: the pieces whose hem edge is finished.
        depth: of a shaped facing.
        usable: width of the cloth that bias strips are cut from.
        allowance: of a facing where it is sewn on, as wide as the hem's own.
        at: name of the edge that is finished.
    """
    around = tuple(
        Side(piece=piece.name, edge=at, times=piece.count * (2 if piece.half else 1))
        for piece in panels
    )
    strip = hem_strip(layer, usable)
    if strip is not None:
        bound = layer.finish is HemFinish.BOUND
        piece = bias_piece(strip, name="hem binding" if bound else "hem facing strip", seam="5")
        # By the figures; walking the seam holds them against the pieces.
        spare = strip.cut_length - 2 * strip.allowance - layer.sweep
        seam = Seam(
            number="5",
            name=f"hem to {piece.name}",
            first=around,
            second=(Side(piece=piece.name, edge=0),),
            ease=-spare,
        )
        return (piece,), (seam,)
    if layer.finish is not HemFinish.FACED:
        return (), ()
    apart = len(panels) > 1
    facings = tuple(
        edging(
            panel,
            at,
            depth,
            allowance=allowance,
            name=f"hem facing {panel.name.removeprefix('skirt ')}" if apart else "hem facing",
            words=say("hem, sewn to the skirt"),
        )
        for panel in panels
    )
    seams = tuple(
        Seam(
            number="5",
            name=f"hem of {panel.name} to {facing.name}",
            first=(Side(piece=panel.name, edge=at),),
            second=(Side(piece=facing.name, edge=0),),
        )
        for panel, facing in zip(panels, facings, strict=True)
    )
    return facings, seams
