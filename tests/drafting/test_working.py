"""The working of a draft: what is written under a figure comes to that figure.

Formulas are worked out here by Python itself, not by the code that wrote them; the worked
examples are the trade's own, sums on paper.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from drafting.cloth.buying import purchase
from drafting.cloth.lays import Lay, Method, Stretch
from drafting.cloth.shopping import Shopping
from drafting.figures import as_json
from drafting.pattern import Pattern, draft
from drafting.sheet import load
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Flounce,
    Godets,
    HemFinish,
    LevelAt,
    Lining,
    Ruffle,
    Skirt,
    Spec,
    Tiers,
    WaistFinish,
)
from drafting.units import Units
from drafting.working import Working, letters_used, not_worked, working
from drafting.working.chapters import chapters
from tests.drafting.test_every_cut import specs
from tests.garments import SOUBRETTE, garment

EXAMPLES = tuple(
    sorted((Path(__file__).parent.parent.parent / "measurements_examples").glob("*.toml"))
)

CLOSE = 0.05
"""In mm, or in degrees, or in metres of thread: below any tool's reach."""


def first_sold(least: float, *lengths: float) -> float:
    return min(length for length in lengths if length > least - 1e-6)


ON_PAPER: dict[str, Any] = {
    "__builtins__": {},
    "pi": math.pi,
    "sqrt": math.sqrt,
    "ln": math.log,
    "sin": lambda angle: math.sin(math.pi * angle / 180),
    "cos": lambda angle: math.cos(math.pi * angle / 180),
    "arcsin": lambda share: 180 / math.pi * math.asin(share),
    "arccos": lambda share: 180 / math.pi * math.acos(share),
    "roundup": lambda value: -((-(value - 1e-9)) // 1),
    "rounddown": lambda value: (value + 1e-9) // 1,
    "max": max,
    "min": min,
    "sold": first_sold,
}


def comes_to(one: Working) -> float:
    """Return what a formula comes to with its own numbers."""
    numbers = {term.letter: term.value for term in one.terms}
    assert not re.search(r"__|\[|:|lambda", one.expression)
    return float(eval(one.expression, ON_PAPER, numbers))


SIGNS = {
    "first that reaches": "sold", "round up": "roundup", "round down": "rounddown",
    "greatest": "max", "least": "min", "×": "*", "−": "-", "√": "sqrt", "²": "**2", "π": "pi",
    "^": "**", ";": ",",
}  # fmt: skip


def as_written(one: Working) -> tuple[float, float, float]:
    """Return both sides of the sum as it is printed, and the last place of its result."""
    left, _, right = one.numbers.rpartition(" = ")
    for sign, name in SIGNS.items():
        left = left.replace(sign, name)
    number = re.match(r"-?[\d.]+", right)
    assert number is not None, right
    _, _, decimals = number[0].partition(".")
    return float(eval(left, ON_PAPER, {})), float(number[0]), 10.0 ** -len(decimals)


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, float]]:
    """Yield every number of the figures' JSON with its path."""
    pairs: Any = ()
    if isinstance(value, dict):
        pairs = value.items()
    elif isinstance(value, list):
        pairs = enumerate(value)
    elif isinstance(value, int | float):
        yield path, value
    for name, held in pairs:
        yield from leaves(held, f"{path}.{name}" if path else str(name))


def numbers_of(pattern: Pattern) -> dict[str, float]:
    told = as_json(pattern.figures, ())
    return dict(leaves({key: held for key, held in told.items() if key != "units"}))


def worked(spec: Spec) -> dict[str, Working]:
    found = working(draft(spec))
    assert len({one.key for one in found}) == len(found)
    return {one.key: one for one in found}


def check_all(pattern: Pattern) -> None:
    figures, found = numbers_of(pattern), working(pattern)
    for one in found:
        assert comes_to(one) == pytest.approx(one.gives, abs=CLOSE), one.key
        if one.step:
            assert one.key not in figures
            continue
        assert figures[one.key] == pytest.approx(one.result, abs=6e-4), one.key
        if one.solved:
            assert one.result in [term.value for term in one.terms]
        else:
            assert one.gives == one.result
    keys = {one.key for one in found}
    allowed = [path for path, reason in not_worked(pattern) if reason]
    for path in figures:
        assert path in keys or any(fnmatchcase(path, one) for one in allowed), path


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def example(request: pytest.FixtureRequest) -> Pattern:
    return draft(load(request.param))


# --- every figure --------------------------------------------------------------------------


def test_every_figure_of_an_example_is_worked_and_comes_out(example: Pattern) -> None:
    check_all(example)


@pytest.mark.parametrize("units", Units)
def test_the_sum_as_it_is_printed_gives_the_result_that_is_printed(
    example: Pattern, units: Units
) -> None:
    for one in working(draft(replace(example.spec, units=units))):
        left, right, last = as_written(one)
        # A curve summed at a few places may differ in the last place, nothing else may.
        slack = 0.75 if len(one.terms) > 12 else 0.501
        assert abs(left - right) <= slack * last, (one.key, one.numbers)


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(spec=specs())
def test_every_figure_of_any_garment_is_worked_and_comes_out(spec: Spec) -> None:
    pattern = draft(spec)
    if working(pattern):
        check_all(pattern)


def test_what_cannot_be_drawn_has_no_working() -> None:
    wrong = garment(skirt=Skirt(length=580, flounce=Flounce(depth=150, ratio=40.0)))
    assert draft(wrong).findings
    assert working(draft(wrong)) == ()


def test_a_letter_has_one_meaning_and_every_letter_has_one(example: Pattern) -> None:
    letters = letters_used(working(example))
    assert all(means for _, means in letters)
    assert len(dict(letters)) == len(letters)
    assert len({means for _, means in letters}) == len(letters)


def test_a_letter_has_one_number_in_a_part_of_the_garment(example: Pattern) -> None:
    by_place = {"K", "Lo"}  # measured in front, at the sides, at the back
    for _, heading, held in chapters(working(example)):
        numbers: dict[str, float] = {}
        for term in (term for one in held for term in one.terms):
            if term.letter not in by_place:
                known = numbers.setdefault(term.letter, term.value)
                assert known == pytest.approx(term.value), (heading, term.letter)


def test_the_plain_parts_of_a_garment_are_worked() -> None:
    keys = set(worked(load(EXAMPLES[3])))
    assert EXAMPLES[3].stem == "chorus-skirt"
    of_a_layer = (
        "waistline", "panel_waist", "length_front", "panel_angle", "waist_radius", "hem_radius",
        "sweep", "panel_hem", "hem_allowance_limit", "hem_allowance", "hem_spare", "bias_drop",
        "bias_drops.1.drop", "taut_loop", "opening", "girth_at_hip",
    )  # fmt: skip
    assert keys >= {f"{part}.{name}" for part in ("skirt", "lining") for name in of_a_layer}
    assert keys >= {
        "waist.finished", "lining.walking_sweep", "ruffle.line_below_waist",
        "ruffle.line_radius", "ruffle.line_length", "ruffle.flat_length", "ruffle.strips",
        "ruffle.strip_cut_length", "ruffle.strip_cut_depth", "ruffle.thread_metres",
        "ruffle.cord_metres", "opening.length", "opening.zip", "band.cut_length",
        "band.cut_width",
    }  # fmt: skip


# --- the trade's worked examples -----------------------------------------------------------


def plain(skirt: Skirt, **parts: Any) -> dict[str, Working]:
    """Return the workings for the soubrette, no ease and no stretch unless the skirt says so."""
    return worked(garment(skirt=skirt, **parts))


def snug(**wishes: Any) -> Skirt:
    return replace(Skirt(length=650, waist_ease=0, waist_stretch=0), **wishes)


def values(found: dict[str, Working], *keys: str) -> list[float]:
    return [round(comes_to(found[key]), 1) for key in keys]


ROUND = ("skirt.waistline", "skirt.waist_radius", "skirt.hem_radius", "skirt.sweep")


def test_e1_a_full_circle() -> None:
    assert values(plain(snug()), *ROUND) == [720, 114.6, 764.6, 4804.1]


def test_e2_a_half_circle_eased_and_drafted_small_for_its_stretch() -> None:
    found = plain(snug(waist_ease=20, waist_stretch=0.02, fullness=0.5, length=700))
    assert values(found, *ROUND) == [725.5, 230.9, 930.9, 2924.6]


def test_e3_two_circles_in_four_half_discs() -> None:
    wearer = replace(SOUBRETTE, waist=890, hip=1130)
    found = plain(snug(fullness=2.0, panels=4, length=600), wearer=wearer)
    assert values(found, *ROUND[1:], "skirt.panel_waist", "skirt.panel_hem") == [
        70.8, 670.8, 8429.8, 222.5, 2107.5,
    ]  # fmt: skip


def test_e4_three_quarters_of_a_circle_gathered() -> None:
    wearer = replace(SOUBRETTE, waist=660)
    found = plain(snug(fullness=0.75, panels=3, length=620, gather_ratio=1.5), wearer=wearer)
    assert values(found, *ROUND, "skirt.panel_waist", "skirt.panel_hem") == [
        990, 210.1, 830.1, 3911.7, 330, 1303.9,
    ]  # fmt: skip


def test_e5_a_level_hem_on_an_uneven_body() -> None:
    found = plain(snug(hem_above_floor=480))
    lengths = values(found, "skirt.length_front", "skirt.length_side", "skirt.length_back")
    assert lengths == [560, 580, 570]
    assert values(found, "skirt.sweep", "skirt.hem_radius", "skirt.hem_radius_max") == [
        4317.7, 674.6, 694.6,
    ]  # fmt: skip


def test_e6_a_tilted_waist_found_by_trying() -> None:
    found = plain(snug(hem_above_floor=480, level=LevelAt.WAIST))
    radius = found["skirt.hem_radius"]
    assert radius.solved and round(radius.result, 1) == 686.9
    # An even waist of 720 mm in one circle.
    assert radius.gives == pytest.approx(720 / math.tau)
    assert values(found, "skirt.sweep") == [4315.9]


def test_a_tilted_hem_a_millimetre_off_does_not_come_out() -> None:
    one = plain(snug(hem_above_floor=480, level=LevelAt.WAIST))["skirt.hem_radius"]
    off = [
        replace(term, value=term.value + 1) if term.letter == "R" else term for term in one.terms
    ]
    assert abs(comes_to(replace(one, terms=tuple(off))) - one.gives) > 0.5


def test_e7_the_deepest_hem_depends_on_the_radius() -> None:
    found = plain(snug(hem=HemFinish.TURNED))
    assert values(found, "skirt.hem_allowance_limit") == [11.3]
    quarter = plain(snug(hem=HemFinish.TURNED, fullness=0.25))
    assert values(quarter, "skirt.hem_allowance_limit") == [16.4]


def test_e8_the_waist_of_a_panel_stretches_by_its_angle_from_the_grain() -> None:
    wool = Cloths(skirt=Cloth(kind="wool flannel"))
    found = plain(snug(panels=12, waist_stretch=None), cloths=wool)
    assert round(comes_to(found["skirt.waist_stretch"]), 4) == 0.0117
    # A quarter of the full drop lies 15 degrees from the grain.
    poplin = plain(snug())
    full = comes_to(poplin["skirt.bias_drop"])
    assert comes_to(poplin["skirt.bias_drops.1.drop"]) == pytest.approx(full / 4)


def test_e9_a_ruffle_is_cut_to_its_line_not_to_the_hem() -> None:
    net = Cloths(ruffle=Cloth(width=1420, selvage=10))
    found = plain(
        snug(),
        lining=Lining(fullness=0.5, shorter=30),
        ruffle=Ruffle(depth=200, gather_ratio=2.2, above_hem=10),
        cloths=net,
    )
    assert values(
        found, "ruffle.line_below_waist", "ruffle.line_radius", "ruffle.line_length",
        "ruffle.flat_length", "ruffle.strips", "ruffle.strip_cut_length", "ruffle.line_quarter",
        "ruffle.flat_quarter", "ruffle.strip_cut_depth",
    ) == [410, 639.2, 2008.1, 4417.7, 4, 1124.4, 502.0, 1104.4, 215]  # fmt: skip
    assert values(found, "lining.sweep") == [2667.8]


@pytest.mark.parametrize(
    ("fullness", "slit"), [(0.25, 248.7), (0.5, 209.5), (1, 183.1), (2, 165.3)]
)
def test_e10_the_taut_loop_lets_the_hip_through(fullness: float, slit: float) -> None:
    one = plain(snug(fullness=fullness, length=600))["skirt.taut_loop"]
    assert round(one.result, 1) == slit
    assert one.gives == 1000
    assert comes_to(one) == pytest.approx(1000, abs=CLOSE)


def test_e10_says_which_rule_won_and_the_zip_goes_through_the_band() -> None:
    found = plain(snug())
    assert found["skirt.opening"].note == "the taut loop decides"
    assert comes_to(found["opening.zip"]) == 220
    full = plain(snug(fullness=2.0))
    assert full["skirt.opening"].note.startswith("habit decides")
    assert comes_to(full["skirt.opening"]) == 170


@pytest.mark.parametrize(("units", "bought"), [(Units.CM, 3300), (Units.INCH, 29 * 114.3)])
def test_e11_cloth_is_bought_by_the_lay_and_what_washing_takes(units: Units, bought: float) -> None:
    lay = Lay(
        name="skirt",
        cloth=Cloth(shrink_length=0.03, squared=True),
        usable=1380,
        stretches=(Stretch(start=0, length=3118.4, folded=False),),
        laid=(),
        method=Method.ROWS,
        rows_length=3118.4,
    )
    buys = Shopping(purchases=(purchase(lay, units),), widths={}, notions=(), grams=0)
    pattern = draft(replace(garment(skirt=snug()), units=units))
    needed, buy = working(pattern, buys)[-2:]
    assert (needed.key, buy.key) == ("cloth.skirt.needed", "cloth.skirt.buy")
    assert round(comes_to(needed), 1) == 3214.8
    assert comes_to(buy) == pytest.approx(bought)
    with_ends = replace(lay, cloth=Cloth(repeat=200, shrink_length=0.03))
    more = Shopping(purchases=(purchase(with_ends, units),), widths={}, notions=(), grams=0)
    assert comes_to(working(pattern, more)[-2]) == pytest.approx(more.purchases[0].needed)


# --- other cuts, from the trade's text -----------------------------------------------------


def test_plain_gores_are_parts_of_rings() -> None:
    gores = snug(cut=CutKind.GORED, gores=8, fullness=8 * 15 / 360, waist_ease=20)
    found = plain(gores)
    assert values(found, "skirt.panel_waist", "skirt.waist_radius", "skirt.panel_hem") == [
        92.5, 353.3, 262.7,
    ]  # fmt: skip
    assert values(found, "skirt.sweep") == [2101.4]


def test_godets_add_their_arcs_to_the_sweep() -> None:
    gores = snug(
        cut=CutKind.GORED, gores=8, fullness=8 * 15 / 360, waist_ease=20,
        godets=Godets(depth=200, angle=math.radians(60)),
    )  # fmt: skip
    found = plain(gores)
    assert comes_to(found["godets.sweep"]) == pytest.approx(8 * 200 * math.pi / 3, abs=CLOSE)
    assert comes_to(found["skirt.sweep"]) == pytest.approx(2101.4 + 1675.5, abs=0.1)


def test_whole_widths_of_cloth_gather_to_what_they_come_to() -> None:
    lengths = snug(cut=CutKind.GATHERED, waist_ease=20, gather_ratio=2.5, full_widths=True)
    found = plain(lengths, cloths=Cloths(skirt=Cloth(width=1420, selvage=10)))
    assert round(comes_to(found["skirt.gather_ratio"]), 2) == 3.70


def test_a_flounce_is_rings_as_long_as_the_edge_it_meets() -> None:
    found = plain(snug(flounce=Flounce(depth=150, ratio=2.5), fullness=0.25, panels=2))
    assert values(found, "flounce.inner_radius", "flounce.outer_radius") == [100, 250]
    sewn = comes_to(found["flounce.sewn_length"])
    # The quarter circle's edge, 500 below a waist of 720.
    assert sewn == pytest.approx(720 + math.tau * 0.25 * 500)
    assert comes_to(found["flounce.rings"]) == math.ceil(sewn / (math.tau * 100 - 30))


def test_tiers_grow_deeper_and_longer_one_by_one() -> None:
    tiered = snug(
        cut=CutKind.TIERED, length=800, tiers=Tiers(ratios=(2.0, 1.6, 1.6), growth=1.25, yoke=200)
    )
    found = plain(tiered)
    depths = [comes_to(found[f"tiers.{k}.depth"]) for k in range(3)]
    assert math.fsum(depths) == pytest.approx(600)
    assert depths[2] / depths[1] == pytest.approx(depths[1] / depths[0]) == pytest.approx(1.25)
    flats = [comes_to(found[f"tiers.{k}.flat_length"]) for k in range(3)]
    assert flats[2] / flats[1] == pytest.approx(1.6)
    assert found["skirt.sweep"].result == pytest.approx(flats[2])


def test_a_casing_is_as_long_as_the_flat_waist_and_its_elastic_is_not() -> None:
    pulled = snug(
        gather_ratio=1.6, waist_finish=WaistFinish.CASING, closure=Closure.NONE,
        allowances=Allowances(waist=10), elastic=25,
    )  # fmt: skip
    found = plain(pulled)
    assert values(found, "casing.cut_length", "casing.cut_width", "casing.elastic") == [
        720 * 1.6 + 20, 80, 0.9 * 720 + 25,
    ]  # fmt: skip
    assert "skirt.opening" not in found


@pytest.mark.parametrize(("length", "sweep"), [(480, 787), (630, 1031), (730, 1177), (880, 1367)])
def test_a_step_needs_its_sweep_at_the_linings_hem(length: float, sweep: float) -> None:
    wearer = replace(SOUBRETTE, hip=1000, step=700)
    found = plain(snug(length=length), wearer=wearer, lining=Lining(fullness=0.5, shorter=30))
    assert round(comes_to(found["lining.walking_sweep"])) == sweep
