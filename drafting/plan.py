"""A garment in numbers: every part worked out from the spec before anything is drawn.

Millimetres and radians. Imports the parts' formulas; draws nothing.
"""

import math
from dataclasses import dataclass, replace

from drafting import cloth, lining, opening, ruffle, waistband
from drafting.allowance import Widths
from drafting.circle import Flare, fewest_panels, waistline
from drafting.cloth_kinds import behaviour
from drafting.cuts import Cut
from drafting.hem import usual_hem
from drafting.levelled import Around, Levelled
from drafting.measurements import SHOE_SHARE
from drafting.piece import FoldWay
from drafting.spec import Closure, Cloth, Grain, HemFinish, Spec, WaistFinish
from drafting.units import Mm

SHORTEST_LINING: Mm = 100.0
"""No layer is finished shorter than this; a lining planned below it is held here and refused."""

CLEAR_OF_OPENING: Mm = 30.0
"""A ruffle closer than this below the end of the opening stops at it with hemmed ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A skirt or a lining as it is drafted.

    Attributes:
        opening: length of its slit below the waist seam, 0 for none.
        asked_panels: panels before the cloth's width had its say.
        half: its panel is drawn to a fold; ``fold_way`` is the fold that can take it, if any.
    """

    cut: Cut
    cloth: Cloth
    allowances: Widths
    opening: Mm
    asked_panels: int
    half: bool
    fold_way: FoldWay


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The parts of a garment in numbers, before anything is drawn.

    Attributes:
        closure: where it really opens; a casing is pulled on.
        finished_waist: waist and ease.
        floor: waist to floor in the shoes that are worn.
        walking_sweep: least sweep for one step at the skirt's hem.
    """

    spec: Spec
    closure: Closure
    finished_waist: Mm
    floor: Around
    skirt: Layer
    lining: Layer | None
    ruffle: ruffle.RuffleDraft | None
    strip: waistband.Strip | None
    walking_sweep: Mm
    lining_walking_sweep: Mm | None


def plan(spec: Spec) -> Plan:
    """Return the garment in numbers: radii, openings, panels that fit their cloth, the ruffle."""
    wearer, wish = spec.wearer, spec.skirt
    pulls_on = wish.waist_finish is WaistFinish.CASING
    closure = Closure.NONE if pulls_on else wish.closure
    finished = wearer.waist + wish.waist_ease
    line = waistline(
        wearer.waist,
        ease=wish.waist_ease,
        gather_ratio=wish.gather_ratio,
        stretch=wish.waist_stretch,
    )
    shoes = SHOE_SHARE * wearer.heel
    floor = Around(
        front=wearer.floor_front + shoes,
        left=(wearer.floor_left or wearer.floor_side) + shoes,
        back=wearer.floor_back + shoes,
        right=(wearer.floor_right or wearer.floor_side) + shoes,
    )

    def layer(cut: Cut, of: Cloth, finish: HemFinish, hem: Mm | None) -> Layer:
        slit = 0.0
        if closure is not Closure.NONE:
            slit = opening.slit_length(
                hip=wearer.hip,
                hip_depth=wearer.hip_depth,
                finished_waist=finished,
                line=cut.waistline,
                fullness=cut.fullness,
                gathered=cut.waistline > finished,
                length=cut.length,
            )
        if hem is None:
            ease = behaviour(of.kind).hem_ease
            hem = usual_hem(cut.hem_radius, ease=ease, finish=finish)
        given = wish.allowances
        widths = Widths(waist=given.waist, side=given.side, hem=hem)
        return _fitted(cut, of, slit, widths, wish.grain)

    def walking(length: Mm) -> Mm:
        return lining.walking_sweep(
            step=wearer.step,
            length=length,
            hip_depth=wearer.hip_depth,
            floor=(floor.left + floor.right) / 2,
            hip=wearer.hip,
        )

    panels = wish.panels or fewest_panels(wish.fullness)
    skirt_cut: Cut = Flare(
        fullness=wish.fullness, panels=panels, waistline=line, length=wish.length
    )
    if wish.hem_above_floor is not None:
        skirt_cut = Levelled(
            fullness=wish.fullness,
            panels=panels,
            waistline=line,
            around=floor.less(wish.hem_above_floor),
        )
    skirt = layer(skirt_cut, spec.cloths.skirt, wish.hem, wish.allowances.hem)
    lined: Layer | None = None
    if spec.lining is not None:
        asked = spec.lining.panels or fewest_panels(spec.lining.fullness)
        lining_cut: Cut = lining.lining_flare(
            fullness=spec.lining.fullness,
            panels=asked,
            finished_waist=finished,
            stretch=wish.waist_stretch,
            length=max(wish.length - spec.lining.shorter, SHORTEST_LINING),
            drawn_up_from=line if pulls_on else None,
        )
        # A lining's hem is narrow, whatever the skirt's: light, and out of sight.
        if isinstance(skirt_cut, Levelled):
            lining_cut = Levelled(
                fullness=lining_cut.fullness,
                panels=asked,
                waistline=lining_cut.waistline,
                around=skirt_cut.around.less(spec.lining.shorter),
            )
        lined = layer(lining_cut, spec.cloths.lining, HemFinish.NARROW, None)
    return Plan(
        spec=spec,
        closure=closure,
        finished_waist=finished,
        floor=floor,
        skirt=skirt,
        lining=lined,
        ruffle=_ruffle(spec, lined),
        strip=_strip(spec, closure, finished, line),
        walking_sweep=walking(skirt.cut.length),
        lining_walking_sweep=walking(lined.cut.length) if lined else None,
    )


def _fitted(cut: Cut, of: Cloth, slit: Mm, allowances: Widths, grain: Grain) -> Layer:
    """Return the layer in as many panels as its cloth is wide enough for.

    Where no number of panels fits, the layer keeps what was asked; the advice stops it.
    """
    usable = cloth.usable_width(of)
    fitted = cut
    if math.isinf(cloth.panel_width(cut, allowances, grain)):
        # So wide an angle leaves no room for its seam; half a circle always does.
        fitted = replace(cut, panels=max(cut.panels, fewest_panels(cut.fullness)))
    while cloth.panel_width(fitted, allowances, grain) > usable:
        if fitted.panels == cloth.MOST_PANELS:
            fitted = cut
            break
        fitted = replace(fitted, panels=fitted.panels + 1)
    return Layer(
        cut=fitted,
        cloth=of,
        allowances=allowances,
        opening=slit,
        asked_panels=cut.panels,
        half=of.fold,
        fold_way=(cloth.fold_way(fitted, allowances, grain, usable) if of.fold else FoldWay.NONE),
    )


def _ruffle(spec: Spec, lined: Layer | None) -> ruffle.RuffleDraft | None:
    if spec.ruffle is None or lined is None:
        return None
    wish, cut = spec.ruffle, lined.cut
    depth = wish.depth if wish.depth is not None else ruffle.default_depth(cut.length)
    up = wish.above_hem + depth
    below = cut.length - up
    # On a levelled lining the ruffle's line runs parallel to the hem, not to the waist.
    line = cut.girth_above_hem(up) if isinstance(cut, Levelled) else cut.girth_at(below)
    flat = wish.gather_ratio * line
    ring = not lined.opening or below > lined.opening + CLEAR_OF_OPENING
    strips, strip_length = ruffle.strip_count(
        flat,
        cloth.usable_width(spec.cloths.ruffle),
        join_allowance=ruffle.HABITS[wish.cloth].join_allowance,
        ring=ring,
    )
    return ruffle.RuffleDraft(
        cloth=wish.cloth,
        depth=depth,
        line_below_waist=below,
        line_radius=cut.waist_radius + below,
        line_length=line,
        flat_length=flat,
        strips=strips,
        strip_cut_length=strip_length,
        strip_cut_depth=ruffle.cut_depth(wish.cloth, depth, doubled=wish.doubled),
        gather_ratio=wish.gather_ratio,
        ring=ring,
        doubled=wish.doubled,
    )


def _strip(spec: Spec, closure: Closure, finished: Mm, line: Mm) -> waistband.Strip | None:
    wish = spec.skirt
    if wish.waist_finish is WaistFinish.BAND:
        return waistband.band_strip(
            finished, height=wish.band, allowance=wish.allowances.waist, closure=closure
        )
    if wish.waist_finish is WaistFinish.CASING:
        return waistband.casing_strip(line, elastic=wish.elastic, allowance=wish.allowances.waist)
    return None
