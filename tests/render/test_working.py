"""The working as it is shown: in a terminal of any width, and as sections of the booklet."""

import math
import re
from pathlib import Path

import pytest

from drafting.half_scale import halved
from drafting.pattern import Pattern, draft
from drafting.sheet import load
from drafting.spec import Lining, Ruffle, Skirt
from drafting.units import Units
from drafting.working import letters_used, working
from render.booklet.model import Bullets, Section, Table
from render.booklet.working import half_scale_section, working_section
from render.working_terminal import working_text
from tests.garments import chorus_skirt, garment

EXAMPLES = Path(__file__).parent.parent.parent / "measurements_examples"


@pytest.fixture(scope="module")
def chorus() -> Pattern:
    return draft(load(EXAMPLES / "chorus-skirt.toml"))


@pytest.fixture(scope="module")
def form() -> Pattern:
    return draft(halved(chorus_skirt()))


def tables(section: Section) -> dict[str, dict[str, tuple[str, ...]]]:
    """Return the rows of every table by their first column, under the table's caption."""
    return {
        block.caption: {row[0]: row[1:] for row in block.rows}
        for block in section.blocks
        if isinstance(block, Table)
    }


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


# --- in a terminal -------------------------------------------------------------------------


@pytest.mark.parametrize("width", [40, 62, 80, 100])
def test_no_line_is_wider_than_the_terminal(chorus: Pattern, width: int) -> None:
    lines = working_text(chorus, width).splitlines()
    # A formula is broken between its signs; what has no blank cannot be broken.
    assert all(len(line) <= width or " " not in line.strip() for line in lines)
    assert max(map(len, lines)) > width - 4


def test_a_figure_stands_at_the_right_its_formula_below_it(chorus: Pattern) -> None:
    lines = working_text(chorus).splitlines()
    at = next(k for k, line in enumerate(lines) if "radius of the waist seam" in line)
    assert lines[at].endswith("11.9 cm") and len(lines[at]) == 80
    assert [line.strip() for line in lines[at + 1 : at + 4]] == [
        "flat waist seam / (2 × π × fullness)",
        "c / (2 × π × F)",
        "74.8 / (2 × π × 1) = 11.90 cm",
    ]
    assert lines[at + 4].strip().startswith("[geometry]")


def test_everything_worked_is_told_once_and_its_letters_at_the_end(chorus: Pattern) -> None:
    told = re.sub(r"\s+", " ", working_text(chorus, 100))
    for one in working(chorus):
        assert re.sub(r"\s+", " ", one.numbers) in told
        assert one.title in told
    rest = told[told.index("letters used") :]
    assert all(f"{letter} {means}" in rest for letter, means in letters_used(working(chorus)))


def test_the_tea_dance_skirt_is_worked_in_inches() -> None:
    told = working_text(draft(load(EXAMPLES / "tea-dance-skirt.toml")))
    assert " in\n" in told and " cm" not in told


# --- in the booklet ------------------------------------------------------------------------


def test_the_booklet_has_a_table_for_each_part_and_one_of_letters(chorus: Pattern) -> None:
    section = working_section(chorus)
    found = tables(section)
    assert list(found) == [
        "Waist", "Skirt", "Lining", "Ruffle", "Opening and zip", "Band", "Letters used",
    ]  # fmt: skip
    how, numbers, law = found["Skirt"]["sweep, the finished hem all the way round"]
    assert how == "2 × π × fullness × its radius: 2 × π × F × R"
    assert plain(numbers) == "2 × π × 1 × 73.897 = 464.31 cm"
    assert law == "geometry"
    assert found["Letters used"]["F"] == ("fullness, in circles",)


def test_every_row_of_a_table_has_a_cell_for_every_head(chorus: Pattern, form: Pattern) -> None:
    half = half_scale_section(form)
    assert half is not None
    for section in (working_section(chorus), half):
        for block in section.blocks:
            if isinstance(block, Table):
                assert {len(row) for row in block.rows} == {len(block.heads)}
                assert all(cell for row in block.rows for cell in row)


def test_a_full_size_draft_has_no_page_of_scale(chorus: Pattern) -> None:
    assert half_scale_section(chorus) is None


def test_body_and_design_are_halved_and_areas_quartered(form: Pattern) -> None:
    section = half_scale_section(form)
    assert section is not None
    rows = tables(section)["To scale, 1:2"]
    told = {name: tuple(map(plain, row)) for name, row in rows.items()}
    assert told["waist of the body"] == ("74.0 cm", "37.0 cm")
    assert told["length of the skirt"] == ("62.0 cm", "31.0 cm")
    assert told["depth of the ruffle"] == ("20.0 cm", "10.0 cm")
    # Waist 755 / 1.01, one circle, 62 cm long.
    inner = 755 / 1.01 / math.tau
    area = math.pi * ((inner + 620) ** 2 - inner**2) / 1e6
    full, here = told["area of the skirt's panels, without allowances"]
    assert full == f"{area:.3f} m²"
    assert here == f"{area / 4:.3f} m²"


def test_what_a_hand_or_a_shop_makes_keeps_its_size(form: Pattern) -> None:
    section = half_scale_section(form)
    assert section is not None
    kept = {name: plain(row[0]) for name, row in tables(section)["Not to scale"].items()}
    assert kept["side seam allowance"] == "1.5 cm"  # this sheet asks for it
    assert kept["hem allowance of the lining"] == "0.6 cm"
    assert kept["test square"] == "100 mm"
    assert kept["zip to buy"] == "15.0 cm"
    assert {"length of a stitch", "overlap of the pages", "thickness of the cord"} <= set(kept)


def test_ratios_stay_and_cloth_behaves_otherwise(form: Pattern) -> None:
    section = half_scale_section(form)
    assert section is not None
    same = tables(section)["The same at any scale"]
    assert same["gather ratio of the ruffle"] == ("2.6",)
    assert same["fullness of the lining, in circles"] == ("0.5",)
    (bullets,) = (block for block in section.blocks if isinstance(block, Bullets))
    told = plain(" ".join(bullets.items))
    assert "2.21 to 2.60 to 1" in told  # 0.85 of 2.6, and 2.6
    # Full size, by the trade: 6.2 mm of drop, and a hem of 21.8 mm at most.
    assert "about 0.2 cm here and about 0.6 cm at full size" in told
    assert "1.1 cm at most, half of the 2.2 cm" in told


def test_a_form_in_inches_is_told_in_inches() -> None:
    spec = garment(
        skirt=Skirt(length=580, panels=2),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(gather_ratio=2.0),
        units=Units.INCH,
    )
    section = half_scale_section(draft(halved(spec)))
    assert section is not None
    rows = tables(section)["To scale, 1:2"]
    assert [plain(cell) for cell in rows["waist of the body"]] == ["28⅜ in", "14⅛ in"]
    assert rows["area of the skirt's panels, without allowances"][0].endswith("yd²")
