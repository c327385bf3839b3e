"""Spec sheets: what is read, what is filled in, and what is said of a faulty one."""

import datetime
import re
import subprocess
import sys
import time
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from drafting.errors import Fault, SheetError
from drafting.findings import Level
from drafting.sheet import load, read_sheet, sheet_tables, spec_from_tables
from drafting.spec import (
    Closure,
    CutKind,
    Figure,
    Grain,
    HemFinish,
    PaperName,
    RuffleCloth,
    Scope,
    Spec,
    Strips,
    WaistFinish,
)
from drafting.units import Units
from tests.drawn import drawn

# Every key of the contract that holds a value this edition drafts, one to a line.
CHORUS = """\
title = "Chorus skirt"
units = "cm"
scale = "full"

[wearer]
label = "Chorus, tall"
size = "P05"
waist = "74 cm"
hip = "101 cm"
hip_depth = "20.5 cm"
waist_to_knee = "58 cm"
floor_front = "104 cm"
floor_side = "105.5 cm"
floor_back = "103 cm"
figure = "adult"
accept = ["hip"]
height = "171 cm"
heel = "4 cm"
step = "70 cm"

[skirt]
cut = "circle"
fullness = "full"
length = "62 cm"
panels = 2
waist_ease = "1.5 cm"
waist_stretch = 0.01
gather_ratio = 1.0
drop = "0 cm"
drop_ease = "3 cm"
level = "hem"
grain = "edge"
closure = "centre back"
waist_finish = "band"
band = "3 cm"
facing = "5 cm"
band_shape = "straight"
elastic = "2.5 cm"
hem = "narrow"
hem_facing = "5 cm"
braid = "5 cm"
seams = "pressed open"
interfacing = true
pockets = false
trim_bias = false

[skirt.allowances]
waist = "1 cm"
side = "1.5 cm"
hem = "1.2 cm"
spare = "1 cm"

[lining]
cut = "circle"
fullness = "half"
shorter = "3 cm"
panels = 2
vent = "20 cm"

[ruffle]
cloth = "stiff net"
depth = "20 cm"
gather_ratio = 2.6
above_hem = "1 cm"
tiers = 1
tier_ratio = 1.6
tier_growth = 1.25
doubled = false

[cloth.skirt]
kind = "cotton sateen"
width = "140 cm"
selvage = "1 cm"
shrink_length = 0.04
shrink_width = 0.02
one_way = false
fold = false
price = 12.50

[cloth.lining]
kind = "cotton lawn"

[cloth.ruffle]
width = "150 cm"

[cloth.interfacing]
width = "90 cm"

[cloth.binding]
kind = "lawn"

[print]
paper = ["a4"]
margin = "1 cm"
overlap = "1 cm"
scope = "whole"
strips = "listed"

[publish]
maker = "The Pier Workroom"
page = "https://example.org/skirts"
licence = "CC BY-NC 4.0"
edition = "1"
date = "2026-11-24"
language = "en"
"""

# The other cuts, with the keys that are theirs alone.
GORED = """\
[wearer]
size = "P05"

[skirt]
cut = "gored"
fullness = "third"
gores = 8
shaped = true
waist_finish = "bodice"
bodice_waist = "75 cm"

[skirt.godets]
depth = "20 cm"
angle = 60

[lining]
cut = "gored"
fullness = 0.2
gores = 6
shaped = true
"""

GATHERED = """\
[wearer]
size = "P05"

[skirt]
cut = "gathered"
gather_ratio = 2.2
full_widths = false
panels = 2
hem = "turned"
waist_stretch = "by cloth"

[skirt.flounce]
depth = "15 cm"
ratio = 2.0
"""

TIERED = """\
[wearer]
size = "P05"

[skirt]
cut = "tiered"
tiers = 3
tier_ratios = [2, 1.6, 1.6]
tier_growth = 1.25
yoke = "20 cm"
level = "waist"
"""

OWNED = """\
[wearer]
size = "P05"

[skirt]
closure = "centre back"
waist_finish = "band"
waist_stretch = 0.01
grain = "edge"
seams = "french"

[skirt.allowances]
waist = "1 cm"
side = "1.5 cm"

[skirt.owned]
waist = "75 cm"
length = "62 cm"
sweep = "4.6 m"

[lining]
shorter = "3 cm"
"""

SHEETS = (CHORUS, GORED, GATHERED, TIERED, OWNED)

WAIST = '[wearer]\nwaist = "74 cm"\n'


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(SheetError) as refused:
        read_sheet(text, name="chorus.toml")
    return refused.value.faults


def the_fault(text: str) -> Fault:
    (fault,) = faults_of(text)
    return fault


def skirt_with(line: str) -> str:
    return f"{WAIST}[skirt]\n{line}\n"


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


# --- what is read --------------------------------------------------------------------------


def test_a_whole_sheet_is_read_in_millimetres() -> None:
    spec = read_sheet(CHORUS)
    assert spec.title == "Chorus skirt"
    assert spec.units is Units.CM
    wearer = spec.wearer
    assert (wearer.label, wearer.size, wearer.figure) == ("Chorus, tall", "P05", Figure.ADULT)
    assert [wearer.waist, wearer.hip, wearer.hip_depth, wearer.waist_to_knee] == pytest.approx(
        [740, 1010, 205, 580]
    )
    assert [wearer.floor_front, wearer.floor_side, wearer.floor_back] == pytest.approx(
        [1040, 1055, 1030]
    )
    assert [wearer.height, wearer.heel, wearer.step] == pytest.approx([1710, 40, 700])
    skirt = spec.skirt
    assert [skirt.fullness, skirt.length, skirt.panels, skirt.waist_ease] == pytest.approx(
        [1, 620, 2, 15]
    )
    assert [skirt.waist_stretch, skirt.gather_ratio, skirt.band] == pytest.approx([0.01, 1, 30])
    assert (skirt.grain, skirt.closure) == (Grain.EDGE, Closure.CENTRE_BACK)
    assert (skirt.waist_finish, skirt.hem) == (WaistFinish.BAND, HemFinish.NARROW)
    allowances = skirt.allowances
    assert [allowances.waist, allowances.side, allowances.hem] == pytest.approx([10, 15, 12])
    assert spec.lining is not None
    assert [spec.lining.fullness, spec.lining.shorter] == pytest.approx([0.5, 30])
    assert spec.ruffle is not None
    assert spec.ruffle.cloth is RuffleCloth.STIFF_NET
    assert spec.ruffle.depth == pytest.approx(200)
    assert spec.cloths.skirt.price == 12.5
    assert spec.cloths.ruffle.width == pytest.approx(1500)
    assert spec.print.papers == (PaperName.A4,)
    assert spec.print.margin == pytest.approx(10)
    assert spec.publish.date == "2026-11-24"
    (unused,) = spec.findings
    assert unused.code == "key-unused"
    assert "drop_ease, facing, elastic, hem_facing and braid change nothing" in unused.what


def test_a_waist_alone_is_enough() -> None:
    spec = read_sheet(WAIST)
    assert spec.wearer.hip == pytest.approx(1000)
    assert spec.skirt.length == pytest.approx(584)
    assert (spec.skirt.fullness, spec.skirt.panels) == (1.0, None)
    assert spec.lining is None
    assert spec.ruffle is None
    assert spec.print.papers == (PaperName.A4,)
    assert spec.print.margin is None
    assert spec.print.strips is Strips.LISTED
    assert spec.title == "Skirt"
    assert [one.code for one in spec.findings] == ["measure-estimated"]


def test_a_size_alone_is_enough_and_needs_no_note() -> None:
    spec = read_sheet('[wearer]\nsize = "p05"\n')
    assert (spec.wearer.size, spec.wearer.waist, spec.wearer.hip) == ("P05", 740, 1000)
    assert spec.findings == ()


def test_a_measure_beside_the_size_wins() -> None:
    spec = read_sheet('[wearer]\nsize = "P05"\nhip = "103 cm"\n')
    assert [spec.wearer.waist, spec.wearer.hip] == pytest.approx([740, 1030])


def test_left_and_right_floor_lengths_make_the_side() -> None:
    spec = read_sheet(WAIST + 'floor_left = "105 cm"\nfloor_right = "106 cm"\n')
    assert spec.wearer.floor_side == pytest.approx(1055)


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ('"71,5 cm"', 715),
        ('"28 1/4 in"', 717.55),
        ('"28¼ in"', 717.55),
        ("'27 1/2\"'", 698.5),
        ('"2 ft 3 in"', 685.8),
        ('"710 mm"', 710),
    ],
)
def test_a_length_is_read_as_it_is_written(written: str, mm: float) -> None:
    assert read_sheet(skirt_with(f"length = {written}")).skirt.length == pytest.approx(mm)


@pytest.mark.parametrize(
    ("units", "written", "mm"),
    [("cm", "62", 620), ("cm", "61.5", 615), ("in", "24", 609.6), ("in", '"24 1/2"', 622.3)],
)
def test_a_bare_number_is_taken_in_the_units_of_the_sheet(
    units: str, written: str, mm: float
) -> None:
    sheet = f'units = "{units}"\n' + skirt_with(f"length = {written}")
    assert read_sheet(sheet).skirt.length == pytest.approx(mm)


@pytest.mark.parametrize(
    ("written", "circles"),
    [
        ('"quarter"', 0.25),
        ('"third"', 1 / 3),
        ('"half"', 0.5),
        ('"three-quarter"', 0.75),
        ('"Full"', 1),
        ('"one and a half"', 1.5),
        ('"double"', 2),
        ('"1.5"', 1.5),
        ('"1,5"', 1.5),
        ("0.2", 0.2),
        ("4", 4),
    ],
)
def test_fullness_is_a_word_or_a_number_of_circles(written: str, circles: float) -> None:
    fullness = read_sheet(skirt_with(f"fullness = {written}")).skirt.fullness
    assert fullness == pytest.approx(circles)


def test_a_byte_order_mark_and_windows_line_ends_are_no_matter(tmp_path: Path) -> None:
    sheet = tmp_path / "chorus.toml"
    sheet.write_bytes(b"\xef\xbb\xbf" + CHORUS.replace("\n", "\r\n").encode())
    assert load(sheet) == read_sheet("\ufeff" + CHORUS) == read_sheet(CHORUS)


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("  Chorus skirt ", "Chorus skirt"),
        ("Zoe\u0308's skirt", "Zo\u00eb's skirt"),
        ("Pier 🎭 skirt", "Pier 🎭 skirt"),
        ("../etc/skirt", "../etc/skirt"),
        ("юбка", "юбка"),
        ("x" * 80, "x" * 80),
    ],
)
def test_a_title_is_kept_as_written_but_tidied(written: str, kept: str) -> None:
    assert read_sheet(f'title = "{written}"\n{WAIST}').title == kept


@pytest.mark.parametrize(
    ("stem", "title"),
    [
        ("chorus-skirt", "chorus-skirt"),
        ("a\x00b\u202e", "ab"),
        ("\udcff", "Skirt"),
        ("", "Skirt"),
        ("x" * 200, "x" * 80),
    ],
)
def test_without_a_title_the_name_of_the_file_is_the_title(stem: str, title: str) -> None:
    assert read_sheet(WAIST, title_if_none=stem).title == title


def test_the_stem_of_the_file_is_the_title(tmp_path: Path) -> None:
    sheet = tmp_path / "pier skirt.toml"
    sheet.write_text(WAIST)
    assert load(sheet).title == "pier skirt"


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        ("edition = 2", ("edition", "2")),
        ("edition = 1.1", ("edition", "1.1")),
        ("date = 2026-11-24", ("date", "2026-11-24")),
        ('page = "http://example.org"', ("page", "http://example.org")),
        ('page = ""', ("page", "")),
    ],
)
def test_what_is_published_is_kept_as_text(line: str, kept: tuple[str, str]) -> None:
    publish = read_sheet(f"{WAIST}[publish]\n{line}\n").publish
    assert getattr(publish, kept[0]) == kept[1]


def test_several_papers_may_be_asked_for() -> None:
    spec = read_sheet(WAIST + '[print]\npaper = ["A4", "letter", "a4-letter"]\nstrips = "drawn"\n')
    assert spec.print.papers == (PaperName.A4, PaperName.LETTER, PaperName.A4_LETTER)
    assert spec.print.strips is Strips.DRAWN


def test_rare_measures_come_back_as_findings() -> None:
    sheet = '[wearer]\nwaist = "130 cm"\nhip = "150 cm"\n'
    codes = [one.code for one in read_sheet(sheet).findings]
    assert codes == ["measure-unusual", "measure-unusual", "measure-estimated"]
    accepted = read_sheet(sheet + 'accept = ["waist", "hip"]\n').findings
    assert [one.level for one in accepted] == [Level.NOTE]


# --- defaults that hang on other keys ------------------------------------------------------


@pytest.mark.parametrize(
    ("skirt", "lining"), [("quarter", 0.25), ("half", 0.5), ("full", 0.5), ("double", 0.5)]
)
def test_a_lining_is_at_most_as_full_as_its_skirt(skirt: str, lining: float) -> None:
    spec = read_sheet(f'{WAIST}[skirt]\nfullness = "{skirt}"\n[lining]\n')
    assert spec.lining is not None
    assert spec.lining.fullness == pytest.approx(lining)
    assert spec.lining.shorter == 30


@pytest.mark.parametrize(
    ("cloth", "ratio", "shrinks"),
    [
        ("soft tulle", 3.0, (0, 0)),
        ("stiff net", 2.6, (0, 0)),
        ("silk organza", 2.25, (0.03, 0.015)),
        ("polyester organza", 2.4, (0.01, 0.005)),
        ("cotton organdy", 2.0, (0.04, 0.02)),
        ("crinoline canvas", 1.5, (0, 0)),
    ],
)
def test_a_ruffle_is_gathered_and_shrinks_as_its_cloth_does(
    cloth: str, ratio: float, shrinks: tuple[float, float]
) -> None:
    spec = read_sheet(f'{WAIST}[lining]\n[ruffle]\ncloth = "{cloth}"\n')
    assert spec.ruffle is not None
    assert spec.ruffle.gather_ratio == ratio
    assert (spec.ruffle.depth, spec.ruffle.above_hem, spec.ruffle.doubled) == (None, 10, False)
    assert spec.cloths.ruffle.kind == cloth
    assert (spec.cloths.ruffle.shrink_length, spec.cloths.ruffle.shrink_width) == shrinks


@pytest.mark.parametrize(
    ("kind", "shrinks"),
    [
        ("", (0.04, 0.02)),
        ("curtain find", (0.04, 0.02)),
        ("cotton sateen", (0.04, 0.02)),
        ("Linen", (0.05, 0.025)),
        ("viscose twill", (0.05, 0.025)),
        ("wool flannel", (0.03, 0.015)),
        ("polyester satin", (0.01, 0.005)),
        ("dupion silk", (0.03, 0.015)),
        ("nylon net", (0, 0)),
    ],
)
def test_a_cloth_shrinks_as_its_kind_does(kind: str, shrinks: tuple[float, float]) -> None:
    cloth = read_sheet(f'{WAIST}[cloth.skirt]\nkind = "{kind}"\n').cloths.skirt
    assert (cloth.shrink_length, cloth.shrink_width) == shrinks
    assert (cloth.width, cloth.selvage) == (1400, 10)


def test_a_shrinkage_of_your_own_wins_over_the_kind_even_when_it_is_nought() -> None:
    sheet = f'{WAIST}[cloth.skirt]\nkind = "linen"\nshrink_length = 0\nshrink_width = "0,01"\n'
    cloth = read_sheet(sheet).cloths.skirt
    assert (cloth.shrink_length, cloth.shrink_width) == (0, 0.01)


@pytest.mark.parametrize("key", ["accept", "[print]\npaper"])
@pytest.mark.parametrize("written", ['"\\u001b[31m"', '["\\u001b[31m"]'])
def test_no_message_holds_what_a_terminal_would_obey(key: str, written: str) -> None:
    with pytest.raises(SheetError) as refused:
        read_sheet(f"{WAIST}{key} = {written}\n")
    assert all(line.isprintable() for line in map(plain, refused.value.lines))


@pytest.mark.parametrize("hem", ["narrow", "turned", "rolled"])
def test_a_hem_allowance_that_is_left_out_is_left_to_the_curve(hem: str) -> None:
    assert read_sheet(skirt_with(f'hem = "{hem}"')).skirt.allowances.hem is None
    given = read_sheet(skirt_with(f'hem = "{hem}"\nallowances.hem = "9 mm"'))
    assert given.skirt.allowances.hem == 9


def test_cloth_is_sold_wide_by_the_metre_and_by_the_yard() -> None:
    for units, width in (("cm", 1400), ("in", 54 * 25.4)):
        cloths = read_sheet(f'units = "{units}"\n{WAIST}').cloths
        assert {c.width for c in (cloths.skirt, cloths.lining, cloths.ruffle)} == {width}, units


@pytest.mark.parametrize("written", ["0", "0.0", '"0 cm"', '"0 in"'])
def test_nothing_needs_no_unit(written: str) -> None:
    sheet = f"{WAIST}[skirt]\nallowances.hem = {written}\n[print]\noverlap = {written}\n"
    spec = read_sheet(sheet)
    assert (spec.skirt.allowances.hem, spec.print.overlap) == (0, 0)
    # Anything else does where the sheet does not say in which units it is written.
    with pytest.raises(SheetError, match="overlap"):
        read_sheet(sheet.replace(f"overlap = {written}", "overlap = 1"))


def test_a_child_gets_more_ease_and_an_estimated_body() -> None:
    spec = read_sheet('[wearer]\nfigure = "child"\nwaist = "59.5 cm"\n')
    assert spec.skirt.waist_ease == 20
    assert spec.wearer.hip == pytest.approx(720)
    assert spec.wearer.height == pytest.approx(1340)
    assert spec.wearer.step == pytest.approx(562.8)
    assert [(one.level, one.code) for one in spec.findings] == [
        (Level.CAUTION, "measure-estimated")
    ]


def test_the_step_follows_the_height() -> None:
    assert read_sheet(WAIST).wearer.step == 700
    assert read_sheet(WAIST + 'height = "180 cm"\n').wearer.step == pytest.approx(756)


# --- each key, faulty in each way ----------------------------------------------------------

KEY_LINES = [
    (sheet, number, line.split(" = ")[0])
    for sheet in SHEETS
    for number, line in enumerate(sheet.split("\n"), start=1)
    if " = " in line
]


def changed(sheet: str, number: int, line: str) -> str:
    lines = sheet.split("\n")
    lines[number - 1] = line
    return "\n".join(lines)


def path_of(sheet: str, number: int, key: str) -> str:
    heads = [line.strip("[]") for line in sheet.split("\n")[:number] if line.startswith("[")]
    return ".".join((*heads[-1:], key))


# Without a waist or a size there is no telling who the skirt is for.
NEEDED_FIRST = ("size",)


@pytest.mark.parametrize(("sheet", "number", "key"), KEY_LINES)
def test_a_misspelt_key_is_told_with_its_line_and_the_key_meant(
    sheet: str, number: int, key: str
) -> None:
    line = sheet.split("\n")[number - 1]
    misspelt = key[:-1] + "q" + key[-1]
    told = faults_of(changed(sheet, number, line.replace(key, misspelt, 1)))
    if sheet is not CHORUS and key in NEEDED_FIRST:
        told = tuple(fault for fault in told if fault.key != "wearer.waist")
    (fault,) = told
    assert (fault.line, fault.key) == (number, path_of(sheet, number, misspelt))
    assert fault.nearest == key
    assert f'Did you mean "{key}"?' in str(fault)


@pytest.mark.parametrize("junk", ["{ a = 1 }", "[[1], [2]]", "1979-05-27T07:32:00Z", "07:32:00"])
@pytest.mark.parametrize(("sheet", "number", "key"), KEY_LINES)
def test_a_value_of_the_wrong_kind_is_one_fault_on_its_line(
    sheet: str, number: int, key: str, junk: str
) -> None:
    fault = the_fault(changed(sheet, number, f"{key} = {junk}"))
    assert (fault.line, fault.key) == (number, path_of(sheet, number, key))
    assert fault.given


# An edition is called what its maker likes, and some questions are answered with true.
GOOD_ANSWERS = {
    ("edition", "-1"),
    *(
        (question, "true")
        for question in (
            "one_way",
            "fold",
            "doubled",
            "interfacing",
            "pockets",
            "trim_bias",
            "shaped",
            "full_widths",
        )
    ),
}
HOSTILE = [
    (sheet, number, key, junk)
    for sheet, number, key in KEY_LINES
    for junk in ("nan", "-inf", "1e400", "9" * 60, "-1", "true", '"\\u202ex"')
    if (key, junk) not in GOOD_ANSWERS
]


@pytest.mark.parametrize(("sheet", "number", "key", "junk"), HOSTILE)
def test_a_hostile_value_is_one_fault_on_its_line(
    sheet: str, number: int, key: str, junk: str
) -> None:
    fault = the_fault(changed(sheet, number, f"{key} = {junk}"))
    assert (fault.line, fault.key) == (number, path_of(sheet, number, key))


# What another key of the same sheet cannot do without.
NEEDED = ("size", "cut", "bodice_waist", "waist_finish")


@pytest.mark.parametrize(("sheet", "number", "key"), KEY_LINES)
def test_any_key_that_no_other_needs_may_be_left_out(sheet: str, number: int, key: str) -> None:
    path = path_of(sheet, number, key)
    if sheet is not CHORUS and (key in NEEDED or path == "skirt.flounce.depth"):
        return
    if path.startswith("skirt.owned"):
        assert the_fault(changed(sheet, number, "")).key == "skirt.owned"
        return
    assert read_sheet(changed(sheet, number, "")).wearer.waist == pytest.approx(740)


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_line_misspelt_is_one_fault_a_line_in_order(sheet: str) -> None:
    lines = sheet.split("\n")
    numbers = [number for one, number, _ in KEY_LINES if one is sheet]
    for number in numbers:
        lines[number - 1] = "q" + lines[number - 1]
    told = [fault.line for fault in faults_of("\n".join(lines))]
    # The waist and the size are then missing as well; that is told at the head of [wearer].
    missing = lines.index("[wearer]") + 1
    assert told == sorted([missing, *numbers])


# --- faults --------------------------------------------------------------------------------


def test_the_fault_of_a_misspelt_key_reads_like_a_sentence() -> None:
    text = skirt_with('fulness = "full"')
    with pytest.raises(SheetError) as refused:
        read_sheet(text, name="chorus.toml")
    assert str(refused.value) == (
        'chorus.toml, line 4: "fulness" is not a key of [skirt]. Did you mean "fullness"?'
    )


@pytest.mark.parametrize(
    ("sheet", "line", "allowed"),
    [
        ('hip = "99 cm"\n' + WAIST, 1, "It belongs under [wearer]."),
        (WAIST + 'units = "cm"\n', 3, "at the top of the sheet"),
        (WAIST + "[skirt]\nprice = 3\n", 4, "[cloth.skirt] or [cloth.lining] or [cloth.ruffle]"),
        (WAIST + '[cloth]\nwidth = "140 cm"\n', 4, "It belongs under [cloth.skirt]"),
        (WAIST + '[lining]\nlength = "50 cm"\n', 4, "shorter"),
        (WAIST + '[lining]\nhip_dept = "20 cm"\n', 4, 'Did you mean "hip_depth", under [wearer]?'),
        (WAIST + "[zzzz]\n", 3, "[wearer], [skirt], [skirt.allowances]"),
        (
            WAIST + "[lining]\nzzzz = 1\n",
            4,
            "Its keys are cut, fullness, shorter, panels, gores, shaped, vent.",
        ),
        ("zzzz = 1\n" + WAIST, 1, "At the top stand title, units, scale"),
    ],
)
def test_a_key_in_the_wrong_place_is_told_where_it_belongs(
    sheet: str, line: int, allowed: str
) -> None:
    fault = the_fault(sheet)
    assert fault.line == line
    assert allowed in fault.allowed


@pytest.mark.parametrize(
    ("table", "nearest"),
    [
        ("[skrit]", "skirt"),
        ("[linning]", "lining"),
        ("[allowances]", "skirt.allowances"),
        ("[skirt.allowance]", "skirt.allowances"),
        ("[cloth.linning]", "cloth.lining"),
        ("[[skrit]]", "skirt"),
    ],
)
def test_an_unknown_table_is_told_with_the_nearest(table: str, nearest: str) -> None:
    fault = the_fault(f"{WAIST}{table}\nx = 1\n")
    assert (fault.line, fault.nearest) == (3, nearest)
    assert f"Did you mean [{nearest}]?" in fault.allowed


@pytest.mark.parametrize("sheet", ["skirt = 5\n" + WAIST, WAIST + "[[skirt]]\nx = 1\n"])
def test_a_table_written_as_something_else_is_told(sheet: str) -> None:
    fault = the_fault(sheet)
    assert fault.key == "skirt"
    assert "Write [skirt] on a line of its own" in fault.allowed


@pytest.mark.parametrize("sheet", ["", "\n\n", "# nothing yet\n", '[skirt]\nlength = "62 cm"\n'])
def test_a_sheet_without_a_waist_or_a_size_is_refused(sheet: str) -> None:
    fault = the_fault(sheet)
    assert (fault.key, fault.line) == ("wearer.waist", 0)


def test_a_faulty_waist_is_not_called_missing_as_well() -> None:
    fault = the_fault('[wearer]\nwaist = "wide"\n')
    assert (fault.key, fault.line) == ("wearer.waist", 2)


@pytest.mark.parametrize(("written", "number"), [("74", "74"), ('"74"', "74"), ('"29 ½"', "29 ½")])
def test_a_number_without_a_unit_is_refused_unless_the_sheet_names_one(
    written: str, number: str
) -> None:
    fault = the_fault(f"[wearer]\nwaist = {written}\n")
    assert "without a unit" in fault.what
    assert f'"{number} cm" or "{number} in"' in fault.allowed
    assert 'units = "cm"' in fault.allowed


def test_bare_numbers_are_not_blamed_for_units_that_cannot_be_read() -> None:
    fault = the_fault('units = "centi"\n[wearer]\nwaist = 74\nhip = "900"\n')
    assert fault.key == "units"


@pytest.mark.parametrize(
    ("line", "low", "high"),
    [
        ("length", 100, 1600),
        ("waist_ease", 0, 100),
        ("band", 10, 150),
        ("facing", 30, 100),
        ("elastic", 6, 100),
        ("drop_ease", 0, 100),
        ("hem_facing", 40, 100),
        ("braid", 12, 150),
    ],
)
def test_lengths_of_the_skirt_have_limits(line: str, low: float, high: float) -> None:
    for good in (low, high):
        assert getattr(read_sheet(skirt_with(f'{line} = "{good} mm"')).skirt, line) == good
    for bad in (low - 0.5, high + 0.5):
        fault = the_fault(skirt_with(f'{line} = "{bad} mm"'))
        assert fault.key == f"skirt.{line}"


@pytest.mark.parametrize(
    ("table", "key", "low", "high", "unit"),
    [
        ("skirt.allowances", "waist", 3, 40, "mm"),
        ("skirt.allowances", "side", 3, 50, "mm"),
        ("skirt.allowances", "hem", 0, 100, "mm"),
        ("skirt.allowances", "spare", 0, 100, "mm"),
        ("skirt", "panels", 1, 24, ""),
        ("skirt", "waist_stretch", 0, 0.1, ""),
        ("skirt", "gather_ratio", 1, 3, ""),
        ("skirt", "fullness", 0.2, 4, ""),
        ("lining", "fullness", 0.2, 4, ""),
        ("lining", "shorter", 0, 300, "mm"),
        ("lining", "panels", 1, 24, ""),
        ("lining", "vent", 0, 700, "mm"),
        ("cloth.skirt", "width", 100, 6000, "mm"),
        ("cloth.lining", "selvage", 0, 100, "mm"),
        ("cloth.ruffle", "shrink_length", 0, 0.25, ""),
        ("cloth.skirt", "shrink_width", 0, 0.25, ""),
        ("cloth.skirt", "price", 0, 100000, ""),
        ("print", "margin", 3, 60, "mm"),
        ("print", "overlap", 0, 60, "mm"),
        ("ruffle", "depth", 20, 900, "mm"),
        ("ruffle", "gather_ratio", 1, 6, ""),
        ("ruffle", "above_hem", 0, 100, "mm"),
        ("ruffle", "tiers", 1, 5, ""),
        ("ruffle", "tier_ratio", 1.1, 3, ""),
        ("ruffle", "tier_growth", 1, 1.6, ""),
        ("cloth.interfacing", "width", 100, 6000, "mm"),
        ("cloth.binding", "width", 100, 6000, "mm"),
    ],
)
def test_every_figure_has_limits(table: str, key: str, low: float, high: float, unit: str) -> None:
    lining = "[lining]\n" if table == "ruffle" else ""
    head = f"{WAIST}{lining}[{table}]\n{key} = "

    def written(value: float) -> str:
        return f'"{value:g} {unit}"' if unit else f"{value:g}"

    for good in (low, high):
        assert isinstance(read_sheet(head + written(good)), Spec)
    for bad in (low - 0.01, high + 1):
        assert the_fault(head + written(bad)).key == f"{table}.{key}"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('length = "62 mm"', "Was it meant in cm?"),
        ('length = "24 mm"', "Was it meant in inches?"),
        ('length = "9 cm"', "10.0 cm to 160.0 cm"),
        ('length = "1,250 mm"', "thousands"),
        ('length = "long"', "a number and a unit"),
        ("panels = 2.5", "whole number from 1 to 24"),
        ("panels = 25", "whole number from 1 to 24"),
        ("fullness = true", "needs a number"),
        ("fullness = 5", "0.2 to 4 circles"),
        ('fullness = "haf"', 'Did you mean "half"?'),
        ('closure = "back"', 'Did you mean "centre back"?'),
        ('closure = "front"', '"centre back", "left side" or "none"'),
        ('grain = "center"', 'Did you mean "centre"?'),
        ('hem = "narow"', 'Did you mean "narrow"?'),
        ("waist_stretch = 2", "0.01 is 1 %"),
    ],
)
def test_a_value_that_will_not_do_is_told_what_would(line: str, said: str) -> None:
    fault = the_fault(skirt_with(line))
    assert said in plain(str(fault))
    assert (fault.line, fault.key) == (4, f"skirt.{line.split(' = ')[0]}")


def test_limits_are_told_in_inches_to_a_sheet_in_inches() -> None:
    fault = the_fault('units = "in"\n' + skirt_with("length = 70"))
    # 100 mm is 3.94 in and 1600 mm is 62.99 in.
    assert plain(fault.allowed) == "It can be from 3⅞ in to 63 in."


def test_a_waist_in_the_wrong_unit_is_named() -> None:
    fault = the_fault('[wearer]\nwaist = "74 mm"\n')
    assert (fault.line, fault.key) == (2, "wearer.waist")
    assert 'right in cm: did you mean "74 cm"?' in fault.allowed


def test_a_childs_measures_are_held_against_a_childs_limits() -> None:
    assert the_fault('[wearer]\nwaist = "42 cm"\n').key == "wearer.waist"
    child = read_sheet('[wearer]\nfigure = "child"\nwaist = "42 cm"\n')
    assert child.wearer.figure is Figure.CHILD


def test_measures_are_not_judged_while_the_figure_is_unknown() -> None:
    fault = the_fault('[wearer]\nfigure = "chidl"\nwaist = "42 cm"\n')
    assert (fault.key, fault.nearest) == ("wearer.figure", "child")


def test_contradicting_measures_join_the_other_faults() -> None:
    sheet = (
        '[wearer]\nfigure = "child"\nwaist = "60 cm"\nhip_depth = "21 cm"\n'
        'waist_to_knee = "20 cm"\n[skirt]\nfulness = 1\n'
    )
    assert [fault.key for fault in faults_of(sheet)] == ["wearer.waist_to_knee", "skirt.fulness"]


def test_an_adults_size_is_not_for_a_child() -> None:
    fault = the_fault('[wearer]\nfigure = "child"\nsize = "P01"\nwaist = "60 cm"\n')
    assert (fault.line, fault.key) == (3, "wearer.size")


@pytest.mark.parametrize("size", ["P13", "P5", "XL"])
def test_an_unknown_size_is_told_which_there_are(size: str) -> None:
    fault = the_fault(f'[wearer]\nsize = "{size}"\n')
    assert "P01 to P12" in fault.allowed


@pytest.mark.parametrize(
    "floors",
    [
        'floor_left = "105 cm"',
        'floor_right = "105 cm"',
        'floor_left = "105 cm"\nfloor_side = "105 cm"',
    ],
)
def test_one_side_alone_is_not_enough(floors: str) -> None:
    fault = the_fault(f"{WAIST}{floors}\n")
    assert fault.line == 3
    assert "Give floor_left and floor_right" in fault.allowed


def test_a_ruffle_needs_a_lining() -> None:
    fault = the_fault(WAIST + "[ruffle]\n")
    assert (fault.line, fault.key) == (3, "ruffle")
    assert "[lining]" in fault.allowed


@pytest.mark.parametrize(
    ("accept", "said"),
    [
        ('["hipp"]', 'Did you mean "hip"?'),
        ('"hip"', 'Write accept = ["hip"].'),
        ("[1]", "lists 1"),
        ("true", "needs a list"),
    ],
)
def test_only_measures_can_be_accepted(accept: str, said: str) -> None:
    fault = the_fault(f"{WAIST}accept = {accept}\n")
    assert said in str(fault)
    assert fault.line == 3


@pytest.mark.parametrize(
    ("paper", "said"),
    [
        ('["a5"]', "not a paper here"),
        ('["a4", "A4"]', "twice"),
        ("[]", "is empty"),
        ('"a4"', 'Write paper = ["a4"].'),
        ("[4]", "not a word in quotes"),
        ('["roll-1067"]', 'Did you mean "roll-914"?'),
        ('["roll-850mm"]', 'Did you mean "roll-841"?'),
        ('["roll-36"]', 'Did you mean "roll-36in"?'),
        ('["roll-42in"]', 'Did you mean "roll-36in"?'),
        ('["roll-33"]', 'Did you mean "roll-841"?'),
        ('["projektor"]', 'Did you mean "projector"?'),
    ],
)
def test_papers_that_cannot_be_drawn_on_are_told(paper: str, said: str) -> None:
    fault = the_fault(f"{WAIST}[print]\npaper = {paper}\n")
    assert said in str(fault)
    assert (fault.line, fault.key) == (4, "print.paper")


def test_copy_shop_papers_and_a_projector_may_be_asked_for() -> None:
    asked = ["a0", "a1", "roll-841", "roll-914", "roll-36in", "projector"]
    spec = read_sheet(f"{WAIST}[print]\npaper = {asked}\n", name="sheet.toml")
    assert [paper.value for paper in spec.print.papers] == asked


@pytest.mark.parametrize(
    ("table", "line"),
    [
        ("skirt", "drop = 0"),
        ("skirt", 'drop = "0 cm"'),
        ("print", "measured = []"),
        ("publish", "sizes = []"),
    ],
)
def test_keys_of_later_editions_are_fine_when_they_ask_for_nothing(table: str, line: str) -> None:
    assert read_sheet(f"{WAIST}[{table}]\n{line}\n") == read_sheet(WAIST)


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("", "is empty"),
        ("  ", "is empty"),
        ("\\u200b", "is empty"),
        ("x" * 81, "81 characters"),
        ("a\\tb", "cannot be printed"),
        ("a\\nb", "cannot be printed"),
        ("a\\u0000", "cannot be printed"),
        ("a\\u202eb", "cannot be printed"),
        ("a\\u2028b", "cannot be printed"),
    ],
)
def test_a_title_that_cannot_be_printed_is_refused(title: str, said: str) -> None:
    fault = the_fault(f'title = "{title}"\n{WAIST}')
    assert (fault.line, fault.key) == (1, "title")
    assert said in str(fault)
    assert str(fault).isprintable()


@pytest.mark.parametrize(
    "line",
    [
        'page = "www.example.org"',
        'page = "ftp://example.org"',
        'page = "http://"',
        'page = "http://["',
        'page = "http://a b.org"',
        "page = 5",
        'date = "24.11.2026"',
        'date = "2026-02-30"',
        'date = "20261124"',
        "date = 2026-11-24T10:00:00",
        "date = 2026",
        'language = "nl"',
        "edition = true",
        'maker = "' + "x" * 121 + '"',
        "licence = 4",
    ],
)
def test_what_is_published_must_be_what_it_says(line: str) -> None:
    fault = the_fault(f"{WAIST}[publish]\n{line}\n")
    assert (fault.line, fault.key) == (4, f"publish.{line.split(' = ')[0]}")


def test_lines_are_right_for_every_way_to_write_a_key() -> None:
    sheet = (
        'wearer.waist = "74 cm"\n"zz1" = 1\n\n[skirt]\nallowances = { sied = "1 cm" }\n'
        'zz2 . "z z" = 3\n[print]\npaper = [\n  "a4",\n  "a9",\n]\n[ cloth . skirt ]\nzz3 = 1\n'
    )
    lines = {fault.key: fault.line for fault in faults_of(sheet)}
    assert lines == {
        "zz1": 2,
        "skirt.allowances.sied": 5,
        "skirt.zz2": 6,
        "print.paper": 8,
        "cloth.skirt.zz3": 13,
    }


# --- slips of the pen ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "said", "write"),
    [
        ("hip = 101,5 cm", "no quotes", 'Write hip = "101,5 cm"'),
        ("hip = 101 cm", "no quotes", 'Write hip = "101 cm"'),
        ("hip = 40 1/2 in  # taken twice", "no quotes", 'Write hip = "40 1/2 in"'),
        ('hip = 40 1/2"', "no quotes", "Write hip = '40 1/2\"'"),
        ('hip = "40 1/2""', "inch mark", 'Write hip = \'40 1/2"\' or hip = "40 1/2 in"'),
        ('hip = "40½""', "inch mark", "hip = '40½\"'"),
        ("hip = '3' 4\"'", "single quote", "feet and inches in letters"),
        ('hip = "101 cm', "no closing quote", 'Write hip = "101 cm"'),
        ('hip = "101 cm  # taken twice', "no closing quote", 'Write hip = "101 cm"'),
        ("hip = '101 cm", "no closing quote", "Write hip = '101 cm'"),
        ('hip = 101 cm"', "no opening quote", 'Write hip = "101 cm"'),
        ('hip : "101 cm"', 'has ":" where "=" belongs', 'Write hip = "101 cm"'),
        ('hip "101 cm"', 'has no "="', 'Write hip = "101 cm"'),
        ("hip 101 cm", 'has no "="', 'Write hip = "101 cm"'),
        ("hip =", 'nothing after the "="', 'Write hip = "…"'),
        ("hip = “101 cm”", "curly quotes", 'Write hip = "101 cm"'),
        ("hip = „101 cm“", "curly quotes", 'Write hip = "101 cm"'),
        ("figure = adult", "no quotes round adult", 'Write figure = "adult"'),
        ("hip = Yes", "yes or no", "Write hip = true"),
        ('accept = ["hip"', "never closed", 'paper = ["a4"]'),
        ("accept = [hip]", "not a list", '["…", "…"]'),
        ('accept = "hip", "waist"', "several values", 'Write accept = ["hip", "waist"]'),
        ('hip = "101 cm" "or so"', "left over", "one value between two quotes"),
        ('label = "a\\qb"', "backslash", "single quotes"),
        ('hip = "101 cm\\', "backslash", "single quotes"),
        ('label = "a\x07b"', "cannot be seen (code 7)", "Type the line again."),
        ("hip = 2026-13-45", "no such day", "2026-11-24"),
        ('label = """Chorus', "three quotes", 'label = "…"'),
        ("hip", "cannot be read", "A line holds a key"),
        ("= 4", "cannot be read", "A line holds a key"),
        ("{", "cannot be read", "A line holds a key"),
    ],
)
def test_a_slip_of_the_pen_is_told_with_its_line_and_what_to_write(
    line: str, said: str, write: str
) -> None:
    fault = the_fault(f'[wearer]\nwaist = "74 cm"\n{line}\n\n[skirt]\nlength = "62 cm"\n')
    assert fault.line == 3
    assert said in fault.what
    assert write in fault.allowed
    assert str(fault).isprintable()


def test_a_slip_on_the_last_line_is_told_on_that_line() -> None:
    for end in ("", "\n", "\n\n\n"):
        assert the_fault(f'[wearer]\nwaist = "74 cm{end}').line == 2
        assert the_fault(f'{WAIST}accept = ["hip"{end}').line == 3


def test_a_key_given_twice_is_told_with_both_lines() -> None:
    fault = the_fault(WAIST + 'hip = "99 cm"\nwaist = "75 cm"\n')
    assert fault.line == 4
    assert fault.what == "waist is given twice: here and on line 2."


def test_a_table_given_twice_is_told_with_both_lines() -> None:
    fault = the_fault(WAIST + "[skirt]\npanels = 2\n[wearer]\nhip = '99 cm'\n")
    assert fault.line == 5
    assert fault.what == "The table [wearer] is begun twice: here and on line 1."


@pytest.mark.parametrize("head", ["[skirt", "skirt]", "[skirt]]", "[[skirt]", "{skirt]"])
def test_a_heading_with_a_bracket_amiss_is_told(head: str) -> None:
    fault = the_fault(f'{WAIST}\n{head}\nlength = "62 cm"\n')
    assert fault.line == 4


def test_a_line_within_a_list_is_told_with_where_the_list_began() -> None:
    fault = the_fault(WAIST + 'accept = [\n  "hip",\n  waist,\n]\nhip = "99 cm"\n')
    assert fault.line == 5
    assert "in the list begun on line 3" in fault.what


def test_slips_and_faults_are_told_together() -> None:
    sheet = (
        'units = "cm\n[wearer]\nwaist = 71,5 cm\nhip = "9 m"\n[skirt\nfulness = 1\n'
        'band = "3""\n[skirt]\n[ruffle]\n'
    )
    told = faults_of(sheet)
    assert [fault.line for fault in told] == [1, 3, 4, 5, 6, 7, 8]
    assert told[2].key == "wearer.hip"
    assert told[4].nearest == "fullness"


def test_a_line_that_cannot_be_read_is_not_called_missing() -> None:
    assert the_fault("[wearer]\nwaist = 74 cm\n").line == 2


# --- hostile sheets and files --------------------------------------------------------------


@pytest.mark.parametrize(
    "value",
    ["[" * 5000, "[" * 5000 + "]" * 5000, "{a=" * 3000, "9" * 5000, "0x" + "f" * 5000],
)
def test_a_monstrous_value_is_one_fault_on_its_line(value: str) -> None:
    fault = the_fault(f"{WAIST}hip = {value}\n")
    assert fault.line == 3
    assert len(str(fault)) < 400


def test_a_key_nested_very_deep_is_one_fault() -> None:
    fault = the_fault(WAIST + ".".join("a" * 3000) + " = 1\n")
    assert fault.line == 3
    assert len(str(fault)) < 400


def test_thousands_of_unknown_keys_are_told_quickly_and_shortly() -> None:
    sheet = WAIST + "".join(f"key{number} = 1\n" for number in range(20000))
    began = time.perf_counter()
    told = faults_of(sheet)
    assert time.perf_counter() - began < 5
    assert 10 <= len(told) <= 200


def test_a_sheet_of_slips_only_stops_in_good_time() -> None:
    began = time.perf_counter()
    told = faults_of("waist = 74 cm\n" * 5000)
    assert time.perf_counter() - began < 5
    assert told[0].line == 1


@pytest.mark.parametrize(
    "line",
    [
        "hip = 1" + " 1" * 200_000 + "!",
        "hip = 1" + " " * 400_000 + "!",
        " " * 400_000 + "!",
        "hip = " + "\"'" * 200_000,
        "a." * 200_000 + "!",
        "[" + "a." * 200_000,
        "hip = " + "27 " * 200_000 + '""',
        'hip = "' + "27 " * 200_000 + '""',
        'hip = "' + "27 " * 200_000 + '"',
    ],
)
def test_a_line_of_immense_length_is_told_in_good_time(line: str) -> None:
    began = time.perf_counter()
    fault = the_fault(f"{WAIST}{line}\n")
    assert time.perf_counter() - began < 3
    assert fault.line == 3
    assert len(str(fault)) < 500


def test_a_missing_sheet_and_a_folder_are_left_to_the_caller(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        load(tmp_path / "none.toml")
    with pytest.raises(OSError, match=r".") as refused:
        load(tmp_path)
    assert not isinstance(refused.value, SheetError)


def test_a_file_of_over_a_megabyte_is_refused(tmp_path: Path) -> None:
    sheet = tmp_path / "big.toml"
    sheet.write_text("#" * 1_000_001)
    with pytest.raises(SheetError, match="over 1 MB"):
        load(sheet)


def test_a_file_that_is_not_utf8_is_told_by_line(tmp_path: Path) -> None:
    sheet = tmp_path / "old.toml"
    sheet.write_bytes(b'[wearer]\nwaist = "74 cm"\nlabel = "Zo\xeb"\n')
    with pytest.raises(SheetError) as refused:
        load(sheet)
    (fault,) = refused.value.faults
    assert fault.line == 3
    assert "UTF-8" in fault.allowed
    assert str(refused.value).startswith("old.toml, line 3: ")


def test_a_file_saved_as_utf16_is_refused_plainly(tmp_path: Path) -> None:
    for coding in ("utf-16", "utf-16-le"):
        sheet = tmp_path / f"{coding}.toml"
        sheet.write_bytes(WAIST.encode(coding))
        with pytest.raises(SheetError) as refused:
            load(sheet)
        assert refused.value.faults[0].line == 1


# --- for callers that change keys ----------------------------------------------------------


def test_tables_can_be_changed_and_read_again() -> None:
    tables = sheet_tables(CHORUS)
    tables["wearer"]["waist"] = "80 cm"
    assert spec_from_tables(tables).wearer.waist == pytest.approx(800)
    del tables["wearer"]["size"]
    tables["wearer"]["waist"] = "8 cm"
    with pytest.raises(SheetError) as refused:
        spec_from_tables(tables, name="row 3")
    assert str(refused.value).startswith("row 3: waist is 8 cm")


def test_reading_changes_nothing_in_the_tables() -> None:
    tables, before = sheet_tables(CHORUS), sheet_tables(CHORUS)
    tables["skirt"]["fulness"] = before["skirt"]["fulness"] = 1
    with pytest.raises(SheetError):
        spec_from_tables(tables)
    assert tables == before


def test_sheet_tables_tell_slips() -> None:
    with pytest.raises(SheetError):
        sheet_tables("[wearer]\nwaist = 74 cm\n")


def test_slow_libraries_wait_until_they_are_needed() -> None:
    code = (
        "import sys, drafting.sheet as s;"
        "a = [m for m in ('pydantic', 'pint', 'tree_sitter') if m in sys.modules];"
        f"s.read_sheet({WAIST!r});"
        "b = [m for m in ('tree_sitter', 'tree_sitter_toml') if m in sys.modules];"
        "print(a, b)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True,
        cwd=Path(__file__).parents[2],
    )  # fmt: skip
    assert done.stdout == "[] []\n"


# --- a printer that was measured -----------------------------------------------------------


def measured_on(line: str, top: str = "") -> tuple[tuple[float, float], ...]:
    """Return each measure of a sheet as what was measured, and of what."""
    spec = read_sheet(f"{top}{WAIST}[print]\nmeasured = {line}\n")
    return tuple((way.measured, way.nominal) for way in spec.print.measured)


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ('["198.8 mm of 200 mm", "200.6 mm of 200 mm"]', ((198.8, 200), (200.6, 200))),
        ('["99.4 mm"]', ((99.4, 100),)),
        ('["99,4 mm OF 10 cm"]', ((99.4, 100),)),
        ('["7 7/8 in of 8 in", "99.4 mm"]', ((200.025, 203.2), (99.4, 100))),
        ('["110 mm"]', ((110, 100),)),
        ('["90 mm"]', ((90, 100),)),
        ("[]", ()),
    ],
)
def test_what_printed_lengths_measured_is_read_across_then_up(
    line: str, read: tuple[tuple[float, float], ...]
) -> None:
    found = measured_on(line)
    assert len(found) == len(read)
    for one, wanted in zip(found, read, strict=True):
        assert one == pytest.approx(wanted)


def test_a_bare_measure_is_in_the_sheets_units() -> None:
    (one, other) = measured_on('[9.94, "19.9 of 20"]', 'units = "cm"\n')
    assert one == pytest.approx((99.4, 100))
    assert other == pytest.approx((199, 200))
    (inch,) = measured_on('["7.9 of 8"]', 'units = "in"\n')
    assert inch == pytest.approx((7.9 * 25.4, 203.2))


@pytest.mark.parametrize(
    ("line", "given", "said", "does"),
    [
        ('"99.4 mm"', '"99.4 mm"', "needs a list", 'measured = ["99.4 mm"]'),
        ("99.4", "99.4", "needs a list", "198.8 mm of 200 mm"),
        ("[99.4]", "99.4", "without a unit", '"99.4 mm" or "99.4 in"'),
        ('["99.4"]', '"99.4"', "without a unit", '"99.4 mm" or "99.4 in"'),
        ('["99 mm of 100"]', '"100"', "without a unit", '"100 mm"'),
        ('["0 mm"]', '"0 mm"', "no length that was printed", '"99.4 mm"'),
        ("[0]", "0", "no length that was printed", '"99.4 mm"'),
        ('["-3 mm"]', '"-3 mm"', "cannot be negative", ""),
        ("[-3]", "-3", "cannot be negative", ""),
        ('["99 cm"]', '"99 cm"', "890 %\u00a0large", "Print at 100 % first"),
        ('["110.2 mm"]', '"110.2 mm"', "fit to page", "Print at 100 % first"),
        ('["89.8 mm"]', '"89.8 mm"', "10 %\u00a0small", "up to 10 %"),
        ('["20 mm of 20 mm"]', '"20 mm of 20 mm"', "20 mm is not one", "75 mm to 2 m"),
        ('["a hair"]', '"a hair"', "write a number and a unit", ""),
        ('["99 mm", "99 mm", "99 mm"]', "a list", "3 measures", "two: across, then up"),
        ('["99 mm of 100 mm of 100 mm"]', '"99 mm of', "more than once", "198.8 mm of 200 mm"),
        ("[true]", "true", "no length", "198.8 mm of 200 mm"),
        ('[["99 mm"]]', "a list", "no length", "198.8 mm of 200 mm"),
        ("[nan]", "nan", "no length", "99.4 mm"),
        ("{ across = 1 }", "a table", "needs a list", "198.8 mm of 200 mm"),
    ],
)
def test_nonsense_for_a_measured_print_is_refused_with_what_would_do(
    line: str, given: str, said: str, does: str
) -> None:
    fault = the_fault(f"{WAIST}[print]\nmeasured = {line}\n")
    assert (fault.line, fault.key) == (4, "print.measured")
    assert fault.given.startswith(given)
    assert said in fault.what
    assert does in fault.allowed


# --- the page that explains it -------------------------------------------------------------

PAGE = (Path(__file__).parents[2] / "docs" / "spec-sheet.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("sheet", re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL))
def test_every_sheet_on_the_page_can_be_read(sheet: str) -> None:
    assert isinstance(read_sheet(sheet), Spec)


def test_the_page_shows_a_sheet_for_each_cut() -> None:
    sheets = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    assert {read_sheet(sheet).skirt.cut for sheet in sheets} == set(CutKind)


def test_the_page_names_every_key_of_a_sheet() -> None:
    from drafting.sheet_models import known_keys

    for table, keys in known_keys().items():
        for key in keys:
            path = (*table, key)
            named = f"`{key}`" in PAGE or f"{key} = " in PAGE
            assert named, path


# --- whatever is written -------------------------------------------------------------------

LEAVES: st.SearchStrategy[Any] = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.integers(10**4000, 10**5000),
    st.floats(),
    st.text(max_size=60),
    st.dates(),
    st.datetimes(),
    st.times(),
    st.sampled_from(["74 cm", "half", "a4", "P05", "0", "1,250 mm", "\ud800", "hip"]),
)
VALUES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=6,
)


@pytest.mark.parametrize("sheet", SHEETS)
def test_any_value_in_any_key_is_read_or_told(sheet: str) -> None:
    tables = tomllib.loads(sheet)
    homes: list[tuple[str, ...]] = [(), *((name,) for name in tables if name not in KEYS_ON_TOP)]
    homes += [("cloth", "skirt"), ("cloth", "ruffle")]
    homes += [("skirt", name) for name in ("allowances", "godets", "flounce", "owned")]

    @given(data=st.data())
    @settings(max_examples=drawn(300), deadline=None, suppress_health_check=[HealthCheck.too_slow])
    def read_or_told(data: st.DataObject) -> None:
        changed_tables = sheet_tables(sheet)
        for home in data.draw(st.lists(st.sampled_from(homes), min_size=1, max_size=4)):
            table = changed_tables
            for name in home:
                table = table.get(name, {})
                if not isinstance(table, dict):
                    return
            keys = st.sampled_from([*sorted(table), "fulness"])
            key = data.draw(keys | st.text(max_size=12))
            table[key] = data.draw(VALUES)
        try:
            assert isinstance(spec_from_tables(changed_tables), Spec)
        except SheetError as refused:
            assert refused.faults
            assert all(fault.what for fault in refused.faults)
            assert all(line.isprintable() for line in map(plain, refused.lines))

    read_or_told()


KEYS_ON_TOP = ("title", "units", "scale")


@given(text=st.text(max_size=200))
@example(text='"""')
@example(text="'''\n\n")
@example(text="a = [\n")
@example(text="[a]\n[a.b]\n[a]\n")
@example(text="\ud800")
@example(text='a."\\uD800" = 1')
@settings(deadline=None)
def test_any_text_is_read_or_told(text: str) -> None:
    assert told_or_read(text)


@given(
    at=st.integers(0, len(CHORUS)),
    cut=st.integers(0, 12),
    put=st.text(alphabet="[]{}\"'=#,.\n\\ a1é“\x00", max_size=6),
)
@settings(deadline=None, max_examples=drawn(300))
def test_a_sheet_with_a_wound_is_read_or_told(at: int, cut: int, put: str) -> None:
    assert told_or_read(CHORUS[:at] + put + CHORUS[at + cut :])


def told_or_read(text: str) -> bool:
    """Read a text; whatever is told must be printable and stand on a line of the text."""
    try:
        return isinstance(read_sheet(text), Spec)
    except SheetError as refused:
        lines = text.replace("\r\n", "\n").count("\n") + 1
        return all(
            0 <= fault.line <= lines and fault.what and plain(str(fault)).isprintable()
            for fault in refused.faults
        )


@given(day=st.dates())
def test_any_day_can_be_the_date(day: datetime.date) -> None:
    spec = read_sheet(f"{WAIST}[publish]\ndate = {day.isoformat()}\n")
    assert spec.publish.date == day.isoformat()


def test_a_sign_that_cannot_be_printed_is_never_echoed() -> None:
    with pytest.raises(SheetError) as refused:
        spec_from_tables({"wearer": {"waist": "74 cm", "accept": "\x1b[2J"}})
    assert all(plain(line).isprintable() for line in refused.value.lines)


def test_a_level_hem_takes_the_place_of_a_length() -> None:
    spec = read_sheet(
        WAIST + 'floor_side = "105 cm"\nheel = "4 cm"\n[skirt]\nhem_above_floor = "45 cm"\n'
    )
    assert spec.skirt.hem_above_floor == 450
    # 1050 barefoot, 0.95 of a heel of 40, down to 450 above the floor.
    assert spec.skirt.length == pytest.approx(1050 + 38 - 450)


def test_a_level_hem_beside_a_length_is_refused() -> None:
    fault = the_fault(WAIST + '[skirt]\nlength = "60 cm"\nhem_above_floor = "45 cm"\n')
    assert "beside length" in fault.what
    assert fault.line == 5


def test_both_sides_of_a_crooked_body_are_kept() -> None:
    wearer = read_sheet(WAIST + 'floor_left = "105 cm"\nfloor_right = "106 cm"\n').wearer
    assert (wearer.floor_left, wearer.floor_right, wearer.floor_side) == (1050, 1060, 1055)


def test_godets_and_a_flounce_are_not_given_together() -> None:
    sheet = (
        '[wearer]\nsize = "P05"\n[skirt]\ncut = "gored"\ngodets = {}\n'
        'flounce = { depth = "15 cm" }\n'
    )
    fault = the_fault(sheet)
    assert (fault.line, fault.key) == (6, "skirt.flounce")


def test_tiers_take_no_flounce() -> None:
    sheet = '[wearer]\nsize = "P05"\n[skirt]\ncut = "tiered"\nflounce = { depth = "15 cm" }\n'
    assert the_fault(sheet).key == "skirt.flounce"


def test_a_lining_under_gathers_is_narrower_than_they_are() -> None:
    # 755 x (0.9 x 2.2 - 1) / (2 pi 584) = 0.2016 circles would be narrower than the gathers;
    # the hip needs (1000 + 40 - 755) / (2 pi 204) + 0.03 = 0.2523, rounded up.
    spec = read_sheet('[wearer]\nsize = "P05"\n[skirt]\ncut = "gathered"\n[lining]\n')
    assert spec.lining is not None
    assert spec.lining.fullness == pytest.approx(0.26)
    wide = read_sheet(
        '[wearer]\nsize = "P05"\n[skirt]\ncut = "gathered"\ngather_ratio = 3\n[lining]\n'
    )
    assert wide.lining is not None
    assert wide.lining.fullness == pytest.approx(0.34)


# --- how much is printed -------------------------------------------------------------------


@pytest.mark.parametrize("word", list(Scope))
def test_a_sheet_says_how_much_is_printed(word: Scope) -> None:
    assert read_sheet(f'{WAIST}[print]\nscope = "{word.value}"\n').print.scope is word


def test_whole_pieces_are_printed_unless_the_sheet_says_otherwise() -> None:
    assert read_sheet(WAIST).print.scope is Scope.WHOLE


def test_a_scope_that_there_is_not_is_answered_with_those_there_are() -> None:
    fault = the_fault(f'{WAIST}[print]\nscope = "wiast"\n')
    assert 'Did you mean "waist"?' in str(fault)
    assert '"whole"' in fault.allowed
    assert fault.line == 4
