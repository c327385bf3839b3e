"""Files for a copy shop, written by the command and measured by pikepdf, pdfium and shapely."""

import itertools
import json
import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest
import shapely
from typer.testing import CliRunner

import drafting
from cli import app
from drafting.geometry import flattened
from drafting.piece import cutting_box, cutting_line
from tests.end_to_end.pdf_ink import MM, Leaf, Stroke, leaves

ROOT = Path(__file__).parent.parent.parent / "measurements_examples"

CUTTING = 0.7
"""Width of a cutting line in mm, and of a fold's."""

CHILD = """title = "First crab"
units = "cm"
[wearer]
figure = "child"
waist = "46 cm"
hip = "50 cm"
waist_to_knee = "24 cm"
[skirt]
length = "20 cm"
"""

# Every panel differs: the body is not level, and the hem is.
FINALE = """title = "Finale, to the floor"
units = "cm"
[wearer]
waist = "118 cm"
hip = "136 cm"
floor_front = "106 cm"
floor_left = "108 cm"
floor_right = "107 cm"
floor_back = "105 cm"
[skirt]
fullness = "double"
hem_above_floor = "2 cm"
[lining]
fullness = "full"
[ruffle]
"""

SHEETS = {"first crab": CHILD, "finale": FINALE}

# What ISO 216 and the trade say of the papers, and what plotters draw on of their width.
PAPERS = {"a0": (841, 1189), "a1": (594, 841)}
ROLLS = {"roll-841": (841, 820), "roll-914": (914, 890), "roll-36in": (914.4, 890)}


@dataclass(frozen=True)
class Shop:
    """One file for a copy shop with the figures beside it."""

    pdf: Path
    paper: dict[str, Any]
    leaves: tuple[Leaf, ...]
    sheet: Path
    said: str


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, str], Shop]:
    """Return a function that gives the file of a sheet on a paper."""
    held: dict[tuple[str, str], Shop] = {}

    def find(name: str, paper: str) -> Shop:
        if (name, paper) not in held:
            folder = tmp_path_factory.mktemp("shop")
            sheet = ROOT / f"{name}.toml"
            if name in SHEETS:
                sheet = folder / "sheet.toml"
                sheet.write_text(SHEETS[name], encoding="utf-8")
            held[name, paper] = drawn(sheet, paper, folder / "out")
        return held[name, paper]

    return find


def drawn(sheet: Path, paper: str, out: Path, *more: str) -> Shop:
    words = [
        "--paper",
        paper,
        "--quick",
        "--without",
        "lay",
        "--without",
        "booklet",
        "--out",
        str(out),
        *more,
    ]
    result = CliRunner().invoke(app, ["draft", str(sheet), *words])
    assert result.exit_code == 0, result.output
    (pdf,) = out.glob("*.pdf")
    (figures,) = out.glob("*-figures.json")
    return Shop(
        pdf=pdf,
        paper=json.loads(figures.read_text(encoding="utf-8"))["paper"][paper],
        leaves=leaves(pdf),
        sheet=sheet,
        said=result.output,
    )


def extent(stroke: Stroke) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in stroke.points], [y for _, y in stroke.points]
    return min(xs), min(ys), max(xs), max(ys)


def straight_lengths(leaf: Leaf) -> list[tuple[str, float]]:
    """Return level and upright lines of two points with their lengths."""
    found = []
    for stroke in leaf.strokes:
        if len(stroke.points) == 2 and not stroke.closed:
            left, bottom, right, top = extent(stroke)
            if top - bottom < 0.001:
                found.append(("across", right - left))
            elif right - left < 0.001:
                found.append(("up", top - bottom))
    return found


def pieces_on_plane(shop: Shop) -> list[shapely.Polygon]:
    """Return the drafted pieces where the figures say that they lie, by shapely's own moves."""
    drafted = {piece.name: piece for piece in drafting.draft(drafting.load(shop.sheet)).pieces}
    found = []
    for one in shop.paper["pieces"]:
        outline = shapely.Polygon(flattened(cutting_line(drafted[one["piece"]])))
        turned = shapely.affinity.rotate(outline, one["turn"], origin=(0, 0))
        found.append(shapely.affinity.translate(turned, one["x"], one["y"]))
    return found


def page_windows(shop: Shop) -> list[shapely.Polygon]:
    _, _, wide, high = shop.paper["window"]
    return [shapely.box(t["x"], t["y"], t["x"] + wide, t["y"] + high) for t in shop.paper["tiles"]]


ONE_SHEET = [
    ("chorus-skirt", "roll-841"),
    ("chorus-skirt", "roll-36in"),
    ("leading-lady-skirt", "roll-914"),
    ("first crab", "roll-841"),
    ("first crab", "a1"),
    ("box-office-skirt", "a0"),
    ("deckchair-skirt", "roll-914"),
]


@pytest.mark.parametrize(("name", "paper"), ONE_SHEET)
def test_a_skirt_on_one_sheet_is_not_cut_and_scissors_pass_between_its_pieces(
    name: str, paper: str, shop: Callable[[str, str], Shop]
) -> None:
    found = shop(name, paper)
    assert len(found.leaves) == found.paper["pages"] == 1
    (window,) = page_windows(found)
    polygons = pieces_on_plane(found)
    assert polygons
    for k, one in enumerate(polygons):
        assert window.contains(one)
        assert all(one.distance(other) >= 5 for other in polygons[:k])
    # And so they are drawn: each cutting line lies whole inside the clip.
    (leaf,) = found.leaves
    heavy = [s for s in leaf.strokes if s.is_drawn_with(CUTTING) and s.closed]
    assert len(heavy) == len(polygons)
    left, bottom, right, top = leaf.window
    for stroke in heavy:
        box = extent(stroke)
        assert left <= box[0] and bottom <= box[1] and box[2] <= right and box[3] <= top


@pytest.mark.parametrize(("name", "paper"), ONE_SHEET)
def test_the_drawn_pieces_lie_where_the_figures_say(
    name: str, paper: str, shop: Callable[[str, str], Shop]
) -> None:
    found = shop(name, paper)
    (leaf,) = found.leaves
    left, bottom, _, _ = found.paper["window"]
    (tile,) = found.paper["tiles"]
    heavy = [extent(s) for s in leaf.strokes if s.is_drawn_with(CUTTING) and s.closed]
    told = [
        shapely.affinity.translate(one, left - tile["x"], bottom - tile["y"]).bounds
        for one in pieces_on_plane(found)
    ]
    for one in told:
        assert any(one == pytest.approx(box, abs=0.05) for box in heavy)


@pytest.mark.parametrize("paper", ROLLS)
def test_a_roll_is_as_wide_as_it_is_sold_and_as_long_as_it_says(
    paper: str, shop: Callable[[str, str], Shop]
) -> None:
    found = shop("chorus-skirt", paper)
    document = pypdfium2.PdfDocument(found.pdf)
    (page,) = document
    wide, high = page.get_width() * MM, page.get_height() * MM
    words = page.get_textpage().get_text_bounded().replace("\u00a0", " ")
    document.close()
    assert wide == pytest.approx(ROLLS[paper][0], abs=0.01)
    assert high == pytest.approx(found.paper["page"][1], abs=0.01)
    assert found.paper["window"][2] == pytest.approx(ROLLS[paper][1], abs=0.01)
    metres = math.ceil(round(high / 100, 6)) / 10
    assert found.paper["metres"] == pytest.approx(metres)
    assert f"{metres:.1f} m of paper" in words
    assert f"× {high:.0f} mm" in words
    for order in ("Print at 100 %, black", "Do not scale", "Single page", "edition 1"):
        assert order in words


def test_a_roll_is_hardly_longer_than_what_lies_on_it(shop: Callable[[str, str], Shop]) -> None:
    for name, paper in ONE_SHEET:
        found = shop(name, paper)
        if paper not in ROLLS:
            continue
        polygons = pieces_on_plane(found)
        long = found.paper["window"][3]
        assert long >= sum(one.area for one in polygons) / ROLLS[paper][1]
        # Boxes one under the other as they are drafted, turned if that is shorter; the ticket.
        width = ROLLS[paper][1]
        drafted = {p.name: p for p in drafting.draft(drafting.load(found.sheet)).pieces}
        plain = 0.0
        for one in found.paper["pieces"]:
            box = cutting_box(drafted[one["piece"]])
            sides = (box.width, box.height)
            fitting = [long for long, wide in (sides, sides[::-1]) if wide <= width]
            # A box that fits neither way lies askew: no longer than its two sides' diagonal.
            plain += min(fitting, default=math.hypot(*sides))
        assert long <= max(plain + len(polygons) * 12 + 300, 500)


@pytest.mark.parametrize(
    ("name", "paper", "way"),
    [
        ("chorus-skirt", "roll-841", "up"),
        ("leading-lady-skirt", "roll-914", "up"),
        ("box-office-skirt", "a0", "across"),
        ("finale", "roll-841", "up"),
    ],
)
def test_a_check_line_is_one_metre_with_a_tick_each_decimetre(
    name: str, paper: str, way: str, shop: Callable[[str, str], Shop]
) -> None:
    first = shop(name, paper).leaves[0]
    lines = [
        extent(stroke)
        for stroke in first.strokes
        if len(stroke.points) == 2 and stroke.is_drawn_with(0.35)
    ]
    axis = 0 if way == "across" else 1
    (metre,) = [
        line
        for line in lines
        if abs(line[axis + 2] - line[axis] - 1000) <= 0.05
        and abs(line[3 - axis] - line[1 - axis]) < 0.001
    ]
    side = metre[1 - axis]
    ticks = sorted(
        line[axis] - metre[axis]
        for line in lines
        if abs(line[axis + 2] - line[axis]) < 0.001  # at right angles to it, and ends on it
        and min(abs(line[1 - axis] - side), abs(line[3 - axis] - side)) < 0.001
        and metre[axis] - 0.01 <= line[axis] <= metre[axis + 2] + 0.01
    )
    assert ticks == pytest.approx([100 * k for k in range(11)], abs=0.05)


def test_where_no_metre_fits_the_line_is_the_longest_that_does_and_says_so(
    shop: Callable[[str, str], Shop],
) -> None:
    found = shop("first crab", "roll-841")
    (leaf,) = found.leaves
    assert leaf.height < 1000
    whole = [long for way, long in straight_lengths(leaf) if way == "across" and long > 700]
    assert any(abs(long - 800) <= 0.05 for long in whole)
    assert "Check line: 800 mm" in text_of(found.pdf)
    assert "the most whole decimetres that fit" in text_of(found.pdf)


def text_of(pdf: Path, page: int = 0) -> str:
    document = pypdfium2.PdfDocument(pdf)
    words = document[page].get_textpage().get_text_bounded()
    document.close()
    return " ".join(words.replace("\u00a0", " ").split())


FILES = [
    *ONE_SHEET,
    ("usher-skirt", "roll-841"),
    ("usher-skirt", "a1"),
    ("finale", "roll-841"),
    ("signal-skirt", "a1"),
]


@pytest.mark.parametrize(("name", "paper"), FILES)
def test_files_for_a_copy_shop_hold_black_lines_and_letters_alone(
    name: str, paper: str, shop: Callable[[str, str], Shop]
) -> None:
    """No fills, no pictures, no grey: a laser plotter breaks grey up into dots."""
    with pikepdf.open(shop(name, paper).pdf) as pdf:
        for page in pdf.pages:
            for instruction in pikepdf.parse_content_stream(page):
                operator = str(instruction.operator)
                assert operator not in {
                    "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "BI",
                    "rg", "RG", "k", "K", "cs", "CS", "sc", "SC", "scn", "SCN", "gs",
                }  # fmt: skip
                if operator in {"g", "G"}:
                    assert float(instruction.operands[0]) == 0


@pytest.mark.parametrize(("name", "paper"), FILES)
def test_the_first_sheet_has_the_square_and_the_proof_is_content(
    name: str, paper: str, shop: Callable[[str, str], Shop]
) -> None:
    found = shop(name, paper)
    assert "test square 100.00 × 100.00 mm" in found.said
    assert "Its pages" not in found.said
    result = CliRunner().invoke(app, ["proof", str(found.pdf)])
    assert result.exit_code == 0, result.output


@pytest.mark.parametrize(("name", "paper"), FILES)
def test_corners_of_the_drawn_area_are_marked_on_every_sheet(
    name: str, paper: str, shop: Callable[[str, str], Shop]
) -> None:
    found = shop(name, paper)
    margin = found.paper["window"][0]
    for leaf in found.leaves:
        lines = [extent(s) for s in leaf.strokes if len(s.points) == 2]
        for x, y in itertools.product(
            (margin, leaf.width - margin), (margin, leaf.height - margin)
        ):
            meeting = [
                line
                for line in lines
                if math.dist((x, y), (line[0] if x == margin else line[2],
                                      line[1] if y == margin else line[3])) < 0.01
                and max(line[2] - line[0], line[3] - line[1]) < 10
            ]  # fmt: skip
            assert len(meeting) >= 2


@pytest.mark.parametrize(("name", "paper"), FILES)
def test_the_whole_ticket_comes_with_the_sheets(
    name: str, paper: str, shop: Callable[[str, str], Shop]
) -> None:
    found = shop(name, paper)
    words = " ".join(text_of(found.pdf, k) for k in range(len(found.leaves)))
    for heading in ("Check", "Print", "Cut", "Know", "Take care"):
        assert heading in words
    of = {int(n) for n in re.findall(r"ticket \d+ of (\d+)", words)}
    assert len(of) == 1
    numbers = sorted(int(n) for n in re.findall(r"ticket (\d+) of \d+", words))
    assert numbers == list(range(1, of.pop() + 1))
    pieces = drafting.draft(drafting.load(found.sheet)).pieces
    for number, piece in enumerate(pieces, start=1):
        assert f"{number} {piece.name}" in words
    joined = len(found.leaves) > 1 and "glue" in words
    assert ("half rings" in words) is joined


def test_a_piece_wider_than_the_roll_is_split_into_lanes_that_are_joined(
    shop: Callable[[str, str], Shop],
) -> None:
    """A half circle 1827 by 929 mm fits a roll at no turn."""
    found = shop("usher-skirt", "roll-841")
    assert [tile["name"] for tile in found.paper["tiles"]] == ["A1", "A2"]
    assert {(round(leaf.width, 2), round(leaf.height, 2)) for leaf in found.leaves} == {
        tuple(found.paper["page"])
    }
    # What fits into a lane lies in one; only the panel lies across.
    windows = page_windows(found)
    for one, told in zip(pieces_on_plane(found), found.paper["pieces"], strict=True):
        whole = any(window.contains(one) for window in windows)
        assert whole is (told["piece"] != "skirt panel")
        assert shapely.unary_union(windows).buffer(1e-6).contains(one)
    words = " ".join(text_of(found.pdf, k) for k in range(2))
    assert "glue: A2 lies on this" in words
    assert "2 sheets are joined" in words


def test_a_roll_longer_than_a_page_may_be_is_cut_into_equal_lengths(
    shop: Callable[[str, str], Shop],
) -> None:
    """A page of a PDF has 14 400 points at most: 5080 mm."""
    found = shop("finale", "roll-841")
    rows = {tile["row"] for tile in found.paper["tiles"]}
    assert len(rows) > 1
    for leaf in found.leaves:
        assert leaf.height <= 5080.001
    assert len({round(leaf.height, 2) for leaf in found.leaves}) == 1
    every = shapely.unary_union(page_windows(found)).buffer(1e-6)
    polygons = pieces_on_plane(found)
    for k, one in enumerate(polygons):
        assert every.contains(one)
        assert all(one.distance(other) >= 5 for other in polygons[:k])
    steps = sorted({tile["y"] for tile in found.paper["tiles"]})
    apart = {round(b - a, 2) for a, b in itertools.pairwise(steps)}
    assert apart == {round(found.paper["window"][3] - found.paper["overlap"], 2)}
    with pikepdf.open(found.pdf) as pdf:
        assert all("/UserUnit" not in page for page in pdf.pages)


@pytest.mark.parametrize("paper", PAPERS)
def test_sheets_lie_upright_or_across_and_all_alike(
    paper: str, shop: Callable[[str, str], Shop]
) -> None:
    for name in ("chorus-skirt", "usher-skirt"):
        sizes = {(round(leaf.width), round(leaf.height)) for leaf in shop(name, paper).leaves}
        (size,) = sizes
        assert tuple(sorted(size)) == PAPERS[paper]


def test_two_panels_that_fit_a_sheet_each_are_not_taped(
    shop: Callable[[str, str], Shop],
) -> None:
    found = shop("chorus-skirt", "a0")
    assert len(found.leaves) == 2
    windows = page_windows(found)
    for one in pieces_on_plane(found):
        assert sum(window.contains(one) for window in windows) == 1
    assert "each sheet stands alone" in text_of(found.pdf) + text_of(found.pdf, 1)


@pytest.mark.parametrize("paper", ["roll-841", "a1", "projector"])
def test_the_same_sheet_gives_the_same_bytes(paper: str, tmp_path: Path) -> None:
    sheet = ROOT / "twirl-skirt.toml"
    one = drawn(sheet, paper, tmp_path / "one")
    other = drawn(sheet, paper, tmp_path / "other")
    assert one.pdf.read_bytes() == other.pdf.read_bytes()


def test_one_piece_alone_goes_on_a_roll_too(tmp_path: Path) -> None:
    found = drawn(ROOT / "chorus-skirt.toml", "roll-841", tmp_path, "--piece", "lining panel")
    assert [one["piece"] for one in found.paper["pieces"]] == ["lining panel"]
    assert "This file prints lining panel alone" in text_of(found.pdf)


@pytest.mark.parametrize(
    ("paper", "meant"),
    [
        ("roll-1067", "roll-914"),
        ("roll-850", "roll-841"),
        ("roll-36", "roll-36in"),
        ("roll-24in", "roll-841"),
        ("projektor", "projector"),
    ],
)
def test_an_unknown_paper_is_refused_with_the_one_that_comes_nearest(
    paper: str, meant: str, tmp_path: Path
) -> None:
    sheet, out = ROOT / "chorus-skirt.toml", tmp_path / "out"
    result = CliRunner().invoke(app, ["draft", str(sheet), "--paper", paper, "--out", str(out)])
    assert result.exit_code == 2
    assert f'Did you mean "{meant}"?' in result.output
    assert not out.exists()
