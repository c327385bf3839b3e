"""Kinds of cloth: what their words say of them."""

import pytest

from drafting.cloth.kinds import ORDINARY, behaviour


@pytest.mark.parametrize(
    ("kind", "drop", "hours"),
    [
        # Trade 2.9, row by row.
        ("organdy", 3, 24),
        ("taffeta", 3, 24),
        ("crisp poplin", 3, 24),
        ("cotton sateen", 7, 24),
        ("lawn", 7, 24),
        ("light denim", 7, 24),
        ("wool flannel", 15, 48),
        ("crepe", 15, 48),
        ("viscose", 28, 72),
        ("satin-backed crepe", 28, 72),
        ("silk crepe", 28, 72),
        ("chiffon", 40, 72),
        ("georgette", 40, 72),
    ],
)
def test_a_cloth_drops_and_hangs_as_the_trade_says(kind: str, drop: float, hours: int) -> None:
    found = behaviour(kind)
    assert (found.bias_drop, found.hang_hours, found.woven) == (drop, hours, True)


@pytest.mark.parametrize(
    ("kind", "give"),
    [
        ("cotton poplin", 0.015),
        ("cotton organdy", 0.015),
        ("cotton lawn", 0.015),
        ("silk taffeta", 0.015),
        ("cotton sateen", 0.025),
        ("cotton twill", 0.025),
        ("", 0.025),
        ("wool", 0.04),
        ("wool crepe", 0.04),
        ("crepe", 0.04),
        ("viscose", 0.065),
        ("silk crepe", 0.065),
        ("georgette", 0.065),
    ],
)
def test_a_waist_gives_as_its_cloth_does(kind: str, give: float) -> None:
    # Trade 2.4: the middle of each range of beta.
    assert behaviour(kind).waist_give == give


@pytest.mark.parametrize(
    ("kind", "ease"),
    [
        ("cotton poplin", 0.015),
        ("taffeta", 0.015),
        ("silk organza", 0.015),
        ("cotton lawn", 0.03),
        ("cotton sateen", 0.03),
        ("wool flannel", 0.06),
    ],
)
def test_a_hem_eases_as_its_cloth_does(kind: str, ease: float) -> None:
    # Trade 2.10: the table of q.
    assert behaviour(kind).hem_ease == ease


@pytest.mark.parametrize(
    "kind", ["soft tulle", "stiff net", "cotton knit", "wool jersey", "viscose jersey"]
)
def test_what_is_not_woven_has_no_bias(kind: str) -> None:
    found = behaviour(kind)
    assert not found.woven
    assert (found.bias_drop, found.waist_give, found.hang_hours) == (0, 0, 24)


@pytest.mark.parametrize(
    ("kind", "grams"),
    [
        ("stiff net", 33),
        ("soft tulle", 33),
        ("polyester organza", 38),
        ("cotton organdy", 70),
        ("viscose lining", 75),
        ("cotton lawn", 80),
        ("poplin", 120),
        ("sateen", 140),
        ("wool flannel", 250),
        ("wool crepe", 250),
        ("flannel", 250),
        ("denim", 260),
        ("taffeta", 120),
        ("satin-backed crepe", 150),
        ("viscose", 120),
        ("chiffon", 60),
        ("silk georgette", 60),
        ("cotton flannel", 150),
        ("", 150),
        ("linen", 150),
    ],
)
def test_a_square_metre_weighs(kind: str, grams: float) -> None:
    assert behaviour(kind).grams == grams


def test_flannel_is_wool_unless_it_is_said_to_be_cotton() -> None:
    assert behaviour("flannel").hem_ease == behaviour("wool flannel").hem_ease == 0.06
    assert behaviour("Cotton Flannel") == ORDINARY
    assert behaviour("flannel, brushed cotton") == ORDINARY
    assert behaviour("flannel of cotton and wool").hem_ease == 0.06


@pytest.mark.parametrize(
    ("kind", "same"),
    [
        ("Satin-Backed Crepe", "satin backed crepe"),
        ("crêpe", "crepe"),
        ("crepe-backed satin", "satin-backed crepe"),
        ("silk chiffon, washed", "chiffon"),
        ("organdie", "organdy"),
        ("woollen cloth", "wool"),
    ],
)
def test_a_kind_may_be_spelt_in_more_ways_than_one(kind: str, same: str) -> None:
    assert behaviour(kind) == behaviour(same)


@pytest.mark.parametrize("kind", ["flannelette", "planet print", "woolsack check", "rayonnant"])
def test_a_word_inside_another_word_says_nothing(kind: str) -> None:
    assert behaviour(kind) == ORDINARY


def test_an_unknown_cloth_is_taken_for_ordinary_cotton() -> None:
    for kind in ("", "cotton", "calico", "123", "ситец"):
        assert behaviour(kind) == ORDINARY
