"""The note of changes, against editions that were doctored by hand."""

import json
from copy import deepcopy
from dataclasses import replace
from typing import Any

import pytest

from drafting.figures import as_json
from drafting.units import Units
from render.publish.changes import change_note, compared
from render.publish.editions import LastEdition
from render.publish.markdown import markdown
from tests.examples import pattern_of_example

PATTERN = pattern_of_example("chorus-skirt")


def figures() -> dict[str, Any]:
    """Return the figures of the chorus skirt as a pack's file holds them."""
    told: dict[str, Any] = json.loads(json.dumps(as_json(PATTERN.figures, PATTERN.findings)))
    for name, buy in (("skirt", 2500.0), ("lining", 1900.0)):
        told["cloth"][name]["buy"] = buy
        told["cloth"][name]["asked"] = {"kind": "cotton lawn", "price": None}
        told["cloth"][name]["pieces"] = [{"piece": "skirt panel", "x": 0.0}]
    told["paper"] = {"a4": {"pages": 29}, "letter": {"pages": 31}}
    return told


def note(now: dict[str, Any], before: dict[str, Any], units: Units = Units.CM) -> str:
    pattern = replace(PATTERN, spec=replace(PATTERN.spec, units=units))
    last = LastEdition(folder="chorus-skirt-edition-1", figures=before)
    return markdown(change_note(pattern, now, last), {}).decode().replace("\u00a0", " ")


def test_two_alike_have_nothing_to_tell() -> None:
    told = note(figures(), figures())
    assert "Nothing to measure" in told
    assert "|" not in told


def test_a_number_that_changed_is_told_with_by_how_much() -> None:
    before = figures()
    before["skirt"]["sweep"] -= 123.0
    before["skirt"]["waistline"] += 0.3
    before["lining"]["length_side"] += 0.04
    before["ruffle"]["gather_ratio"] = 2.5
    told = note(figures(), before)
    assert "| sweep | 452.0 cm | 464.3 cm | +12.30 cm |" in told
    assert "−0.30 mm |" in told
    assert "| gather ratio | 2.5 | 2.6 | +0.1 |" in told
    assert "length side" not in told
    assert told.index("**skirt**") < told.index("**ruffle**")


def test_a_sheet_in_inches_is_told_in_inches() -> None:
    before = figures()
    before["skirt"]["sweep"] -= 25.4
    before["skirt"]["waistline"] -= 0.254
    told = note(figures(), before, Units.INCH)
    assert "181¾ in | 182¾ in | +1 in |" in told
    assert "+0.010 in |" in told


def test_cloth_paper_and_finishes_are_told() -> None:
    before = figures()
    before["cloth"]["skirt"]["buy"] = 2700.0
    before["cloth"]["skirt"]["asked"]["kind"] = "cotton sateen"
    before["cloth"]["skirt"]["asked"]["price"] = 12.0
    before["cloth"]["skirt"]["pieces"][0]["x"] = 400.0
    before["paper"] = {"a4": {"pages": 30}, "letter": {"pages": 31}, "a3": {"pages": 12}}
    before["hem"]["finish"] = "turned"
    told = note(figures(), before)
    assert "| skirt | 2.7 m | 2.5 m |" in told
    assert "| skirt asked kind | cotton sateen | cotton lawn |" in told
    assert "| finish | turned | narrow |" in told
    assert "| a4 | 30 | 29 |" in told
    assert "| a3 | 12 | – |" in told
    assert "letter" not in told
    assert "price" not in told
    assert "400" not in told


def test_sizes_that_came_and_went_are_told() -> None:
    now = {"sizes": {"P03": figures(), "P04": figures()}, "paper": {}}
    before = deepcopy(now)
    before["sizes"]["P02"] = before["sizes"].pop("P03")
    before["sizes"]["P04"]["band"]["cut_length"] += 10
    told = note(now, before)
    assert "- new: P03" in told
    assert "- no longer there: P02" in told
    assert "## Size P04" in told
    assert "−1.00 cm |" in told
    assert "## Size P03" not in told


def test_what_changed_alike_in_every_size_is_told_once() -> None:
    now: dict[str, Any] = {"sizes": {name: figures() for name in ("P03", "P04", "P05")}}
    before = deepcopy(now)
    for told in before["sizes"].values():
        told["skirt"]["length_side"] -= 10
    before["sizes"]["P04"]["skirt"]["sweep"] -= 10
    told = note(now, before)
    assert told.count("| length side | 61.0 cm | 62.0 cm | +1.00 cm |") == 1
    assert told.index("## In every size") < told.index("length side") < told.index("## Size P04")
    assert told.count("| sweep |") == 1
    assert "## Size P03" not in told and "## Size P05" not in told


def test_a_pattern_that_is_graded_now_says_so() -> None:
    told = note({"sizes": {"P03": figures()}}, figures())
    assert "This edition is graded; the last was in one size." in told
    told = note(figures(), {"sizes": {"P03": figures()}})
    assert "This edition is in one size; the last was graded." in told


@pytest.mark.parametrize(
    "odd",
    [
        {"skirt": 7},
        {"skirt": {"sweep": "wide"}, "cloth": [1], "paper": [2]},
        {"skirt": {"sweep": [1, {"a": None}]}, "cloth": {"skirt": 3}, "paper": {"a4": 4}},
        {"skirt": {"sweep": float("nan")}, "cloth": {"skirt": {"buy": "much"}}},
        {"skirt": {"sweep": 1e308}, "paper": {"a4": {"pages": {"many": "x" * 999}}}},
        {"skirt": {"sweep": True}, "sizes": {}},
        {"sizes": {"": 3, "P03": 4}},
        {"skirt": {"| <b>": {"*": "[x](y) | <script>"}}},
    ],
)
def test_whatever_the_other_folder_holds_the_note_is_written(odd: dict[str, Any]) -> None:
    told = note(figures(), odd)
    assert told.startswith("# Chorus skirt: What changed")
    assert "<script" not in told
    assert max(len(line) for line in told.splitlines()) < 400


def test_the_least_that_is_told_is_a_twentieth_of_a_millimetre() -> None:
    def changes(more: float) -> list[str]:
        before = figures()
        before["skirt"]["sweep"] += more
        return [change.path for change in compared(before, figures())]

    assert changes(0.049) == changes(-0.049) == []
    assert changes(0.051) == changes(-0.051) == ["skirt.sweep"]
