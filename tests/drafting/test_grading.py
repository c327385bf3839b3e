"""Sizes of one garment: each drafted as by itself, all in the same pieces, told once."""

from dataclasses import replace
from pathlib import Path

import pytest
from shapely import Polygon

from drafting.errors import SheetError
from drafting.geometry import flattened, path_length
from drafting.pattern import Pattern, draft
from drafting.piece import cutting_line
from drafting.sheet import load, read_sheet

EIGHT = '[publish]\nsizes = ["P01", "P02", "P03", "P04", "P05", "P06", "P07", "P08"]\n'
CIRCLE = (
    'title = "Chorus skirt"\n[skirt]\nfullness = "full"\nlength = "62 cm"\n[lining]\n[ruffle]\n'
)
GORED = 'title = "Usher skirt"\n[skirt]\ncut = "gored"\ngores = 8\nlength = "70 cm"\n'
LEVELLED = 'title = "Finale skirt"\n[skirt]\nhem_above_floor = "40 cm"\n'


def one_size(sheet: str, size: str) -> Pattern:
    return draft(read_sheet(f'{sheet}[wearer]\nsize = "{size}"\n'))


@pytest.mark.parametrize("sheet", [CIRCLE, GORED, LEVELLED])
def test_every_size_is_drafted_as_by_itself(sheet: str) -> None:
    pattern = draft(read_sheet(sheet + EIGHT))
    assert [one.spec.wearer.size for one in pattern.sizes] == [f"P0{k}" for k in range(1, 9)]
    for one in pattern.sizes:
        alone = one_size(sheet, one.spec.wearer.size)
        assert one.pieces == alone.pieces
        assert one.figures == alone.figures


@pytest.mark.parametrize("sheet", [CIRCLE, GORED, LEVELLED])
def test_a_frame_goes_round_the_piece_of_every_size(sheet: str) -> None:
    pattern = draft(read_sheet(sheet + EIGHT))
    for frame in pattern.pieces:
        room = Polygon([(p.x, p.y) for p in flattened(cutting_line(frame))]).buffer(0.05)
        members = [p for one in pattern.sizes for p in one.pieces if p.name == frame.name]
        assert len(members) == 8
        shapes = [Polygon([(p.x, p.y) for p in flattened(cutting_line(p))]) for p in members]
        assert all(room.contains(shape) for shape in shapes)
        assert room.area < 1.15 * max(shape.area for shape in shapes)  # nested, not side by side


def test_sizes_are_divided_alike_where_one_needs_more_panels() -> None:
    # 62 cm of length on narrow cloth: the larger sizes' half circles do not fit it.
    sheet = CIRCLE + '[cloth.skirt]\nwidth = "{width}"\n' + EIGHT
    found = set()
    for width in ("76 cm", "78 cm", "80 cm", "82 cm"):
        pattern = draft(read_sheet(sheet.format(width=width)))
        panels = {one.figures.skirt.panels for one in pattern.sizes}
        assert len(panels) == 1
        assert len({tuple(p.name for p in one.pieces) for one in pattern.sizes}) == 1
        alone = {one_size(sheet.format(width=width).replace(EIGHT, ""), f"P0{k}")
                 .figures.skirt.panels for k in (1, 8)}  # fmt: skip
        found.add(len(alone))
        assert panels >= {max(alone)} or max(alone) <= max(panels)
    assert 2 in found  # at one of these widths the sizes would differ by themselves


def test_findings_are_told_once_with_the_sizes_that_they_hold_for() -> None:
    pattern = draft(read_sheet(CIRCLE + EIGHT))
    codes = [finding.code for finding in pattern.findings]
    assert len(codes) == len(set(codes))
    drop = next(finding for finding in pattern.findings if finding.code == "bias-drop")
    assert "every size" in drop.what
    assert "P08" in drop.what


def test_the_wearers_own_measures_are_not_used_and_that_is_said() -> None:
    wearer = '[wearer]\nwaist = "99 cm"\nhip = "110 cm"\nheight = "1.76 m"\n'
    spec = read_sheet(wearer + '[publish]\nsizes = ["P05", "P03"]\n')
    assert [one.wearer.waist for one in spec.graded] == [660.0, 740.0]
    # Stature adds 28 mm to the knee for each 80 mm over 168 cm, to every size alike.
    assert [one.wearer.waist_to_knee for one in spec.graded] == [610.0, 612.0]
    (told,) = (finding for finding in spec.findings if finding.code == "wearer-not-graded")
    assert "waist and hip" in told.what
    assert "height" not in told.what


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ('["P03", "P99"]', '"P09"'),
        ('["P03"]', 'size = "P03"'),
        ('["P03", "p03"]', "P03 twice"),
        ('"P03"', "a list of sizes"),
        ('["P03", 4]', "lists 4"),
        ('["P01","P02","P03","P04","P05","P06","P07","P08","P09"]', "8 at most"),
    ],
)
def test_a_list_of_sizes_that_will_not_do_is_told_on_its_line(sizes: str, said: str) -> None:
    with pytest.raises(SheetError) as refused:
        read_sheet(f"[publish]\nsizes = {sizes}\n", name="readers.toml")
    (fault,) = refused.value.faults
    assert said in str(fault)
    assert fault.line == 2
    assert fault.key == "publish.sizes"


def test_an_empty_list_asks_for_one_wearer() -> None:
    spec = read_sheet('[wearer]\nwaist = "74 cm"\n[publish]\nsizes = []\n')
    assert spec.graded == ()
    assert spec.wearer.waist == 740.0


def test_a_fault_of_every_size_is_told_once_and_a_fault_of_one_with_its_name() -> None:
    sheet = '[wearer]\nheight = "3.1 m"\n[skirt]\nlength = "x"\n' + EIGHT
    with pytest.raises(SheetError) as refused:
        read_sheet(sheet)
    told = [str(fault) for fault in refused.value.faults]
    assert len(told) == 2
    assert not any("Size" in one for one in told)


def test_the_middle_size_stands_for_the_whole() -> None:
    spec = read_sheet(CIRCLE + EIGHT)
    assert spec.wearer.size == "P04"
    assert replace(spec, graded=(), publish=spec.graded[3].publish) == spec.graded[3]


def test_no_side_of_a_frame_is_too_short_to_be_moved() -> None:
    front_row = Path(__file__).parents[2] / "measurements_examples/in_sizes/front-row-skirt.toml"
    for frame in draft(load(front_row)).pieces:
        for edge in frame.edges:
            assert min(path_length((side,)) for side in edge.path) > 1e-6


@pytest.mark.parametrize(
    ("skirt", "key"),
    [
        ('bodice_waist = "75 cm"\nwaist_finish = "bodice"', "bodice_waist"),
        ("", "owned"),
    ],
)
def test_what_fits_one_body_alone_is_refused_for_several_sizes(skirt: str, key: str) -> None:
    owned = '[skirt.owned]\nwaist = "75 cm"\nlength = "62 cm"\nsweep = "4.6 m"\n[lining]\n'
    sheet = f"[skirt]\n{skirt}\n" + (owned if key == "owned" else "") + EIGHT
    with pytest.raises(SheetError) as refused:
        read_sheet(sheet)
    assert [fault.key for fault in refused.value.faults] == [f"skirt.{key}"]


def test_a_stop_is_told_for_each_size_with_its_own_remedy() -> None:
    casing = '[skirt]\nwaist_finish = "casing"\nwaist_ease = "0 cm"\n'
    pattern = draft(read_sheet(casing + '[publish]\nsizes = ["P01", "P12"]\n'))
    stops = [one for one in pattern.findings if one.level == "stop"]
    assert [one.what[:9] for one in stops] == ["Size P01:", "Size P12:"]
    assert len({one.do for one in stops}) == 2


def test_all_that_is_wrong_is_told_at_once_though_a_size_is_unknown() -> None:
    sheet = (
        '[skirt]\nfulness = "full"\n[publish]\nsizes = ["P03", "P77"]\n[print]\nscope = "card"\n'
    )
    with pytest.raises(SheetError) as refused:
        read_sheet(sheet)
    assert [fault.line for fault in refused.value.faults] == [2, 4, 6]
