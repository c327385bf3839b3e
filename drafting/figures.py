"""The numbers of a draft, and the same as the JSON that the contract fixes.

Millimetres; angles in degrees. Imports the plan and the parts' formulas.
"""

import dataclasses
import math
from dataclasses import dataclass
from typing import Any

from drafting import opening, ruffle, waistband
from drafting.circle import Flare
from drafting.cloth_kinds import behaviour
from drafting.cuts import around
from drafting.findings import Finding
from drafting.hem import bias_drop, deepest_hem
from drafting.levelled import Levelled
from drafting.plan import Layer, Plan
from drafting.spec import Closure, HemFinish, Spec, WaistFinish
from drafting.truing import Walked
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerFigures:
    """A skirt or a lining."""

    fullness: float
    panels: int
    panel_angle: float
    waistline: Mm
    waist_radius: Mm
    hem_radius: Mm
    hem_radius_max: Mm | None = None
    sweep: Mm
    length_front: Mm
    length_side: Mm
    length_back: Mm
    length_left: Mm | None = None
    length_right: Mm | None = None
    hem_allowance_limit: Mm
    bias_drop: Mm
    opening: Mm
    walking_sweep: Mm | None = None
    panel_waist: Mm
    panel_hem: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class RuffleFigures:
    """A ruffle on its lining. ``cord_metres`` is there when it is gathered over a cord."""

    line_below_waist: Mm
    line_radius: Mm
    line_length: Mm
    flat_length: Mm
    strips: int
    strip_cut_length: Mm
    strip_cut_depth: Mm
    gather_ratio: float
    depth: Mm
    method: str
    rows_from_edge: tuple[Mm, ...]
    sections: int
    line_quarter: Mm
    flat_quarter: Mm
    thread_metres: float
    cord_metres: float | None = None
    join_from_seam: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningFigures:
    """How long the longest layer is left open, and the zip for it with its band."""

    length: Mm
    zip: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StripFigures:
    """A band or a casing."""

    cut_length: Mm
    cut_width: Mm
    elastic: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FacingFigures:
    """A shaped waist facing; its outer edge is neatened, not hemmed."""

    waistline: Mm
    waist_radius: Mm
    outer_radius: Mm
    depth: Mm
    panels: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothFigures:
    """What rows of boxes take of one cloth."""

    width: Mm
    usable: Mm
    rows_length: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamFigures:
    """A seam that was walked: first = gather x second + ease + difference."""

    number: str
    seam: str
    first: Mm
    second: Mm
    gather: float
    ease: Mm
    difference: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Every number of a draft. A part that the sheet leaves out is None."""

    title: str
    scale: float = 1.0
    skirt: LayerFigures
    lining: LayerFigures | None = None
    ruffle: RuffleFigures | None = None
    opening: OpeningFigures | None = None
    band: StripFigures | None = None
    casing: StripFigures | None = None
    facing: FacingFigures | None = None
    cloth: dict[str, ClothFigures]
    truing: tuple[SeamFigures, ...] = ()


def _layer_figures(layer: Layer, finish: HemFinish, walking: Mm | None) -> LayerFigures:
    cut = layer.cut
    lengths = around(cut)
    uneven = abs(lengths.left - lengths.right) > 1e-6
    kind = behaviour(layer.cloth.kind)
    return LayerFigures(
        fullness=cut.fullness,
        panels=cut.panels,
        panel_angle=math.degrees(cut.panel_angle),
        waistline=cut.waistline,
        waist_radius=cut.waist_radius,
        hem_radius=cut.hem_radius,
        sweep=cut.sweep,
        hem_radius_max=cut.waist_radius + cut.longest if isinstance(cut, Levelled) else None,
        length_front=lengths.front,
        length_side=(lengths.left + lengths.right) / 2,
        length_back=lengths.back,
        length_left=lengths.left if uneven else None,
        length_right=lengths.right if uneven else None,
        hem_allowance_limit=deepest_hem(cut.hem_radius, ease=kind.hem_ease, finish=finish),
        bias_drop=bias_drop(cut.waist_radius, cut.hem_radius, reference=kind.bias_drop),
        opening=layer.opening,
        walking_sweep=walking,
        panel_waist=cut.waistline / cut.panels,
        panel_hem=cut.sweep / cut.panels,
    )


def figures(plan: Plan, cloths: dict[str, ClothFigures], walked: tuple[Walked, ...]) -> Figures:
    """Return every number of a planned garment, its cloth and its walked seams."""
    spec, wish = plan.spec, plan.spec.skirt
    longest = max(plan.skirt.opening, plan.lining.opening if plan.lining else 0.0)
    facing = None
    if wish.waist_finish is WaistFinish.FACING:
        flare = waistband.facing_flare(
            plan.skirt.cut, gather_ratio=wish.gather_ratio, depth=wish.facing
        )
        facing = _facing_figures(flare)
    strip = None
    if plan.strip is not None:
        casing = wish.waist_finish is WaistFinish.CASING
        strip = StripFigures(
            cut_length=plan.strip.cut_length,
            cut_width=plan.strip.cut_width,
            elastic=waistband.elastic_length(spec.wearer.waist) if casing else None,
        )
    return Figures(
        title=spec.title,
        skirt=_layer_figures(plan.skirt, wish.hem, None if plan.lining else plan.walking_sweep),
        lining=(
            _layer_figures(plan.lining, HemFinish.NARROW, plan.lining_walking_sweep)
            if plan.lining
            else None
        ),
        ruffle=_ruffle_figures(plan),
        opening=(
            OpeningFigures(
                length=longest, zip=opening.zip_length(longest + _above_seam(spec), spec.units)
            )
            if plan.closure is not Closure.NONE
            else None
        ),
        band=strip if wish.waist_finish is WaistFinish.BAND else None,
        casing=strip if wish.waist_finish is WaistFinish.CASING else None,
        facing=facing,
        cloth=cloths,
        truing=tuple(
            SeamFigures(
                number=w.seam.number,
                seam=w.seam.name,
                first=w.first,
                second=w.second,
                gather=w.seam.gather,
                ease=w.seam.ease,
                difference=w.difference,
            )
            for w in walked
        ),
    )


def _above_seam(spec: Spec) -> Mm:
    """Return how far the zip runs on above the waist seam: through a band."""
    return spec.skirt.band if spec.skirt.waist_finish is WaistFinish.BAND else 0.0


def _facing_figures(flare: Flare) -> FacingFigures:
    return FacingFigures(
        waistline=flare.waistline,
        waist_radius=flare.waist_radius,
        outer_radius=flare.hem_radius,
        depth=flare.length,
        panels=flare.panels,
    )


def _ruffle_figures(plan: Plan) -> RuffleFigures | None:
    drafted = plan.ruffle
    if drafted is None or plan.lining is None:
        return None
    cord = drafted.method is ruffle.Method.CORD
    return RuffleFigures(
        line_below_waist=drafted.line_below_waist,
        line_radius=drafted.line_radius,
        line_length=drafted.line_length,
        flat_length=drafted.flat_length,
        strips=drafted.strips,
        strip_cut_length=drafted.strip_cut_length,
        strip_cut_depth=drafted.strip_cut_depth,
        gather_ratio=drafted.gather_ratio,
        depth=drafted.depth,
        method=drafted.method.value,
        rows_from_edge=drafted.rows,
        sections=drafted.sections,
        line_quarter=drafted.line_length / 4,
        flat_quarter=drafted.flat_length / 4,
        thread_metres=ruffle.thread_metres(drafted, drafted.method),
        cord_metres=ruffle.cord_metres(drafted) if cord else None,
        join_from_seam=ruffle.join_clearance(drafted, plan.lining.cut.panels),
    )


def as_json(figures: Figures, findings: tuple[Finding, ...]) -> dict[str, Any]:
    """Return the figures and findings as the contract's JSON: millimetres and degrees."""
    plain = {"title": figures.title, "units": "mm", **_plain(figures)}
    plain["findings"] = [
        {"level": f.level.value, "code": f.code, "what": f.what, "do": f.do} for f in findings
    ]
    return plain


_RATIOS = {"fullness", "gather", "gather_ratio"}
"""Figures that are no lengths: a length times one of them must keep its thousandth."""


def _plain(value: Any) -> Any:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        pairs = ((f.name, getattr(value, f.name)) for f in dataclasses.fields(value))
        return {
            name: round(held, 9) if name in _RATIOS else _plain(held)
            for name, held in pairs
            if held is not None
        }
    if isinstance(value, dict):
        return {key: _plain(held) for key, held in value.items()}
    if isinstance(value, tuple):
        return [_plain(held) for held in value]
    if isinstance(value, float):
        # A thousandth of a millimetre is below any tool's reach, and hides the last bits in
        # which one machine's mathematics differs from another's.
        return round(value, 3) + 0.0
    return value
