"""Drawing a planned garment: its pieces, and which of their edges are sewn together.

Millimetres and radians. Imports the plan and the parts' pieces.
"""

from dataclasses import replace

from drafting import ruffle, waistband
from drafting.circle import PanelWishes, panel
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
    pieces = [panel(plan.skirt.flare, of_skirt)]
    seams = _side_seam("1", pieces[0])
    around = plan.skirt.flare.panels * (2 if plan.skirt.half else 1)
    waist = Side(piece=pieces[0].name, edge="waist", times=around)
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
        pieces.append(panel(plan.lining.flare, of_lining))
        seams += _side_seam("3", pieces[-1])
        times = plan.lining.flare.panels * (2 if plan.lining.half else 1)
        drawn_up = wish.waist_finish is WaistFinish.CASING
        seams.append(
            Seam(
                number="2",
                name="skirt waist to lining waist",
                first=waist,
                second=Side(piece=pieces[-1].name, edge="waist", times=times),
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
                    first=Side(piece=strip.name, edge="gathered", times=placed.strips),
                    second=Side(piece=pieces[-1].name, edge="ruffle line", times=times),
                    gather=placed.gather_ratio,
                    ease=0.0 if placed.ring else 2 * (ruffle.END_HEM - a),
                )
            )
            pieces.append(strip)
    top, seam = _waist_piece(plan, of_skirt, waist)
    return (*pieces, top), tuple(sorted((*seams, seam), key=lambda one: one.number))


def _has_place(drafted: ruffle.RuffleDraft) -> bool:
    return drafted.line_below_waist >= ruffle.HIGHEST_LINE


def _side_seam(number: str, piece: Piece) -> list[Seam]:
    # A half stands for both edges, so its one edge is sewn to its own mirror image.
    other = piece.edges[0] if piece.half else piece.edges[2]
    return [
        Seam(
            number=number,
            name=f"{piece.name} to {piece.name}",
            first=Side(piece=piece.name, edge=piece.edges[0].name),
            second=Side(piece=piece.name, edge=other.name),
        )
    ]


def _waist_piece(plan: Plan, of_skirt: PanelWishes, waist: Side) -> tuple[Piece, Seam]:
    wish = plan.spec.skirt
    if plan.strip is None:
        flare = waistband.facing_flare(
            plan.skirt.flare, gather_ratio=wish.gather_ratio, depth=wish.facing
        )
        slitless = replace(of_skirt, opening=0.0)
        piece = waistband.facing_piece(flare, slitless)
        second = Side(piece=piece.name, edge="waist", times=waist.times)
        gather, ease = wish.gather_ratio, 0.0
    else:
        casing = wish.waist_finish is WaistFinish.CASING
        around = plan.skirt.flare.waistline if casing else plan.finished_waist
        piece = waistband.strip_piece(
            plan.strip,
            name="casing" if casing else "band",
            around=around,
            closure=plan.closure,
            seam="2",
            notes=_strip_notes(plan, lap=plan.strip.cut_length - 2 * plan.strip.allowance - around),
        )
        second = Side(piece=piece.name, edge="waist")
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
