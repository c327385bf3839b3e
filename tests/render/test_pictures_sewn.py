"""Pictures of how waist, opening, hem and seams are sewn: they show what the steps tell."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from drafting.geometry import bounds, point_along
from drafting.language import Language
from drafting.pattern import Pattern, draft
from render.pictures.french_seam import french_seam_picture
from render.pictures.hem_finish import hem_finish
from render.pictures.ink import FOLD, HIDDEN
from render.pictures.opening import HIDDEN_HOOK, STAY, opening_picture
from render.pictures.picture import Picture
from render.pictures.waist_finish import waist_finish
from render.pictures.waist_seam import TAPE
from tests.render.picture_ink import lengths_in, line_of
from tests.render.test_pictures_garment import SEWN, check_legible


@cache
def _pattern(name: str) -> Pattern:
    return draft(SEWN[name])


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
