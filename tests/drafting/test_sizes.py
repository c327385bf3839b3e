"""The size table: its figures against the printed one, and what is read between the sizes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.sizes import (
    Size,
    child_measures,
    for_height,
    measures_for_waist,
    size_named,
    size_table,
)

LENGTHS = ("hip_depth", "waist_to_knee", "floor_front", "floor_side", "floor_back")
COLUMNS = ("waist", "hip", *LENGTHS)

# Rows of the trade reference, in cm.
P01 = (58, 84, 19.6, 58.0, 104.0, 105.5, 104.5)
P06 = (78, 104, 20.6, 58.5, 105.0, 106.0, 105.0)
P12 = (112, 133, 21.8, 59.1, 106.2, 106.6, 105.6)


def measures(size: Size) -> tuple[float, ...]:
    return tuple(getattr(size, name) for name in COLUMNS)


@pytest.mark.parametrize(("name", "row"), [("P01", P01), ("P06", P06), ("P12", P12)])
def test_a_size_holds_the_printed_figures_in_millimetres(name: str, row: tuple[float, ...]) -> None:
    assert measures(size_named(name)) == pytest.approx([cm * 10 for cm in row])


def test_there_are_twelve_sizes_in_order() -> None:
    assert [size.name for size in size_table()] == [f"P{number:02}" for number in range(1, 13)]


def test_every_measure_grows_from_size_to_size() -> None:
    for smaller, bigger in zip(size_table(), size_table()[1:], strict=False):
        assert all(
            one < other for one, other in zip(measures(smaller), measures(bigger), strict=True)
        )


def test_sizes_step_as_the_grade_rules_say() -> None:
    for at, (low, high) in enumerate(zip(size_table(), size_table()[1:], strict=False), start=1):
        below_p07 = at < 7
        assert high.waist - low.waist == (40 if below_p07 else 60)
        assert high.hip - low.hip == (40 if below_p07 else 50)
        steps = [getattr(high, name) - getattr(low, name) for name in LENGTHS]
        assert steps == pytest.approx([2, 1, 2, 1, 1])


def test_hip_over_waist_falls_from_26_to_21_cm_and_never_rises() -> None:
    over = [size.hip - size.waist for size in size_table()]
    assert (over[0], over[-1]) == (260, 210)
    assert over == sorted(over, reverse=True)


def test_the_front_catches_up_with_the_back_at_p06() -> None:
    for size in size_table():
        number = int(size.name[1:])
        if number < 6:
            assert size.floor_front < size.floor_back < size.floor_side
        elif number == 6:
            assert size.floor_front == size.floor_back
        else:
            assert size.floor_back < size.floor_front


def test_an_unknown_size_is_not_guessed() -> None:
    with pytest.raises(KeyError):
        size_named("P13")


@pytest.mark.parametrize("name", ["P01", "P05", "P07", "P12"])
def test_a_waist_exactly_at_a_size_gives_that_size(name: str) -> None:
    assert measures_for_waist(size_named(name).waist) == size_named(name)


def test_between_two_sizes_measures_are_read_in_proportion() -> None:
    # 720 is half way from P04 (700) to P05 (740).
    between = measures_for_waist(720)
    assert between.waist == 720
    assert between.hip == pytest.approx(980)
    assert between.hip_depth == pytest.approx(203)
    assert between.floor_front == pytest.approx(1047)


@pytest.mark.parametrize(("waist", "hip"), [(540, 800), (500, 760), (1180, 1380), (1240, 1430)])
def test_beyond_the_table_the_last_step_goes_on(waist: float, hip: float) -> None:
    assert measures_for_waist(waist).hip == pytest.approx(hip)


@given(waist=st.floats(450, 1800))
def test_read_measures_are_never_contradictory(waist: float) -> None:
    size = measures_for_waist(waist)
    assert size.waist == waist < size.hip
    assert size.hip_depth < size.waist_to_knee < size.floor_side


@given(waist=st.floats(580, 1119), more=st.floats(0.01, 1))
def test_a_bigger_waist_never_reads_smaller(waist: float, more: float) -> None:
    low, high = measures_for_waist(waist), measures_for_waist(waist + more)
    assert all(a <= b + 1e-9 for a, b in zip(measures(low), measures(high), strict=True))


def test_eight_centimetres_of_height_lengthen_but_do_not_widen() -> None:
    tall = measures_for_waist(740, 1760)
    assert (tall.waist, tall.hip) == (740, 1000)
    assert measures(tall)[2:] == pytest.approx([212, 612, 1098, 1109, 1099])


def test_the_height_of_the_table_changes_nothing() -> None:
    assert for_height(size_named("P03"), 1680) == size_named("P03")
    assert for_height(size_named("P03"), None) == size_named("P03")


def test_a_child_halfway_between_the_two_known_ones_has_the_mean_of_both() -> None:
    # Half way from 104 to 164 cm of height, and from a waist of 53 to 66 cm.
    by_height = child_measures(600, 1340)
    assert measures(by_height) == pytest.approx([600, 720, 150, 440, 800, 812.5, 805])
    assert measures(child_measures(595))[1:] == pytest.approx(measures(by_height)[1:])


def test_a_small_waist_alone_never_makes_a_child_under_80_cm_tall() -> None:
    # At 80 cm: 0.4 of the way below the smaller child.
    assert child_measures(400).waist_to_knee == pytest.approx(224)
    assert child_measures(400).floor_side == pytest.approx(448)


@given(waist=st.floats(400, 950), height=st.none() | st.floats(700, 1800))
def test_a_child_is_never_estimated_to_be_impossible(waist: float, height: float | None) -> None:
    child = child_measures(waist, height)
    assert child.waist == waist <= child.hip
    assert 0 < child.hip_depth < child.waist_to_knee < child.floor_side
