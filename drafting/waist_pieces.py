"""What the waist seam is sewn to, drawn: band, contour band, facing, casing or binding.

Millimetres. Imports the plan, waistband, edging and piece.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from drafting import waistband
from drafting.circle import Flare
from drafting.cuts import hip_fullness
from drafting.edging import edging
from drafting.language import say
from drafting.levelled import Levelled
from drafting.panel_wishes import PanelWishes
from drafting.piece import Piece
from drafting.plan import Plan
from drafting.spec import WaistFinish
from drafting.truing import Seam, Side
from drafting.units import Mm, length_text

STAY_WIDTH: Mm = 25.0
"""Width of the interfacing along an opening, on each side."""

STAY_SPARE: Mm = 20.0
"""How far it reaches below the opening's end."""


def waist_pieces(
    plan: Plan, panels: Sequence[Piece], of_skirt: PanelWishes
) -> tuple[tuple[Piece, ...], tuple[Seam, ...]]:
    """Return what finishes the waist, with its interfacing, and the seam that sews it on.

    A bodice brings its own seam: nothing is drawn for it.

    Args:
        panels: the skirt's; ``of_skirt`` is how they were drawn.
    """
    finish = plan.spec.skirt.waist_finish
    waist = tuple(
        Side(piece=p.name, edge="waist", times=p.count * (2 if p.half else 1)) for p in panels
    )
    if finish is WaistFinish.BODICE:
        return _stays(plan), ()
    if finish is WaistFinish.FACING:
        found = _facings(plan, panels, of_skirt)
    elif plan.contour is not None:
        found = (_contour(plan, of_skirt),)
    else:
        found = (_strip(plan),)
    interfaced = finish in (WaistFinish.BAND, WaistFinish.FACING)
    if plan.spec.skirt.interfacing and interfaced:
        found = tuple(_interfaced(piece) for piece in found)
    return (*found, *_stays(plan)), (_seam(plan, found, waist),)


def _seam(plan: Plan, found: Sequence[Piece], waist: tuple[Side, ...]) -> Seam:
    """Return the waist seam: the skirt's flat edge, gathered and eased onto its finish."""
    sewn = tuple(Side(piece=p.name, edge="waist", times=_times(p)) for p in found)
    finish = plan.spec.skirt.waist_finish
    whole = plan.waist
    if finish is WaistFinish.FACING:
        # The facing is cut as small as the skirt, and the tape holds both.
        gather, lap = (1.0 if _by_panels(plan) else whole.gather_ratio), 0.0
    elif finish is WaistFinish.CASING:
        gather, lap = 1.0, 0.0
    else:
        gather, lap = whole.line / whole.finished, _lap(plan)
    return Seam(
        number="2",
        name=f"skirt waist to {found[0].name}",
        first=waist,
        second=sewn,
        gather=gather,
        ease=-gather * lap,
    )


def _times(piece: Piece) -> int:
    # A band is cut twice, for the outside and the inside; one of them is sewn to the skirt.
    count = 1 if piece.name == "band" else piece.count
    return count * (2 if piece.half else 1)


def _lap(plan: Plan) -> Mm:
    """Return how far the strip is longer than the waist that it closes round."""
    if plan.strip is None or plan.spec.skirt.waist_finish is not WaistFinish.BAND:
        return 0.0
    return plan.strip.cut_length - 2 * plan.strip.allowance - plan.waist.finished


def _by_panels(plan: Plan) -> bool:
    """Tell whether the facing is cut along the panels' own waists."""
    plain = isinstance(plan.skirt.cut, Flare | Levelled)
    return not plain and plan.waist.gather_ratio == 1


def _facings(plan: Plan, panels: Sequence[Piece], of_skirt: PanelWishes) -> tuple[Piece, ...]:
    depth = plan.spec.skirt.facing
    if _by_panels(plan):
        apart = len(panels) > 1
        return tuple(
            edging(
                panel,
                "waist",
                depth,
                allowance=plan.skirt.allowances.waist,
                name=f"facing {panel.name.removeprefix('skirt ')}" if apart else "facing",
                words=say("waist"),
            )
            for panel in panels
        )
    body = plan.spec.wearer
    lean = (body.hip - body.waist) / (math.tau * body.hip_depth)
    flare = waistband.facing_flare(
        plan.skirt.cut,
        finished=plan.waist.line / plan.waist.gather_ratio,
        hip_fullness=max(hip_fullness(plan.skirt.cut) or lean, 0.05),
        depth=depth,
    )
    slitless = replace(
        of_skirt, opening=0.0, pocket=None, godet=0.0, hem_seam="", gathered=False, notes=(),
        waist_words=say("waist"),
    )  # fmt: skip
    return (waistband.facing_piece(flare, slitless),)


def _contour(plan: Plan, of_skirt: PanelWishes) -> Piece:
    assert plan.contour is not None
    return waistband.contour_piece(
        plan.contour,
        replace(
            of_skirt, seam="2", waist_seam="", hem_seam="2", hem_quarters=True, pocket=None,
            godet=0.0, gathered=False, notes=(),
        ),
    )  # fmt: skip


def _strip(plan: Plan) -> Piece:
    wish, units = plan.spec.skirt, plan.spec.units
    assert plan.strip is not None
    if wish.waist_finish is WaistFinish.BIAS:
        return waistband.bias_piece(
            plan.strip,
            name="waist binding",
            seam="2",
            notes=(
                say(
                    "bind the waist seam with it, cut down to {width}",
                    width=length_text(plan.skirt.allowances.waist, units),
                ),
            ),
        )
    casing = wish.waist_finish is WaistFinish.CASING
    lap = _lap(plan)
    notes: tuple[str, ...] = ()
    if casing:
        notes = (
            say("for elastic {width} wide", width=length_text(wish.elastic, units)),
            say("leave 3 cm of its end seam open to thread it"),
        )
    elif lap > 1:
        told = say("its end laps {lap} over, for a hook and bar", lap=length_text(lap, units))
        notes = (told,)
    return waistband.strip_piece(
        plan.strip,
        name="casing" if casing else "band",
        around=plan.waist.line if casing else plan.waist.finished,
        closure=plan.closure,
        seam="2",
        across=casing and plan.strip.cut_length <= plan.skirt.usable,
        notes=notes,
    )


def _interfaced(piece: Piece) -> Piece:
    # Of a band cut twice only the outside is interfaced; of a facing every part.
    count = 1 if piece.name == "band" else piece.count
    return replace(piece, also=(*piece.also, ("interfacing", count)))


def _stays(plan: Plan) -> tuple[Piece, ...]:
    """Return the strips of interfacing that keep an opening from stretching."""
    if not (plan.spec.skirt.interfacing and plan.skirt.opening):
        return ()
    long = plan.skirt.opening + STAY_SPARE
    return (waistband.stay_piece(long=long, wide=STAY_WIDTH),)
