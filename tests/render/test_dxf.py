"""The DXF as a cutting table reads it: blocks, numbered layers, arcs, plain letters."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.geometry import Arc, Box, Line, Path, Point, rim
from drafting.pattern import Pattern
from drafting.piece import EdgeKind, NotchKind, Piece
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text
from render.dxf import ascii_words, dxf_bytes, lost
from render.parts import Part, Plane, laid_out
from render.piece_drawing import LineKind, PieceLine
from render.placement import Placement
from tests.render.dxf_ink import Block, Sheet, read


@pytest.fixture(scope="module")
def chorus(plane_of: Callable[[str], Plane]) -> Sheet:
    return read(dxf_bytes(plane_of("chorus-skirt")))


@pytest.fixture(scope="module")
def panel(plane_of: Callable[[str], Plane]) -> Part:
    return plane_of("chorus-skirt").parts[0]


def block_with(part: Part, path: Path, pen: Pen | None = None, *texts: Text) -> Block:
    """Return the block of a part whose lines are one path, and whose words are these."""
    stroke = Stroke(path=path, pen=pen or Pen(width=0.5), layer=Layer.CUTTING)
    line = PieceLine(kind=LineKind.CUTTING, stroke=stroke)
    held = Part(number=1, placement=part.placement, lines=(line,), words=texts)
    return sheet_with(held).blocks["PIECE_1_SKIRT_PANEL"]


def sheet_with(*parts: Part) -> Sheet:
    plane = Plane(title="Usher", width=900, height=900, square=square(), parts=parts)
    return read(dxf_bytes(plane))


def square() -> Drawing:
    path = rim(Box(left=20, bottom=20, right=120, top=120))
    return Drawing(strokes=(Stroke(path=path, pen=Pen(width=0.7), layer=Layer.CUTTING),))


def test_the_file_is_of_release_12_and_tells_its_unit(chorus: Sheet) -> None:
    assert chorus.header["$ACADVER"] == [(1, "AC1009")]
    assert any("1 unit = 1 mm" in comment for comment in chorus.comments)
    assert any("1 unit = 1 mm" in w.text for w in chorus.blocks["TEST_SQUARE"].words)
    assert any("Layered after ASTM D6673" in comment for comment in chorus.comments)


def test_the_test_square_measures_100_mm(chorus: Sheet) -> None:
    (outline,) = chorus.blocks["TEST_SQUARE"].on("1")
    assert outline.closed
    assert outline.points == ((0, 0), (100, 0), (100, 100), (0, 100), (0, 0))
    for words in chorus.blocks["TEST_SQUARE"].words:
        assert all(4 < at < 96 for at in (*words.begin, *words.end)), words.text


def test_every_piece_is_a_block_that_is_inserted_once(plane: Plane) -> None:
    sheet = read(dxf_bytes(plane))
    assert len(sheet.blocks) == len(plane.parts) + 1
    assert sorted(sheet.blocks) == sorted(insert.block for insert in sheet.inserts)
    for name in sheet.blocks:
        assert len(name) <= 31
        assert set(name) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_")


def test_layers_have_the_standards_numbers(chorus: Sheet) -> None:
    assert {"1", "4", "7", "8", "14", "15"} <= set(chorus.layers)
    for block in chorus.blocks.values():
        assert {line.layer for line in block.lines} <= {"1", "4", "7", "8", "14"}
        assert {words.layer for words in block.words} == {"15"}


def strokes_of_notches(piece: Piece) -> int:
    """Count what a cutter sees: a stroke each, a wedge in one; half of it on a fold."""
    count = 0
    for notch in piece.notches:
        edge = piece.edges[notch.edge]
        before = piece.edges[notch.edge - 1].kind is EdgeKind.FOLD and notch.at < 0.01
        after = (
            piece.edges[(notch.edge + 1) % len(piece.edges)].kind is EdgeKind.FOLD
            and notch.at > edge.length - 0.01
        )
        halved = math.ceil(notch.strokes / 2) if before or after else notch.strokes
        count += halved if notch.kind is NotchKind.PLACE else notch.strokes
    return count


def test_each_block_has_its_boundary_seams_notches_and_grain(plane: Plane) -> None:
    sheet = read(dxf_bytes(plane))
    for part, block in zip(plane.parts, list(sheet.blocks.values())[1:], strict=True):
        piece = part.piece
        (boundary,) = block.on("1")
        assert boundary.closed
        sewn = sum(e.kind is not EdgeKind.FOLD and e.allowance > 0 for e in piece.edges)
        assert len(block.on("14")) == sewn
        assert len(block.on("4")) == strokes_of_notches(piece)
        shaft, *heads = block.on("7")
        assert len(heads) == 2
        assert math.dist(*shaft.points) == pytest.approx(math.dist(*piece.grainline), abs=1e-4)
        dots = [line for line in block.on("8") if line.closed]
        assert len(dots) == len(piece.dots)
        assert piece.name in [words.text for words in block.words]


def test_no_arc_is_more_than_half_a_turn(plane: Plane) -> None:
    for block in read(dxf_bytes(plane)).blocks.values():
        assert all(line.steepest <= 1.000001 for line in block.lines)


@pytest.mark.parametrize("sweep", [0.3, -0.3, 1.7, -3.1, math.pi, -math.pi, 4.0, -5.5, 6.2])
def test_arcs_stay_arcs_and_run_the_way_they_are_drawn(panel: Part, sweep: float) -> None:
    arc = Arc(centre=Point(150, 90), radius=80, begin=0.4, finish=0.4 + sweep)
    (line,) = block_with(panel, (arc,)).lines
    assert not line.closed
    angle = 0.4
    for (x, y), (nx, ny) in zip(line.points, line.points[1:], strict=False):
        assert math.dist((nx, ny), (150, 90)) == pytest.approx(80, abs=1e-5)
        angle += math.remainder(
            math.atan2(ny - 90, nx - 150) - math.atan2(y - 90, x - 150), math.tau
        )
    assert angle == pytest.approx(0.4 + sweep, abs=1e-6)


def test_a_whole_circle_is_two_halves(panel: Part) -> None:
    circle = Arc(centre=Point(150, 90), radius=1.5, begin=0.0, finish=math.tau)
    (line,) = block_with(panel, (circle,)).lines
    assert line.closed
    assert line.steepest == pytest.approx(1)
    assert all(math.dist(p, (150, 90)) == pytest.approx(1.5, abs=1e-5) for p in line.points)
    assert len(line.points) == 17  # twice eight runs, and back


def test_dashes_are_those_of_the_pen(panel: Part) -> None:
    path = (Line(start=Point(0, 0), end=Point(50, 0)),)
    pen = Pen(width=0.5, dash=(10.0, 2.5, 1.0, 2.5))
    stroke = Stroke(path=path, pen=pen, layer=Layer.STITCHING)
    line = PieceLine(kind=LineKind.INNER, stroke=stroke)
    part = Part(number=1, placement=panel.placement, lines=(line,), words=())
    sheet = sheet_with(part)
    (drawn,) = sheet.blocks["PIECE_1_SKIRT_PANEL"].on("8")
    assert sheet.dashes[drawn.line_type] == [10, -2.5, 1, -2.5]


@pytest.mark.parametrize(
    ("anchor", "share"), [(Anchor.START, 0.0), (Anchor.MIDDLE, 0.5), (Anchor.END, 1.0)]
)
def test_words_are_set_between_their_two_ends(panel: Part, anchor: Anchor, share: float) -> None:
    """Capitals of this typeface are 0.69 of its height; a DXF measures the capitals."""
    text = Text(text="HEM", at=Point(60, 70), size=10, angle=math.radians(30), anchor=anchor)
    (words,) = block_with(panel, (Line(start=Point(0, 0), end=Point(9, 0)),), None, text).words
    wide = math.dist(words.begin, words.end)
    assert 15 < wide < 25
    c, s = math.cos(math.radians(30)), math.sin(math.radians(30))
    assert words.begin == pytest.approx((60 - share * wide * c, 70 - share * wide * s), abs=1e-4)
    assert words.end == pytest.approx(
        (60 + (1 - share) * wide * c, 70 + (1 - share) * wide * s), abs=1e-4
    )
    assert words.angle == pytest.approx(30)
    assert words.height == pytest.approx(6.9)


def test_words_too_long_for_the_release_are_set_in_two(panel: Part) -> None:
    long = "cut on the fold " * 30
    text = Text(text=long.strip(), at=Point(0, 0), size=3)
    block = block_with(panel, (Line(start=Point(0, 0), end=Point(9, 0)),), None, text)
    assert len(block.words) == 2
    assert "".join(words.text for words in block.words) == long.strip()
    assert all(len(words.text) <= 255 for words in block.words)
    assert block.words[0].end == block.words[1].begin


@pytest.mark.parametrize(
    ("words", "spelt"),
    [
        ("28¼ in × 3", "28 1/4 in x 3"),
        ("¾ in", "3/4 in"),
        ("62\u00a0cm\u2009–\u200970\u202fcm", "62 cm - 70 cm"),
        ("Zoë’s “Ærø” Straße", 'Zoe\'s "Aero" Strasse'),
        ("Zoe\u0308", "Zoe"),
        ("hem  ·  45°", "hem  -  45 deg"),
        ("50%%c", "50% %c"),
        ("50%%%c", "50% % %c"),
        ("a^Jb", "a'Jb"),
        ("Юбка\n", "?????"),
    ],
)
def test_words_are_spelt_in_plain_letters(words: str, spelt: str) -> None:
    assert ascii_words(words) == spelt
    assert spelt.isascii()


def test_letters_that_cannot_be_spelt_are_told(pattern_of: Callable[[str], Pattern]) -> None:
    pattern = pattern_of("classroom-half-scale")
    assert lost(laid_out(pattern, ("skirt panel",))) == ()
    spec = replace(pattern.spec, title="Юю? Zoë")
    assert lost(laid_out(replace(pattern, spec=spec), ("skirt panel",))) == ("Ю", "ю")


def test_a_piece_is_turned_by_its_insert(panel: Part) -> None:
    at = Placement(piece=panel.piece, x=500, y=300, turn=math.radians(-90))
    part = Part(number=3, placement=at, lines=panel.lines, words=())
    found = {insert.block: insert for insert in sheet_with(part).inserts}
    insert = found["PIECE_3_SKIRT_PANEL"]
    assert (insert.at, insert.degrees) == ((500, 300), -90)
    assert found["TEST_SQUARE"].at == (20, 20)


def test_the_same_plane_gives_the_same_bytes_without_a_date(
    plane_of: Callable[[str], Plane],
) -> None:
    data = dxf_bytes(plane_of("character-skirt"))
    assert data == dxf_bytes(plane_of("character-skirt"))
    # Days are counted from 4713 BC; this is the first of January 2000, whatever the day.
    assert read(data).header["$TDCREATE"] == read(data).header["$TDUPDATE"] == [(40, "2451545.0")]


def test_writing_leaves_the_librarys_own_settings_alone(plane_of: Callable[[str], Plane]) -> None:
    from ezdxf import options  # type: ignore[attr-defined]

    before = options.write_fixed_meta_data_for_testing
    dxf_bytes(plane_of("young-chorus-skirt"))
    assert options.write_fixed_meta_data_for_testing is before is False
