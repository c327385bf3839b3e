"""Hems level with the floor on uneven bodies: the trade's E5, and laws for every body."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.around import Around
from drafting.findings import Level
from drafting.geometry import path_length, point_along
from drafting.pattern import Pattern, draft
from drafting.piece import FoldWay, NotchKind, Piece, edge_named
from drafting.spec import Closure, Cloth, Cloths, Grain, Lining, Ruffle, Skirt, Spec
from tests.drawn import drawn
from tests.garments import SOUBRETTE, garment

UNEVEN = replace(SOUBRETTE, floor_front=1040, floor_side=1060, floor_back=1050, heel=0)


def e5(**changes: object) -> Spec:
    """Return the trade's worked example E5: E1's waist, hem 48 cm above the floor."""
    skirt = Skirt(length=580, hem_above_floor=480, waist_ease=0, waist_stretch=0, panels=4)
    return garment(
        wearer=UNEVEN,
        skirt=replace(skirt, **changes),  # type: ignore[arg-type]
        cloths=Cloths(skirt=Cloth(width=1800)),
    )


def pieces(pattern: Pattern) -> dict[str, Piece]:
    return {piece.name: piece for piece in pattern.pieces}


def test_e5_lengths_at_the_quarters_and_between_them() -> None:
    around = Around(front=560, left=580, back=570, right=580)
    # L(45) = 572.5 - 5 cos 45 = 569.0; L(135) = 576.0; psi from centre front.
    for psi, expected in ((0, 560), (45, 568.96), (90, 580), (135, 576.04), (180, 570)):
        for side in (1, -1):
            assert around.at(0.5 + side * psi / 360) == pytest.approx(expected, abs=0.005)


def test_e5_radii_and_sweep() -> None:
    skirt = draft(e5()).figures.skirt
    assert skirt.waist_radius == pytest.approx(114.6, abs=0.05)
    assert skirt.hem_radius == pytest.approx(674.6, abs=0.05)
    assert skirt.hem_radius_max == pytest.approx(694.6, abs=0.05)
    assert skirt.sweep == pytest.approx(4317.7, abs=0.05)
    assert (skirt.length_front, skirt.length_side, skirt.length_back) == (560, 580, 570)


def test_the_slope_is_the_lengths_own() -> None:
    around = Around(front=560, left=590, back=570, right=575)
    for share in (0.0, 0.13, 0.4, 0.77):
        step = 1e-6
        grown = (around.at(share + step) - around.at(share - step)) / (2 * step * math.tau)
        assert around.slope(share) == pytest.approx(grown, abs=1e-3)
    even = Around(front=560, left=580, back=570, right=580)
    assert even.slope(0.0) == pytest.approx(0, abs=1e-9)
    assert even.slope(0.5) == pytest.approx(0, abs=1e-9)


def test_panels_that_differ_have_names_and_mirror_images_are_drawn_once() -> None:
    found = pieces(draft(e5()))
    assert {"skirt front", "skirt back"} <= set(found)
    for name in ("skirt front", "skirt back"):
        assert (found[name].count, found[name].mirrored, found[name].half) == (2, True, False)
    # One edge at a side, the other at a centre: each as long as the body asks there.
    front, back = found["skirt front"], found["skirt back"]
    assert sorted(e.length for e in (front.edges[0], front.edges[2])) == pytest.approx([560, 580])
    assert sorted(e.length for e in (back.edges[0], back.edges[2])) == pytest.approx([570, 580])


def test_a_crooked_body_has_no_mirror_images() -> None:
    spec = e5()
    crooked = replace(UNEVEN, floor_left=1070, floor_right=1050)
    found = [p for p in draft(replace(spec, wearer=crooked)).pieces if p.name.startswith("skirt")]
    assert [piece.count for piece in found] == [1, 1, 1, 1]
    assert {piece.name for piece in found} == {
        "skirt back right",
        "skirt front right",
        "skirt front left",
        "skirt back left",
    }
    # Round by the right: 105 there, 107 on the left, each less 48 above the floor.
    by_name = {piece.name: piece for piece in found}
    assert by_name["skirt back right"].edges[2].length == pytest.approx(1050 - 480)
    assert by_name["skirt back left"].edges[0].length == pytest.approx(1070 - 480)
    assert not any(piece.mirrored for piece in found)


def test_panels_that_differ_are_never_cut_on_one_fold() -> None:
    spec = replace(e5(), cloths=Cloths(skirt=Cloth(width=1800, fold=True)))
    assert not any(p.half for p in draft(spec).pieces)
    # A front and a back are each their own mirror image, and may be halves.
    sides = replace(spec, skirt=replace(spec.skirt, panels=2, closure=Closure.LEFT_SIDE))
    halves = pieces(draft(sides))
    assert halves["skirt front"].half and halves["skirt back"].half
    assert halves["skirt front"].fold_way is FoldWay.CROSSWISE
    fold = edge_named(halves["skirt front"], "fold").length
    assert fold == pytest.approx(560)
    assert edge_named(halves["skirt back"], "fold").length == pytest.approx(570)


def test_an_even_body_gets_the_plain_skirt() -> None:
    even = replace(UNEVEN, floor_front=1060, floor_back=1060)
    levelled = draft(replace(e5(), wearer=even)).figures.skirt
    plain = draft(e5(hem_above_floor=None)).figures.skirt
    assert levelled.sweep == pytest.approx(plain.sweep, abs=0.01)
    assert levelled.hem_radius == pytest.approx(plain.hem_radius)


def test_the_ruffles_line_runs_parallel_to_a_levelled_hem() -> None:
    spec = replace(e5(), lining=Lining(fullness=0.5), ruffle=Ruffle(gather_ratio=2.2, depth=200))
    pattern = draft(spec)
    lining = next(piece for piece in pattern.pieces if piece.name.startswith("lining"))
    line, hem = lining.inner_lines[0].path, edge_named(lining, "hem").path
    for share in (0.0, 0.3, 0.5, 0.8, 1.0):
        here = point_along(line, share * path_length(line))
        angle = math.atan2(here.y, here.x)
        below = min(
            (point_along(hem, k / 4000 * path_length(hem)) for k in range(4001)),
            key=lambda p: abs(math.atan2(p.y, p.x) - angle),
        )
        assert math.hypot(*below) - math.hypot(*here) == pytest.approx(210, abs=0.3)
    assert pattern.figures.ruffle is not None
    assert pattern.figures.ruffle.line_length == pytest.approx(path_length(line), abs=0.01)
    assert "hem-rises" in {finding.code for finding in pattern.findings}


def test_the_rise_is_told_as_an_estimate() -> None:
    # 560 (1 - cos 25) = 52.5 mm.
    spec = replace(e5(), lining=Lining(fullness=0.5), ruffle=Ruffle(gather_ratio=2.2, depth=200))
    (rise,) = (f for f in draft(spec).findings if f.code == "hem-rises")
    assert "5.2\u00a0cm" in rise.what
    assert "estimate" in rise.what


def test_a_hem_over_the_knee_of_a_giant_is_refused() -> None:
    codes = {f.code: f.level for f in draft(e5(hem_above_floor=1000)).findings}
    assert codes["level-hem-out-of-reach"] is Level.STOP


floors = st.floats(1000, 1100)


@settings(max_examples=drawn(120), deadline=None)
@given(
    front=floors,
    left=floors,
    back=floors,
    right=floors,
    fullness=st.floats(0.4, 3),
    panels=st.integers(1, 9),
    closure=st.sampled_from([Closure.CENTRE_BACK, Closure.LEFT_SIDE]),
    grain=st.sampled_from(Grain),
    fold=st.booleans(),
    above=st.floats(200, 600),
)
def test_every_levelled_skirt_trues_and_hangs_as_long_as_its_body(
    front: float,
    left: float,
    back: float,
    right: float,
    fullness: float,
    panels: int,
    closure: Closure,
    grain: Grain,
    fold: bool,
    above: float,
) -> None:
    body = replace(
        UNEVEN,
        floor_front=front,
        floor_back=back,
        floor_left=left,
        floor_right=right,
        floor_side=(left + right) / 2,
    )
    spec = garment(
        wearer=body,
        skirt=Skirt(
            length=600,
            hem_above_floor=above,
            fullness=fullness,
            panels=panels,
            closure=closure,
            grain=grain,
        ),
        cloths=Cloths(skirt=Cloth(width=5000, fold=fold)),
    )
    pattern = draft(spec)
    drawn = [piece for piece in pattern.pieces if piece.name.startswith("skirt")]
    if not drawn:
        return
    figures = pattern.figures.skirt
    times = [piece.count * (2 if piece.half else 1) for piece in drawn]
    assert sum(piece.count for piece in drawn) == figures.panels

    def whole(edge: str) -> float:
        lengths = (edge_named(piece, edge).length for piece in drawn)
        return math.fsum(k * long for k, long in zip(times, lengths, strict=True))

    assert whole("waist") == pytest.approx(figures.waistline, abs=0.01)
    # Trapezoids round the body, independent of arcs: sqrt(R^2 + R'^2).
    around = Around(front=front - above, left=left - above, back=back - above, right=right - above)
    steps = 4000
    assert figures.waist_radius is not None
    ring = math.fsum(
        math.hypot(
            figures.waist_radius + around.at((k + 0.5) / steps),
            around.slope((k + 0.5) / steps) / fullness,
        )
        for k in range(steps)
    )
    assert whole("hem") == pytest.approx(ring * math.tau * fullness / steps, abs=0.02)
    assert figures.sweep == pytest.approx(whole("hem"), abs=0.02)
    for seam in pattern.figures.truing:
        assert abs(seam.difference) < 0.1
    for piece in drawn:
        for notch in piece.notches:
            if notch.kind is NotchKind.BALANCE and notch.edge == 2:
                # Counted from the waist on both edges of its seam.
                below = piece.edges[2].length - notch.at
                assert 0 < below < piece.edges[2].length
