"""What many garments take, to buy at once: sums checked by hand."""

from typing import Any

import pytest

import drafting
from drafting.cloth.for_all import (
    ForAll,
    cloth_record,
    notion_records,
    notions_in_english,
    purchases_in_rows,
)
from drafting.units import Units
from tests.examples import pattern_of_example


def cloth(needed: float, **more: Any) -> dict[str, Any]:
    return {
        "kind": "cotton sateen", "width": 1400.0, "needed": needed, "buy": 0.0, "estimated": False,
        "price": 12.5, "cost": None, "have": None, **more,
    }  # fmt: skip


def notion(name: str, amount: float, measured: str, about: bool = False) -> dict[str, Any]:
    return {"name": name, "amount": amount, "measured": measured, "about": about}


def test_cloth_is_rounded_up_once_for_all_and_not_for_each() -> None:
    total = ForAll()
    for needed in (2310.0, 2340.0, 2320.0):
        total.add({"skirt": cloth(needed)}, [])
    (one,) = total.cloths_in_order()
    # 6.97 m: 7.0 m of a shop's 10 cm. Each by itself would be 2.4 m, 7.2 m in all.
    assert one.buy(Units.CM) == pytest.approx(7000.0)
    assert one.cost(Units.CM) == pytest.approx(7.0 * 12.5)
    assert one.garments == 3
    # In eighths of a yard, 114.3 mm: 61 of them, 7.625 yd.
    assert one.buy(Units.INCH) == pytest.approx(61 * 114.3)
    assert one.cost(Units.INCH) == pytest.approx(7.625 * 12.5)


def test_cloths_of_another_kind_or_width_are_bought_apart() -> None:
    total = ForAll()
    total.add({"lining": cloth(1000.0), "skirt": cloth(1000.0)}, [])
    total.add({"skirt": cloth(1000.0, width=1500.0)}, [])
    total.add({"skirt": cloth(1000.0, kind="cotton lawn")}, [])
    assert [(one.cloth, one.kind, one.width) for one in total.cloths_in_order()] == [
        ("skirt", "cotton lawn", 1400.0),
        ("skirt", "cotton sateen", 1400.0),
        ("skirt", "cotton sateen", 1500.0),
        ("lining", "cotton sateen", 1400.0),
    ]


def test_zips_are_counted_by_length_and_everything_else_summed() -> None:
    total = ForAll()
    for zip_length in (300.0, 250.0, 300.0):
        total.add(
            {},
            [
                notion("sewing thread for the skirt", 40.5, "metres", about=True),
                notion("zip", zip_length, "length"),
                notion("hook and bar", 2, "count"),
                notion("stay tape for the waist", 745.0, "length"),
            ],
        )
    told = [(one.name, one.each, one.amount, one.about) for one in total.notions_in_order()]
    assert told == [
        ("sewing thread for the skirt", None, pytest.approx(121.5), True),
        ("zip", 250.0, 1, False),
        ("zip", 300.0, 2, False),
        ("hook and bar", None, 6, False),
        ("stay tape for the waist", None, pytest.approx(2235.0), False),
    ]


def test_cloth_without_a_price_costs_nothing_that_is_told() -> None:
    total = ForAll()
    total.add({"skirt": cloth(1000.0, price=None)}, [])
    assert total.cost(Units.CM) is None
    total.add({"lining": cloth(1000.0, price=3.0)}, [])
    assert total.cost(Units.CM) == pytest.approx(3.0)


def test_an_estimate_in_rows_is_what_the_draft_says_its_rows_are() -> None:
    pattern = pattern_of_example("chorus-skirt")
    told = cloth_record(purchases_in_rows(pattern), estimated=True)
    assert told.keys() == pattern.figures.cloth.keys()
    rows = pattern.figures.cloth["skirt"].rows_length
    # Cotton sateen of the sheet shrinks as its kind does; 3 % or 5 cm squares the ends.
    shrunk = rows / (1 - pattern.spec.cloths.skirt.shrink_length)
    assert told["skirt"]["needed"] == pytest.approx(shrunk + max(50, 0.03 * shrunk), abs=0.01)
    assert told["skirt"]["estimated"]


def test_totals_go_by_english_names_in_every_language() -> None:
    sheet = 'units = "cm"\n[wearer]\nsize = "P05"\n[publish]\nlanguage = "de"\n'
    found = notion_records(notions_in_english(drafting.draft(drafting.read_sheet(sheet))))
    assert "zip" in {one["name"] for one in found}
