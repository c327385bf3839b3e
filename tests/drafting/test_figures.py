"""The figures as the contract's JSON: its keys, and the numbers of its example sheet."""

import json
import math
from dataclasses import replace
from typing import Any

import pytest

from drafting.figures import as_json
from drafting.findings import Finding, Level
from drafting.pattern import draft
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Lining,
    Ruffle,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import Units
from tests.garments import SOUBRETTE, chorus_skirt, garment

# Spec-sheet.md, to the digit shown there; but for the lining's walking sweep, which that page
# gives barefoot. By trade 5.1 with shoes: 2 x 700 x 385 / 888 + 380 x 1.01 = 990.8.
CONTRACT: dict[str, dict[str, float]] = {
    "skirt": {
        "fullness": 1.0,
        "panels": 2,
        "panel_angle": 180.0,
        "waistline": 747.52,
        "waist_radius": 118.97,
        "hem_radius": 738.97,
        "sweep": 4643.1,
        "length_front": 620.0,
        "length_side": 620.0,
        "length_back": 620.0,
        "hem_allowance_limit": 21.8,
        "bias_drop": 6.2,
        "opening": 196.4,
    },
    "lining": {"waistline": 747.52, "walking_sweep": 990.8, "opening": 224.3},
    "ruffle": {
        "line_below_waist": 380.0,
        "line_radius": 617.9,
        "line_length": 1941.3,
        "flat_length": 5047.5,
        "strips": 4,
        "strip_cut_length": 1281.9,
        "strip_cut_depth": 215.0,
        "gather_ratio": 2.6,
        "thread_metres": 22.7,
        "cord_metres": 6.2,
    },
    "opening": {"length": 224.3, "zip": 300.0},
    "band": {"cut_length": 805.0, "cut_width": 80.0},
}

PLACES = {747.52: 2, 118.97: 2, 738.97: 2}


def sheet(spec: Spec) -> dict[str, Any]:
    pattern = draft(spec)
    back: dict[str, Any] = json.loads(json.dumps(as_json(pattern.figures, pattern.findings)))
    return back


@pytest.mark.parametrize(
    ("part", "key"), [(part, key) for part, keys in CONTRACT.items() for key in keys]
)
def test_the_example_sheet_gives_the_contracts_number_for(part: str, key: str) -> None:
    wanted = CONTRACT[part][key]
    half_a_digit = 0.5 * 10 ** -PLACES.get(wanted, 1)
    assert sheet(chorus_skirt())[part][key] == pytest.approx(wanted, abs=half_a_digit + 1e-3)


def test_the_example_sheets_cloth_takes_3_metres_in_rows() -> None:
    cloth = sheet(chorus_skirt())["cloth"]
    assert set(cloth) == {"skirt", "lining", "ruffle", "interfacing"}
    assert cloth["skirt"]["width"] == 1400
    assert cloth["skirt"]["rows_length"] == pytest.approx(3003.9, abs=0.05)
    assert cloth["skirt"]["usable"] == pytest.approx(1352.4)


def test_the_head_of_the_sheet_says_what_the_numbers_are() -> None:
    found = sheet(chorus_skirt())
    assert (found["title"], found["units"], found["scale"]) == ("Chorus skirt", "mm", 1.0)
    assert list(found)[:4] == ["title", "units", "scale", "skirt"]
    assert {"lining", "ruffle", "opening", "band", "cloth", "truing", "findings"} <= set(found)
    assert not {"casing", "facing", "paper"} & set(found)


def test_the_interfacing_takes_the_band_and_both_stays_in_rows() -> None:
    spec = chorus_skirt()
    found = sheet(replace(spec, cloths=replace(spec.cloths, interfacing=Cloth(width=900))))
    # The band, 805 by 80, makes a row of its own; beside each other lie two stays, 196.4 long
    # for the opening and 20 more, 25 wide.
    opening = found["skirt"]["opening"]
    assert found["cloth"]["interfacing"] == {
        "width": 900,
        "usable": 880,
        "rows_length": pytest.approx(805, abs=1e-3),
    }
    # On a narrow one they find no room beside the band: 80 + 25 is more than 100.
    narrow = sheet(replace(spec, cloths=replace(spec.cloths, interfacing=Cloth(width=120))))
    wanted = 805 + opening + 20
    assert narrow["cloth"]["interfacing"]["rows_length"] == pytest.approx(wanted, abs=1e-2)
    bare = replace(spec, skirt=replace(spec.skirt, interfacing=False))
    assert "interfacing" not in sheet(bare)["cloth"]


def test_the_lining_has_the_same_keys_as_the_skirt() -> None:
    spec = chorus_skirt()
    found = sheet(spec)
    # This sheet gives the skirt's hem allowance, and with it says that there is nothing spare.
    assert set(found["lining"]) == set(found["skirt"]) | {"walking_sweep", "hem_spare"}
    open_hem = replace(spec, skirt=replace(spec.skirt, allowances=Allowances(waist=10, side=15)))
    found = sheet(open_hem)
    assert set(found["lining"]) == set(found["skirt"]) | {"walking_sweep"}
    # 6.2 of drop to the next whole millimetre.
    assert (found["skirt"]["hem_allowance"], found["skirt"]["hem_spare"]) == (12, 7)


def test_what_is_spare_below_the_hem_is_as_the_sheet_says() -> None:
    def spare(**given: float) -> float | None:
        skirt = Skirt(length=580, allowances=Allowances(**given))
        found: float | None = sheet(garment(skirt=skirt))["skirt"].get("hem_spare")
        return found

    # R 695.82 and r 115.82: 7 x 316 376 / 411 909 = 5.377, to the next whole millimetre.
    assert spare() == 6
    assert spare(hem=12) is None
    assert spare(hem=12, spare=25) == 25
    assert spare(spare=0) is None


def test_a_part_that_the_sheet_leaves_out_is_absent() -> None:
    found = sheet(garment())
    assert not {"lining", "ruffle", "casing", "facing"} & set(found)
    # Without a lining it is the skirt that must be walked in.
    assert "walking_sweep" in found["skirt"]


def test_a_skirt_without_closure_has_no_opening_figures() -> None:
    pulled = Skirt(length=580, gather_ratio=1.6, waist_finish=WaistFinish.CASING)
    found = sheet(garment(skirt=pulled))
    assert "opening" not in found and "band" not in found
    assert found["skirt"]["opening"] == 0
    # 735 x 1.6 / 1.01 + 20; 2 x (25 + 5) + 20; 0.9 x 720 + 25.
    assert found["casing"] == {
        "cut_length": pytest.approx(1184.356, abs=1e-3),
        "cut_width": 80,
        "elastic": 673,
    }
    open_sided = sheet(garment(skirt=Skirt(length=580, closure=Closure.LEFT_SIDE)))
    assert open_sided["opening"]["length"] == open_sided["skirt"]["opening"]


def test_a_facing_has_no_band_for_the_zip_to_run_through() -> None:
    skirt = Skirt(length=580, waist_ease=0, waist_stretch=0)
    faced = Skirt(
        length=580, waist_ease=0, waist_stretch=0, waist_finish=WaistFinish.FACING, facing=60
    )
    # E10: 183.1 alone takes a 20 cm zip; with a band of 30 above it, 213.1 takes 22.
    assert sheet(garment(skirt=faced))["opening"]["zip"] == 200
    assert sheet(garment(skirt=skirt))["opening"]["zip"] == 220
    assert sheet(garment(skirt=faced))["facing"] == {
        "waistline": 720,
        "waist_radius": pytest.approx(114.592, abs=1e-3),
        "outer_radius": pytest.approx(174.592, abs=1e-3),
        "depth": 60,
        "panels": 2,
    }


def test_findings_are_written_with_level_code_what_and_do() -> None:
    said = Finding(level=Level.NOTE, code="estimated", what="The hip is estimated.", do="Measure.")
    found = sheet(garment(skirt=Skirt(length=580, panels=4), findings=(said,)))
    (written,) = (one for one in found["findings"] if one["code"] == "estimated")
    assert written == {
        "level": "note",
        "code": "estimated",
        "what": "The hip is estimated.",
        "do": "Measure.",
    }


def test_numbers_are_rounded_to_a_thousandth_and_never_minus_nought() -> None:
    def numbers(value: Any) -> list[float]:
        if isinstance(value, dict):
            # Ratios are multiplied with lengths, and keep more places than a length needs.
            ratios = {"fullness", "gather", "gather_ratio"}
            return [n for key, held in value.items() if key not in ratios for n in numbers(held)]
        if isinstance(value, list):
            return [n for held in value for n in numbers(held)]
        return [value] if isinstance(value, float) else []

    found = numbers(sheet(chorus_skirt()))
    assert len(found) > 40
    assert all((n == round(n, 3) and math.copysign(1, n) == 1) or n < 0 for n in found)


def test_the_written_truing_adds_up_to_a_thousandth() -> None:
    for seam in sheet(chorus_skirt())["truing"]:
        whole = seam["gather"] * seam["second"] + seam["ease"] + seam["difference"]
        assert seam["first"] == pytest.approx(whole, abs=0.003), seam["seam"]


def test_every_walked_seam_is_reported_with_its_gather() -> None:
    truing = sheet(chorus_skirt())["truing"]
    # Panels, every waist edge, lining panels, the ruffle to its line: in this order.
    assert [(seam["number"], seam["seam"]) for seam in truing] == [
        ("1", "skirt panel to skirt panel"),
        ("2", "skirt waist to lining waist"),
        ("2", "skirt waist to band"),
        ("3", "lining panel to lining panel"),
        ("4", "ruffle to its line on the lining"),
    ]
    assert next(s for s in truing if s["number"] == "4")["gather"] == 2.6
    assert all(abs(seam["difference"]) <= 0.1 for seam in truing)


def test_a_reader_can_add_up_every_seam_from_its_own_row() -> None:
    for row in draft(chorus_skirt()).figures.truing:
        sewn = row.gather * row.second + row.ease + row.difference
        assert row.first == pytest.approx(sewn, abs=1e-6), row.seam
    # The band is 30 longer than the waist, for its lap, and the waist is eased on to it by 1 %.
    (band,) = (s for s in sheet(chorus_skirt())["truing"] if s["seam"].endswith("to band"))
    assert band["gather"] == pytest.approx(1 / 1.01, abs=1e-3)
    assert band["second"] == pytest.approx(785)
    assert band["ease"] == pytest.approx(-30 / 1.01, abs=1e-3)


def test_a_zip_is_one_that_is_sold_by_the_inch_on_a_sheet_in_inches() -> None:
    plain = Skirt(length=580, waist_ease=0, waist_stretch=0)
    # 213.1 is 8.39 in: the next zip is one of 9 in.
    found = sheet(garment(skirt=plain, units=Units.INCH))
    assert found["opening"]["zip"] == pytest.approx(9 * 25.4)


def test_the_quarters_of_example_9_are_told() -> None:
    found = sheet(
        garment(
            wearer=SOUBRETTE,
            skirt=Skirt(length=650, waist_ease=0, waist_stretch=0),
            lining=Lining(fullness=0.5),
            ruffle=Ruffle(depth=200, gather_ratio=2.2),
        )
    )["ruffle"]
    assert found["line_quarter"] == pytest.approx(502.0, abs=0.05)
    assert found["flat_quarter"] == pytest.approx(1104.4, abs=0.05)
