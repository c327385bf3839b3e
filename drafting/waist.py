"""The waist seam in numbers: where it lies, how long it is, and what it is sewn to.

Millimetres. Imports circle, bias and the spec's words.
"""

import math
from dataclasses import dataclass

from drafting import bias
from drafting.circle import fewest_panels, waistline
from drafting.cloth import usable_width
from drafting.cloth.kinds import behaviour
from drafting.gathered import full_width_ratio, least_panels
from drafting.layer import SIDE_ALLOWANCE, grain_of
from drafting.opening import PASSING_EASE
from drafting.spec import BandShape, CutKind, Spec, WaistFinish, Wearer
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Waist:
    """The waist seam of a garment.

    Attributes:
        finished: closed length of the seam, which band, tape or bodice hold it to.
        top: closed length of the uppermost edge, which the hip has to pass.
        stretch, lining_stretch: fraction by which each layer's cut edge grows (s).
        gather_ratio: flat waist seam over the finished one, its stretch left aside (G).
        line, lining_line: length of each layer's flat waist seam.
        drop: how far the seam lies below the natural waist.
        hip_depth: from the seam down to the hip.
    """

    finished: Mm
    top: Mm
    stretch: float
    lining_stretch: float
    gather_ratio: float
    line: Mm
    lining_line: Mm
    drop: Mm
    hip_depth: Mm


def girth_below(wearer: Wearer, depth: Mm) -> Mm:
    """Return an estimate of the body's girth ``depth`` below the natural waist.

    Source: W + (H - W) d / d_h, evenly from waist to hip; the waist above, the hip below.
    """
    share = min(max(depth / wearer.hip_depth, 0.0), 1.0)
    return wearer.waist + (wearer.hip - wearer.waist) * share


def planned_waist(spec: Spec) -> Waist:
    """Return the waist seam that a spec asks for."""
    wish, wearer = spec.skirt, spec.wearer
    finished = _finished(spec)
    stretch, lining_stretch = _stretch(spec, "skirt"), _stretch(spec, "lining")
    ratio = wish.gather_ratio
    if wish.owned is not None:
        ratio = 1.0
    elif wish.cut is CutKind.TIERED:
        # A yoke lies smooth, unless elastic draws up one that is wide enough for the hip.
        passing = (wearer.hip + PASSING_EASE * spec.scale) * (1 + stretch) / finished
        ratio = max(passing, 1.0) if wish.waist_finish is WaistFinish.CASING else 1.0
    elif wish.cut is CutKind.GATHERED and wish.full_widths:
        given = wish.allowances.side
        side = SIDE_ALLOWANCE[wish.seams] if given is None else given
        usable = usable_width(spec.cloths.skirt)
        if usable > 2 * side:  # a narrower cloth is stopped by the advice
            count = least_panels(finished * ratio, usable, side)
            ratio = full_width_ratio(finished, max(count, wish.panels or 1), usable, side)
    line = waistline(finished, gather_ratio=ratio, stretch=stretch)
    pulled_on = wish.waist_finish is WaistFinish.CASING and wish.owned is None
    lined = line if pulled_on else waistline(finished, stretch=lining_stretch)
    return Waist(
        finished=finished,
        top=_top(spec, finished),
        stretch=stretch,
        lining_stretch=lining_stretch,
        gather_ratio=ratio,
        line=line,
        # Elastic draws both up, so that the lining passes the hip as the skirt does.
        lining_line=lined,
        drop=wish.drop,
        hip_depth=max(wearer.hip_depth - wish.drop, 1.0),
    )


def _finished(spec: Spec) -> Mm:
    wish, wearer = spec.skirt, spec.wearer
    if wish.owned is not None:
        return wish.owned.waist
    if wish.waist_finish is WaistFinish.BODICE and wish.bodice_waist is not None:
        return wish.bodice_waist
    if wish.drop > 0:
        return girth_below(wearer, wish.drop) + wish.drop_ease
    return wearer.waist + wish.waist_ease


def _top(spec: Spec, finished: Mm) -> Mm:
    """Return the upper edge of a contour band; of every other finish, the seam itself.

    Its ease goes evenly from the natural waist's to the dropped seam's.
    """
    wish = spec.skirt
    contour = wish.waist_finish is WaistFinish.BAND and wish.band_shape is BandShape.CONTOUR
    if not contour or wish.drop <= 0:
        return finished
    depth = max(wish.drop - wish.band, 0.0)
    ease = wish.waist_ease + (wish.drop_ease - wish.waist_ease) * depth / wish.drop
    return girth_below(spec.wearer, depth) + ease


def _stretch(spec: Spec, part: str) -> float:
    """Return how much a layer's cut waist edge grows: as the sheet says, or by cloth and grain."""
    if spec.skirt.waist_stretch is not None:
        return spec.skirt.waist_stretch
    wish = spec.lining if part == "lining" else spec.skirt
    cloth = spec.cloths.lining if part == "lining" else spec.cloths.skirt
    if wish is None or wish.cut in (CutKind.GATHERED, CutKind.TIERED):
        return 0.0  # straight lengths and nearly straight yokes are cut along the grain
    count = wish.gores if wish.cut is CutKind.GORED else wish.panels
    angle = math.tau * wish.fullness / (count or fewest_panels(wish.fullness))
    return bias.panel_waist_stretch(angle, grain_of(spec, part), behaviour(cloth.kind).waist_give)
