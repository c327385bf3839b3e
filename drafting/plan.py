"""A garment in numbers: every part worked out from the spec before anything is drawn.

Millimetres and radians. Imports the parts' formulas; draws nothing.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from drafting import lining, opening, ruffle, tiers, waistband
from drafting.allowance import Widths
from drafting.around import Around, all_round
from drafting.circle import Flare
from drafting.cloth import panel_width, usable_width
from drafting.cuts import hip_fullness, planned_cut
from drafting.errors import DraftingError, GeometryError
from drafting.flounce import MOST_RINGS, flounce_flare
from drafting.gathered import Gathered
from drafting.godet import sweep_added
from drafting.half_scale import HEM_ALLOWANCE
from drafting.hem import STRAIGHT_HEM, usual_hem
from drafting.layer import LEAST_DROP, Below, Layer, estimated_drop, fitted, grain_of, widths
from drafting.measurements import SHOE_SHARE
from drafting.outline import Cut
from drafting.pieced import Unbroken
from drafting.spec import (
    BandShape,
    Closure,
    Cloth,
    CutKind,
    Grain,
    HemFinish,
    LevelAt,
    Scope,
    Spec,
    WaistFinish,
)
from drafting.units import Mm
from drafting.waist import Waist, planned_waist

SHORTEST_LINING: Mm = 100.0
"""No layer is finished shorter than this; a lining planned below it is held here and refused."""

CLEAR_OF_OPENING: Mm = 30.0
"""A ruffle closer than this below the end of the opening stops at it with hemmed ends."""

LEAST_PANEL: Mm = 20.0
"""A panel shorter than this is all seam allowance."""

DEEPEST_FLOUNCE_HEM: Mm = 30.0
"""Cloth below a flounce's finished edge, hem and spare, that its rings are fitted with."""

NARROWEST_BINDING: Mm = 60.0
"""No bias strip can be cut from a cloth narrower than this."""

FROM_THE_KNEE: Mm = 60.0
"""A vent begins this far above the knee, so that the knee itself is free."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The parts of a garment in numbers, before anything is drawn.

    Attributes:
        closure: where it really opens; a casing is pulled on.
        floor: waist to floor in the shoes that are worn, from the natural waist.
        skirt: the outer layer; an owned skirt's is there to be checked against, not drawn.
        contour: a shaped band in numbers, its waistline the upper edge.
        walking_sweep: least sweep for one step at the skirt's hem.
        faults: what cannot be drawn as it was asked; a plainer part stands in for it in the
            numbers, and the advice stops the draft.
    """

    spec: Spec
    closure: Closure
    waist: Waist
    floor: Around
    skirt: Layer
    lining: Layer | None
    ruffle: ruffle.RuffleDraft | None
    strip: waistband.Strip | None
    contour: Flare | None
    walking_sweep: Mm
    lining_walking_sweep: Mm | None
    faults: tuple[DraftingError, ...] = ()

    @property
    def owned(self) -> bool:
        """Whether the skirt is sewn already and only what goes into it is drafted."""
        return self.spec.skirt.owned is not None

    @property
    def binding_width(self) -> Mm:
        """Width of the cloth that bias strips are cut from, between its selvages."""
        return usable_width(self.spec.cloths.binding)

    @property
    def flounce_widths(self) -> Widths:
        """Allowances of a flounce: the skirt's, with the hem that its own curve takes."""
        flounce = self.skirt.below.flounce if self.skirt.below else None
        held = self.skirt.allowances
        given, asked = self.spec.skirt.allowances.hem, self.spec.skirt.allowances.spare
        if flounce is None:
            return held
        usual = usual_hem(
            flounce.hem_radius, ease=self.skirt.behaviour.hem_ease, finish=self.skirt.finish
        )
        if given is not None:
            return replace(held, hem=given, spare=asked or 0.0)
        if self.spec.scale < 1:
            usual = min(usual, HEM_ALLOWANCE)
        drop = estimated_drop(flounce, self.skirt.cloth)
        spare = math.ceil(drop) if drop >= LEAST_DROP else 0.0
        return replace(held, hem=usual, spare=spare if asked is None else asked)


def plan(spec: Spec) -> Plan:
    """Return the garment in numbers: radii, openings, panels that fit their cloth, the ruffle."""
    wish = spec.skirt
    pulls_on = wish.waist_finish is WaistFinish.CASING
    closure = Closure.NONE if pulls_on else wish.closure
    waist = planned_waist(spec)
    floor = _floor(spec)
    lengths = _lengths(spec, floor, waist)
    faults: list[DraftingError] = []
    bias_cut = spec.skirt.hem in (HemFinish.BOUND, HemFinish.BIAS_FACED)
    bias_cut |= spec.skirt.waist_finish is WaistFinish.BIAS
    if bias_cut and usable_width(spec.cloths.binding) < NARROWEST_BINDING:
        faults.append(
            GeometryError(
                f"the binding's cloth has {usable_width(spec.cloths.binding):.0f} mm between its"
                " selvages; check its width under [cloth.binding]"
            )
        )
    skirt = _skirt(spec, waist, closure, lengths, faults)
    lined = _lining(spec, waist, closure, lengths, floor, faults)

    return Plan(
        spec=spec,
        closure=closure,
        waist=waist,
        floor=floor,
        skirt=skirt,
        lining=lined,
        ruffle=_ruffle(spec, lined, faults),
        strip=_strip(spec, closure, waist, skirt.allowances.waist),
        contour=_contour(spec, waist),
        walking_sweep=_walking(spec, waist, floor, skirt.length),
        lining_walking_sweep=_walking(spec, waist, floor, lined.length) if lined else None,
        faults=tuple(faults),
    )


def _walking(spec: Spec, waist: Waist, floor: Around, length: Mm) -> Mm:
    """Return the least sweep for one step at a hem ``length`` below the waist seam."""
    return lining.walking_sweep(
        step=spec.wearer.step,
        # Counted from the natural waist, as the leg is.
        length=length + waist.drop,
        hip_depth=spec.wearer.hip_depth,
        floor=(floor.left + floor.right) / 2,
        hip=spec.wearer.hip,
        scale=spec.scale,
    )


def _floor(spec: Spec) -> Around:
    wearer = spec.wearer
    shoes = SHOE_SHARE * wearer.heel
    return Around(
        front=wearer.floor_front + shoes,
        left=(wearer.floor_left or wearer.floor_side) + shoes,
        back=wearer.floor_back + shoes,
        right=(wearer.floor_right or wearer.floor_side) + shoes,
    )


def _lengths(spec: Spec, floor: Around, waist: Waist) -> Around:
    """Return the whole skirt's lengths from its waist seam to its lowest edge."""
    wish = spec.skirt
    if wish.owned is not None:
        return all_round(wish.owned.length)
    if wish.hem_above_floor is not None:
        return floor.less(wish.hem_above_floor + waist.drop)
    if wish.level is LevelAt.WAIST:
        side = (floor.left + floor.right) / 2
        return floor.less(side - wish.length + waist.drop)
    return all_round(wish.length - waist.drop)


# --- the skirt -----------------------------------------------------------------------------


def _cut(
    spec: Spec, waist: Waist, lengths: Around, faults: list[DraftingError], *, of_lining: bool
) -> Cut:
    """Return how a layer is cut; where that has no shape, a plain flare, and the fault is kept."""
    try:
        if lengths.least < LEAST_PANEL:
            raise GeometryError(
                f"its panels would be {max(lengths.least, 0):.0f} mm long; make it longer, or what"
                " hangs from it less deep"
            )
        return planned_cut(spec, waist, lengths, of_lining=of_lining)
    except DraftingError as error:
        faults.append(error)
        line = waist.lining_line if of_lining else waist.line
        return Flare(fullness=1.0, panels=2, waistline=line, length=max(lengths.least, LEAST_PANEL))


def _skirt(
    spec: Spec, waist: Waist, closure: Closure, lengths: Around, faults: list[DraftingError]
) -> Layer:
    wish = spec.skirt
    if wish.owned is not None:
        return _owned(spec, waist)
    depths: tuple[Mm, ...] = ()
    if wish.cut is CutKind.TIERED:
        yoke = wish.tiers.yoke if wish.tiers.yoke is not None else waist.hip_depth
        left = max(lengths.least - yoke, 1.0)
        depths = tiers.tier_depths(left, len(wish.tiers.ratios), wish.tiers.growth)
    hanging = math.fsum(depths) or (wish.flounce.depth if wish.flounce else 0.0)
    cut = _cut(spec, waist, lengths.less(hanging), faults, of_lining=False)
    if wish.trim_bias and isinstance(cut, Flare) and not hanging:
        cut = replace(cut, drop=estimated_drop(cut, spec.cloths.skirt), grain=wish.grain)
    layer = _layer(spec, waist, closure, cut, part="skirt", finish=wish.hem, hanging=hanging > 0)
    if wish.godets is not None and wish.godets.depth < layer.cut.length:
        added = sweep_added(wish.godets.depth, wish.godets.angle, layer.cut.panels)
        layer = replace(layer, godets=added)
    try:
        return layer.with_below(_below(spec, layer, depths))
    except DraftingError as error:
        faults.append(error)
        return layer


def _owned(spec: Spec, waist: Waist) -> Layer:
    """Return the layer that a skirt already sewn amounts to: its waist, its length, its sweep."""
    owned = spec.skirt.owned
    assert owned is not None
    cut: Cut = Gathered(panels=1, waistline=owned.waist, around=all_round(owned.length))
    fullness = (owned.sweep - owned.waist) / (math.tau * owned.length)
    if fullness > 0:
        cut = Flare(fullness=fullness, panels=1, waistline=owned.waist, length=owned.length)
    return Layer(
        part="skirt",
        cut=cut,
        cloth=spec.cloths.skirt,
        allowances=Widths(waist=0.0, side=0.0, hem=0.0),
        finish=spec.skirt.hem,
        grain=spec.skirt.grain,
        asked_panels=1,
    )


def _below(spec: Spec, layer: Layer, depths: tuple[Mm, ...]) -> Below | None:
    """Return what is sewn to the lower edge of the skirt's own panels."""
    wish, edge = spec.skirt, layer.cut.sweep
    if depths:
        lowest = usual_hem(None, ease=layer.behaviour.hem_ease, finish=wish.hem)
        if wish.hem is HemFinish.TURNED:
            lowest = min(STRAIGHT_HEM, depths[-1] / 3)
        if spec.scale < 1:
            lowest = min(lowest, HEM_ALLOWANCE)
        ways = tiers.StripWays(
            usable=layer.usable,
            join=layer.allowances.side,
            top=ruffle.TOP_ALLOWANCE,
            seam=ruffle.TOP_ALLOWANCE,
            hem=lowest if wish.allowances.hem is None else wish.allowances.hem,
        )
        return Below(tiers=tiers.tiers(edge, wish.tiers.ratios, depths, ways), ways=ways)
    if wish.flounce is None:
        return None
    flare = flounce_flare(
        edge,
        depth=wish.flounce.depth,
        ratio=wish.flounce.ratio,
        join=layer.allowances.side,
        inner=layer.allowances.waist,
    )
    around = replace(layer.allowances, hem=DEEPEST_FLOUNCE_HEM, spare=0.0)
    while panel_width(flare, around, Grain.CENTRE) > layer.usable:
        if flare.panels >= MOST_RINGS:
            raise GeometryError(
                f"no ring of a flounce {flare.length:.0f} mm deep fits the cloth; make it less"
                " deep, or buy wider cloth"
            )
        flare = flare.divided(flare.panels + 1)
    return Below(flounce=flare)


# --- the lining ----------------------------------------------------------------------------


def _lining(
    spec: Spec,
    waist: Waist,
    closure: Closure,
    lengths: Around,
    floor: Around,
    faults: list[DraftingError],
) -> Layer | None:
    wish = spec.lining
    if wish is None:
        return None
    shorter = min(wish.shorter, lengths.least - SHORTEST_LINING * spec.scale)
    cut = _cut(spec, waist, lengths.less(shorter), faults, of_lining=True)
    # A lining's hem is narrow, whatever the skirt's: light, and out of sight.
    layer = _layer(spec, waist, closure, cut, part="lining", finish=HemFinish.NARROW)
    if wish.vent is not None:
        return layer.with_vent(wish.vent)
    if wish.cut is not CutKind.GORED or closure is Closure.NONE:
        return layer
    need = lining.STAIRS * _walking(spec, waist, floor, layer.length)
    if layer.sweep >= need:
        return layer
    knee = spec.wearer.waist_to_knee - waist.drop - FROM_THE_KNEE * spec.scale
    return layer.with_vent(max(layer.length - knee, 0.0))


# --- any layer -----------------------------------------------------------------------------


def _layer(
    spec: Spec,
    waist: Waist,
    closure: Closure,
    cut: Cut,
    *,
    part: str,
    finish: HemFinish,
    hanging: bool = False,
) -> Layer:
    """Return a layer with its opening and its allowances, in panels that its cloth takes.

    Args:
        hanging: something is sewn to its lower edge, which is a seam then and no hem.
    """
    of: Cloth = spec.cloths.skirt if part == "skirt" else spec.cloths.lining
    slit = 0.0
    if closure is not Closure.NONE:

        def slit_below(top: Mm) -> Mm:
            return opening.slit_length(
                hip=spec.wearer.hip,
                hip_depth=waist.hip_depth,
                finished_waist=top,
                line=cut.waistline,
                fullness=hip_fullness(cut, waist.gather_ratio if part == "skirt" else 1.0),
                gathered=cut.waistline > waist.finished,
                length=cut.length,
                scale=spec.scale,
            )

        # A shaped band opens too, and its narrower upper edge with it.
        slit = slit_below(waist.finished)
        if waist.top < waist.finished:
            slit = max(slit, slit_below(waist.top) - spec.skirt.band)
    allowances = widths(spec, part=part, finish=finish, cut=cut, of=of, hanging=hanging)
    made = fitted(
        cut,
        of,
        allowances,
        part=part,
        grain=grain_of(spec, part),
        finish=finish,
        closure=closure,
        unbroken=_unbroken(spec, cut, of, slit, part=part, finish=finish),
    )
    # Narrower panels come less near to full bias, and need less to spare.
    settled = widths(spec, part=part, finish=finish, cut=made.cut, of=of, hanging=hanging)
    return replace(made, allowances=settled).opened(slit)


POCKETS_END = 0.8
"""No pocket's bag reaches further down than this part of its panel."""


def _unbroken(
    spec: Spec, cut: Cut, of: Cloth, slit: Mm, *, part: str, finish: HemFinish
) -> Unbroken | None:
    """Return what corners pieced onto a layer's panels keep clear of, None for no corners."""
    if not of.piecing or spec.print.scope is not Scope.WHOLE:
        return None  # a waist, or a card, says nothing of the hem's corners
    above = slit
    if part == "skirt":
        # A shaped facing is cut to the whole panel's hem, and would be as wide.
        if finish is HemFinish.FACED or spec.skirt.godets is not None:
            return None
        if spec.skirt.pockets:
            above = max(above, POCKETS_END * cut.length)
        return Unbroken(above=above)
    wish = spec.lining
    if wish is not None and wish.vent is not None:
        return Unbroken(above=above, below=wish.vent)
    if wish is not None and wish.cut is CutKind.GORED and spec.skirt.closure is not Closure.NONE:
        return None  # it may want a vent, as high as it proves to be
    return Unbroken(above=above)


def _ruffle(
    spec: Spec, lined: Layer | None, faults: list[DraftingError]
) -> ruffle.RuffleDraft | None:
    if spec.ruffle is None or lined is None:
        return None
    wish, cut = spec.ruffle, lined.cut
    depth = wish.depth if wish.depth is not None else ruffle.default_depth(cut.length, spec.scale)
    up = wish.above_hem + depth
    # The ruffle's line runs parallel to the hem, not to the waist.
    try:
        line = cut.girth_above_hem(up)
    except DraftingError as error:
        faults.append(error)
        return None
    below = cut.length - up
    ring = not lined.opening or below > lined.opening + CLEAR_OF_OPENING * spec.scale
    return ruffle.drafted(
        wish, depth=depth, below=below, line=line, ring=ring,
        radius=None if cut.waist_radius is None else cut.waist_radius + below,
        cloth=spec.cloths.ruffle,
    )  # fmt: skip


def _strip(spec: Spec, closure: Closure, waist: Waist, allowance: Mm) -> waistband.Strip | None:
    wish = spec.skirt
    if wish.owned is not None:
        return None
    if wish.waist_finish is WaistFinish.BAND and wish.band_shape is BandShape.STRAIGHT:
        return waistband.band_strip(
            waist.finished, height=wish.band, allowance=allowance, closure=closure,
        )  # fmt: skip
    if wish.waist_finish is WaistFinish.CASING:
        return waistband.casing_strip(waist.line, elastic=wish.elastic, allowance=allowance)
    if wish.waist_finish is WaistFinish.BIAS:
        return waistband.bias_strip(waist.finished)
    return None


def _contour(spec: Spec, waist: Waist) -> Flare | None:
    wish = spec.skirt
    shaped = wish.waist_finish is WaistFinish.BAND and wish.band_shape is BandShape.CONTOUR
    if not shaped or wish.owned is not None:
        return None
    return waistband.contour_flare(top=waist.top, bottom=waist.finished, height=wish.band)


def layers(plan: Plan) -> Iterator[tuple[str, Layer]]:
    """Yield every layer that is drafted, the outer one first."""
    if not plan.owned:
        yield "skirt", plan.skirt
    if plan.lining is not None:
        yield "lining", plan.lining
