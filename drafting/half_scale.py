"""A draft for a half-scale form: lengths of body and design halve, ratios and allowances stay.

Millimetres. Sheets always give full-size lengths; a spec is halved once, when it is whole.
Seams are sewn by the same hands, braid and elastic are bought, and cloth and paper are as wide
as ever, so none of these is halved.
"""

from dataclasses import replace
from enum import StrEnum

from drafting.spec import (
    Allowances,
    Flounce,
    Godets,
    Lining,
    Owned,
    Ruffle,
    SeamFinish,
    Skirt,
    Spec,
    Tiers,
    Wearer,
)
from drafting.units import Mm

HALF = 0.5

WAIST_ALLOWANCE: Mm = 6.0
SIDE_ALLOWANCE: Mm = 10.0
HEM_ALLOWANCE: Mm = 6.0
"""Allowances of a half-scale draft, where the sheet leaves them open."""


class Scale(StrEnum):
    """For a body, or for a form half as large."""

    FULL = "full"
    HALF = "half"


def halved(spec: Spec) -> Spec:
    """Return the spec for a half-scale form.

    Raises:
        ValueError: ``spec`` is not at full size, so it has been halved already.
    """
    if spec.scale != 1.0:
        raise ValueError(f"only a full-size spec can be halved; this one is at {spec.scale:g}")
    return replace(
        spec,
        scale=HALF,
        wearer=_wearer(spec.wearer),
        skirt=_skirt(spec.skirt),
        lining=_lining(spec.lining) if spec.lining else None,
        ruffle=_ruffle(spec.ruffle) if spec.ruffle else None,
    )


def _half(length: Mm | None) -> Mm | None:
    """Return half the length; one that is left to the draft stays so."""
    return None if length is None else HALF * length


def _wearer(wearer: Wearer) -> Wearer:
    return replace(
        wearer,
        waist=HALF * wearer.waist,
        hip=HALF * wearer.hip,
        hip_depth=HALF * wearer.hip_depth,
        waist_to_knee=HALF * wearer.waist_to_knee,
        floor_front=HALF * wearer.floor_front,
        floor_side=HALF * wearer.floor_side,
        floor_back=HALF * wearer.floor_back,
        floor_left=_half(wearer.floor_left),
        floor_right=_half(wearer.floor_right),
        height=HALF * wearer.height,
        heel=HALF * wearer.heel,
        step=HALF * wearer.step,
    )


def _skirt(skirt: Skirt) -> Skirt:
    return replace(
        skirt,
        length=HALF * skirt.length,
        hem_above_floor=_half(skirt.hem_above_floor),
        waist_ease=HALF * skirt.waist_ease,
        drop=HALF * skirt.drop,
        drop_ease=HALF * skirt.drop_ease,
        bodice_waist=_half(skirt.bodice_waist),
        band=HALF * skirt.band,
        facing=HALF * skirt.facing,
        hem_facing=HALF * skirt.hem_facing,
        godets=_godets(skirt.godets),
        flounce=_flounce(skirt.flounce),
        tiers=_tiers(skirt.tiers),
        owned=_owned(skirt.owned),
        allowances=_allowances(skirt.allowances, skirt.seams),
    )


def _godets(godets: Godets | None) -> Godets | None:
    return replace(godets, depth=HALF * godets.depth) if godets else None


def _flounce(flounce: Flounce | None) -> Flounce | None:
    return replace(flounce, depth=HALF * flounce.depth) if flounce else None


def _tiers(tiers: Tiers) -> Tiers:
    return replace(tiers, yoke=_half(tiers.yoke))


def _owned(owned: Owned | None) -> Owned | None:
    if owned is None:
        return None
    return Owned(waist=HALF * owned.waist, length=HALF * owned.length, sweep=HALF * owned.sweep)


def _allowances(given: Allowances, seams: SeamFinish) -> Allowances:
    # A French seam is sewn twice at any scale, and keeps the cloth for both.
    side = None if seams is SeamFinish.FRENCH else SIDE_ALLOWANCE
    return Allowances(
        waist=WAIST_ALLOWANCE if given.waist is None else given.waist,
        side=side if given.side is None else given.side,
        # The draft takes HEM_ALLOWANCE at most, or what the finish and the curve ask for.
        hem=given.hem,
        spare=given.spare,
    )


def _lining(lining: Lining) -> Lining:
    return replace(lining, shorter=HALF * lining.shorter, vent=_half(lining.vent))


def _ruffle(ruffle: Ruffle) -> Ruffle:
    return replace(ruffle, depth=_half(ruffle.depth), above_hem=HALF * ruffle.above_hem)
