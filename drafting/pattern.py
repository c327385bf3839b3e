"""From a spec to a pattern: planned, drawn, walked, and looked over.

Millimetres. Imports the plan, its drawing, its figures and the advice.
"""

from dataclasses import dataclass

from drafting import advice, cloth
from drafting.cloth.in_rows import rows_length
from drafting.cloth.shapes import shapes_of
from drafting.errors import DraftingError, TruingError
from drafting.figures import ClothFigures, Figures, figures
from drafting.findings import Finding, by_weight
from drafting.language import speaking
from drafting.making_up import corners_apart, pieces_and_seams
from drafting.piece import Piece, cutting_line
from drafting.plan import plan
from drafting.spec import Cloth, Spec
from drafting.truing import Seam, Walked, walk


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A drafted garment: its pieces, how they are sewn together, its numbers and remarks.

    ``pieces`` is empty when the draft stops before anything could be drawn.

    Attributes:
        sizes: of a graded garment its pattern in each size, smallest first. ``pieces`` are then
            frames, which no one cuts: each holds a piece of every size, drawn in one frame, with
            its own raw outline round them all. The other values are those of the middle size.
    """

    spec: Spec
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    figures: Figures
    findings: tuple[Finding, ...]
    sizes: tuple["Pattern", ...] = ()


def draft(spec: Spec) -> Pattern:
    """Return the pattern that a spec asks for, with every seam walked.

    Findings of level ``stop`` come back in the pattern; the caller writes nothing then.

    Raises:
        TruingError: edges that are sewn together do not agree: a fault of the draft itself.
    """
    with speaking(spec.publish.language):
        return _drafted(spec)


def _drafted(spec: Spec) -> Pattern:
    """Return the pattern, its words in the language spoken."""
    planned = plan(spec)
    findings = list(spec.findings)
    if planned.faults:
        # Plainer parts stand in for what cannot be drawn; advice on them would mislead.
        findings += [advice.cannot_be_drawn(fault, spec.units) for fault in planned.faults]
    else:
        findings += advice.advice(planned)
    pieces: tuple[Piece, ...] = ()
    seams: tuple[Seam, ...] = ()
    walked: tuple[Walked, ...] = ()
    try:
        pieces, seams = pieces_and_seams(planned)
        walked = walk(seams, pieces)
        pieces, seams, more = corners_apart(planned, pieces, seams)
        walked += more
        for piece in pieces:
            cutting_line(piece)  # drawn now, so that what cannot be cut is found here
        findings += advice.on_pieces(planned, pieces)
    except TruingError:
        raise
    except DraftingError as error:
        findings.append(advice.cannot_be_drawn(error, spec.units))
        pieces = seams = ()
        walked = ()
    cloths = _cloths(spec, pieces)
    return Pattern(
        spec=spec,
        pieces=pieces,
        seams=seams,
        figures=figures(planned, cloths, walked),
        findings=by_weight(tuple(findings)),
    )


def _cloths(spec: Spec, pieces: tuple[Piece, ...]) -> dict[str, ClothFigures]:
    """Return the rows of boxes of each cloth that pieces are cut from."""
    found = {}
    for name in cloth.CLOTHS:
        of: Cloth = getattr(spec.cloths, name)
        mine = shapes_of(pieces, name, of)
        if mine:
            usable = cloth.usable_width(of)
            found[name] = ClothFigures(
                width=of.width, usable=usable, rows_length=rows_length(mine, usable)
            )
    return found
