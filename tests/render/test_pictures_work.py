"""Pictures of the work, measured from their strokes and words. Millimetres."""

import gettext
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache, partial
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from drafting.geometry import Arc, Box, Line, Point, bounds
from drafting.pattern import Pattern, draft
from drafting.sheet import load
from drafting.spec import CutKind, Grain, LevelAt, PaperName, Scope, Skirt, Spec, WaistFinish
from drafting.units import Units, length_text, radius_text, to_mm
from render import fonts
from render.drawing import Anchor, Stroke, Text
from render.pictures import ink
from render.pictures.arcs import arcs_picture
from render.pictures.gathering_rows import cord_picture, rows_picture
from render.pictures.levelling import levelling_picture
from render.pictures.picture import SMALL_TYPE, TALL, WIDE, Picture
from render.pictures.quarters import join_shares, quarters_picture, waist_quarters_picture
from render.pictures.ruffle_laid import GATHER, laid_pictures
from render.pictures.sample import sample_rows, sample_strip
from render.pictures.taping import taping_picture
from tests.garments import CHORUS_TALL

EXAMPLES = sorted(Path("measurements_examples").glob("*.toml"))
NAMES = [path.stem for path in EXAMPLES]


@cache
def drafted(name: str) -> Pattern:
    return draft(load(Path("measurements_examples") / f"{name}.toml"))


def _plain(words: str) -> str:
    """Return words with plain spaces for those that no line breaks at."""
    return words.replace("\u00a0", " ")


def _all(pattern: Pattern) -> Iterator[Picture]:
    one = (
        rows_picture,
        cord_picture,
        quarters_picture,
        waist_quarters_picture,
        arcs_picture,
        levelling_picture,
        sample_strip,
        partial(taping_picture, paper=pattern.spec.print.papers[0]),
    )
    for make in one:
        picture = make(pattern)
        if picture is not None:
            yield picture
    yield from laid_pictures(pattern)


def _box(text: Text) -> Box:
    """Return the box of a level line of text: capitals reach 0.69 of its height."""
    assert abs(text.angle) < 1e-9, "the words of these pictures are level"
    long = fonts.width(text.text, text.size, bold=text.bold)
    left = text.at.x - {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[text.anchor] * long
    return Box(
        left=left,
        bottom=text.at.y - 0.2 * text.size,
        right=left + long,
        top=text.at.y + 0.69 * text.size,
    )


def _meets(box: Box, one: Point, other: Point) -> bool:
    """Tell whether a straight line runs through a box, by cutting it off at each side."""
    low, high = 0.0, 1.0
    for at, by, least, most in (
        (one.x, other.x - one.x, box.left, box.right),
        (one.y, other.y - one.y, box.bottom, box.top),
    ):
        if abs(by) < 1e-12:
            if not least <= at <= most:
                return False
            continue
        ends = sorted(((least - at) / by, (most - at) / by))
        low, high = max(low, ends[0]), min(high, ends[1])
    return low <= high


def _runs(stroke: Stroke) -> Iterator[tuple[Point, Point]]:
    for segment in stroke.path:
        if isinstance(segment, Line):
            yield segment.start, segment.end
            continue
        count = 48
        turn = (segment.finish - segment.begin) / count
        ends = [
            Point(
                segment.centre.x + segment.radius * math.cos(segment.begin + k * turn),
                segment.centre.y + segment.radius * math.sin(segment.begin + k * turn),
            )
            for k in range(count + 1)
        ]
        yield from pairwise(ends)


def _check(picture: Picture) -> None:
    box = picture.box
    where = f"{picture.name}: "
    assert box.width <= WIDE + 1e-6 and box.height <= TALL + 1e-6, f"{where}{box}"
    boxes = [(text, _box(text)) for text in picture.drawing.texts]
    for text, set_in in boxes:
        assert text.size >= SMALL_TYPE - 1e-9, where + text.text
        assert box.holds(set_in), f"{where}{text.text} lies outside"
    for (one, its), (other, others) in combinations(boxes, 2):
        assert not its.meets(others), f"{where}{one.text!r} lies over {other.text!r}"
    for stroke in picture.drawing.strokes:
        assert stroke.pen.width >= 0.2, where
        for start, end in _runs(stroke):
            for at in (start, end):
                assert box.grown(1e-6).holds(Box(left=at.x, bottom=at.y, right=at.x, top=at.y))
            for text, set_in in boxes:
                assert not _meets(set_in, start, end), f"{where}a line crosses {text.text!r}"
    assert picture.caption and picture.alt and picture.caption != picture.alt
    assert picture.name == re.sub(r"[^a-z0-9-]", "", picture.name)


@pytest.mark.parametrize("name", NAMES)
def test_every_word_stands_clear_inside_its_picture(name: str) -> None:
    pictures = list(_all(drafted(name)))
    assert pictures
    assert len({picture.name for picture in pictures}) == len(pictures)
    for picture in pictures:
        _check(picture)


class _Longer(gettext.NullTranslations):
    """A language whose every word is two fifths longer."""

    def gettext(self, message: str) -> str:
        parts = re.split(r"(\{[^}]*\})", message)
        return "".join(part if part.startswith("{") else _longer(part) for part in parts)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return message if context == "unit" else self.gettext(message)


def _longer(words: str) -> str:
    return re.sub(r"[A-Za-z]+", lambda m: m[0] + m[0][: math.ceil(0.4 * len(m[0]))], words)


@pytest.mark.parametrize("name", NAMES)
def test_words_two_fifths_longer_find_room_too(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    pattern = drafted(name)
    monkeypatch.setattr("drafting.language.catalogue", lambda language: _Longer())
    for picture in _all(pattern):
        _check(picture)


def _level(picture: Picture, *, least: float) -> Iterator[tuple[Stroke, float]]:
    """Yield level strokes at least so long, with their height."""
    for stroke in picture.drawing.strokes:
        ends = [p for segment in stroke.path for p in (segment.start, segment.end)]
        ys = [p.y for p in ends]
        xs = [p.x for p in ends]
        if max(ys) - min(ys) < 1e-9 and max(xs) - min(xs) >= least:
            yield stroke, ys[0]


WITH_RUFFLE = [name for name in NAMES if drafted(name).figures.ruffle is not None]


@pytest.mark.parametrize("name", WITH_RUFFLE)
def test_gathering_rows_lie_at_twice_their_distance_from_the_raw_edge(name: str) -> None:
    pattern = drafted(name)
    ruffle = pattern.figures.ruffle
    assert ruffle is not None
    rows = next(way.rows_from_edge for way in ruffle.ways if "rows" in way.method)
    picture = rows_picture(pattern)
    assert picture is not None
    raw = max(y for stroke, y in _level(picture, least=30) if not stroke.pen.dash)
    dashed = {round(raw - y, 6) for stroke, y in _level(picture, least=10) if stroke.pen.dash}
    assert sorted(dashed) == pytest.approx(sorted(2 * far for far in (*rows, 15.0)))
    for far in (*rows, 15.0):
        assert length_text(far, pattern.spec.units) in picture.alt
        assert length_text(far, pattern.spec.units) in [t.text for t in picture.drawing.texts]


def test_the_cord_lies_three_millimetres_above_the_seam_line() -> None:
    picture = cord_picture(drafted("chorus-skirt"))
    assert picture is not None
    (seam,) = {y for stroke, y in _level(picture, least=30) if stroke.pen.dash}
    lower, upper = sorted(
        {
            y
            for stroke, y in _level(picture, least=20)
            if not stroke.pen.dash and y < -1 and stroke.pen.width > 0.3
        }
    )
    assert ((lower + upper) / 2 - seam) / 2 == pytest.approx(3.0)
    assert "1.2 cm" in _plain(picture.alt) and "1.5 cm" in _plain(picture.alt)


def _matches(picture: Picture) -> list[tuple[Point, Point]]:
    """Return both ends of the thin lines with one elbow, their lower ends from left to right."""
    found = []
    for stroke in picture.drawing.strokes:
        if len(stroke.path) == 2 and stroke.pen.width < 0.21:
            high, low = stroke.path[0].start, stroke.path[1].end
            if high.y - low.y > 10:
                found.append((low, high))
    return sorted(found)


@pytest.mark.parametrize("name", WITH_RUFFLE)
def test_quarters_of_the_line_meet_quarters_of_the_ruffle(name: str) -> None:
    pattern = drafted(name)
    picture = quarters_picture(pattern)
    assert picture is not None
    (line,) = (
        stroke.path[0]
        for stroke in picture.drawing.strokes
        if stroke.pen.dash == (10.0, 2.5, 1.0, 2.5)
    )
    assert isinstance(line, Arc)
    top = max(y for _, y in _level(picture, least=100))
    matches = _matches(picture)
    assert len(matches) == 5 and {low.y for low, _ in matches} == {top}
    left, right = matches[0][0].x, matches[-1][0].x
    for k, (low, high) in enumerate(matches):
        assert (low.x - left) / (right - left) == pytest.approx(k / 4)
        turn = math.atan2(high.y - line.centre.y, high.x - line.centre.x)
        share = (turn - line.begin) % math.tau / (line.finish - line.begin)
        assert share % 4 == pytest.approx(k / 4, abs=1e-6)
        assert math.dist(high, line.centre) == pytest.approx(line.radius)
    ruffle = pattern.figures.ruffle
    assert ruffle is not None
    for far in (ruffle.line_length / 4, ruffle.flat_length / 4):
        assert length_text(far, pattern.spec.units) in picture.alt


@pytest.mark.parametrize("name", WITH_RUFFLE)
def test_eighths_stand_outside_the_strip_and_joins_are_dashed(name: str) -> None:
    picture = quarters_picture(drafted(name))
    assert picture is not None
    top = max(y for _, y in _level(picture, least=100))
    upright = [
        (stroke, stroke.path[0])
        for stroke in picture.drawing.strokes
        if len(stroke.path) == 1 and abs(stroke.path[0].start.x - stroke.path[0].end.x) < 1e-9
    ]
    eighths = [s.start.x for stroke, s in upright if stroke.pen.width == 0.35 and s.start.y > top]
    for x in (-59 + 118 * k / 8 for k in (1, 3, 5, 7)):
        assert any(abs(x - one) < 1e-6 for one in eighths)
    inside = [stroke for stroke, s in upright if s.start.y == top and s.end.y == top - 10.0]
    assert all(stroke.pen.dash for stroke in inside if abs(stroke.path[0].start.x) < 58.9)


@pytest.mark.parametrize("name", WITH_RUFFLE)
def test_joins_fall_as_far_from_the_linings_seams_as_the_figures_tell(name: str) -> None:
    figures = drafted(name).figures
    assert figures.ruffle is not None and figures.lining is not None
    panels = figures.lining.panels
    joins = join_shares(figures.ruffle, panels)
    nearest = min(abs((join - k / panels + 0.5) % 1 - 0.5) for join in joins for k in range(panels))
    assert nearest * figures.ruffle.line_length == pytest.approx(figures.ruffle.join_from_seam)


def test_a_gathered_waist_is_matched_quarter_to_quarter() -> None:
    picture = waist_quarters_picture(drafted("deckchair-skirt"))
    assert picture is not None
    matches = _matches(picture)
    long = matches[-1][0].x - matches[0][0].x
    short = matches[-1][1].x - matches[0][1].x
    assert long / short == pytest.approx(2.4)  # the sheet's gather ratio
    assert [round(low.x - matches[0][0].x, 6) / long for low, _ in matches] == pytest.approx(
        [0, 0.25, 0.5, 0.75, 1]
    )
    assert "17.9 cm" in _plain(picture.alt) and "42.9 cm" in _plain(
        picture.alt
    )  # 71.5 / 4 and 171.6 / 4


def test_a_casing_or_a_smooth_waist_has_no_quarters_to_match() -> None:
    casing = drafted("young-chorus-skirt")
    assert casing.spec.skirt.waist_finish is WaistFinish.CASING
    assert waist_quarters_picture(casing) is None
    assert waist_quarters_picture(drafted("chorus-skirt")) is None


SWUNG = [
    name
    for name in NAMES
    if drafted(name).figures.skirt.cut in ("circle", "gored")
    and drafted(name).figures.skirt.waist_radius is not None
]


@pytest.mark.parametrize("name", SWUNG)
def test_arcs_have_the_panels_own_angle_and_radii(name: str) -> None:
    pattern = drafted(name)
    skirt, piece = pattern.figures.skirt, pattern.pieces[0]
    picture = arcs_picture(pattern)
    assert picture is not None
    sewn = [stroke.path for stroke in picture.drawing.strokes if stroke.pen.dash == (3.0, 1.5)]
    arcs = sorted(
        (path for path in sewn if isinstance(path[0], Arc)),
        key=lambda path: math.dist(path[0].start, (0.0, 0.0)),
    )
    assert len(arcs) == 2
    (waist, hem) = arcs
    begin, finish = (math.atan2(p.y, p.x) for p in (hem[0].start, hem[-1].end))
    if skirt.panel_angle is not None:
        shown = skirt.panel_angle / (2 if piece.half else 1)
        assert math.degrees(finish - begin) % 360 == pytest.approx(shown, abs=1e-6)
    assert skirt.waist_radius is not None and skirt.hem_radius is not None
    if skirt.waist_radius_max is None and skirt.hem_radius_max is None:
        ratio = math.dist(hem[0].start, (0, 0)) / math.dist(waist[0].start, (0, 0))
        assert ratio == pytest.approx(skirt.hem_radius / skirt.waist_radius)
    for radius in (skirt.waist_radius, skirt.hem_radius):
        assert radius_text(radius, pattern.spec.units) in picture.alt
    words = " ".join(text.text for text in picture.drawing.texts)
    waist_cut = skirt.waist_radius - piece.edges[3].allowance
    assert radius_text(waist_cut, pattern.spec.units) in words


def test_radii_that_change_are_told_from_the_least_to_the_greatest() -> None:
    tilted, levelled = (
        arcs_picture(drafted("signal-skirt")),
        arcs_picture(drafted("character-skirt")),
    )
    assert tilted is not None and levelled is not None
    assert "10.70 cm to 12.75 cm" in _plain(tilted.alt)
    assert "76.35 cm to 79.85 cm" in _plain(levelled.alt)


@pytest.mark.parametrize(
    "skirt",
    [
        Skirt(length=620, grain=Grain.CENTRE),  # corners pieced on
        Skirt(length=620, fullness=0.5, gather_ratio=3.0),
        Skirt(length=350, fullness=3.0),
        Skirt(length=620, fullness=0.25, level=LevelAt.WAIST),
        Skirt(length=620, cut=CutKind.GORED, fullness=0.5, gores=16),
    ],
)
def test_arcs_of_narrow_and_of_wide_panels_stand_clear(skirt: Skirt) -> None:
    pattern = draft(Spec(title="Sea spray", wearer=CHORUS_TALL, skirt=skirt))
    picture = arcs_picture(pattern)
    assert picture is not None
    _check(picture)
    assert radius_text(pattern.figures.skirt.hem_radius or 0.0, Units.CM) in picture.alt


@pytest.mark.parametrize("name", ["deckchair-skirt", "wave-petticoat", "wardrobe-find"])
def test_straight_lengths_and_skirts_already_sewn_have_no_arcs(name: str) -> None:
    assert arcs_picture(drafted(name)) is None


def test_the_ruffle_is_laid_below_its_line_or_above_it() -> None:
    down, taped = laid_pictures(drafted("chorus-skirt"))
    for picture, side in ((down, -1), (taped, 1)):
        bold = [
            y
            for stroke, y in _level(picture, least=20)
            if not stroke.pen.dash and stroke.pen.width > 0.5
        ]
        (raw,) = bold
        stitched = [y for stroke, y in _level(picture, least=20) if stroke.pen.width == 0.4]
        line = min(stitched, key=lambda y: abs(y - raw))
        assert math.copysign(1, raw - line) == side
        assert "1.5 cm" in _plain(picture.alt)
    assert laid_pictures(drafted("bandstand-skirt")) == ()


def test_a_ruffles_laying_is_cut_through_and_its_cloth_left_white() -> None:
    for picture in laid_pictures(drafted("chorus-skirt")):
        # Only the layers of the sections are hatched: no line is longer than one is thick.
        hatching = [s.path[0] for s in picture.drawing.strokes if s.pen is ink.HATCH]
        assert hatching and max(math.dist(s.start, s.end) for s in hatching) < 10
        cut = [bounds(s.path) for s in picture.drawing.strokes if s.pen.width == 0.45]
        seen = [bounds(s.path) for s in picture.drawing.strokes if s.pen is GATHER]
        assert len(seen) >= 20
        assert max(b.height for b in cut) > 1.5 * max(b.height for b in seen)
    down, taped = laid_pictures(drafted("chorus-skirt"))
    assert taped.box.height < down.box.height


def _rings(picture: Picture) -> list[Arc]:
    return [s for stroke in picture.drawing.strokes for s in stroke.path if isinstance(s, Arc)]


@pytest.mark.parametrize("overlap", [0.0, 10.0])
def test_taped_pages_close_their_rings_and_show_tenths(overlap: float) -> None:
    picture = taping_picture(_with_print("chorus-skirt", overlap=overlap), PaperName.A4)
    assert picture is not None
    _check(picture)
    rings = _rings(picture)
    assert len(rings) == 4  # two half rings apart, two that meet
    closed = [
        (one, other)
        for one, other in combinations(rings, 2)
        if math.dist(one.centre, other.centre) < 1e-9
    ]
    assert len(closed) == 1
    (one, other), centre = closed[0], closed[0][0].centre
    assert one.start == pytest.approx(other.end, abs=1e-9)
    short = [
        stroke.path[0]
        for stroke in picture.drawing.strokes
        if len(stroke.path) == 1 and stroke.pen.width == 0.25 and not stroke.pen.dash
    ]
    upright = [s for s in short if abs(s.start.x - s.end.x) < 1e-9]
    at_join = [s for s in upright if min(abs(p.y - centre.y) for p in (s.start, s.end)) < 1e-9]
    steps = {}
    for up in (True, False):
        xs = sorted(
            s.start.x
            for s in at_join
            if (max(s.start.y, s.end.y) > centre.y + 1) is up and s.start.x < centre.x
        )
        assert len(xs) == 11
        steps[up] = (xs[-1] - xs[0]) / 10
    assert steps[True] == pytest.approx(1.0) and steps[False] == pytest.approx(0.9)
    assert ("1.0 cm" in _plain(picture.alt)) is bool(overlap)
    assert "A1 and B1 are examples" in picture.caption and "Tape or glue" in picture.caption


def _with_print(name: str, **wishes: object) -> Pattern:
    pattern = drafted(name)
    wish = replace(pattern.spec.print, **wishes)  # type: ignore[arg-type]
    return replace(pattern, spec=replace(pattern.spec, print=wish))


def test_nothing_is_taped_on_rolls_by_projector_or_on_a_card() -> None:
    chorus = drafted("chorus-skirt")
    for paper in (PaperName.ROLL_914, PaperName.PROJECTOR, PaperName.A0):
        assert taping_picture(chorus, paper) is None
    assert taping_picture(_with_print("chorus-skirt", scope=Scope.CARD), PaperName.A4) is None


def test_a_hem_is_levelled_at_its_height_over_the_floor() -> None:
    picture = levelling_picture(drafted("chorus-skirt"))
    assert picture is not None
    # Waist to floor 105.5 and 0.95 of a heel of 4 cm, less a length of 62: 47.3. That is where it
    # is drawn; where it is levelled is found at the fitting, and no number stands for it.
    said = _plain(picture.alt + " ".join(text.text for text in picture.drawing.texts))
    assert "47.3" not in said and "8 places" in said and "found at the fitting" in said
    level = next(s for s in picture.drawing.strokes if s.pen.dash and len(s.path) == 32)
    drawn = level.path[0].start.y / (70.0 - level.path[0].start.y)
    assert drawn == pytest.approx(47.3 / 62.0, rel=1e-3)
    # Two half circles, their grain on the edge, drop most at 45 and 135 degrees of each.
    assert "4 places, about 0.6 cm" in _plain(picture.alt)
    assert levelling_picture(drafted("wardrobe-find")) is None


def test_a_half_scale_skirt_is_levelled_from_the_table_without_shoes() -> None:
    picture = levelling_picture(drafted("classroom-half-scale"))
    assert picture is not None
    said = " ".join((picture.caption, picture.alt, *(t.text for t in picture.drawing.texts)))
    assert "table" in said and "floor" not in said and "shoes" not in said


def test_a_skirt_is_levelled_in_its_own_shape() -> None:
    sides = {}
    for name in ("chorus-skirt", "box-office-skirt", "deckchair-skirt"):
        picture = levelling_picture(drafted(name))
        assert picture is not None
        # The right side's line runs from the waist, 70 mm up, to the hem.
        right = next(
            stroke
            for stroke in picture.drawing.strokes
            if stroke.pen.width == 0.6 and stroke.path[0].start.y == 70.0 and len(stroke.path) > 20
        )
        waist, hem = right.path[0].start.x, right.path[-1].end.x
        sides[name] = hem / waist
        seams = [s for s in picture.drawing.strokes if s.pen.width == 0.25 and len(s.path) == 24]
        # Eight gores: seams in front, between and at the sides; a circle of two panels has one.
        assert len(seams) == {"chorus-skirt": 1, "box-office-skirt": 5}.get(name, len(seams))
    assert sides["chorus-skirt"] > 1.2 * sides["box-office-skirt"]


@pytest.mark.parametrize("name", WITH_RUFFLE)
def test_the_sample_is_drawn_at_true_size(name: str) -> None:
    pattern = drafted(name)
    ruffle, units = pattern.figures.ruffle, pattern.spec.units
    picture = sample_strip(pattern)
    assert ruffle is not None and picture is not None
    flat = 100.0 if units is Units.CM else 101.6
    rims = [stroke for stroke in picture.drawing.strokes if len(stroke.path) == 4]
    (width,) = {
        round(max(p.x for p in ps) - min(p.x for p in ps), 6)
        for ps in ([p for s in rim.path for p in (s.start, s.end)] for rim in rims)
        if max(p.y for p in ps) == 0.0
    }
    assert width == pytest.approx(flat)
    lines = {-y for stroke, y in _level(picture, least=99) if stroke.pen.dash}
    assert sorted(lines) == pytest.approx(sorted((*ruffle.rows_from_edge, 15.0)))
    (seam,) = {stroke.pen for stroke, y in _level(picture, least=99) if y == -15.0}
    assert all(
        stroke.pen.width < seam.width and len(stroke.pen.dash) < len(seam.dash)
        for stroke, y in _level(picture, least=99)
        if stroke.pen.dash and y != -15.0
    )
    assert "three times" in picture.caption and "100 %" in picture.caption
    ticks = sorted(
        s.start.x
        for stroke in picture.drawing.strokes
        for s in stroke.path
        if len(stroke.path) == 1 and s.start.y == 0.0 and s.start.x == s.end.x
    )
    assert ticks == pytest.approx([flat * k / 8 for k in range(1, 8)])


@pytest.mark.parametrize("name", WITH_RUFFLE)
def test_the_samples_table_reads_ratios_back_around_this_ruffles(name: str) -> None:
    pattern = drafted(name)
    ruffle = pattern.figures.ruffle
    assert ruffle is not None
    flat = 300.0 if pattern.spec.units is Units.CM else 304.8
    rows = sample_rows(pattern)
    assert len(rows) == 7
    ratios = [float(ratio) for _, ratio in rows]
    for (gathered, _), ratio in zip(rows, ratios, strict=True):
        assert flat / to_mm(gathered) == pytest.approx(ratio, abs=0.006)
    assert min(ratios) <= ruffle.gather_ratio <= max(ratios)
    assert ratios == sorted(ratios, reverse=True)


def test_a_garment_without_a_ruffle_has_no_pictures_of_one() -> None:
    pattern = drafted("twirl-skirt")
    makers: tuple[Callable[[Pattern], Picture | None], ...] = (
        rows_picture,
        cord_picture,
        quarters_picture,
        sample_strip,
    )
    for make in makers:
        assert make(pattern) is None
    assert sample_rows(pattern) == ()


def test_the_same_garment_gives_the_same_pictures() -> None:
    assert list(_all(drafted("chorus-skirt"))) == list(_all(drafted("chorus-skirt")))
