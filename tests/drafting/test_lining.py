"""The lining: wide enough to walk in, and never drafted with the skirt's gathers."""

import math
from dataclasses import replace

import pytest

from drafting.lining import leg_girth, walking_sweep
from drafting.pattern import draft
from drafting.spec import Closure, Lining, Skirt, WaistFinish
from tests import tape
from tests.garments import CHORUS_TALL, garment, piece_named


@pytest.mark.parametrize(
    ("long", "sweep"), [(450, 787), (600, 1031), (700, 1177), (850, 1367), (1000, 1552)]
)
def test_a_step_of_70_needs_this_sweep(long: float, sweep: float) -> None:
    # Trade 5.1: d_h 200, leg 860 (so waist to floor 1060), p 700, H 1000.
    found = walking_sweep(step=700, length=long, hip_depth=200, floor=1060, hip=1000)
    assert found == pytest.approx(sweep, abs=0.5)


def test_half_a_body_needs_half_the_sweep() -> None:
    full = walking_sweep(step=700, length=850, hip_depth=200, floor=1060, hip=1000)
    half = walking_sweep(step=350, length=425, hip_depth=100, floor=530, hip=500, scale=0.5)
    assert half == pytest.approx(full / 2)


def test_the_leg_tapers_evenly_from_knee_to_calf_to_ankle() -> None:
    girths = {400: 380, 600: 380, 690: 365, 780: 350, 865: 300, 950: 250, 1100: 250}
    for below, girth in girths.items():
        assert leg_girth(below, hip=1000) == pytest.approx(girth)
        assert leg_girth(below, hip=1200) == pytest.approx(1.2 * girth)


def test_shoes_lengthen_the_leg_and_so_lessen_the_sweep() -> None:
    # By hand: floor 1055 + 0.95 x 40 = 1093, leg 888; the lining hangs 590, so the legs part by
    # 700 x 385 / 888 = 303.49; twice that and 380 x 1.01.
    worn = draft(
        garment(wearer=CHORUS_TALL, skirt=Skirt(length=620), lining=Lining(fullness=0.5))
    ).figures.lining
    assert worn is not None and worn.walking_sweep == pytest.approx(990.8, abs=0.05)
    bare = draft(
        garment(
            wearer=replace(CHORUS_TALL, heel=0),
            skirt=Skirt(length=620),
            lining=Lining(fullness=0.5),
        )
    ).figures.lining
    # Barefoot: 700 x 385 / 850 = 317.06, twice that and 383.8.
    assert bare is not None and bare.walking_sweep == pytest.approx(1017.9, abs=0.05)


def test_a_lining_of_a_hem_above_the_hip_needs_only_one_legs_girth() -> None:
    assert walking_sweep(step=700, length=150, hip_depth=200, floor=1060, hip=1000) == 380


def test_the_lining_takes_the_skirts_finished_waist_but_not_its_gathers() -> None:
    pattern = draft(
        garment(
            skirt=Skirt(length=580, gather_ratio=1.5, waist_ease=15, waist_stretch=0.02),
            lining=Lining(fullness=0.5, shorter=40, panels=2),
        )
    )
    (lining,) = [p for p in pattern.pieces if p.name == "lining panel"]
    waist = 2 * tape.walked_length(lining.edges[3].path)
    assert waist == pytest.approx(735 / 1.02, abs=0.1)
    assert tape.walked_length(lining.edges[0].path) == pytest.approx(540)
    # 735 / (pi 1.02) and 540 more.
    assert math.hypot(*lining.edges[1].path[0].start) == pytest.approx(229.37 + 540, abs=0.01)


def test_the_lining_hem_is_narrow_whatever_the_skirts() -> None:
    skirt = Skirt(length=580)
    deep = replace(skirt, allowances=replace(skirt.allowances, hem=30, waist=8))
    pattern = draft(garment(skirt=deep, lining=Lining(fullness=0.5)))
    lining = piece_named(pattern.pieces, "lining panel")
    # 12, and 4 to spare: r 231.64 and R 781.64 drop by 7 x 232 202 / 411 909 = 3.946.
    assert [e.allowance for e in lining.edges] == [15, 16, 15, 8]


def test_under_elastic_the_lining_is_drawn_up_from_the_skirts_flat_waist() -> None:
    pattern = draft(
        garment(
            skirt=Skirt(
                length=580,
                gather_ratio=1.6,
                waist_finish=WaistFinish.CASING,
                closure=Closure.CENTRE_BACK,
            ),
            lining=Lining(fullness=0.5),
        )
    )
    lining = next(p for p in pattern.pieces if p.name == "lining panel")
    assert tape.walked_length(lining.edges[3].path) == pytest.approx(735 * 1.6 / 1.01, abs=0.1)
    assert lining.dots == ()
