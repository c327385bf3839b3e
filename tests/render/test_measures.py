"""The measures in words: what becomes of the flat waist, and fullness never counted in panels."""

from pathlib import Path

import drafting
from drafting.pattern import Pattern
from render.measures import fullness_words, measures

EXAMPLES = Path(__file__).resolve().parents[2] / "measurements_examples"


def example(name: str) -> Pattern:
    return drafting.draft(drafting.load(EXAMPLES / f"{name}.toml"))


def words_of(pattern: Pattern, part: str) -> str:
    return dict(measures(pattern))[part].replace("\u00a0", " ")


def test_a_banded_waist_is_sewn_to_the_waist_and_its_ease() -> None:
    # 74 cm and 1.5 cm of ease; drafted 1 % smaller.
    skirt = words_of(example("chorus-skirt"), "skirt")
    assert "flat waist seam 74.8 cm, sewn to 75.5 cm" in skirt
    assert "one full circle in 2 panels of 180°" in skirt


def test_a_waist_in_a_casing_is_drawn_up_and_not_sewn_to_a_length() -> None:
    skirt = words_of(example("young-chorus-skirt"), "skirt")
    assert "drawn up by elastic" in skirt
    assert "sewn to" not in skirt


def test_a_facing_is_taped_to_the_finished_waist_and_not_to_the_smaller_draft() -> None:
    # 71.5 cm and 1 cm of ease: taping to the drafted 71.8 cm would take the stretch off twice.
    assert "tape the waist seam to 72.5 cm" in words_of(example("usher-skirt"), "facing")


def test_the_zip_is_explained() -> None:
    words = words_of(example("chorus-skirt"), "opening")
    assert "zip 30.0 cm (22.4 cm and 3.0 cm of band, next length sold)" in words


def test_fullness_is_told_in_circles() -> None:
    assert fullness_words(0.5) == "a half circle"
    assert fullness_words(2) == "two full circles"
    assert fullness_words(1 / 3) == "a third of a circle"
    assert fullness_words(0.6) == "0.6 of a circle"
    assert fullness_words(2.5) == "2.5 circles"
