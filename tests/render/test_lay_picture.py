"""A lay plan drawn: every piece at its place times the scale, with its number, nothing over it."""

import functools
import itertools
import math
import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import pytest
from shapely import LineString, Polygon, STRtree

import drafting
from drafting.cloth.laying import lay_of
from drafting.cloth.lays import Laid, Lay, Lies
from drafting.cloth.shapes import shapes
from drafting.effort import Effort
from drafting.geometry import Arc, Line
from drafting.pattern import Pattern
from drafting.spec import Cloth, Spec
from drafting.units import Units
from render.drawing import Layer, Stroke, Text
from render.lay_picture import LayPicture, PictureError, lay_picture
from render.svg import drawing_svg
from tests.examples import EXAMPLES
from tests.render.cloth_shapes import XY, overlapping
from tests.render.test_ticket import inked_box, walked

UPRIGHT, ACROSS = (190.0, 240.0), (277.0, 150.0)

EIGHT_POINTS = 8 * 25.4 / 72

FOLDED = """
title = "Pier skirt"
units = "cm"
[wearer]
size = "P05"
[skirt]
panels = 4
grain = "centre"
length = "62 cm"
[cloth.skirt]
width = "280 cm"
fold = true
"""

STRIPS = """
title = "Foam petticoat"
units = "cm"
[wearer]
size = "P05"
[skirt]
length = "60 cm"
[lining]
fullness = "half"
[ruffle]
cloth = "soft tulle"
depth = "5 cm"
gather_ratio = 4
tiers = 5
[cloth.ruffle]
width = "30 cm"
"""


@dataclass(frozen=True, eq=False, kw_only=True)
class Plan:
    """A lay with its picture, told apart by itself alone."""

    spec: Spec
    lay: Lay
    picture: LayPicture


@functools.cache
def read(text: str) -> Pattern:
    return drafting.draft(drafting.read_sheet(text, name="sheet.toml"))


@functools.cache
def plan(name: str, cloth: str, size: tuple[float, float] = UPRIGHT) -> Plan:
    sheets = {"folded": FOLDED, "strips": STRIPS}
    pattern = (
        read(sheets[name]) if name in sheets else drafting.draft(drafting.load(EXAMPLES[name]))
    )
    lay = drafting.cloth.lay(pattern, cloth, Effort.QUICK)
    width, height = size
    return Plan(
        spec=pattern.spec,
        lay=lay,
        picture=lay_picture(lay, pattern.spec, width=width, height=height),
    )


def cloths(name: str) -> tuple[str, ...]:
    return tuple(drafting.draft(drafting.load(EXAMPLES[name])).figures.cloth)


ALL = [(name, cloth) for name in EXAMPLES for cloth in cloths(name)]
MORE = [("folded", "skirt")]


@pytest.fixture(params=[*ALL, *MORE], ids=lambda pair: "-".join(pair))
def drawn(request: pytest.FixtureRequest) -> Plan:
    """One cloth of one garment after the other."""
    return plan(*request.param)


def texts_of(picture: LayPicture) -> list[Text]:
    return [text for text in picture.drawing.texts if text.text.strip()]


def plain(text: Text) -> str:
    return text.text.replace("\u00a0", " ")


def outlines(picture: LayPicture) -> list[Polygon]:
    return [
        Polygon(points(stroke))
        for stroke in picture.drawing.strokes
        if stroke.layer is Layer.CUTTING
    ]


def points(stroke: Stroke) -> list[XY]:
    """Return points along a stroke, arcs walked in steps of a third of a millimetre."""
    found: list[XY] = []
    for segment in stroke.path:
        if isinstance(segment, Arc):
            turn = segment.finish - segment.begin
            steps = max(8, math.ceil(segment.radius * abs(turn) / 0.3))
            for k in range(steps + 1):
                at = segment.begin + turn * k / steps
                found.append(
                    (
                        segment.centre.x + segment.radius * math.cos(at),
                        segment.centre.y + segment.radius * math.sin(at),
                    )
                )
        else:
            found += [segment.start, segment.end]
    return found


def shown(lay: Lay) -> list[Laid]:
    return [one for one in lay.laid if one.lies is not Lies.UNDER]


# --- nothing over anything -----------------------------------------------------------------


def test_no_words_are_printed_over_other_words(drawn: Plan) -> None:
    texts = texts_of(drawn.picture)
    over = overlapping([inked_box(text) for text in texts], by=0.1)
    assert not [(texts[k].text, texts[m].text) for k, m in over]


def test_no_line_runs_through_words(drawn: Plan) -> None:
    strokes = drawn.picture.drawing.strokes
    lines = STRtree([LineString(points(stroke)) for stroke in strokes])
    for text in texts_of(drawn.picture):
        inked = Polygon(inked_box(text)).buffer(-0.05)
        crossed = [strokes[k].layer for k in lines.query(inked, predicate="intersects")]
        assert not crossed, f"{text.text!r} is crossed, {crossed}"


def test_nothing_is_cut_off_and_the_picture_keeps_to_its_room(drawn: Plan) -> None:
    picture = drawn.picture
    width, height = UPRIGHT
    assert picture.width <= width + 0.01
    assert picture.height <= height + 0.01
    spots = [spot for text in texts_of(picture) for spot in inked_box(text)]
    spots += [spot for stroke in picture.drawing.strokes for spot in walked(stroke)]
    for x, y in spots:
        assert -0.01 <= x <= width + 0.01
        assert -0.01 <= y <= picture.height + 0.01


def test_type_is_never_smaller_than_eight_points(drawn: Plan) -> None:
    assert min(text.size for text in texts_of(drawn.picture)) >= EIGHT_POINTS


# --- true to scale -------------------------------------------------------------------------


FIGURE = re.compile(r"(\d+)(?: cm| in)?")


@functools.lru_cache(maxsize=4)
def rulers(drawn: Plan) -> list[tuple[float, float]]:
    """Return height and cut end's place of each run's ruler, told by its figures alone."""
    unit = 10.0 if drawn.spec.units is Units.CM else 25.4
    rows: dict[float, list[float]] = {}
    for text in texts_of(drawn.picture):
        match = FIGURE.fullmatch(plain(text))
        if match and not text.bold and text.angle == 0.0:
            at = text.at.x - float(match[1]) * unit / drawn.picture.scale
            rows.setdefault(round(text.at.y, 3), []).append(at)
    for ends in rows.values():
        assert max(ends) - min(ends) < 0.01, "the figures of a ruler disagree"
    return sorted((y, ends[0]) for y, ends in rows.items())


def on_cloth(drawn: Plan, polygon: Polygon) -> tuple[float, float]:
    """Return where an outline begins and ends along the cloth, by the ruler under it."""
    left, bottom, right, _ = polygon.bounds
    _, zero = max(ruler for ruler in rulers(drawn) if ruler[0] < bottom)
    return (left - zero) * drawn.picture.scale, (right - zero) * drawn.picture.scale


def test_the_scale_is_a_round_one(drawn: Plan) -> None:
    assert drawn.picture.scale in (5, 8, 10, 15, 20, 25, 40, 50, 75, 100)


def test_every_piece_is_drawn_once_at_its_place_times_the_scale(drawn: Plan) -> None:
    left = [(one, one.box) for one in shown(drawn.lay)]
    for polygon in outlines(drawn.picture):
        begin, end = on_cloth(drawn, polygon)
        found = min(
            left,
            key=lambda held: (
                abs(held[1].left - begin)
                + abs(held[1].right - end)
                + (0.0 if inside_alike(drawn, held[0], polygon) else 1e6)
            ),
        )
        one, box = found
        assert begin == pytest.approx(box.left, abs=0.02 * drawn.picture.scale)
        assert end == pytest.approx(box.right, abs=0.02 * drawn.picture.scale)
        area = one.shape.area / drawn.picture.scale**2
        if one.lies is Lies.ON_FOLD:
            area /= 2
        assert polygon.area == pytest.approx(area, rel=2e-3)
        left.remove(found)
    assert not left, [one.shape.name for one, _ in left]


def inside_alike(drawn: Plan, one: Laid, polygon: Polygon) -> bool:
    """Tell whether an outline lies as far across the cloth as a piece does."""
    floor, _ = cloth_edges(drawn, polygon)
    low = drawn.lay.usable / 2 if folded_at(drawn.lay, one) else 0.0
    high = (one.box.top - low) / drawn.picture.scale
    return bool(abs(polygon.bounds[3] - floor - high) < 0.02)


def folded_at(lay: Lay, one: Laid) -> bool:
    x = one.box.centre.x
    return any(s.folded and s.start <= x < s.start + s.length for s in lay.stretches)


def cloth_edges(drawn: Plan, polygon: Polygon) -> tuple[float, float]:
    """Return the heights between which an outline's run of cloth lies: its two long lines.

    The edges of the cloth proper are the level lines next to the outline that are as long as
    its run; selvages are drawn outside them.
    """
    _, bottom, _, top = polygon.bounds
    level = [
        line
        for stroke in drawn.picture.drawing.strokes
        if stroke.layer is Layer.PAGE and len(stroke.path) == 1
        for line in (stroke.path[0],)
        if abs(line.start.y - line.end.y) < 1e-9
        and min(line.start.x, line.end.x) <= polygon.bounds[0] + 0.01
        and max(line.start.x, line.end.x) >= polygon.bounds[2] - 0.01
    ]
    low = max(line.start.y for line in level if line.start.y <= bottom + 0.01)
    high = min(line.start.y for line in level if line.start.y >= top - 0.01)
    return low, high


def test_pieces_lie_on_the_cloth_and_apart(drawn: Plan) -> None:
    held = outlines(drawn.picture)
    usable = drawn.lay.usable / drawn.picture.scale
    for polygon in held[:40]:
        low, high = cloth_edges(drawn, polygon)
        assert any(high - low == pytest.approx(wide, abs=0.01) for wide in (usable, usable / 2))
    for one, other in itertools.combinations(held[:60], 2):
        assert one.buffer(-0.05).intersection(other.buffer(-0.05)).area < 0.02


@pytest.mark.parametrize(
    ("name", "mark", "millimetres"),
    [("chorus-skirt", "100", 1000.0), ("tea-dance-skirt", "36", 914.4)],
)
def test_a_length_mark_stands_where_a_tape_would_have_it(
    name: str, mark: str, millimetres: float
) -> None:
    drawn = plan(name, "skirt")
    picture = drawn.picture
    cut_end = min(
        line.start.x
        for stroke in picture.drawing.strokes
        if stroke.layer is Layer.PAGE and stroke.pen.width == 0.5
        for line in (stroke.path[0],)
        if abs(line.start.x - line.end.x) < 1e-9
    )
    (figure,) = (text for text in texts_of(picture) if text.text == mark and not text.bold)
    want = cut_end + millimetres / picture.scale
    assert figure.at.x == pytest.approx(want, abs=0.001)
    ticks = [
        stroke.path[0]
        for stroke in picture.drawing.strokes
        if stroke.layer is Layer.PAGE
        and abs(stroke.path[0].start.x - want) < 0.001
        and abs(stroke.path[0].end.x - want) < 0.001
    ]
    assert any(tick.end.y > figure.at.y for tick in ticks)


def test_there_is_a_mark_every_ten_centimetres() -> None:
    drawn = plan("chorus-skirt", "skirt")
    (_, zero), scale = rulers(drawn)[0], drawn.picture.scale
    ticks = {
        round((stroke.path[0].start.x - zero) * scale)
        for stroke in drawn.picture.drawing.strokes
        if stroke.layer is Layer.PAGE
        and len(stroke.path) == 1
        and abs(stroke.path[0].start.x - stroke.path[0].end.x) < 1e-9
        and abs(stroke.path[0].start.y - stroke.path[0].end.y) < 4
    }
    assert ticks >= set(range(0, int(drawn.lay.length) + 1, 100))


# --- what is told of each ------------------------------------------------------------------


def is_told(one: Laid, polygon: Polygon, said: list[tuple[str, Polygon]]) -> bool:
    """Tell whether a piece's number and copy stand on it, at a line to it, or in a range."""
    shape = one.shape
    copy = f"{one.copy} of {shape.count}"
    if one.lies is Lies.UPPER:
        copy = f"{one.copy} and {one.copy + 1} of {shape.count}"
    here = [words for words, box in said if polygon.contains(box)]
    if str(shape.number) in here or any(w.startswith(f"{shape.number}  ") for w in here):
        return shape.count == 1 or any(copy in words for words in here)
    for words, _ in said:
        led = words == str(shape.number) or words.startswith(f"{shape.number}  ")
        if led and (shape.count == 1 or copy in words):
            return True
        match = re.search(rf"{re.escape(shape.name)}, (\d+) to (\d+) of {shape.count}", words)
        if match and int(match[1]) <= one.copy <= int(match[2]):
            return True
    return False


def pairs(drawn: Plan) -> Iterator[tuple[Laid, Polygon]]:
    """Yield each piece with its outline on the picture."""
    held = [(polygon, on_cloth(drawn, polygon)) for polygon in outlines(drawn.picture)]
    for one in shown(drawn.lay):
        box = one.box
        yield (
            one,
            min(
                held,
                key=lambda pair: (
                    abs(pair[1][0] - box.left)
                    + abs(pair[1][1] - box.right)
                    + (0.0 if inside_alike(drawn, one, pair[0]) else 1e6)
                ),
            )[0],
        )


def test_every_piece_has_its_number_and_says_which_copy_it_is(drawn: Plan) -> None:
    said = [(plain(text), Polygon(inked_box(text))) for text in texts_of(drawn.picture)]
    for one, polygon in pairs(drawn):
        assert is_told(one, polygon, said), f"{one.shape.number} {one.shape.name} {one.copy}"


def test_every_name_is_on_the_picture(drawn: Plan) -> None:
    words = " ".join(plain(text) for text in texts_of(drawn.picture))
    for shape in drawn.lay.shapes:
        assert all(word in words for word in shape.name.split()), shape.name


def test_each_grain_arrow_lies_along_the_cloth(drawn: Plan) -> None:
    if drawn.lay.name == "interfacing":
        pytest.skip("interfacing without a weave has no grain")
    level = [
        LineString(points(stroke))
        for stroke in drawn.picture.drawing.strokes
        if stroke.layer is Layer.MARKS
        and len(stroke.path) == 1
        and isinstance(stroke.path[0], Line)
        and abs(stroke.path[0].start.y - stroke.path[0].end.y) < 1e-6
    ]
    for one, polygon in pairs(drawn):
        left, bottom, right, top = polygon.bounds
        if min(right - left, top - bottom) < 2.5:
            continue  # an arrow would be a blot
        assert any(polygon.buffer(0.01).contains(line) for line in level), one.shape.name


@pytest.mark.parametrize("name", ["signal-skirt", "understudy-skirt", "deckchair-skirt"])
def test_what_lies_face_down_says_so(name: str) -> None:
    drawn = plan(name, "skirt")
    flipped = [one for one in shown(drawn.lay) if one.flipped]
    assert flipped
    told = [text for text in texts_of(drawn.picture) if "face down" in text.text]
    assert len(told) == len(flipped)
    for one, polygon in pairs(drawn):
        here = any(polygon.contains(Polygon(inked_box(text))) for text in told)
        assert not here or one.flipped


def test_a_half_of_a_panel_says_how_its_other_half_comes() -> None:
    across = [plain(text) for text in texts_of(plan("chorus-skirt", "skirt").picture)]
    assert sum("across" in words and "fold" in words for words in across) == 2
    chalked = [plain(text) for text in texts_of(plan("finale-skirt", "lining").picture)]
    assert sum("chalk" in words and "turn over" in words for words in chalked) == 3


def test_a_one_way_cloth_has_an_arrow_with_its_words() -> None:
    one_way = [plain(text) for text in texts_of(plan("finale-skirt", "skirt").picture)]
    assert any(words.startswith("one way") for words in one_way)
    other = [plain(text) for text in texts_of(plan("chorus-skirt", "skirt").picture)]
    assert not any("one way" in words for words in other)


def test_edges_and_width_are_written() -> None:
    words = [plain(text) for text in texts_of(plan("chorus-skirt", "skirt").picture)]
    for told in ("cut end", "upper selvage", "lower selvage", "135.2 cm"):
        assert told in words


# --- folded cloth --------------------------------------------------------------------------


def test_folded_cloth_is_drawn_folded_with_its_fold_along_it() -> None:
    drawn = plan("folded", "skirt")
    assert drawn.lay.stretches[0].folded
    words = [plain(text) for text in texts_of(drawn.picture)]
    assert "fold" in words
    assert "both selvages" in words
    on_fold = [one for one in drawn.lay.laid if one.lies is Lies.ON_FOLD]
    assert len(on_fold) == 4
    assert sum("on the fold" in told for told in words) == 4
    half = drawn.lay.usable / 2 / drawn.picture.scale
    for one, polygon in pairs(drawn):
        low, high = cloth_edges(drawn, polygon)
        if one.lies is Lies.ON_FOLD:
            assert high - low == pytest.approx(half, abs=0.01)
            assert polygon.bounds[1] == pytest.approx(low, abs=0.01)


def test_what_is_cut_double_is_drawn_once_and_says_so() -> None:
    """Two halves on the fold, and mirrored pairs beside them."""
    pattern = read(FOLDED.replace("[cloth.skirt]", "pockets = true\n[cloth.skirt]"))
    cut = shapes(pattern, "skirt")
    assert any(shape.mirrored for shape in cut)
    cloth = Cloth(width=2800.0, fold=True)
    lay = lay_of(cut, "skirt", cloth, Effort.QUICK, units=Units.CM)
    upper = [one for one in lay.laid if one.lies is Lies.UPPER]
    assert upper
    picture = lay_picture(lay, pattern.spec, width=190, height=240)
    told = [text for text in texts_of(picture) if "cut double" in text.text]
    assert len(told) == len(upper)
    assert len(outlines(picture)) == len(shown(lay))


# --- long plans, many pieces ---------------------------------------------------------------


def test_a_long_plan_is_broken_and_says_where_it_goes_on() -> None:
    drawn = plan("finale-skirt", "skirt")
    assert drawn.picture.runs == 2
    words = [plain(text) for text in texts_of(drawn.picture)]
    assert any(told.startswith("goes on") for told in words)
    assert "from above" in words
    assert drawn.picture.scale <= 25


def test_a_plan_that_is_nearly_as_large_in_one_run_is_not_broken() -> None:
    assert plan("chorus-skirt", "skirt", ACROSS).picture.runs == 1


def test_strips_too_narrow_to_be_named_are_told_from_first_to_last() -> None:
    drawn = plan("strips", "ruffle")
    assert len(drawn.lay.laid) > 500
    ranges: dict[str, set[int]] = {}
    for text in texts_of(drawn.picture):
        match = re.search(r"(ruffle tier \d), (\d+) to (\d+) of (\d+)", plain(text))
        if match:
            ranges.setdefault(match[1], set()).update(range(int(match[2]), int(match[3]) + 1))
    for shape in drawn.lay.shapes:
        assert ranges[shape.name] == set(range(1, shape.count + 1))


def test_a_plan_of_nothing_is_refused() -> None:
    drawn = plan("chorus-skirt", "skirt")
    with pytest.raises(PictureError, match="lays no pieces"):
        lay_picture(replace(drawn.lay, laid=()), drawn.spec, width=190, height=240)


def test_too_little_room_is_refused() -> None:
    drawn = plan("chorus-skirt", "skirt")
    with pytest.raises(PictureError, match="does not go into 20 by 10 mm"):
        lay_picture(drawn.lay, drawn.spec, width=20, height=10)


# --- as a file of its own ------------------------------------------------------------------

SVG = "{http://www.w3.org/2000/svg}"


def test_a_plan_as_svg_has_a_title_its_true_size_and_the_same_outlines() -> None:
    drawn = plan("finale-skirt", "lining")
    picture = drawn.picture
    data = drawing_svg(
        picture.drawing, picture.width, picture.height, "Lay plan: lining", "Three panels on net."
    )
    root = ElementTree.fromstring(data)
    assert root.findtext(f"{SVG}title") == "Lay plan: lining"
    assert root.findtext(f"{SVG}desc") == "Three panels on net."
    assert root.get("role") == "img"
    assert float(root.attrib["width"].removesuffix("mm")) == pytest.approx(picture.width, abs=1e-3)
    want = [stroke for stroke in picture.drawing.strokes if stroke.layer is Layer.CUTTING]
    (group,) = (g for g in root.findall(f"{SVG}g") if g.get("id") == "cutting-lines")
    paths = group.findall(f"{SVG}path")
    assert len(paths) == len(want) == 3
    for path, stroke in zip(paths, want, strict=True):
        x, y = map(float, path.attrib["d"].split()[1:3])
        start = stroke.path[0].start
        assert (x, picture.height - y) == pytest.approx(start, abs=1e-3)
    greys = {path.get("stroke") for path in root.iter(f"{SVG}path")}
    assert len(greys) == 2, "the hatching is lighter than the lines"
    assert "black" in greys
    words = {element.text for element in root.iter(f"{SVG}text")}
    assert "cut end" in words


def test_the_same_plan_gives_the_same_picture(pattern_of: Callable[[str], Pattern]) -> None:
    pattern = pattern_of("signal-skirt")
    lay = drafting.cloth.lay(pattern, "skirt", Effort.QUICK)
    one, other = (lay_picture(lay, pattern.spec, width=190, height=240) for _ in range(2))
    assert drawing_svg(one.drawing, one.width, one.height, "a", "b") == drawing_svg(
        other.drawing, other.width, other.height, "a", "b"
    )
