"""The SVG as a plotter reads it: in millimetres, on named layers, the same every time."""

import math
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable

import pytest

from drafting.geometry import Arc, Box, Path, Point, rim
from drafting.pattern import Pattern
from drafting.piece import EdgeKind
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text
from render.parts import Plane, laid_out
from render.svg import svg_bytes
from tests.render.svg_ink import Group, Sheet, Words, read


def drawn(*strokes: Stroke, texts: tuple[Text, ...] = (), title: str = "Usher") -> Plane:
    """Return a plane of 300 x 200 mm with nothing on it but a drawing in place of the square."""
    return Plane(
        title=title,
        width=300,
        height=200,
        square=Drawing(strokes=strokes, texts=texts),
        parts=(),
    )


def stroke(path: Path, pen: Pen | None = None, layer: Layer = Layer.MARKS) -> Stroke:
    return Stroke(path=path, pen=pen or Pen(width=0.5), layer=layer)


def only_group(plane: Plane) -> Group:
    (group,) = read(svg_bytes(plane)).groups
    return group


@pytest.fixture(scope="module")
def chorus(plane_of: Callable[[str], Plane]) -> Sheet:
    return read(svg_bytes(plane_of("chorus-skirt")))


def test_a_unit_is_a_millimetre_and_the_test_square_measures_100(chorus: Sheet) -> None:
    square = chorus.groups[0]
    assert square.ident == "test-square"
    (line,) = square.lines["cutting lines"]
    assert line.closed
    xs, ys = zip(*line.points, strict=True)
    assert max(xs) - min(xs) == pytest.approx(100, abs=1e-3)
    assert max(ys) - min(ys) == pytest.approx(100, abs=1e-3)
    assert "100 mm" in [words.text for words in square.words["text"]]


def test_every_piece_is_a_group_with_its_name_and_four_named_layers(chorus: Sheet) -> None:
    pieces = chorus.groups[1:]
    assert [group.title for group in pieces] == ["skirt panel", "lining panel"]
    for group in pieces:
        assert list(group.lines) == ["cutting lines", "stitching lines", "marks", "text"]
        assert [words.text for words in group.words["text"]].count(group.title) == 1


def test_no_two_groups_have_the_same_id(plane: Plane) -> None:
    idents = read(svg_bytes(plane)).idents
    assert len(idents) == len(set(idents))
    assert all(ident.replace("-", "").isalnum() and ident.isascii() for ident in idents)


def test_a_panel_has_one_cutting_line_and_a_stitching_line_for_every_seam(
    chorus: Sheet, pattern_of: Callable[[str], Pattern]
) -> None:
    for group in chorus.groups[1:]:
        (piece,) = (p for p in pattern_of("chorus-skirt").pieces if p.name == group.title)
        (cut,) = group.lines["cutting lines"]
        assert cut.closed
        assert (cut.width, cut.dash) == (0.7, ())
        sewn = [line for line in group.lines["stitching lines"] if line.dash == (6, 3)]
        assert len(sewn) == sum(edge.kind is not EdgeKind.FOLD for edge in piece.edges)
        assert {line.width for line in sewn} == {0.35}


def test_y_is_turned_once(chorus: Sheet) -> None:
    """The first piece's lowest point lies as high over the lower edge as the square's."""
    lowest = [
        min(y for line in group.lines["cutting lines"] for _, y in line.points)
        for group in chorus.groups[:2]
    ]
    assert lowest == [pytest.approx(20, abs=0.001)] * 2


@pytest.mark.parametrize("sweep", [0.3, -0.3, 1.7, -1.7, 3.1, -3.14159, 4.0, -5.5, 6.2])
def test_arcs_stay_arcs_and_run_the_way_they_are_drawn(sweep: float) -> None:
    arc = Arc(centre=Point(150, 90), radius=80, begin=0.4, finish=0.4 + sweep)
    (line,) = only_group(drawn(stroke((arc,)))).lines["marks"]
    assert line.arcs >= 1
    assert not line.closed
    angle = 0.4
    for (x, y), (nx, ny) in zip(line.points, line.points[1:], strict=False):
        assert math.dist((nx, ny), (150, 90)) == pytest.approx(80, abs=0.001)
        angle += math.remainder(
            math.atan2(ny - 90, nx - 150) - math.atan2(y - 90, x - 150), math.tau
        )
    assert angle == pytest.approx(0.4 + sweep, abs=1e-4)


def test_a_whole_circle_is_not_lost() -> None:
    circle = Arc(centre=Point(150, 90), radius=1.5, begin=0.0, finish=math.tau)
    (line,) = only_group(drawn(stroke((circle,)))).lines["marks"]
    assert line.closed
    xs, ys = zip(*line.points, strict=True)
    assert (min(xs), max(xs)) == (pytest.approx(148.5, abs=0.01), pytest.approx(151.5, abs=0.01))
    assert (min(ys), max(ys)) == (pytest.approx(88.5, abs=0.01), pytest.approx(91.5, abs=0.01))


def test_a_rectangle_has_four_corners_and_no_fifth() -> None:
    box = rim(Box(left=10, bottom=20, right=110, top=50))
    (line,) = only_group(drawn(stroke(box))).lines["marks"]
    assert line.closed
    assert line.points == ((10, 20), (110, 20), (110, 50), (10, 50), (10, 20))


def test_words_stand_where_they_were_put_and_lean_as_they_did() -> None:
    text = Text(text="hem", at=Point(60, 70), size=3.5, angle=math.radians(30))
    level = Text(text="grain", at=Point(60, 90), size=3.5)
    assert only_group(drawn(texts=(text, level))).words["text"] == (
        Words("hem", (60, 130 - 60), 3.5, 30),
        Words("grain", (60, 90), 3.5, 0),
    )


@pytest.mark.parametrize(
    ("anchor", "told"), [(Anchor.START, "start"), (Anchor.MIDDLE, "middle"), (Anchor.END, "end")]
)
def test_words_hang_by_their_start_middle_or_end(anchor: Anchor, told: str) -> None:
    text = Text(text="hem", at=Point(60, 70), size=3.5, anchor=anchor)
    (found,) = ElementTree.fromstring(svg_bytes(drawn(texts=(text,)))).iter(
        "{http://www.w3.org/2000/svg}text"
    )
    assert found.attrib["text-anchor"] == told
    assert "sans-serif" in found.attrib["font-family"]


def test_letters_that_xml_cannot_hold_do_not_spoil_the_file() -> None:
    title = "Zoë’s <Юбка> & “fish\x07” ]]>"
    group = only_group(drawn(texts=(Text(text=title, at=Point(20, 20), size=4),), title="a & b"))
    (words,) = group.words["text"]
    assert words.text == "Zoë’s <Юбка> & “fish◊” ]]>"


def test_the_same_plane_gives_the_same_bytes(pattern_of: Callable[[str], Pattern]) -> None:
    pattern = pattern_of("character-skirt")
    assert svg_bytes(laid_out(pattern)) == svg_bytes(laid_out(pattern))
