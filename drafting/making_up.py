"""Drawing a planned garment: its pieces, and which of their edges are sewn together.

Millimetres and radians. Imports the plan and the parts' pieces.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from drafting import ruffle, waistband
from drafting.circle import PanelWishes
from drafting.cuts import layer_pieces
from drafting.piece import Piece
from drafting.plan import Layer, Plan
from drafting.spec import WaistFinish
from drafting.truing import Seam, Side
from drafting.units import Mm, length_text


def pieces_and_seams(plan: Plan) -> tuple[tuple[Piece, ...], tuple[Seam, ...]]:
    """Return every piece of the garment and every seam between them.

    Raises:
        MeasurementError, GeometryError: a piece cannot be drawn at these measures.
    """
    spec, wish = plan.spec, plan.spec.skirt

    def wishes(part: str, layer: Layer, seam: str, waist_seam: str) -> PanelWishes:
        return PanelWishes(
            part=part,
            allowances=layer.allowances,
            grain=wish.grain,
            closure=plan.closure,
            opening=layer.opening,
            seam=seam,
            waist_seam=waist_seam,
            half=layer.half,
            fold_way=layer.fold_way,
        )

    of_skirt = wishes("skirt", plan.skirt, "1", "2")
    pieces = list(layer_pieces(plan.skirt.cut, of_skirt))
    seams = _panel_seams(pieces)
    waist = _all_round(pieces, "waist")
    # A ruffle that has no place is not drawn; the advice stops it.
    placed = plan.ruffle if plan.ruffle and _has_place(plan.ruffle) else None
    if plan.lining is not None:
        of_lining = wishes("lining", plan.lining, "3", "2")
        if placed is not None:
            of_lining = replace(
                of_lining,
                ruffle_line=placed.line_below_waist,
                ruffle_words="seam 4: ruffle's line, "
                + length_text(placed.line_length, spec.units)
                + " all round",
            )
        lined = layer_pieces(plan.lining.cut, of_lining)
        pieces += lined
        seams += _panel_seams(lined)
        drawn_up = wish.waist_finish is WaistFinish.CASING
        seams.append(
            Seam(
                number="2",
                name="skirt waist to lining waist",
                first=waist,
                second=_all_round(lined, "waist"),
                gather=1.0 if drawn_up else wish.gather_ratio,
            )
        )
        if placed is not None and placed.strips:
            strip = ruffle.strip_piece(placed, seam="4")
            a = ruffle.HABITS[placed.cloth].join_allowance
            seams.append(
                Seam(
                    number="4",
                    name="ruffle to its line on the lining",
                    first=_all_round([strip], "gathered"),
                    second=_all_round(lined, "ruffle line"),
                    gather=placed.gather_ratio,
                    ease=0.0 if placed.ring else 2 * (ruffle.END_HEM - a),
                )
            )
            pieces.append(strip)
    top, seam = _waist_piece(plan, of_skirt, waist)
    return (*pieces, top), tuple(sorted((*seams, seam), key=lambda one: one.number))


def _has_place(drafted: ruffle.RuffleDraft) -> bool:
    return drafted.line_below_waist >= ruffle.HIGHEST_LINE


def _all_round(pieces: Sequence[Piece], edge: str) -> tuple[Side, ...]:
    """Return an edge of every piece, as often as it is cut: one side of a seam all round."""
    return tuple(
        Side(piece=piece.name, edge=edge, times=piece.count * (2 if piece.half else 1))
        for piece in pieces
    )


def _panel_seams(pieces: Sequence[Piece]) -> list[Seam]:
    """Return the seams between the panels of a layer, told by the numbers of their notches.

    An edge whose number stands nowhere else is sewn to its own mirror image.
    """
    edges: dict[str, dict[tuple[str, int], None]] = {}
    for piece in pieces:
        for notch in piece.notches:
            if piece.edges[notch.edge].name != "waist":
                edges.setdefault(notch.seam, {})[piece.name, notch.edge] = None
    seams = []
    for number, found in edges.items():
        sides = [Side(piece=name, edge=edge) for name, edge in found]
        for one, other in pairwise(sides if len(sides) > 1 else sides * 2):
            seams.append(
                Seam(
                    number=number,
                    name=f"{one.piece} to {other.piece}",
                    first=(one,),
                    second=(other,),
                )
            )
    return seams


def _waist_piece(plan: Plan, of_skirt: PanelWishes, waist: tuple[Side, ...]) -> tuple[Piece, Seam]:
    wish = plan.spec.skirt
    if plan.strip is None:
        flare = waistband.facing_flare(
            plan.skirt.cut, gather_ratio=wish.gather_ratio, depth=wish.facing
        )
        slitless = replace(of_skirt, opening=0.0)
        piece = waistband.facing_piece(flare, slitless)
        second = _all_round([piece], "waist")
        gather, ease = wish.gather_ratio, 0.0
    else:
        casing = wish.waist_finish is WaistFinish.CASING
        around = plan.skirt.cut.waistline if casing else plan.finished_waist
        piece = waistband.strip_piece(
            plan.strip,
            name="casing" if casing else "band",
            around=around,
            closure=plan.closure,
            seam="2",
            notes=_strip_notes(plan, lap=plan.strip.cut_length - 2 * plan.strip.allowance - around),
        )
        second = _all_round([piece], "waist")
        gather = 1.0 if casing else wish.gather_ratio / (1 + wish.waist_stretch)
        lap = plan.strip.cut_length - 2 * plan.strip.allowance - around
        ease = -gather * lap
    seam = Seam(
        number="2",
        name=f"skirt waist to {piece.name}",
        first=waist,
        second=second,
        gather=gather,
        ease=ease,
    )
    return piece, seam


def _strip_notes(plan: Plan, *, lap: Mm) -> tuple[str, ...]:
    units = plan.spec.units
    if plan.spec.skirt.waist_finish is WaistFinish.CASING:
        return (f"for elastic {length_text(plan.spec.skirt.elastic, units)} wide",)
    return (f"its end laps {length_text(lap, units)} over, for a hook and bar",) if lap > 1 else ()
