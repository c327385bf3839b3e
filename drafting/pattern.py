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
from drafting.grading import Sized, divided_alike, of_every_size
from drafting.language import speaking
from drafting.making_up import corners_apart, pieces_and_seams
from drafting.nests import frames
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
    """Return the pattern that a spec asks for, with every seam walked; in sizes if it has any.

    Findings of level ``stop`` come back in the pattern; the caller writes nothing then.

    Raises:
        TruingError: edges that are sewn together do not agree: a fault of the draft itself.
    """
    with speaking(spec.publish.language):
        if spec.graded:
            return _in_sizes(spec)
        return _drafted(spec)


MOST_CHANGES = 3
"""So often sizes are drafted anew until all come in the same pieces."""


def _in_sizes(spec: Spec) -> Pattern:
    """Return the pattern of a graded garment, its pieces frames of those of every size."""
    sizes = tuple(_drafted(each) for each in spec.graded)
    for _ in range(MOST_CHANGES):
        specs = divided_alike(
            [Sized(spec=one.spec, figures=one.figures, pieces=one.pieces) for one in sizes]
        )
        if all(new is one.spec for new, one in zip(specs, sizes, strict=True)):
            break
        sizes = tuple(_drafted(each) for each in specs)
    middle = next(one for one in sizes if one.spec.wearer.size == spec.wearer.size)
    findings = of_every_size(
        tuple((one.spec.wearer.size, one.findings) for one in sizes), spec.findings
    )
    drawn = all(one.pieces for one in sizes)
    return Pattern(
        spec=spec,
        pieces=frames(tuple(one.pieces for one in sizes)) if drawn else (),
        seams=middle.seams,
        figures=middle.figures,
        findings=by_weight(findings),
        sizes=sizes,
    )


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
