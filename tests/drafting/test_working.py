"""The working of a draft: what is written under a figure comes to that figure.

Formulas are worked out here by Python itself, not by the code that wrote them; the worked
examples are the trade's own, sums on paper.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from drafting.figures import as_json
from drafting.pattern import Pattern, draft
from drafting.sheet import load
from drafting.spec import (
    Flounce,
    Skirt,
    Spec,
)
from drafting.units import Units
from drafting.working import Working, letters_used, not_worked, working
from drafting.working.chapters import chapters
from drafting.working.letters import LETTERS
from tests.drafting.test_every_cut import specs
from tests.garments import garment
from tests.sums import ON_PAPER, comes_to, worked

EXAMPLES = tuple(
    sorted((Path(__file__).parent.parent.parent / "measurements_examples").glob("*.toml"))
)

CLOSE = 0.05
"""In mm, or in degrees, or in metres of thread: below any tool's reach."""


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
    assert len(dict(letters)) == len(letters)
    assert len({means for _, means in LETTERS.values() if means}) == len(LETTERS)


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
