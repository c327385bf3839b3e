"""The numbers of a draft, and the same as the JSON that the contract fixes.

Millimetres; angles in degrees. Imports the plan and the parts' formulas.
"""

import dataclasses
import math
from dataclasses import dataclass
from typing import Any

from drafting import bias, hem_pieces, opening, ruffle, waistband
from drafting.findings import Finding
from drafting.godet import sweep_added
from drafting.gored import ShapedGores
from drafting.hem import deepest_hem
from drafting.layer import Layer
from drafting.levelled import Levelled
from drafting.plan import Plan
from drafting.spec import Closure, HemFinish, Spec, WaistFinish
from drafting.tiers import Tier
from drafting.tilted import Tilted
from drafting.truing import Walked
from drafting.units import Mm
from drafting.waist import girth_below


@dataclass(frozen=True, slots=True, kw_only=True)
class DropFigures:
    """Estimated drop of a hem on the bias, ``angle`` from a panel's first edge, in degrees."""

    angle: float
    drop: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerFigures:
    """A skirt or a lining. What a cut has not is None.

    Lengths and sweep are those of the lowest edge, what hangs from the panels included; the
    radii are the panels' own.
    """

    cut: str
    fullness: float | None = None
    panels: int
    panel_angle: float | None = None
    waistline: Mm
    waist_radius: Mm | None = None
    waist_radius_max: Mm | None = None
    hem_radius: Mm | None = None
    hem_radius_max: Mm | None = None
    sweep: Mm
    length_front: Mm
    length_side: Mm
    length_back: Mm
    length_left: Mm | None = None
    length_right: Mm | None = None
    gather_ratio: float | None = None
    hipline: Mm | None = None
    hem_allowance_limit: Mm | None = None
    hem_allowance: Mm | None = None
    hem_spare: Mm | None = None
    bias_drop: Mm | None = None
    bias_drop_most: Mm | None = None
    bias_drops: tuple[DropFigures, ...] = ()
    hang_hours: int | None = None
    waist_stretch: float | None = None
    opening: Mm
    vent: Mm | None = None
    walking_sweep: Mm | None = None
    panel_waist: Mm | None = None
    panel_hem: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TierFigures:
    """A gathered tier of a skirt or a ruffle."""

    gather_ratio: float
    flat_length: Mm
    depth: Mm
    strips: int
    strip_cut_length: Mm
    strip_cut_depth: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class FlounceFigures:
    """A circular flounce; ``sewn_length`` is the edge that it is sewn to."""

    depth: Mm
    inner_radius: Mm
    outer_radius: Mm
    rings: int
    ring_angle: float
    sewn_length: Mm
    sweep: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class GodetFigures:
    """Godets, one in every seam; ``sweep`` is what all of them add."""

    depth: Mm
    angle: float
    count: int
    sweep: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class HemFigures:
    """What finishes the skirt's hem besides thread."""

    finish: str
    facing_depth: Mm | None = None
    strip_length: Mm | None = None
    strip_width: Mm | None = None
    braid_length: Mm | None = None
    braid_width: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WaistFigures:
    """The waist seam: finished and taped to ``finished``, whatever it was drafted to.

    Attributes:
        drop: below the natural waist; ``top`` is the upper edge of a band shaped above it.
    """

    finished: Mm
    drop: Mm | None = None
    top: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GatheringFigures:
    """One of the two ways to gather a ruffle, and what it takes; amounts are estimates."""

    method: str
    rows_from_edge: tuple[Mm, ...]
    thread_metres: float
    cord_metres: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RuffleFigures:
    """A ruffle on its lining. ``cord_metres`` is there when it is gathered over a cord.

    Attributes:
        seam_from_edge: from the raw upper edge to the seam line, beside the rows.
        ring: it closes all round below the opening; else its ends are hemmed there.
    """

    line_below_waist: Mm
    line_radius: Mm | None = None
    line_length: Mm
    flat_length: Mm
    strips: int
    strip_cut_length: Mm
    strip_cut_depth: Mm
    gather_ratio: float
    depth: Mm
    method: str
    rows_from_edge: tuple[Mm, ...]
    seam_from_edge: Mm
    join_allowance: Mm
    ring: bool
    sections: int
    line_quarter: Mm
    flat_quarter: Mm
    thread_metres: float
    cord_metres: float | None = None
    ways: tuple[GatheringFigures, ...] = ()
    join_from_seam: Mm | None = None
    tiers: tuple[TierFigures, ...] = ()
    gathered_length: Mm | None = None


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
    waist_radius: Mm | None = None
    outer_radius: Mm | None = None
    depth: Mm
    panels: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ContourFigures:
    """A band shaped to the body: both edges, their radii, its height."""

    top: Mm
    bottom: Mm
    top_radius: Mm
    bottom_radius: Mm
    height: Mm


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
    waist: WaistFigures
    flounce: FlounceFigures | None = None
    godets: GodetFigures | None = None
    tiers: tuple[TierFigures, ...] = ()
    hem: HemFigures | None = None
    lining: LayerFigures | None = None
    ruffle: RuffleFigures | None = None
    opening: OpeningFigures | None = None
    band: StripFigures | None = None
    casing: StripFigures | None = None
    binding: StripFigures | None = None
    contour: ContourFigures | None = None
    facing: FacingFigures | None = None
    cloth: dict[str, ClothFigures]
    truing: tuple[SeamFigures, ...] = ()


def _layer_figures(plan: Plan, layer: Layer, walking: Mm | None) -> LayerFigures:
    cut, lengths = layer.cut, layer.around
    uneven = abs(lengths.left - lengths.right) > 1e-6
    angle = cut.panel_angle
    lining = layer.part == "lining"
    limit = deepest_hem(layer.hem_radius, ease=layer.behaviour.hem_ease, finish=layer.finish)
    drop = 0.0 if layer.below and layer.below.tiers else layer.full_drop
    on_panel = angle is not None and drop > 0 and layer.below is None
    ratio = 1.0 if lining else plan.waist.gather_ratio
    drawn = lining or not plan.owned
    return LayerFigures(
        cut=_cut_name(plan, layer),
        fullness=cut.fullness if drawn else None,
        panels=cut.panels,
        panel_angle=None if angle is None or not drawn else math.degrees(angle),
        waistline=cut.waistline,
        waist_radius=None if not drawn or isinstance(cut, ShapedGores) else cut.waist_radius,
        waist_radius_max=cut.waist_radius_max if isinstance(cut, Tilted) else None,
        hem_radius=cut.hem_radius if drawn else None,
        hem_radius_max=_hem_radius_max(layer),
        sweep=layer.sweep,
        length_front=lengths.front,
        length_side=(lengths.left + lengths.right) / 2,
        length_back=lengths.back,
        length_left=lengths.left if uneven else None,
        length_right=lengths.right if uneven else None,
        gather_ratio=ratio if ratio > 1 else None,
        hipline=cut.hipline if isinstance(cut, ShapedGores) else None,
        hem_allowance_limit=None if math.isinf(limit) or not drawn else limit,
        hem_allowance=None if layer.below or not drawn else layer.allowances.hem,
        hem_spare=layer.allowances.spare or None,
        bias_drop=drop or None if drawn else None,
        bias_drop_most=(layer.most_drop if drop and drawn else 0.0) or None,
        bias_drops=_drops(layer) if on_panel else (),
        hang_hours=layer.behaviour.hang_hours if drawn else None,
        waist_stretch=plan.waist.lining_stretch if lining else plan.waist.stretch,
        opening=layer.opening,
        vent=layer.vent or None,
        walking_sweep=walking,
        panel_waist=cut.waistline / cut.panels,
        panel_hem=cut.sweep / cut.panels if cut.alike or isinstance(cut, Levelled) else None,
    )


def _cut_name(plan: Plan, layer: Layer) -> str:
    if plan.owned and layer.part == "skirt":
        return "owned"
    wish = plan.spec.lining if layer.part == "lining" else plan.spec.skirt
    assert wish is not None
    return wish.cut.value


def _hem_radius_max(layer: Layer) -> Mm | None:
    cut = layer.cut
    if cut.hem_radius is None:
        return None
    return cut.waist_radius + cut.around.most if isinstance(cut, Levelled) else None


def _drops(layer: Layer) -> tuple[DropFigures, ...]:
    assert layer.cut.panel_angle is not None
    found = bias.drops_on_panel(layer.cut.panel_angle, layer.grain, layer.full_drop)
    return tuple(DropFigures(angle=math.degrees(angle), drop=drop) for angle, drop in found)


def figures(plan: Plan, cloths: dict[str, ClothFigures], walked: tuple[Walked, ...]) -> Figures:
    """Return every number of a planned garment, its cloth and its walked seams."""
    spec, waist = plan.spec, plan.waist
    return Figures(
        title=spec.title,
        scale=spec.scale,
        waist=WaistFigures(
            finished=waist.finished,
            drop=waist.drop or None,
            top=waist.top if plan.contour is not None else None,
        ),
        skirt=_layer_figures(
            plan, plan.skirt, None if plan.lining or plan.owned else plan.walking_sweep
        ),
        flounce=_flounce_figures(plan),
        godets=_godet_figures(plan),
        tiers=_tier_figures(plan.skirt.below.tiers if plan.skirt.below else ()),
        hem=_hem_figures(plan),
        lining=_layer_figures(plan, plan.lining, plan.lining_walking_sweep)
        if plan.lining
        else None,
        ruffle=_ruffle_figures(plan),
        opening=_opening_figures(plan),
        cloth=cloths,
        truing=tuple(_seam_figures(one) for one in walked),
        **_waist_finish(plan),
    )


def _flounce_figures(plan: Plan) -> FlounceFigures | None:
    flounce = plan.skirt.below.flounce if plan.skirt.below else None
    if flounce is None:
        return None
    return FlounceFigures(
        depth=flounce.length,
        inner_radius=flounce.waist_radius,
        outer_radius=flounce.hem_radius,
        rings=flounce.panels,
        ring_angle=math.degrees(flounce.panel_angle),
        sewn_length=flounce.waistline,
        sweep=flounce.sweep,
    )


def _godet_figures(plan: Plan) -> GodetFigures | None:
    godets = plan.spec.skirt.godets
    if godets is None:
        return None
    count = plan.skirt.cut.panels
    return GodetFigures(
        depth=godets.depth,
        angle=math.degrees(godets.angle),
        count=count,
        sweep=sweep_added(godets.depth, godets.angle, count),
    )


def _tier_figures(tiers: tuple[Tier, ...]) -> tuple[TierFigures, ...]:
    return tuple(
        TierFigures(
            gather_ratio=tier.ratio,
            flat_length=tier.flat,
            depth=tier.depth,
            strips=tier.strips,
            strip_cut_length=tier.cut_length,
            strip_cut_depth=tier.cut_depth,
        )
        for tier in tiers
    )


def _hem_figures(plan: Plan) -> HemFigures | None:
    if plan.owned:
        return None
    layer, wish = plan.skirt, plan.spec.skirt
    strip = hem_pieces.hem_strip(layer, plan.binding_width)
    braid = layer.finish is HemFinish.BRAID
    return HemFigures(
        finish=layer.finish.value,
        facing_depth=wish.hem_facing if layer.finish is HemFinish.FACED else None,
        strip_length=strip.cut_length if strip else None,
        strip_width=strip.cut_width if strip else None,
        braid_length=hem_pieces.braid_length(layer.sweep) if braid else None,
        braid_width=wish.braid if braid else None,
    )


def _opening_figures(plan: Plan) -> OpeningFigures | None:
    if plan.closure is Closure.NONE:
        return None
    longest = max(plan.skirt.opening, plan.lining.opening if plan.lining else 0.0)
    if plan.owned:
        return OpeningFigures(length=longest)
    return OpeningFigures(
        length=longest, zip=opening.zip_length(longest + above_seam(plan.spec), plan.spec.units)
    )


def _seam_figures(walked: Walked) -> SeamFigures:
    return SeamFigures(
        number=walked.seam.number,
        seam=walked.seam.name,
        first=walked.first,
        second=walked.second,
        gather=walked.seam.gather,
        ease=walked.seam.ease,
        difference=walked.difference,
    )


def _waist_finish(plan: Plan) -> dict[str, Any]:
    """Return the figures of what the waist seam is sewn to, under their names."""
    spec, wish = plan.spec, plan.spec.skirt
    if plan.owned:
        return {}
    if plan.contour is not None:
        band = plan.contour
        return {
            "contour": ContourFigures(
                top=band.waistline,
                bottom=band.sweep,
                top_radius=band.waist_radius,
                bottom_radius=band.hem_radius,
                height=band.length,
            )
        }
    if wish.waist_finish is WaistFinish.FACING:
        line = plan.waist.line / plan.waist.gather_ratio
        radius = plan.skirt.cut.waist_radius
        return {
            "facing": FacingFigures(
                waistline=line,
                waist_radius=None if radius is None else radius / plan.waist.gather_ratio,
                outer_radius=(
                    None if radius is None else radius / plan.waist.gather_ratio + wish.facing
                ),
                depth=wish.facing,
                panels=plan.skirt.cut.panels,
            )
        }
    if plan.strip is None:
        return {}
    casing = wish.waist_finish is WaistFinish.CASING
    strip = StripFigures(
        cut_length=plan.strip.cut_length,
        cut_width=plan.strip.cut_width,
        elastic=waistband.elastic_length(girth_below(spec.wearer, wish.drop)) if casing else None,
    )
    names = {WaistFinish.BAND: "band", WaistFinish.CASING: "casing", WaistFinish.BIAS: "binding"}
    return {names[wish.waist_finish]: strip}


def above_seam(spec: Spec) -> Mm:
    """Return how much of the zip runs above the waist seam."""
    return spec.skirt.band if spec.skirt.waist_finish is WaistFinish.BAND else 0.0


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
        seam_from_edge=ruffle.TOP_ALLOWANCE,
        join_allowance=drafted.habit.join_allowance,
        ring=drafted.ring,
        sections=drafted.sections,
        line_quarter=drafted.line_length / 4,
        flat_quarter=drafted.flat_length / 4,
        thread_metres=ruffle.thread_metres(drafted, drafted.method),
        cord_metres=ruffle.cord_metres(drafted) if cord else None,
        ways=tuple(_gathering(drafted, method) for method in ruffle.Method),
        join_from_seam=ruffle.join_clearance(drafted, plan.lining.cut.panels),
        tiers=_tier_figures(drafted.tiers),
        gathered_length=drafted.gathered_length if drafted.tiers else None,
    )


def _gathering(drafted: ruffle.RuffleDraft, method: ruffle.Method) -> GatheringFigures:
    return GatheringFigures(
        method=method.value,
        rows_from_edge=ruffle.rows_by(drafted, method),
        thread_metres=ruffle.thread_metres(drafted, method),
        cord_metres=ruffle.cord_metres(drafted) if method is ruffle.Method.CORD else None,
    )


def as_json(figures: Figures, findings: tuple[Finding, ...]) -> dict[str, Any]:
    """Return the figures and findings as the contract's JSON: millimetres and degrees."""
    plain = {"title": figures.title, "units": "mm", **_plain(figures)}
    plain["findings"] = [
        {"level": f.level.value, "code": f.code, "what": f.what, "do": f.do} for f in findings
    ]
    return plain


_RATIOS = {"fullness", "gather", "gather_ratio", "waist_stretch"}
"""Figures that are no lengths: a length times one of them must keep its thousandth."""


def _plain(value: Any) -> Any:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        pairs = ((f.name, getattr(value, f.name)) for f in dataclasses.fields(value))
        return {
            name: round(held, 9) if name in _RATIOS else _plain(held)
            for name, held in pairs
            if held is not None and held != ()
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
