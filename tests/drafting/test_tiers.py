"""Tiers of a petticoat and of a ruffle: depths, flat lengths, strips, and how they are sewn."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.pattern import draft
from drafting.piece import edge_named
from drafting.spec import (
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Lining,
    Ruffle,
    RuffleCloth,
    Skirt,
    Tiers,
    WaistFinish,
)
from drafting.tiers import StripWays, gathering_metres, tier_depths, tiers
from tests.garments import SOUBRETTE, garment

WAYS = StripWays(usable=1380, join=10, top=15, seam=10, hem=12)


def test_depths_grow_and_make_up_the_length() -> None:
    # 400 (1.25 - 1) / (1.25^3 - 1) = 104.9; then 131.1 and 163.9.
    assert tier_depths(400, 3, 1.25) == pytest.approx((104.918, 131.148, 163.934), abs=0.001)
    assert tier_depths(400, 4, 1.0) == pytest.approx((100, 100, 100, 100))


@given(st.floats(100, 1500), st.integers(1, 6), st.floats(1, 1.6))
def test_any_depths_sum_to_the_length(length: float, count: int, growth: float) -> None:
    depths = tier_depths(length, count, growth)
    assert math.fsum(depths) == pytest.approx(length)
    for one, other in pairwise(depths):
        assert other == pytest.approx(growth * one)


def test_each_tier_is_gathered_onto_the_one_above() -> None:
    found = tiers(1000, (2.0, 1.6, 1.6), (100, 130, 160), WAYS)
    assert [tier.flat for tier in found] == pytest.approx([2000, 3200, 5120])
    # 2000 / (1380 - 20) = 1.47 -> 2; 3200 / 1360 -> 3; 5120 / 1360 -> 4.
    assert [tier.strips for tier in found] == [2, 3, 4]
    assert [tier.cut_length for tier in found] == pytest.approx([1020, 3200 / 3 + 20, 1300])
    # The last has its hem, the others the allowance of the next seam.
    assert [tier.cut_depth for tier in found] == pytest.approx([125, 155, 187])
    assert gathering_metres(found) == pytest.approx(10.32)


def test_three_tiers_at_two_need_eight_times_the_edge() -> None:
    found = tiers(1000, (2.0, 2.0, 2.0), (100, 100, 100), WAYS)
    assert found[-1].flat == pytest.approx(8000)


def petticoat(**changes: object) -> Skirt:
    kept: dict[str, object] = {
        "cut": CutKind.TIERED,
        "length": 600,
        "waist_stretch": 0.0,
        "waist_ease": 0.0,
        "tiers": Tiers(ratios=(2.0, 1.6, 1.6), growth=1.25),
    }
    return Skirt(**{**kept, **changes})  # type: ignore[arg-type]


def test_a_petticoat_hangs_from_a_yoke_that_fits_the_hip() -> None:
    pattern = draft(garment(skirt=petticoat()))
    yoke = next(piece for piece in pattern.pieces if piece.name == "skirt yoke")
    assert edge_named(yoke, "waist").length == pytest.approx(720)
    # Down to the hip, 96 cm round with 4 cm of room.
    assert edge_named(yoke, "hem").length == pytest.approx(1000, abs=0.01)
    assert [tier.flat_length for tier in pattern.figures.tiers] == pytest.approx(
        [2000, 3200, 5120], abs=0.05
    )
    depths = [tier.depth for tier in pattern.figures.tiers]
    assert math.fsum(depths) == pytest.approx(400)
    assert pattern.figures.skirt.length_side == pytest.approx(600)
    assert pattern.figures.skirt.sweep == pytest.approx(5120, abs=0.05)


def test_each_seam_of_the_tiers_has_a_number_of_its_own_and_is_walked() -> None:
    pattern = draft(garment(skirt=petticoat()))
    seams = {seam.number: seam for seam in pattern.seams if seam.number.startswith("5")}
    assert sorted(seams) == ["5", "5a", "5b"]
    assert [seams[number].gather for number in ("5", "5a", "5b")] == [2.0, 1.6, 1.6]


def test_a_pull_on_yoke_is_wide_enough_for_the_hip_and_drawn_up() -> None:
    skirt = petticoat(waist_finish=WaistFinish.CASING, closure=Closure.NONE)
    pattern = draft(garment(skirt=skirt))
    assert pattern.figures.skirt.waistline == pytest.approx(1000)
    assert "hip-does-not-pass" not in {finding.code for finding in pattern.findings}


def test_a_ruffle_in_tiers_hangs_from_the_linings_line() -> None:
    spec = garment(
        wearer=SOUBRETTE,
        skirt=Skirt(length=650, waist_ease=0, waist_stretch=0),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(
            cloth=RuffleCloth.COTTON_ORGANDY,
            gather_ratio=2.0,
            depth=210,
            tiers=2,
            tier_ratio=1.5,
            tier_growth=1.1,
        ),
        cloths=Cloths(ruffle=Cloth(width=1400)),
    )
    pattern = draft(spec)
    ruffle = pattern.figures.ruffle
    assert ruffle is not None
    # Lining 620 long; the line 220 above its hem, on a radius of 229.18 + 400.
    assert ruffle.line_length == pytest.approx(math.pi * (720 / math.pi + 400), abs=0.01)
    assert [tier.flat_length for tier in ruffle.tiers] == pytest.approx(
        [2 * ruffle.line_length, 3 * ruffle.line_length]
    )
    assert [tier.depth for tier in ruffle.tiers] == pytest.approx([100, 110])
    assert ruffle.gathered_length == pytest.approx(5 * ruffle.line_length)
    names = {piece.name for piece in pattern.pieces}
    assert {"ruffle tier 1", "ruffle tier 2"} <= names
