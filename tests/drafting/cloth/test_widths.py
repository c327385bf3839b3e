"""About how much of a cloth to buy in other widths, and which of them comes cheapest."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.cloth.shopping import AtWidth
from drafting.cloth.widths import at_usual_widths
from drafting.half_scale import halved
from drafting.pattern import draft
from drafting.spec import (
    BandShape,
    Cloth,
    Cloths,
    CutKind,
    Grain,
    HemFinish,
    Lining,
    Owned,
    Ruffle,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import Units
from tests.drawn import drawn
from tests.garments import PAGE_BOY, chorus_skirt, garment

WIDTHS_CM = [900, 1120, 1400, 1500, 2800]
E9 = Skirt(length=650, waist_ease=0, waist_stretch=0.0)


def at(spec: Spec, cloth: str = "skirt") -> tuple[AtWidth, ...]:
    return at_usual_widths(draft(spec), cloth)


def test_example_9s_ruffle_by_hand_in_every_usual_width() -> None:
    # 4417.7 flat, 20 for joins, strips 215 deep and 50 for squaring. Between selvages 880:
    # 4417.7 / 860 = 5.1, 6 strips, 1340; 1100: / 1080, 5 strips, 1125; 1380: 4 strips, 910;
    # 1480: / 1460 = 3.03, 4 strips, 910; 2780: / 2760, 2 strips, 480.
    ruffle = Ruffle(depth=200, gather_ratio=2.2)
    found = at(garment(skirt=E9, lining=Lining(fullness=0.5), ruffle=ruffle), "ruffle")
    assert [one.width for one in found] == WIDTHS_CM
    assert [one.buy for one in found] == [1400, 1200, 1000, 1000, 500]
    assert all(one.panels is None and not one.more_seams for one in found)
    # 1.26, 1.344, 1.40, 1.50 and 1.40 square metres.
    assert [one.cheapest for one in found] == [True, False, False, False, False]


def test_a_full_circle_is_split_in_narrow_cloth_and_its_halves_lie_side_by_side_in_wide() -> None:
    # A radius of some 116 + 880 + hem: half circles are a metre wide, two of them two metres.
    found = at(garment(skirt=Skirt(length=880, panels=2)))
    assert found[0].more_seams
    assert found[0].panels is not None and found[0].panels > 2
    assert [one.panels for one in found[1:]] == [2, 2, 2, 2]
    assert not any(one.more_seams for one in found[1:])
    least, most = found[-1].buy, found[1].buy
    assert least is not None and most is not None
    # One half circle, 2 R long, in place of two behind each other.
    assert 2000 < least < 2400
    assert 3200 < most < 4400


def test_the_cheapest_takes_the_least_area_of_those_with_no_more_seams() -> None:
    for spec in (garment(skirt=Skirt(length=880, panels=2)), chorus_skirt()):
        found = at(spec)
        areas = {one.width: one.buy * one.width for one in found if one.buy and not one.more_seams}
        (best,) = (one for one in found if one.cheapest)
        assert areas[best.width] == min(areas.values())


def test_without_a_number_of_panels_seams_are_counted_from_what_wide_cloth_gives() -> None:
    # A half circle lining is one panel wherever it fits.
    spec = garment(skirt=Skirt(length=880), lining=Lining(fullness=0.5))
    found = at(spec, "lining")
    assert found[0].more_seams
    assert found[-1].panels == 1 and not found[-1].more_seams


def test_a_width_with_more_seams_is_not_the_cheapest_though_it_takes_less() -> None:
    spec = garment(skirt=Skirt(length=700), lining=Lining(fullness=0.5))
    narrow, wider, *_ = at(spec, "lining")
    assert narrow.buy is not None and wider.buy is not None
    assert narrow.more_seams and narrow.buy * narrow.width < wider.buy * wider.width
    assert not narrow.cheapest and wider.cheapest


def test_gathered_lengths_are_as_many_as_the_cloth_asks_for() -> None:
    # 735 x 2.2 = 1617 flat: one length on 280 cm; on 90 cm, 850 without its seams, 1.9: two.
    skirt = Skirt(cut=CutKind.GATHERED, length=580, gather_ratio=2.2)
    found = at(garment(skirt=skirt))
    assert [one.panels for one in found] == [2, 2, 2, 2, 1]
    assert not any(one.more_seams for one in found)
    fuller = at(garment(skirt=replace(skirt, gather_ratio=3)))
    # 2205 / 850 = 2.6: a third length, and a seam that 140 cm does without.
    assert [one.panels for one in fuller] == [3, 3, 2, 2, 1]
    assert [one.more_seams for one in fuller] == [True, True, False, False, False]


def test_a_width_that_cannot_be_cut_from_is_bought_none_of() -> None:
    # 45 cm of each selvage cannot be used: nothing is left of 90 cm.
    found = at(garment(cloths=Cloths(skirt=Cloth(width=1500, selvage=450))))
    assert found[0].buy is None
    assert found[0].panels is None
    assert not found[0].cheapest
    assert found[-1].buy is not None


def test_a_corner_pieced_on_counts_as_a_seam_more() -> None:
    spec = garment(
        skirt=Skirt(length=620, panels=4, grain=Grain.CENTRE),
        cloths=Cloths(skirt=Cloth(width=960)),
    )
    pattern = draft(spec)
    assert [piece.name for piece in pattern.pieces if "corner" in piece.name]
    own = next(one for one in at_usual_widths(pattern, "skirt") if one.width == 960)
    assert own.panels == 4 and own.more_seams and not own.cheapest


def test_cloth_sold_by_the_yard_comes_in_its_own_widths() -> None:
    found = at(replace(chorus_skirt(), units=Units.INCH))
    assert [round(one.width / 25.4, 6) for one in found if one.width != 1400] == [
        36, 44, 54, 60, 110,
    ]  # fmt: skip
    assert all(
        one.buy and one.buy / 114.3 == pytest.approx(round(one.buy / 114.3)) for one in found
    )


@pytest.mark.parametrize(
    "spec",
    [
        halved(chorus_skirt()),
        garment(
            wearer=PAGE_BOY,
            skirt=Skirt(length=360, gather_ratio=1.4, waist_finish=WaistFinish.CASING),
        ),
        garment(skirt=Skirt(cut=CutKind.TIERED, length=580, hem=HemFinish.BOUND)),
        garment(skirt=Skirt(length=580, drop=60, band=50, band_shape=BandShape.CONTOUR)),
        garment(cloths=Cloths(skirt=Cloth(one_way=True, fold=True, repeat=320))),
    ],
    ids=["half scale", "child", "tiers", "contour band", "one way"],
)
def test_every_kind_of_skirt_is_told_in_every_width(spec: Spec) -> None:
    found = at(spec)
    assert [one.width for one in found] == WIDTHS_CM
    assert all(one.buy is not None for one in found)
    assert sum(one.cheapest for one in found) == 1


def test_the_lining_of_an_owned_skirt_is_told_too() -> None:
    owned = Owned(waist=730, length=630, sweep=4300)
    spec = garment(skirt=Skirt(length=630, owned=owned), lining=Lining(fullness=0.5))
    found = at(spec, "lining")
    assert found[-1].panels == 1
    assert all(one.buy for one in found)


@settings(max_examples=drawn(12), deadline=None)
@given(
    st.floats(0.5, 2),
    st.floats(400, 950),
    st.sampled_from((CutKind.CIRCLE, CutKind.GATHERED)),
    st.booleans(),
)
def test_what_a_cloth_takes_without_a_further_seam_a_wider_one_takes_too(
    fullness: float, long: float, cut: CutKind, one_way: bool
) -> None:
    skirt = Skirt(cut=cut, fullness=fullness, length=long, gather_ratio=1 + fullness)
    spec = garment(skirt=skirt, cloths=Cloths(skirt=Cloth(one_way=one_way)))
    found = at(spec)
    # More panels than the fewest may save cloth, on a wide one too; but never are they needed.
    bought = [one.buy is not None for one in found]
    assert bought == sorted(bought)
    plain = [one.buy is not None and not one.more_seams for one in found]
    assert plain == sorted(plain)
    if cut is CutKind.GATHERED:
        panels = [one.panels for one in found if one.panels is not None]
        assert panels == sorted(panels, reverse=True)
