"""Lay plans in the terminal: a short table, 80 columns, what is about said to be."""

from collections.abc import Callable

from drafting.cloth.laying import lay_plans
from drafting.effort import Effort
from drafting.pattern import Pattern
from render.lay_terminal import lay_table
from tests.render.test_lay_pages import shopping_for


def told(pattern: Pattern) -> list[str]:
    lays = lay_plans(pattern, Effort.QUICK)
    return lay_table(pattern, lays, shopping_for(lays)).split("\n")


def test_the_table_keeps_to_eighty_columns(pattern: Pattern) -> None:
    assert max(map(len, told(pattern))) <= 80


def test_each_cloth_has_its_width_its_lay_what_to_buy_and_how_much_is_used(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    lays = {lay.name: lay for lay in lay_plans(pattern, Effort.QUICK)}
    rows = told(pattern)
    (skirt,) = (row for row in rows if row.startswith("  skirt") and "%" in row)
    assert skirt.split() == [
        "skirt", "140.0", "cm", f"{lays['skirt'].length / 1000:.2f}", "m", "2.5", "m",
        f"{100 * lays['skirt'].area / lays['skirt'].usable / lays['skirt'].length:.0f}%", "31.25",
    ]  # fmt: skip


def test_estimates_are_said_to_be_about(pattern_of: Callable[[str], Pattern]) -> None:
    rows = told(pattern_of("chorus-skirt"))
    assert "about, at usual widths" in rows
    assert any("about 730 g" in row for row in rows)
    assert any("about 180.0 m" in row for row in rows)
    assert any("least cloth" in row and "150.0 cm" in row for row in rows)
    assert any("too narrow to cut from" in row for row in rows)


def test_inches_are_bought_in_yards(pattern_of: Callable[[str], Pattern]) -> None:
    (lining,) = (
        row
        for row in told(pattern_of("tea-dance-skirt"))
        if row.startswith("  lining") and "%" in row
    )
    assert "2⅝ yd" in lining


def test_without_a_list_to_buy_the_lays_are_told_alone(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    words = lay_table(pattern, lay_plans(pattern, Effort.QUICK))
    assert "buy" not in words
    assert "to lay" in words
