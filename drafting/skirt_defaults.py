"""Makes the ``Skirt`` and the ``Lining`` of a faultless sheet, with every default of the trade.

Lengths in millimetres, at full size. Reads the tables of ``sheet_models`` but loads no pydantic.
"""

import math
from typing import TYPE_CHECKING

from drafting.measurements import SHOE_SHARE
from drafting.spec import (
    Allowances,
    BandShape,
    Closure,
    CutKind,
    Figure,
    Flounce,
    Godets,
    Grain,
    HemFinish,
    LevelAt,
    Lining,
    Owned,
    SeamFinish,
    Skirt,
    Tiers,
    WaistFinish,
    Wearer,
)
from drafting.units import Mm

if TYPE_CHECKING:
    from drafting.sheet_models import LiningTable, SkirtTable

LEAST_FULLNESS = 0.2
"""Circles below which no skirt or lining cut as a circle is drafted."""

MOST_FULLNESS = 4.0

MOST_LINING = 0.5
"""A lining left to itself is no fuller than a half circle, however full its skirt."""

LEAST_BAND: Mm = 10.0
"""A band cannot be narrower."""

FIRST_TIERS = (2.0, 1.6, 1.6)
"""Gathers of the first tiers, from the top; the last holds for any further ones."""

_WAIST_EASE = {Figure.ADULT: 15.0, Figure.CHILD: 20.0}
_BAND = {BandShape.STRAIGHT: 30.0, BandShape.CONTOUR: 50.0}
_FULLNESS = {CutKind.GORED: 1 / 3}
_GATHERS = {CutKind.GATHERED: 2.2}
_HEM = {CutKind.GATHERED: HemFinish.TURNED}
_STRETCH = {CutKind.CIRCLE: 0.01}
_GRAIN = {CutKind.GORED: Grain.CENTRE, CutKind.TIERED: Grain.CENTRE}
_GODET_ANGLE = 60.0


def or_else(value: float | None, otherwise: float) -> float:
    """Return the value, or the default where the sheet leaves it out; nought is a value."""
    return otherwise if value is None else value


# --- what other defaults, and the checks of a sheet, hang on -------------------------------


def finish_of(table: "SkirtTable") -> WaistFinish:
    """Return how the waist is finished."""
    return table.waist_finish or WaistFinish.BAND


def band_shape_of(table: "SkirtTable") -> BandShape:
    """Return the band's shape: one below the natural waist follows the body."""
    if table.band_shape is not None:
        return table.band_shape
    dropped = table.drop is not None and table.drop >= LEAST_BAND
    if dropped and finish_of(table) is WaistFinish.BAND:
        return BandShape.CONTOUR
    return BandShape.STRAIGHT


def band_of(table: "SkirtTable") -> Mm:
    """Return the band's height; a contour band reaches no higher than the natural waist."""
    if table.band is not None:
        return table.band
    shape = band_shape_of(table)
    if shape is BandShape.CONTOUR and table.drop is not None:
        return max(LEAST_BAND, min(_BAND[shape], table.drop))
    return _BAND[shape]


def drop_of(table: "SkirtTable") -> Mm:
    """Return how far the waist seam lies below the natural waist: the height of a contour band."""
    if table.drop is None and band_shape_of(table) is BandShape.CONTOUR:
        return band_of(table)
    return or_else(table.drop, 0.0)


def down_to_level_hem(floor_side: Mm, heel: Mm, hem_above_floor: Mm) -> Mm:
    """Return the length at the side of a skirt whose hem is level with the floor."""
    return floor_side + SHOE_SHARE * heel - hem_above_floor


def ratios_of(table: "SkirtTable") -> tuple[float, ...]:
    """Return the gathers of each tier, from the top."""
    if table.tier_ratios is not None:
        return table.tier_ratios
    count = table.tiers or len(FIRST_TIERS)
    return (*FIRST_TIERS, *[FIRST_TIERS[-1]] * count)[:count]


# --- the skirt -----------------------------------------------------------------------------


def skirt_of(table: "SkirtTable", wearer: Wearer) -> Skirt:
    """Return the skirt that a faultless table asks for."""
    cut = table.cut or CutKind.CIRCLE
    owned = _owned(table)
    drop = drop_of(table)
    length = owned.length if owned else _length(table, wearer)
    return Skirt(
        cut=cut,
        fullness=_owned_fullness(owned) if owned
        else or_else(table.fullness, _FULLNESS.get(cut, 1.0)),
        length=length,
        hem_above_floor=table.hem_above_floor,
        level=table.level or LevelAt.HEM,
        panels=table.panels,
        gores=table.gores or 8,
        shaped=bool(table.shaped),
        godets=_godets(table, length - drop),
        waist_ease=or_else(table.waist_ease, _WAIST_EASE[wearer.figure]),
        waist_stretch=_stretch(table, cut),
        gather_ratio=or_else(table.gather_ratio, _GATHERS.get(cut, 1.0)),
        full_widths=bool(table.full_widths),
        drop=drop,
        drop_ease=or_else(table.drop_ease, 30.0),
        grain=table.grain or _GRAIN.get(cut, Grain.EDGE),
        closure=table.closure or Closure.CENTRE_BACK,
        waist_finish=finish_of(table),
        bodice_waist=_bodice_waist(table, owned),
        band=band_of(table),
        band_shape=band_shape_of(table),
        facing=or_else(table.facing, 50.0),
        elastic=or_else(table.elastic, 25.0),
        hem=table.hem or _HEM.get(cut, HemFinish.NARROW),
        hem_facing=or_else(table.hem_facing, 50.0),
        braid=or_else(table.braid, 50.0),
        seams=table.seams or SeamFinish.OPEN,
        interfacing=table.interfacing is not False,
        pockets=bool(table.pockets),
        flounce=_flounce(table),
        tiers=_tiers(table),
        trim_bias=bool(table.trim_bias),
        allowances=_allowances(table),
        owned=owned,
    )  # fmt: skip


def _length(table: "SkirtTable", wearer: Wearer) -> Mm:
    """Return the length at the side: as asked, down to a level hem, or to the knee."""
    if table.hem_above_floor is not None:
        return down_to_level_hem(wearer.floor_side, wearer.heel, table.hem_above_floor)
    return or_else(table.length, wearer.waist_to_knee)


def _stretch(table: "SkirtTable", cut: CutKind) -> float | None:
    """Return the stretch of the waist edge, or None for what the cloth gives."""
    given = table.waist_stretch
    if isinstance(given, str):
        return None
    return or_else(given, _STRETCH.get(cut, 0.0))


def _godets(table: "SkirtTable", hanging: Mm) -> Godets | None:
    if "godets" not in table.model_fields_set:
        return None
    return Godets(
        depth=or_else(table.godets.depth, hanging / 3),
        angle=math.radians(or_else(table.godets.angle, _GODET_ANGLE)),
    )


def _flounce(table: "SkirtTable") -> Flounce | None:
    if table.flounce.depth is None:
        return None
    return Flounce(depth=table.flounce.depth, ratio=or_else(table.flounce.ratio, 2.0))


def _tiers(table: "SkirtTable") -> Tiers:
    return Tiers(ratios=ratios_of(table), growth=or_else(table.tier_growth, 1.25), yoke=table.yoke)


def _allowances(table: "SkirtTable") -> Allowances:
    given = table.allowances
    return Allowances(waist=given.waist, side=given.side, hem=given.hem, spare=given.spare)


def _owned(table: "SkirtTable") -> Owned | None:
    waist, length, sweep = table.owned.waist, table.owned.length, table.owned.sweep
    if waist is None or length is None or sweep is None:
        return None
    return Owned(waist=waist, length=length, sweep=sweep)


def _owned_fullness(owned: Owned) -> float:
    """Return the circles that a sewn skirt's hem comes to, within what is drafted."""
    circles = (owned.sweep - owned.waist) / (math.tau * owned.length)
    return min(max(circles, LEAST_FULLNESS), MOST_FULLNESS)


def _bodice_waist(table: "SkirtTable", owned: Owned | None) -> Mm | None:
    if owned and finish_of(table) is WaistFinish.BODICE:
        return owned.waist
    return table.bodice_waist


def unused_keys(table: "SkirtTable") -> tuple[str, ...]:
    """Return the sizes that a sheet gives for a finish which it does not choose."""
    finish, drop = finish_of(table), drop_of(table)
    contour = band_shape_of(table) is BandShape.CONTOUR
    eased = finish is not WaistFinish.BODICE and (drop == 0 or contour)
    used = {
        "waist_ease": eased,
        "drop_ease": drop > 0,
        "band": finish is WaistFinish.BAND,
        "facing": finish is WaistFinish.FACING,
        "elastic": finish is WaistFinish.CASING,
        "hem_facing": table.hem is HemFinish.FACED,
        "braid": table.hem is HemFinish.BRAID,
    }
    return tuple(
        key for key, in_use in used.items() if not in_use and getattr(table, key) is not None
    )


# --- the lining ----------------------------------------------------------------------------


def lining_of(table: "LiningTable", skirt: Skirt, wearer: Wearer) -> Lining:
    """Return the lining that a faultless table asks for."""
    cut = table.cut or CutKind.CIRCLE
    gored = cut is CutKind.GORED
    usual = 0.2 if gored else _circle_lining(skirt, wearer)
    return Lining(
        cut=cut,
        fullness=or_else(table.fullness, usual),
        shorter=or_else(table.shorter, 30.0),
        panels=table.panels,
        gores=table.gores or 6,
        shaped=gored if table.shaped is None else table.shaped,
        vent=table.vent,
    )


SLIMMER = 0.9
"""Sweep of a lining left to itself, as a part of the sweep of gathered lengths over it."""


def _circle_lining(skirt: Skirt, wearer: Wearer) -> float:
    if skirt.cut is CutKind.TIERED:
        return MOST_LINING
    if skirt.cut is CutKind.GATHERED:
        # Straight lengths are as wide at the hem as at the waist; the lining stays within them.
        waist = wearer.waist + skirt.waist_ease
        circles = waist * (SLIMMER * skirt.gather_ratio - 1) / (math.tau * skirt.length)
        # The hip comes first: 4 cm of room there, and a little more that it may hang.
        hip = (wearer.hip + 40 - waist) / (math.tau * wearer.hip_depth) + 0.03
        slim = min(math.floor(circles * 100) / 100, MOST_LINING)
        return max(slim, math.ceil(hip * 100) / 100, LEAST_FULLNESS)
    return max(min(skirt.fullness, MOST_LINING), LEAST_FULLNESS)
