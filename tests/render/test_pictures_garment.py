"""Pictures of the garment: legible, in proportion, and with no number but the draft's own."""

import gettext
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache

import pytest
from shapely.geometry import LineString, Point, Polygon

from drafting.geometry import Point as At
from drafting.geometry import bounds, flattened, point_along
from drafting.language import Language, speaking
from drafting.pattern import Pattern, draft
from drafting.piece import cutting_line
from drafting.spec import (
    BandShape,
    Closure,
    CutKind,
    Flounce,
    Godets,
    HemFinish,
    Lining,
    Owned,
    Ruffle,
    RuffleCloth,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import length_text
from render.drawing import Layer, Stroke
from render.pictures.figure import figure
from render.pictures.french_seam import french_seam_picture
from render.pictures.hem_finish import hem_finish
from render.pictures.hem_section import hem_section
from render.pictures.ink import BODY, FOLD, HATCH, HIDDEN, Label, extent, hatched, labels
from render.pictures.opening import HIDDEN_HOOK, STAY, opening_picture
from render.pictures.picture import SMALL_TYPE, TALL, WIDE, Picture
from render.pictures.pieces import pieces_picture
from render.pictures.sketch import (
    LINING_OPENED,
    OPENED,
    PANEL_SEAM,
    front_and_back,
    visible_folds,
)
from render.pictures.waist_finish import waist_finish
from render.pictures.waist_seam import TAPE
from tests.garments import CHORUS_TALL, PAGE_BOY, SOUBRETTE
from tests.render.picture_ink import (
    held,
    lengths_in,
    line_of,
    overlapping,
    room_of,
    spoken_lengths,
)

DRAWN: tuple[Callable[[Pattern], Picture | None], ...] = (
    pieces_picture,
    front_and_back,
    hem_section,
    hem_finish,
    opening_picture,
    waist_finish,
)


def pictures(pattern: Pattern) -> tuple[Picture, ...]:
    """Return every picture that a garment has."""
    found = (draw(pattern) for draw in DRAWN)
    return tuple(picture for picture in found if picture is not None)


def _sewn() -> Iterator[tuple[str, Spec]]:
    """Yield garments that the examples leave out: each finish, each ruffle, each odd shape."""
    lined = Lining(fullness=0.5)
    plain = Skirt(length=620)

    def spec(title: str, skirt: Skirt, **rest: object) -> tuple[str, Spec]:
        return title, replace(Spec(title=title, wearer=SOUBRETTE, skirt=skirt), **rest)  # type: ignore[arg-type]

    for hem in HemFinish:
        yield spec(f"{hem} hem", replace(plain, hem=hem))
        yield spec(f"{hem} hem, lined", replace(plain, hem=hem), lining=lined)
    for finish in WaistFinish:
        if finish is WaistFinish.CASING:
            continue
        yield spec(f"{finish} waist, lined", replace(plain, waist_finish=finish), lining=lined)
        yield spec(
            f"{finish}, no interfacing", replace(plain, waist_finish=finish, interfacing=False)
        )
    for cloth in RuffleCloth:
        for doubled in (False, True):
            yield spec(
                f"{cloth} ruffle, {'doubled' if doubled else 'single'}", plain, lining=lined,
                ruffle=Ruffle(cloth=cloth, gather_ratio=2.2, doubled=doubled),
            )  # fmt: skip
    yield spec(
        "ruffle of three tiers", plain, lining=lined,
        ruffle=Ruffle(cloth=RuffleCloth.COTTON_ORGANDY, gather_ratio=1.8, tiers=3, above_hem=0),
    )  # fmt: skip
    yield spec("ruffle at the very hem of a short lining", replace(plain, length=400),
               lining=Lining(fullness=0.5, shorter=10),
               ruffle=Ruffle(cloth=RuffleCloth.STIFF_NET, gather_ratio=2.2, above_hem=0),
               wearer=PAGE_BOY)  # fmt: skip
    yield spec("four circles", replace(plain, fullness=4.0))
    yield spec("a third of a circle to the floor", replace(plain, fullness=0.34, length=1040))
    yield spec("twelve gores", replace(plain, cut=CutKind.GORED, gores=12, shaped=True))
    yield spec("godets", replace(plain, cut=CutKind.GORED, gores=8, fullness=0.4,
                                 godets=Godets(depth=200, angle=math.radians(60))))  # fmt: skip
    yield spec("flounce to the floor", replace(plain, fullness=0.5, length=1040,
                                               flounce=Flounce(depth=250)))  # fmt: skip
    yield spec("dropped waist", replace(plain, drop=60, band_shape=BandShape.CONTOUR, band=60),
               wearer=CHORUS_TALL)  # fmt: skip
    yield spec("left side", replace(plain, closure=Closure.LEFT_SIDE), lining=lined)
    yield spec("pull-on", replace(plain, waist_finish=WaistFinish.CASING, gather_ratio=1.5,
                                  closure=Closure.NONE), lining=lined)  # fmt: skip
    yield spec("tiers", replace(plain, cut=CutKind.TIERED, gather_ratio=1.3))


SEWN = dict(_sewn())


@cache
def _pattern(name: str) -> Pattern:
    return draft(SEWN[name])


@pytest.fixture(params=SEWN)
def garment(request: pytest.FixtureRequest) -> Pattern:
    """One further garment's pattern after the other."""
    return _pattern(request.param)


def check_legible(picture: Picture) -> None:
    """Make sure that a picture fits its page and that all in it can be read."""
    box = picture.box
    assert box.width <= WIDE + 1e-6 and box.height <= TALL + 1e-6
    assert picture.drawing.strokes and picture.drawing.texts
    for stroke in picture.drawing.strokes:
        assert box.holds(bounds(stroke.path).grown(stroke.pen.width / 2)), picture.name
        assert stroke.pen.width >= 0.2 and stroke.pen.grey == 0
    for text in picture.drawing.texts:
        left, low, right, top = room_of(text).bounds
        assert box.left <= left and right <= box.right, text.text
        assert box.bottom <= low and top <= box.top, text.text
        assert text.size >= SMALL_TYPE
    assert overlapping(picture.drawing) == [], picture.name


def check_numbers(pattern: Pattern, picture: Picture) -> None:
    """Make sure that each length that is told is the draft's own."""
    numbers = [
        *held(pattern.figures),
        *held(pattern.spec),
        *(edge.allowance for piece in pattern.pieces for edge in piece.edges),
        30.0,  # the lap of a band: trade habit
        20.0,  # a zip shortened from below is cut so far under its bar: trade habit
    ]
    # What is used of a zip: its top stop lies 5 mm under a facing's seam; a shaped band adds to it.
    opened = pattern.figures.skirt.opening
    numbers.append(opened - 5.0)
    if pattern.figures.contour is not None:
        numbers.append(opened + pattern.figures.contour.height)
    if pattern.spec.ruffle is not None and pattern.spec.lining is not None:
        # What the skirt hangs below the ruffle: seen in the picture, the sum of two that are kept.
        numbers.append(pattern.spec.ruffle.above_hem + pattern.spec.lining.shorter)
        numbers += [4.0, 12.0]  # what organza is rolled by and organdy hemmed by
    known = spoken_lengths(iter(numbers), pattern.spec.units)
    told = " ".join(text.text for text in picture.drawing.texts)
    for where in (told, picture.caption, picture.alt):
        assert lengths_in(where) <= known, picture.name


def test_every_example_s_pictures_are_legible(pattern: Pattern) -> None:
    found = pictures(pattern)
    assert len(found) >= 3
    for picture in found:
        check_legible(picture)


def test_every_other_garment_s_pictures_are_legible(garment: Pattern) -> None:
    for picture in pictures(garment):
        check_legible(picture)


def test_every_number_in_a_picture_is_the_draft_s(pattern: Pattern) -> None:
    for picture in pictures(pattern):
        check_numbers(pattern, picture)


def test_every_number_of_other_garments_is_the_draft_s(garment: Pattern) -> None:
    for picture in pictures(garment):
        check_numbers(garment, picture)


def test_a_picture_is_told_to_those_who_cannot_see_it(pattern: Pattern) -> None:
    found = pictures(pattern)
    assert len({picture.name for picture in found}) == len(found)
    for picture in found:
        assert picture.caption and picture.alt and picture.alt != picture.caption
        shown = " ".join(text.text for text in picture.drawing.texts)
        if lengths_in(shown):
            # Most of the lengths that are drawn are said as well.
            missing = lengths_in(shown) - lengths_in(picture.alt)
            assert len(missing) <= len(lengths_in(shown)) / 2, (picture.name, missing)


# The pieces


def _rims(picture: Picture) -> list[Polygon]:
    cut = [s for s in picture.drawing.strokes if s.layer is Layer.CUTTING]
    return [Polygon(line_of(stroke).coords) for stroke in cut]


def _true(pattern: Pattern) -> list[Polygon]:
    return [
        Polygon([(p.x, p.y) for p in flattened(cutting_line(piece))]) for piece in pattern.pieces
    ]


def test_pieces_are_drawn_in_their_true_proportion(pattern: Pattern) -> None:
    picture = pieces_picture(pattern)
    assert picture is not None
    longest = max(
        (max(p.bounds[2] - p.bounds[0], p.bounds[3] - p.bounds[1])
         for p, piece in zip(_true(pattern), pattern.pieces, strict=True) if not piece.rectangle),
        default=math.inf,
    )  # fmt: skip
    rims, scales = iter(_rims(picture)), []
    for piece, true in zip(pattern.pieces, _true(pattern), strict=True):
        rim = next(rims)
        long = max(true.bounds[2] - true.bounds[0], true.bounds[3] - true.bounds[1])
        if piece.rectangle and long > longest:
            other = next(rims)  # drawn broken: as deep as it is
            deep = rim.bounds[3] - rim.bounds[1]
            assert deep == pytest.approx(other.bounds[3] - other.bounds[1])
            scales.append(
                deep / min(true.bounds[2] - true.bounds[0], true.bounds[3] - true.bounds[1])
            )
            continue
        scales.append(math.sqrt(rim.area / true.area))
        # Area alone would not tell a stretched piece: the girth must agree too.
        assert rim.length / true.length == pytest.approx(scales[-1], rel=2e-3)
    assert next(rims, None) is None
    assert scales == pytest.approx([scales[0]] * len(scales), rel=2e-3)


def test_pieces_do_not_lie_on_each_other(pattern: Pattern) -> None:
    picture = pieces_picture(pattern)
    assert picture is not None
    rims = _rims(picture)
    for k, one in enumerate(rims):
        assert not any(one.intersects(other) for other in rims[k + 1 :])


def test_every_piece_has_the_number_of_the_cut_list(pattern: Pattern) -> None:
    picture = pieces_picture(pattern)
    assert picture is not None
    large = [text.text for text in picture.drawing.texts if text.size > SMALL_TYPE]
    assert large == [f"{k}" for k in range(1, len(pattern.pieces) + 1)]
    said = " ".join(text.text for text in picture.drawing.texts)
    for piece in pattern.pieces:
        assert f"cut {piece.count}" in said
        for word in piece.name.split():
            assert word in said


def test_a_grain_arrow_lies_inside_its_piece(pattern: Pattern) -> None:
    picture = pieces_picture(pattern)
    assert picture is not None
    rims = _rims(picture)
    arrows = [s for s in picture.drawing.strokes if s.pen.width == 0.35]
    assert len(arrows) >= len(pattern.pieces)
    for arrow in arrows:
        assert any(rim.buffer(0.05).contains(line_of(arrow)) for rim in rims)


def test_hatching_stays_inside_the_lining_and_the_ruffle(pattern: Pattern) -> None:
    picture = pieces_picture(pattern)
    assert picture is not None
    rims = _rims(picture)
    strokes = [s for s in picture.drawing.strokes if s.pen is HATCH and _slants(s)]
    hatching = [s for s in strokes if s.layer is Layer.MARKS]
    dyed = any(piece.cloth in ("lining", "ruffle") for piece in pattern.pieces)
    inside = [s for s in hatching if any(rim.buffer(0.08).contains(line_of(s)) for rim in rims)]
    assert bool(inside) == dyed


def _slants(stroke: Stroke) -> bool:
    (ax, ay), (bx, by) = stroke.path[0].start, stroke.path[-1].end
    return math.isclose(abs(bx - ax), abs(by - ay), rel_tol=1e-6) and abs(bx - ax) > 0.01


@pytest.mark.parametrize("angle", [0.0, math.pi / 4, 3 * math.pi / 4, 1.1])
def test_hatching_fills_its_outline_and_leaves_its_holes(angle: float) -> None:
    # A panel's sector with a bay in its hem, and a pocket cut out of it.
    sector = [At(60 * math.cos(t / 20), 60 * math.sin(t / 20)) for t in range(32)]
    shape = (At(0, 0), At(30, 0), At(42, 12), At(50, 0), *sector)
    hole = (At(15, 20), At(30, 20), At(30, 35), At(15, 35))
    true = Polygon([(p.x, p.y) for p in shape], [[(p.x, p.y) for p in hole]])
    gap = 0.5
    strokes = [line_of(s) for s in hatched(shape, angle, gap, hole).strokes]
    assert all(true.buffer(1e-6).contains(one) for one in strokes)
    assert sum(one.length for one in strokes) * gap == pytest.approx(true.area, rel=0.01)


# The hem


def test_the_hem_section_is_in_proportion_from_top_to_bottom() -> None:
    for name in ("silk organza ruffle, single", "ruffle of three tiers"):
        pattern = _pattern(name)
        picture, ruffle, wish = hem_section(pattern), pattern.figures.ruffle, pattern.spec.ruffle
        assert picture is not None and ruffle is not None and wish is not None
        assert pattern.spec.lining is not None
        upright = [
            line_of(s).length
            for s in picture.drawing.strokes
            if len(s.path) == 1 and s.pen.width == 0.2 and s.path[0].start.x == s.path[0].end.x
        ]
        cover = wish.above_hem + pattern.spec.lining.shorter
        scale = max(upright) / ruffle.depth
        for true in (cover, pattern.spec.lining.shorter, wish.above_hem):
            if true:
                assert any(one == pytest.approx(true * scale, rel=1e-3) for one in upright)


def test_the_ruffle_ends_above_the_lining_and_the_lining_above_the_skirt(pattern: Pattern) -> None:
    picture = hem_section(pattern)
    assert (picture is None) == (pattern.spec.lining is None)
    if picture is None or pattern.figures.ruffle is None:
        return
    slanting = [s for s in picture.drawing.strokes if _slants(s) and s.pen is HATCH]
    ruffle = [s for s in slanting if _rises_left(s)]
    lining = [s for s in slanting if not _rises_left(s)]
    skirt = [s for s in picture.drawing.strokes if s.pen.width == 0.45]
    foot = [min(bounds(s.path).bottom for s in part) for part in (ruffle, lining, skirt)]
    assert foot[0] > foot[1] > foot[2]
    # From outside to inside: the ruffle hangs between the skirt and the lining.
    left = [min(bounds(s.path).left for s in part) for part in (ruffle, lining, skirt)]
    assert left[2] < left[0] < left[1]


def _rises_left(stroke: Stroke) -> bool:
    (ax, ay), (bx, by) = stroke.path[0].start, stroke.path[-1].end
    return (bx - ax) * (by - ay) < 0


def test_a_ruffle_down_to_the_lining_s_hem_is_called_level() -> None:
    picture = hem_section(_pattern("ruffle of three tiers"))
    assert picture is not None
    assert "level with the lining's hem" in picture.alt
    said = " ".join(text.text for text in picture.drawing.texts)
    assert "0.0" not in said and "level" in said


def test_a_draft_that_stopped_has_no_pictures() -> None:
    stopped = replace(_pattern("narrow hem, lined"), pieces=(), seams=())
    assert pictures(stopped) == ()


@pytest.mark.parametrize("finish", HemFinish)
def test_each_hem_finish_looks_different(finish: HemFinish) -> None:
    mine = hem_finish(_pattern(f"{finish} hem"))
    assert mine is not None
    for other in HemFinish:
        if other is not finish:
            theirs = hem_finish(_pattern(f"{other} hem"))
            assert theirs is not None
            assert theirs.drawing != mine.drawing and theirs.alt != mine.alt


def test_a_lining_s_hem_is_drawn_beside_the_skirt_s() -> None:
    alone, lined = hem_finish(_pattern("narrow hem")), hem_finish(_pattern("narrow hem, lined"))
    assert alone is not None and lined is not None
    bold = [text.text for text in lined.drawing.texts if text.bold]
    assert bold == ["skirt", "lining"]
    assert [text.text for text in alone.drawing.texts if text.bold] == ["skirt"]


# The waist and its opening


def test_a_bodice_and_an_owned_skirt_bring_their_own_waist() -> None:
    assert waist_finish(_pattern("bodice waist, lined")) is None
    owned = replace(
        SEWN["silk organza ruffle, single"],
        skirt=Skirt(length=630, owned=Owned(waist=735, length=630, sweep=4300)),
    )
    pattern = draft(owned)
    assert waist_finish(pattern) is None
    assert front_and_back(pattern) is not None


def test_a_waist_that_never_opens_shows_its_elastic() -> None:
    picture = opening_picture(_pattern("pull-on"))
    assert picture is not None
    assert "elastic" in picture.alt


def test_the_opening_s_dot_lies_where_its_seam_ends(pattern: Pattern) -> None:
    picture = opening_picture(pattern)
    figures = pattern.figures
    if picture is None or figures.opening is None or not figures.skirt.opening:
        return
    dots = [s for s in picture.drawing.strokes if s.pen.width == pytest.approx(1.4)]
    assert len(dots) == 1
    down = -bounds(dots[0].path).centre.y
    # The band's height or the lining's opening gives the scale, whichever is drawn.
    if figures.lining is not None and figures.lining.opening > figures.skirt.opening:
        slit = max(
            -bounds(s.path).bottom
            for s in picture.drawing.strokes
            if len(s.path) == 3 and bounds(s.path).width < 8 and s.pen.dash
        )
        assert down / slit == pytest.approx(figures.skirt.opening / figures.lining.opening)


def _labelled(picture: Picture) -> str:
    return " ".join(text.text for text in picture.drawing.texts).replace("\u00a0", " ")


def _bars(picture: Picture) -> list[float]:
    """Return the heights of the bars of stitches across a zip: short, level, heavy."""
    boxes = [bounds(s.path) for s in picture.drawing.strokes if s.pen.width == 0.6]
    return [b.bottom for b in boxes if b.height < 1e-9 and 4 < b.width < 7]


def test_a_zip_too_long_is_cut_off_at_the_waist_seam_of_a_band(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    picture = opening_picture(pattern)
    assert picture is not None and pattern.figures.opening is not None
    # 19.6 cm are left open; the zip that is bought is 30 cm long.
    assert "zip, 19.6 cm of it used" in _labelled(picture)
    assert "30.0 cm long" in picture.alt.replace("\u00a0", " ")
    bars = _bars(picture)
    assert bars and all(-2.0 < y < 0.0 for y in bars)


@pytest.mark.parametrize("name", ["usher-skirt", "twirl-skirt"])
def test_a_zip_under_a_facing_or_a_binding_is_shortened_from_below(
    name: str, pattern_of: Callable[[str], Pattern]
) -> None:
    picture = opening_picture(pattern_of(name))
    assert picture is not None
    (dot,) = (bounds(s.path) for s in picture.drawing.strokes if s.pen.width == 1.4)
    bars = _bars(picture)
    assert bars and all(abs(y - dot.centre.y) < 1.0 for y in bars)
    tails = [
        bounds(s.path)
        for s in picture.drawing.strokes
        if len(s.path) == 3 and s.pen.dash and bounds(s.path).width < 4
    ]
    assert [t for t in tails if t.bottom < dot.centre.y < t.top + 1e-6]
    assert "cut off" not in _labelled(picture)


def test_the_tongue_of_a_band_goes_on_from_the_wearers_left(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    picture = opening_picture(pattern)
    band = next(piece for piece in pattern.pieces if piece.name == "band")
    # Right side up the band runs from centre back by the right side and the front to the left
    # back; what is left over there is the tongue.
    marks = [point_along(band.edges[0].path, n.at).x for n in band.notches if n.edge == 0]
    rim = bounds(band.edges[0].path)
    assert min(marks) == pytest.approx(rim.left) and rim.right - max(marks) == pytest.approx(30)
    assert picture is not None
    # Seen from behind, the left back is on the left, and the tongue runs on to the right.
    closed = [
        bounds(s.path)
        for s in picture.drawing.strokes
        if s.pen.width == 0.6 and s.path[0].start == s.path[-1].end and len(s.path) == 4
    ]
    (over,) = (box for box in closed if box.left < -10)
    assert over.right == pytest.approx(30 * over.top / pattern.spec.skirt.band)
    hooks = [s for s in picture.drawing.strokes if s.pen is HIDDEN_HOOK]
    assert hooks and all(0 < bounds(s.path).left < over.right for s in hooks)
    assert "left back laps" in _labelled(picture)


def test_the_end_that_laps_at_a_left_side_is_the_fronts() -> None:
    picture = opening_picture(_pattern("left side"))
    assert picture is not None
    assert "front laps" in _labelled(picture) and "left back" not in _labelled(picture)


def test_stay_and_slit_of_an_opening_have_different_lines() -> None:
    picture = opening_picture(_pattern("band waist, lined"))
    assert picture is not None
    stays = [s for s in picture.drawing.strokes if s.pen is STAY]
    slits = [s for s in picture.drawing.strokes if s.pen is HIDDEN and len(s.path) == 3]
    assert len(stays) == 2 and slits
    for stay in stays:
        assert not any(line_of(stay).intersects(line_of(slit)) for slit in slits)


def test_a_straight_band_is_interfaced_in_both_halves_a_shaped_one_outside() -> None:
    straight, shaped = (waist_finish(_pattern(n)) for n in ("band waist, lined", "dropped waist"))
    spans = []
    for picture in (straight, shaped):
        assert picture is not None
        (dashed,) = (bounds(s.path) for s in picture.drawing.strokes if s.pen is HIDDEN)
        spans.append(dashed.width)
    assert spans[0] > 5.0 and spans[1] < 1e-9


@pytest.mark.parametrize("finish", ["band", "facing", "bias"])
def test_a_stay_tape_lies_in_the_seam(finish: str) -> None:
    picture = waist_finish(_pattern(f"{finish} waist, lined"))
    assert picture is not None
    (tape,) = (line_of(s) for s in picture.drawing.strokes if s.pen is TAPE)
    threads = [
        line_of(s)
        for s in picture.drawing.strokes
        if s.pen.width == 0.35 and len(s.path) == 1 and bounds(s.path).height < 1e-9
    ]
    assert any(tape.crosses(thread) for thread in threads)
    assert "stay tape" in _labelled(picture)


def _threads(picture: Picture) -> list[tuple[float, float, float]]:
    """Return the stitchings seen on end: height, left and right end."""
    boxes = [bounds(s.path) for s in picture.drawing.strokes if s.pen.width == 0.35]
    return sorted((b.bottom, b.left, b.right) for b in boxes if b.height < 1e-9 and b.width > 2)


def test_a_binding_is_sewn_on_first_and_then_sewn_down() -> None:
    for picture in (waist_finish(_pattern("bias waist, lined")), hem_finish(_pattern("bound hem"))):
        assert picture is not None
        (one, other) = _threads(picture)
        assert one[0] < other[0] - 1.5
        # Neither goes through all layers: each begins or ends inside the other's reach.
        outer, inner = sorted((one, other), key=lambda thread: thread[1])
        assert outer[1] < inner[1] - 1 and outer[2] < inner[2] - 1
        assert "through all layers" not in _labelled(picture)


def test_the_allowance_lies_between_the_skirt_and_its_braid() -> None:
    picture = hem_finish(_pattern("braid hem"))
    assert picture is not None
    cloth = max(
        (s for s in picture.drawing.strokes if s.pen.width == 0.45), key=lambda s: len(s.path)
    )
    braid = [
        bounds(s.path)
        for s in picture.drawing.strokes
        if s.pen.width == 0.35 and len(s.path) == 4 and bounds(s.path).width < 1.5
    ]
    assert len(braid) == 1 and braid[0].left > bounds(cloth.path).right
    low, high = _threads(picture)
    # The first stitching takes the braid and the allowance alone, the second the cloth as well.
    assert low[1] > bounds(cloth.path).left + 1.8 and high[1] < bounds(cloth.path).left + 0.01


# A French seam


def test_the_two_passes_of_a_french_seam_take_its_allowance(
    pattern_of: Callable[[str], Pattern],
) -> None:
    picture = french_seam_picture(pattern_of("box-office-skirt"))
    assert picture is not None
    check_legible(picture)
    # 16 mm in all: 10 from the raw edges to the first pass, trimmed to 4, 6 to the second.
    assert lengths_in(picture.alt) == {"1.0", "0.6", "0.4"}
    stitched = _threads(picture)
    line = next(s for s in picture.drawing.strokes if s.pen is FOLD)
    zero = line.path[0].start.y
    heights = sorted({round(y - zero, 6) for y, left, right in stitched})
    raw = max(bounds(s.path).top for s in picture.drawing.strokes if s.pen.width == 0.45) - zero
    first = max(y for y, left, _ in stitched if left < 10) - zero
    assert first / raw == pytest.approx(6 / 16, abs=0.02)
    assert heights[0] == pytest.approx(0.0, abs=1e-6)
    # Turned, the second pass shuts the raw edges in: they end above it.
    assert "raw edges, shut in" in _labelled(picture)


def test_other_seams_have_no_second_pass(pattern_of: Callable[[str], Pattern]) -> None:
    for name in ("chorus-skirt", "bandstand-skirt", "wardrobe-find"):
        assert french_seam_picture(pattern_of(name)) is None


@pytest.mark.parametrize("language", [Language.GERMAN, Language.FRENCH])
def test_a_french_seam_is_legible_in_other_languages(
    language: Language, pattern_of: Callable[[str], Pattern]
) -> None:
    pattern = pattern_of("box-office-skirt")
    said = replace(pattern.spec, publish=replace(pattern.spec.publish, language=language))
    picture = french_seam_picture(replace(pattern, spec=said))
    assert picture is not None
    check_legible(picture)


# The sketch


def test_lengths_in_the_sketch_are_in_proportion_to_the_body(
    pattern_of: Callable[[str], Pattern],
) -> None:
    for name in ("chorus-skirt", "bandstand-skirt", "signal-skirt", "tea-dance-skirt"):
        pattern = pattern_of(name)
        picture = front_and_back(pattern)
        assert picture is not None
        body = [bounds(s.path) for s in picture.drawing.strokes if s.pen is BODY]
        tall = max(b.top for b in body) - min(b.bottom for b in body)
        wearer = pattern.spec.wearer
        scale = tall / (wearer.height + wearer.heel)
        opened = [line_of(s) for s in picture.drawing.strokes if s.pen is OPENED]
        assert len(opened) == 1
        low, high = opened[0].bounds[1], opened[0].bounds[3]
        # A level line dips in the middle, so the slit is a little longer than its drop.
        assert (high - low) / scale == pytest.approx(pattern.figures.skirt.opening, rel=0.12)


def test_a_fuller_hem_hangs_in_more_folds() -> None:
    folds = [visible_folds(sweep, 400, 1.0) for sweep in (2200, 3500, 5000, 9000)]
    assert folds[0] == 0
    assert folds == sorted(folds) and len(set(folds)) == 4


def test_a_half_scale_skirt_hangs_in_as_many_folds_as_the_whole_one() -> None:
    assert visible_folds(2320, 200, 0.5) == visible_folds(4640, 400, 1.0)


def test_the_figure_is_as_tall_as_the_wearer_in_her_shoes() -> None:
    for wearer in (CHORUS_TALL, SOUBRETTE, PAGE_BOY):
        box = extent(figure(wearer, 0.05, 0.0, 300.0))
        assert box.height == pytest.approx(0.05 * (wearer.height + wearer.heel), abs=0.5)


def test_seams_are_drawn_where_panels_meet(pattern_of: Callable[[str], Pattern]) -> None:
    # Eight gores closed at the left side: seams at the sides and three between, in either view.
    # Two panels closed at the back: one seam down the middle of each view. Four: at the sides too.
    for name, each in (("box-office-skirt", 5), ("chorus-skirt", 1), ("leading-lady-skirt", 3)):
        picture = front_and_back(pattern_of(name))
        assert picture is not None
        seams = [bounds(s.path) for s in picture.drawing.strokes if s.pen is PANEL_SEAM]
        assert len(seams) == 2 * each, name
        folds = [s for s in picture.drawing.strokes if s.pen.width == 0.2 and len(s.path) > 20]
        for seam in seams:
            # No fold hangs on a seam that runs straight down: the two would look like one line.
            if seam.width < 1e-6:
                assert all(abs(f.path[0].start.x - seam.left) > 0.5 for f in folds), name


def test_a_closure_s_seam_begins_at_the_end_of_its_opening(
    pattern_of: Callable[[str], Pattern],
) -> None:
    for name in ("chorus-skirt", "box-office-skirt"):
        picture = front_and_back(pattern_of(name))
        assert picture is not None
        (slit,) = (s for s in picture.drawing.strokes if s.pen is OPENED)
        seams = [s for s in picture.drawing.strokes if s.pen is PANEL_SEAM]
        below = [s for s in seams if math.dist(s.path[0].start, slit.path[-1].end) < 1e-6]
        assert len(below) == 1, name


def test_an_owned_skirt_shows_where_its_lining_opens(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("wardrobe-find")
    picture = front_and_back(pattern)
    assert picture is not None and pattern.figures.lining is not None
    assert [s for s in picture.drawing.strokes if s.pen is LINING_OPENED]
    assert not [s for s in picture.drawing.strokes if s.pen is OPENED or s.pen is PANEL_SEAM]
    long = length_text(pattern.figures.lining.opening, pattern.spec.units)
    assert f"the lining opens {long}" in picture.alt


# Labels


def test_labels_keep_the_order_of_what_they_name_and_their_distance() -> None:
    named = tuple(Label(words=f"line {k}", to=At(0, y)) for k, y in enumerate((5, 4, 4.5, 30)))
    drawn = labels(named, 10, most=40)
    heights = {text.text: text.at.y for text in drawn.texts}
    assert heights["line 3"] > heights["line 0"] > heights["line 2"] > heights["line 1"]
    rooms = [room_of(text) for text in drawn.texts]
    for k, one in enumerate(rooms):
        assert not any(one.intersects(other) for other in rooms[k + 1 :])
    ends = [LineString(line_of(s).coords) for s in drawn.strokes]
    assert any(one.distance(Point(0, 30)) < 1e-6 for one in ends)


# Other languages


class Longer(gettext.NullTranslations):
    """A pretended language whose words are two fifths longer."""

    def gettext(self, message: str) -> str:
        return "".join(
            part if part.startswith("{") else re.sub(r"[a-z]{3,}", _longer, part)
            for part in re.split(r"(\{\w+\})", message)
        )

    def ngettext(self, one: str, many: str, count: int) -> str:
        return self.gettext(one if count == 1 else many)

    def pgettext(self, meaning: str, message: str) -> str:
        return message


def _longer(word: re.Match[str]) -> str:
    extra = math.ceil(0.4 * len(word[0]))
    return word[0] + "enungen"[:extra].ljust(extra, "e")


def test_words_two_fifths_longer_still_find_room(
    pattern: Pattern, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("drafting.language.catalogue", lambda language: Longer())
    with speaking(Language.GERMAN):
        found = pictures(pattern)
    assert any("enu" in text.text for text in found[0].drawing.texts)
    for picture in found:
        check_legible(picture)


def test_other_garments_find_room_for_longer_words(
    garment: Pattern, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("drafting.language.catalogue", lambda language: Longer())
    with speaking(Language.GERMAN):
        for picture in pictures(garment):
            check_legible(picture)
