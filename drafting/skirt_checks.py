"""What only the whole sheet can tell of a skirt: keys that clash, and lengths that do not fit.

Lengths in millimetres, as the sheet gives them. Loads no pydantic.
"""

from collections.abc import Mapping

from drafting.sheet_checks import Faults, Path, Reading, cut_in, foreign_keys, fullness_faults
from drafting.sheet_told import told
from drafting.skirt_defaults import (
    band_of,
    band_shape_of,
    down_to_level_hem,
    drop_of,
    finish_of,
)
from drafting.spec import BandShape, CutKind, WaistFinish
from drafting.units import Mm

SHORTEST: Mm = 100.0
"""What must be left of a skirt below its waist seam, and above a flounce or below a yoke."""

_CIRCLE, _GORED, _GATHERED, _TIERED = (
    CutKind.CIRCLE,
    CutKind.GORED,
    CutKind.GATHERED,
    CutKind.TIERED,
)
_HOMES = {
    "gores": (_GORED,),
    "shaped": (_GORED,),
    "godets": (_GORED,),
    "flounce": (_CIRCLE, _GORED, _GATHERED),
    "full_widths": (_GATHERED,),
    "tiers": (_TIERED,),
    "tier_ratios": (_TIERED,),
    "tier_growth": (_TIERED,),
    "yoke": (_TIERED,),
    "panels": (_CIRCLE, _GATHERED),
}

# "27.2 in" may come out a hair off; a limit itself is always allowed.
_HAIR: Mm = 1e-6

_BESIDE_OWNED = ("owned", "closure", "waist_finish", "waist_stretch", "grain", "seams")
"""Keys of a skirt that its lining takes too, also when the skirt is sewn already."""


def skirt_faults(reading: Reading, body: Mapping[str, Mm] | None) -> Faults:
    """Return the faults that show between the keys of a skirt.

    Args:
        body: every measure of the wearer, or None while they cannot be known.
    """
    if not reading.sound("skirt"):
        return []
    if reading.written("skirt", "owned"):
        return _owned_faults(reading)
    return [
        *_two_lengths(reading),
        *foreign_keys(reading, "skirt", _HOMES),
        *_how_full(reading),
        *_bodice(reading),
        *_band(reading, body),
        *_tiers(reading),
        *_fit(reading, body),
    ]


# --- a skirt that is sewn already ----------------------------------------------------------


def _owned_faults(reading: Reading) -> Faults:
    here = ("skirt", "owned")
    faults: Faults = []
    missing = [key for key in ("waist", "length", "sweep") if reading.lacks(*here, key)]
    if missing and reading.sound(*here):
        faults.append(
            reading.fault(
                here,
                f"owned gives no {_listed(missing, 'or')} of the skirt that is sewn already.",
                'Write owned = { waist = "75 cm", length = "62 cm", sweep = "4.6 m" }.',
            )
        )
    drafted = _drafted_keys(reading)
    if drafted:
        faults.append(
            reading.fault(
                here,
                f"owned is a skirt that is sewn already, and {_listed(drafted, 'and')} would"
                " draft one.",
                f"Take {'it' if len(drafted) == 1 else 'them'} out; beside owned may stand"
                f" {_listed([*_BESIDE_OWNED[1:], 'allowances.waist', 'allowances.side'], 'and')},"
                " which the lining takes.",
            )
        )
    if reading.lacks("lining"):
        faults.append(
            reading.fault(
                here,
                "owned is a skirt that is sewn already, and the sheet has no lining to put into"
                " it.",
                "Add the line [lining], or take owned out.",
            )
        )
    return [*faults, *_narrow_sweep(reading)]


def _narrow_sweep(reading: Reading) -> Faults:
    owned = reading.sheet.skirt.owned
    if owned.waist is None or owned.sweep is None or owned.sweep >= owned.waist:
        return []
    return [
        reading.fault(
            ("skirt", "owned", "sweep"),
            f"The sweep ({reading.length(owned.sweep)}) is less than the waist"
            f" ({reading.length(owned.waist)}).",
            "Measure the hem all the way round, not folded in half.",
        )
    ]


def _drafted_keys(reading: Reading) -> list[str]:
    """Return the keys of a drafted skirt that the sheet writes."""
    skirt = reading.sheet.skirt
    keys = [
        key
        for key in type(skirt).model_fields
        if key not in (*_BESIDE_OWNED, "allowances") and reading.written("skirt", key)
    ]
    hems = [key for key in ("hem", "spare") if reading.written("skirt", "allowances", key)]
    return [*keys, *(f"allowances.{key}" for key in hems)]


def _listed(words: list[str], before_last: str) -> str:
    if len(words) == 1:
        return words[0]
    return f"{', '.join(words[:-1])} {before_last} {words[-1]}"


# --- keys that clash -----------------------------------------------------------------------


def _two_lengths(reading: Reading) -> Faults:
    """Return a fault for a length beside a level hem, which is a length too."""
    if reading.sheet.skirt.length is None or reading.sheet.skirt.hem_above_floor is None:
        return []
    return [
        reading.fault(
            ("skirt", "hem_above_floor"),
            "hem_above_floor is given beside length.",
            "Give length for one length all round, or hem_above_floor for a level hem.",
        )
    ]


_FULL_BY = {
    CutKind.GATHERED: "Say how full it is with gather_ratio, such as gather_ratio = 2.2.",
    CutKind.TIERED: "Say how full it is with tier_ratios, such as tier_ratios = [2, 1.6, 1.6].",
}


def _how_full(reading: Reading) -> Faults:
    """Return faults for a fullness or gathers that the cut does not have."""
    cut = cut_in(reading, "skirt")
    faults = fullness_faults(reading, "skirt", gored=(0.1, 2.0))
    if cut in _FULL_BY and reading.written("skirt", "fullness"):
        what = f'fullness does not go with cut = "{cut}".'
        faults.append(reading.fault(("skirt", "fullness"), what, _FULL_BY[cut]))
    ratio, path = reading.sheet.skirt.gather_ratio, ("skirt", "gather_ratio")
    if cut is CutKind.TIERED and reading.written(*path):
        what = 'gather_ratio does not go with cut = "tiered", whose yoke is smooth.'
        faults.append(reading.fault(path, what, _FULL_BY[cut]))
    elif ratio is not None and ratio > 3 and cut in (CutKind.CIRCLE, CutKind.GORED):
        faults.append(
            reading.fault(
                path,
                f"gather_ratio is {told(reading.raw(*path))}.",
                f'It can be from 1 to 3; with cut = "gathered", to 4. This skirt is cut = "{cut}".',
            )
        )
    return faults


def _bodice(reading: Reading) -> Faults:
    """Return a fault for a bodice without its waist, or a waist without its bodice."""
    finish, waist = ("skirt", "waist_finish"), ("skirt", "bodice_waist")
    bodice = reading.sheet.skirt.waist_finish is WaistFinish.BODICE
    if bodice and reading.lacks(*waist):
        return [
            reading.fault(
                finish,
                'waist_finish = "bodice" needs the waist seam of that bodice.',
                'Measure it all round, closed, and write bodice_waist = "75 cm".',
            )
        ]
    known = reading.lacks(*finish) or (reading.written(*finish) and reading.sound(*finish))
    if not bodice and known and reading.written(*waist):
        return [
            reading.fault(
                waist,
                'bodice_waist belongs to waist_finish = "bodice".',
                'Write waist_finish = "bodice", or take bodice_waist out.',
            )
        ]
    return []


def _tiers(reading: Reading) -> Faults:
    """Return a fault for ratios that are not as many as the tiers."""
    skirt = reading.sheet.skirt
    if skirt.tiers is None or skirt.tier_ratios is None:
        return []
    count = len(skirt.tier_ratios)
    if count == skirt.tiers:
        return []
    return [
        reading.fault(
            ("skirt", "tier_ratios"),
            f"tier_ratios lists {count} numbers, and tiers is {skirt.tiers}.",
            "Give one for each tier, from the top; or leave tiers out.",
        )
    ]


# --- lengths that do not fit ---------------------------------------------------------------


def _band(reading: Reading, body: Mapping[str, Mm] | None) -> Faults:
    """Return faults for a dropped waist that the band or the body does not allow."""
    skirt = reading.sheet.skirt
    keys = ("drop", "band", "band_shape", "waist_finish")
    if not all(reading.sound("skirt", key) for key in keys):
        return []
    shape, band, drop = band_shape_of(skirt), band_of(skirt), drop_of(skirt)
    faults: Faults = []
    blamed = ("skirt", "drop" if skirt.drop is not None else "band_shape")
    if shape is BandShape.CONTOUR:
        finish = finish_of(skirt)
        if finish is not WaistFinish.BAND:
            faults.append(
                reading.fault(
                    ("skirt", "band_shape"),
                    'band_shape = "contour" belongs to waist_finish = "band".',
                    f'This skirt has waist_finish = "{finish}": take band_shape out, or change'
                    " the finish.",
                )
            )
        elif band > drop + _HAIR and not reading.partial:
            faults.append(
                reading.fault(
                    ("skirt", "band") if skirt.band is not None else blamed,
                    f"The contour band is {reading.length(band)} deep and the waist seam only"
                    f" {reading.length(drop)} below the natural waist: it reaches above the"
                    " natural waist.",
                    f"Drop the waist seam by {reading.length(band)} or more, make the band less"
                    ' deep, or write band_shape = "straight".',
                )
            )
    depth = body["hip_depth"] if body else None
    if reading.partial and skirt.drop is None:
        return faults
    if depth is not None and drop > 0 and not drop < depth:
        faults.append(
            reading.fault(
                blamed,
                f"The waist seam would lie {reading.length(drop)} below the natural waist, and"
                f" the hip lies {reading.length(depth)} below it.",
                f"The drop must be less than the hip depth of {reading.length(depth)}.",
            )
        )
    return faults


def _fit(reading: Reading, body: Mapping[str, Mm] | None) -> Faults:
    """Return faults for a drop, a flounce, a godet or a yoke that the length has no room for."""
    skirt, faults = reading.sheet.skirt, [*_no_flounce_depth(reading), *_two_hems(reading)]
    length = _length(reading, body)
    if length is None or not reading.sound("skirt", "drop"):
        return faults
    drop = drop_of(skirt)
    hanging = length - drop
    if drop > 0 and hanging < SHORTEST:
        faults.append(
            reading.fault(
                ("skirt", "drop" if skirt.drop is not None else "band_shape"),
                f"The waist seam lies {reading.length(drop)} below the natural waist, and the"
                f" skirt is {reading.length(length)} long from there.",
                f"At least {reading.length(SHORTEST)} must hang from the seam.",
            )
        )
        return faults
    return [*faults, *_too_deep(reading, hanging)]


def _too_deep(reading: Reading, hanging: Mm) -> Faults:
    """Return a fault for each part that is too deep for what hangs from the waist seam."""
    skirt, cut = reading.sheet.skirt, cut_in(reading, "skirt")
    parts: list[tuple[Path, Mm | None, Mm]] = [
        (("skirt", "flounce", "depth"), skirt.flounce.depth, hanging - SHORTEST)
    ]
    if cut is CutKind.GORED:
        parts.append((("skirt", "godets", "depth"), skirt.godets.depth, hanging))
    if cut is CutKind.TIERED:
        parts.append((("skirt", "yoke"), skirt.yoke, hanging - SHORTEST))
    return [
        reading.fault(
            path,
            f"The depth of the {path[1]} is {reading.length(depth)}, and the skirt hangs"
            f" {reading.length(hanging)} from its waist seam.",
            f"It must be less than {reading.length(room)}."
            if room > 0
            else "A skirt as short as that takes none.",
        )
        for path, depth, room in parts
        if depth is not None and depth >= room
    ]


def _two_hems(reading: Reading) -> Faults:
    """Return a fault for godets and a flounce in one skirt: both would be its hem."""
    if not (reading.written("skirt", "godets") and reading.written("skirt", "flounce")):
        return []
    return [
        reading.fault(
            ("skirt", "flounce"),
            "A flounce is given beside godets, and both make the hem.",
            "Take one of them out.",
        )
    ]


def _no_flounce_depth(reading: Reading) -> Faults:
    here = ("skirt", "flounce")
    lacking = reading.written(*here) and reading.sound(*here) and reading.lacks(*here, "depth")
    if not lacking:
        return []
    return [
        reading.fault(
            here, "The flounce has no depth.", 'Write flounce = { depth = "15 cm", ratio = 2 }.'
        )
    ]


def _length(reading: Reading, body: Mapping[str, Mm] | None) -> Mm | None:
    """Return the skirt's length at the side, or None while it cannot be known."""
    skirt = reading.sheet.skirt
    if not (reading.sound("skirt", "length") and reading.sound("skirt", "hem_above_floor")):
        return None
    if skirt.length is not None:
        return skirt.length
    if body is None:
        return None
    if skirt.hem_above_floor is not None:
        return down_to_level_hem(body["floor_side"], body["heel"], skirt.hem_above_floor)
    if reading.lacks("skirt", "length") and reading.lacks("skirt", "hem_above_floor"):
        return body["waist_to_knee"]
    return None
