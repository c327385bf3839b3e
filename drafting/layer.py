"""A layer as it is drafted: its cut, its cloth, its allowances, what hangs from its edge.

Millimetres and radians. Imports the panels, the parts' formulas and the spec's words.
"""

import math
from dataclasses import dataclass, replace

from drafting import bias, cloth
from drafting.allowance import Widths
from drafting.around import Around
from drafting.circle import Flare
from drafting.cloth.kinds import Behaviour, behaviour
from drafting.gored import ShapedGores
from drafting.half_scale import HEM_ALLOWANCE
from drafting.hem import usual_hem
from drafting.outline import Cut
from drafting.piece import FoldWay
from drafting.pieced import Unbroken
from drafting.ruffle import TOP_ALLOWANCE
from drafting.spec import (
    Closure,
    Cloth,
    CutKind,
    Grain,
    HemFinish,
    SeamFinish,
    Spec,
    WaistFinish,
)
from drafting.splits import chosen
from drafting.tiers import StripWays, Tier
from drafting.units import Mm

SIDE_ALLOWANCE = {
    SeamFinish.OPEN: 15.0,
    SeamFinish.FRENCH: 16.0,
    SeamFinish.BOUND: 15.0,
    SeamFinish.OVERLOCKED: 10.0,
}
"""Allowance of the seams between panels; a French seam is sewn twice, 10 and then 6 mm."""

LEAST_DROP: Mm = 1.0
"""A smaller drop on the bias cannot be told from the width of a chalk line."""

WAIST_ALLOWANCE: Mm = 10.0
BOUND_WAIST: Mm = 6.0
"""Allowance of the waist seam: narrow on a curve, narrower inside a binding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Below:
    """What is sewn to the lower edge of a layer's own panels: tiers, or a flounce."""

    tiers: tuple[Tier, ...] = ()
    ways: StripWays | None = None
    flounce: Flare | None = None

    @property
    def depth(self) -> Mm:
        """How much it adds to the layer's length."""
        if self.flounce is not None:
            return self.flounce.length
        return math.fsum(tier.depth for tier in self.tiers)

    @property
    def sweep(self) -> Mm:
        """Length of its lowest edge."""
        return self.flounce.sweep if self.flounce is not None else self.tiers[-1].flat

    def girth_at(self, below: Mm) -> Mm:
        """Return its girth ``below`` its own upper edge."""
        if self.flounce is not None:
            return self.flounce.girth_at(below)
        reached = 0.0
        for tier in self.tiers:
            reached += tier.depth
            if below <= reached:
                return tier.flat
        return self.tiers[-1].flat


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A skirt or a lining as it is drafted.

    Attributes:
        part: ``skirt`` or ``lining``.
        finish: of its lowest edge.
        opening: length of its slit below the waist seam, 0 for none.
        vent: length of its closure seam left open up from the hem, 0 for none.
        grain: what of its panels lies on the lengthwise grain.
        asked_panels: panels before the cloth's width had its say.
        half: its panel is drawn to a fold; ``fold_way`` is the fold that can take it, if any.
        below: what is sewn to its panels' lower edge.
        godets: what the godets in its seams add to the sweep.
        pieced: how wide a corner is, finished, that is pieced onto its panels' hem, 0 for none.
        instead: how many panels it would be cut in otherwise: without its corners, or with no
            more seams than its cloth asks for; 0 where there was nothing to choose.
        saved: about how much less cloth its panels take than that way.
    """

    part: str
    cut: Cut
    cloth: Cloth
    allowances: Widths
    finish: HemFinish
    grain: Grain
    asked_panels: int
    opening: Mm = 0.0
    vent: Mm = 0.0
    half: bool = False
    fold_way: FoldWay = FoldWay.NONE
    below: Below | None = None
    godets: Mm = 0.0
    pieced: Mm = 0.0
    instead: int = 0
    saved: Mm = 0.0

    @property
    def behaviour(self) -> Behaviour:
        """How its cloth behaves, an estimate."""
        return behaviour(self.cloth.kind)

    @property
    def usable(self) -> Mm:
        """Width of its cloth between the selvages."""
        return cloth.usable_width(self.cloth)

    @property
    def around(self) -> Around:
        """Lengths from the waist seam to the lowest edge."""
        return self.cut.around.less(-self.below.depth) if self.below else self.cut.around

    @property
    def length(self) -> Mm:
        """The least of them."""
        return self.around.least

    @property
    def sweep(self) -> Mm:
        """Length of the lowest edge all round."""
        return self.below.sweep if self.below else self.cut.sweep + self.godets

    @property
    def hem_radius(self) -> Mm | None:
        """Smallest radius of the lowest edge, None for a straight one."""
        if self.below is None:
            return self.cut.hem_radius
        return self.below.flounce.hem_radius if self.below.flounce else None

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth ``below`` the waist seam, in what hangs from the panels too."""
        if self.below is None or below <= self.cut.length:
            return self.cut.girth_at(below)
        return self.below.girth_at(below - self.cut.length)

    @property
    def full_drop(self) -> Mm:
        """How far its hem drops at full bias, an estimate; 0 where that law does not hold."""
        return estimated_drop(self.cut, self.cloth)

    @property
    def most_drop(self) -> Mm:
        """How far its hem drops where its panels hang most on the bias, an estimate."""
        return most_drop(self.cut, self.cloth, self.grain)

    def opened(self, slit: Mm) -> "Layer":
        """Return the layer with an opening of that length."""
        return replace(self, opening=slit)

    def with_vent(self, vent: Mm) -> "Layer":
        """Return the layer with a vent, no higher than the end of its opening."""
        return replace(self, vent=max(min(vent, self.cut.length - self.opening - 30.0), 0.0))

    def with_below(self, below: Below | None) -> "Layer":
        """Return the layer with something sewn to its lower edge."""
        return replace(self, below=below)


def estimated_drop(cut: Cut, of: Cloth) -> Mm:
    """Return an estimate of how far a hem drops at full bias, 0 where the law does not hold."""
    kind = behaviour(of.kind)
    if cut.fullness is None or cut.waist_radius is None or cut.hem_radius is None:
        return 0.0
    # Shaped gores hang from two centres; their hem's own is the one that the cloth hangs from.
    gored = isinstance(cut, ShapedGores)
    apex = max(cut.hem_radius - cut.length, LEAST_SHARE * cut.hem_radius)
    waist = apex if gored else cut.waist_radius
    if not kind.woven or not 0 < waist < cut.hem_radius:
        return 0.0
    return bias.bias_drop(waist, cut.hem_radius, reference=kind.bias_drop)


LEAST_SHARE = 0.05
"""Strongly flared gores meet below their waist; they hang from near the point where they do."""


def most_drop(cut: Cut, of: Cloth, grain: Grain) -> Mm:
    """Return an estimate of a hem's drop where its panels hang most on the bias.

    A narrow gore with its middle on the grain never comes near full bias.
    """
    full = estimated_drop(cut, of)
    angle = 2 * cut.flare if isinstance(cut, ShapedGores) else cut.panel_angle
    return full if angle is None else bias.steepest_drop(angle, grain, full)


def widths(
    spec: Spec, *, part: str, finish: HemFinish, cut: Cut, of: Cloth, hanging: bool
) -> Widths:
    """Return how much cloth lies outside a layer's stitching lines.

    Args:
        hanging: something is sewn to its lower edge, which is a seam then and no hem.
    """
    given, wish = spec.skirt.allowances, spec.skirt
    bound = part == "skirt" and wish.waist_finish is WaistFinish.BIAS
    waist = given.waist if given.waist is not None else BOUND_WAIST if bound else WAIST_ALLOWANCE
    side = given.side if given.side is not None else SIDE_ALLOWANCE[wish.seams]
    if hanging:
        # As wide as what is sewn to it: raw edges lie together.
        seam = TOP_ALLOWANCE if wish.cut is CutKind.TIERED else waist
        return Widths(waist=waist, side=side, hem=seam)
    asked = given.hem if part == "skirt" else None
    hem = asked
    if hem is None:
        hem = usual_hem(cut.hem_radius, ease=behaviour(of.kind).hem_ease, finish=finish)
        if spec.scale < 1:
            hem = min(hem, HEM_ALLOWANCE)
    spare = given.spare if part == "skirt" else None
    if spare is None:
        # The estimate to the next whole millimetre; who sets the hem's allowance sets all of it.
        drop = most_drop(cut, of, grain_of(spec, part))
        spare = 0.0 if asked is not None or drop < LEAST_DROP else math.ceil(drop - 1e-6)
    return Widths(waist=waist, side=side, hem=hem, spare=spare)


def grain_of(spec: Spec, part: str) -> Grain:
    """Return what of a layer's panels lies on the grain: gores have it down their middle.

    A lining takes the skirt's grain where both are cut alike.
    """
    lining = spec.lining
    if part == "skirt" or lining is None or lining.cut is spec.skirt.cut:
        return spec.skirt.grain
    return Grain.CENTRE if lining.cut is CutKind.GORED else Grain.EDGE


def fitted(
    cut: Cut,
    of: Cloth,
    allowances: Widths,
    *,
    part: str,
    grain: Grain,
    finish: HemFinish,
    closure: Closure = Closure.NONE,
    unbroken: Unbroken | None = None,
) -> Layer:
    """Return a layer in panels that its cloth is wide enough for, those that take least of it.

    Where no number of panels fits, the layer keeps what was asked; the advice stops it.

    Args:
        unbroken: what corners pieced on must keep clear of, None for none pieced on.
    """
    usable = cloth.usable_width(of)
    split = chosen(
        _even(cut), of, allowances, grain=grain, closure=closure, unbroken=unbroken
    )  # fmt: skip
    made = _even(split.cut)
    way = FoldWay.NONE
    if of.fold:
        # A panel with its corners off fits its fold to a hair.
        pieced_on = FoldWay.LENGTHWISE if split.pieced else None
        way = pieced_on or cloth.fold_way(made, allowances, grain, usable)
    return Layer(
        part=part,
        cut=made,
        cloth=of,
        allowances=allowances,
        finish=finish,
        grain=grain,
        asked_panels=cut.panels,
        half=of.fold,
        fold_way=way,
        pieced=split.pieced,
        instead=split.instead,
        saved=split.saved,
    )


def _even(cut: Cut) -> Cut:
    """Return a cut without a trimmed hem that would be longer on one edge of a panel."""
    if isinstance(cut, Flare) and cut.drop and not cut.trims_evenly:
        return replace(cut, drop=0.0)
    return cut
