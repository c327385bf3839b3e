"""A half-scale form: what halves, what does not. From the trade reference, 9."""

import math

import pytest

from drafting.errors import SheetError
from drafting.half_scale import halved
from drafting.pattern import draft
from drafting.sheet import read_sheet
from drafting.spec import Spec

SHEET = """\
[wearer]
waist = "74 cm"
hip = "101 cm"
hip_depth = "20.5 cm"
waist_to_knee = "58 cm"
floor_front = "104 cm"
floor_left = "105 cm"
floor_right = "106 cm"
floor_back = "103 cm"
height = "171 cm"
heel = "4 cm"
step = "70 cm"

[skirt]
hem_above_floor = "45 cm"
waist_ease = "1.6 cm"
drop = "6 cm"
drop_ease = "3 cm"
band = "5 cm"
facing = "5 cm"
elastic = "2.5 cm"
hem_facing = "5 cm"
braid = "5 cm"
flounce = { depth = "15 cm", ratio = 2 }

[lining]
shorter = "3 cm"
vent = "20 cm"

[ruffle]
depth = "20 cm"
above_hem = "1 cm"
"""


def both(sheet: str) -> tuple[Spec, Spec]:
    return read_sheet(sheet), read_sheet('scale = "half"\n' + sheet)


def test_every_length_of_the_body_halves() -> None:
    full, half = both(SHEET)
    for name in (
        "waist", "hip", "hip_depth", "waist_to_knee", "floor_front", "floor_side", "floor_left",
        "floor_right", "floor_back", "height", "heel", "step",
    ):  # fmt: skip
        assert getattr(half.wearer, name) == pytest.approx(getattr(full.wearer, name) / 2), name


def test_every_length_of_the_design_halves_and_no_ratio() -> None:
    full, half = both(SHEET)
    assert (full.scale, half.scale) == (1, 0.5)
    for name in (
        "length", "hem_above_floor", "waist_ease", "drop", "drop_ease", "band", "facing",
        "hem_facing",
    ):  # fmt: skip
        assert getattr(half.skirt, name) == pytest.approx(getattr(full.skirt, name) / 2), name
    assert half.skirt.flounce is not None
    assert (half.skirt.flounce.depth, half.skirt.flounce.ratio) == (75, 2)
    assert half.lining is not None
    assert (half.lining.shorter, half.lining.vent) == (15, 100)
    assert half.ruffle is not None
    assert (half.ruffle.depth, half.ruffle.above_hem) == (100, 5)
    for name in ("fullness", "gather_ratio", "waist_stretch"):
        assert getattr(half.skirt, name) == getattr(full.skirt, name), name


def test_what_is_bought_and_what_is_printed_on_stays_as_it_is() -> None:
    full, half = both(SHEET)
    assert (half.skirt.elastic, half.skirt.braid) == (25, 50)
    assert (half.cloths, half.print) == (full.cloths, full.print)


def test_godets_yokes_bodices_and_sewn_skirts_halve() -> None:
    _, gored = both(
        '[wearer]\nwaist = "74 cm"\n[skirt]\ncut = "gored"\nwaist_finish = "bodice"\n'
        'bodice_waist = "75 cm"\ngodets = { depth = "20 cm", angle = 90 }\n'
    )
    assert gored.skirt.godets is not None
    assert [gored.skirt.godets.depth, gored.skirt.godets.angle] == [100, math.pi / 2]
    assert gored.skirt.bodice_waist == 375
    _, tiered = both('[wearer]\nwaist = "74 cm"\n[skirt]\ncut = "tiered"\nyoke = "20 cm"\n')
    assert (tiered.skirt.tiers.yoke, tiered.skirt.tiers.ratios) == (100, (2, 1.6, 1.6))
    _, owned = both(
        '[wearer]\nwaist = "74 cm"\n[skirt]\n'
        'owned = { waist = "75 cm", length = "62 cm", sweep = "4 m" }\n[lining]\n'
    )
    assert owned.skirt.owned is not None
    assert (owned.skirt.owned.waist, owned.skirt.length) == (375, 310)
    assert (owned.skirt.owned.length, owned.skirt.owned.sweep) == (310, 2000)


def test_what_the_draft_decides_stays_open() -> None:
    _, half = both('[wearer]\nwaist = "74 cm"\n[lining]\n[ruffle]\n')
    assert half.lining is not None
    assert half.ruffle is not None
    assert (half.ruffle.depth, half.lining.vent, half.skirt.tiers.yoke) == (None, None, None)
    assert half.skirt.allowances.spare is None


@pytest.mark.parametrize(
    # On a radius of 58.8 + 292, turned once: 0.03 R / 2.03 = 5.2, and down to half a millimetre.
    ("hem", "allowance"), [("narrow", 6), ("turned", 5), ("faced", 6), ("rolled", 4),
                           ("bound", 0)]
)  # fmt: skip
def test_allowances_left_open_are_narrower(hem: str, allowance: float) -> None:
    _, half = both(f'[wearer]\nwaist = "74 cm"\n[skirt]\nhem = "{hem}"\n[lining]\n')
    given = half.skirt.allowances
    assert (given.waist, given.side, given.hem) == (6, 10, None)
    drafted = draft(half).figures
    assert drafted.skirt.hem_allowance == pytest.approx(allowance)
    assert drafted.lining is not None
    assert drafted.lining.hem_allowance == pytest.approx(6)


def test_allowances_of_your_own_stay() -> None:
    _, half = both(
        '[wearer]\nwaist = "74 cm"\n[skirt.allowances]\nwaist = "9 mm"\nside = "12 mm"\n'
        'hem = "0 cm"\nspare = "2 cm"\n'
    )
    given = half.skirt.allowances
    assert (given.waist, given.side, given.hem, given.spare) == (9, 12, 0, 20)


def test_a_spec_is_halved_once() -> None:
    full, half = both(SHEET)
    assert halved(full) == half
    with pytest.raises(ValueError, match="full-size"):
        halved(half)


def test_limits_of_a_form_take_the_place_of_an_adults_and_are_told_at_full_size() -> None:
    # A form of 24.5 cm is too small; a body of 49 cm is not.
    assert read_sheet('[wearer]\nwaist = "49 cm"\n').wearer.waist == 490
    with pytest.raises(SheetError, match="Written at full size") as refused:
        read_sheet('scale = "half"\n[wearer]\nwaist = "49 cm"\n')
    assert "50.0\u00a0cm to 140.0\u00a0cm" in refused.value.faults[0].allowed
    # Nor does a small child's heel of 6 cm at most hold for a form's shoe of 8.
    shoe = 'heel = "8 cm"\n'
    child = f'[wearer]\nfigure = "child"\nwaist = "60 cm"\n{shoe}'
    with pytest.raises(SheetError, match="heel"):
        read_sheet(child)
    assert read_sheet(f'scale = "half"\n{child}').wearer.heel == 40


def test_nothing_is_asked_about_a_form_that_can_be() -> None:
    half = read_sheet('scale = "half"\n[wearer]\nwaist = "135 cm"\nhip = "142 cm"\n')
    assert [one.code for one in half.findings] == ["measure-estimated"]


def test_measures_are_not_judged_while_the_scale_is_unknown() -> None:
    with pytest.raises(SheetError) as refused:
        read_sheet('scale = "hlaf"\n[wearer]\nwaist = "49 cm"\n')
    (fault,) = refused.value.faults
    assert (fault.key, fault.nearest) == ("scale", "half")
