"""The waist of a panel alone: its rays are as long as the whole panel is, measured by another."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from shapely import LineString, Point, Polygon
from shapely.affinity import scale

from drafting.allowance import Widths
from drafting.around import Around, all_round
from drafting.circle import Flare
from drafting.findings import stops
from drafting.geometry import Path, flattened, path_length, reversed_path
from drafting.gored import ShapedGores
from drafting.levelled import Levelled
from drafting.outline import Cut
from drafting.panel_wishes import PanelWishes
from drafting.panels import layer_pieces
from drafting.pattern import draft
from drafting.piece import (
    EdgeKind,
    InnerKind,
    NotchKind,
    Piece,
    cutting_line,
    edge_named,
    stitching_line,
)
from drafting.spec import Closure, Grain, LevelAt, Skirt, Spec, WaistFinish
from drafting.tilted import Tilted
from drafting.units import Units, length_text
from drafting.waist_part import (
    HEM_GAP,
    LEAST_GAP,
    LEFT,
    WAIST_GAP,
    Ray,
    is_shortened,
    rays,
    waist_part,
)
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import SOUBRETTE, chorus_skirt, garment, piece_named

UNEVEN = Around(front=560, left=584, back=570, right=576)

CUTS: dict[str, Cut] = {
    "full circle": Flare(fullness=1.0, panels=2, waistline=720, length=650),
    "double circle": Flare(fullness=2.0, panels=4, waistline=890, length=600),
    "one wide panel": Flare(fullness=0.8, panels=1, waistline=720, length=600),
    "level hem": Levelled(fullness=1.0, panels=2, waistline=720, around=UNEVEN),
    "tilted waist": Tilted(fullness=1.0, panels=4, waistline=720, around=UNEVEN),
    "plain gores": Flare(fullness=0.33, panels=8, waistline=720, length=700),
    "shaped gores": ShapedGores(
        panels=6, waistline=720, hipline=1000, hip_depth=200, flare=0.15, around=all_round(700)
    ),
}


def pieces_of(name: str, *, half: bool = False, grain: Grain = Grain.EDGE) -> tuple[Piece, ...]:
    wishes = PanelWishes(
        part="skirt",
        allowances=Widths(),
        grain=grain,
        closure=Closure.CENTRE_BACK,
        opening=180.0,
        seam="1",
        waist_seam="2",
        half=half,
    )
    return layer_pieces(CUTS[name], wishes)


def as_line(path: Path) -> LineString:
    return LineString([(p.x, p.y) for p in flattened(path)])


def filled(path: Path) -> Polygon:
    """Return what lies inside a closed path; its last point is its first, to the last bits."""
    return Polygon(as_line(path).coords[:-1])


def taped(piece: Piece, ray: Ray) -> float:
    """Return the length between waist and hem along a ray, met by shapely on a longer line."""
    line = as_line(ray.path)
    longer = scale(LineString([line.coords[0], line.coords[-1]]), 1.05, 1.05)
    waist = longer.intersection(as_line(edge_named(piece, "waist").path))
    hem = longer.intersection(as_line(edge_named(piece, "hem").path))
    assert isinstance(waist, Point)
    assert isinstance(hem, Point)
    return float(waist.distance(hem))


@pytest.mark.parametrize("name", CUTS)
def test_a_ray_is_as_long_as_the_panel_is_there(name: str) -> None:
    for piece in pieces_of(name):
        inner = rays(piece)[1:-1]
        assert inner
        for ray in inner:
            assert ray.length == pytest.approx(taped(piece, ray), abs=0.05)


@pytest.mark.parametrize("name", CUTS)
def test_sides_are_measured_along_their_own_edges(name: str) -> None:
    for piece in pieces_of(name):
        first, *_, last = rays(piece)
        assert first.length == piece.edges[0].length
        assert last.length == pytest.approx(piece.edges[2].length)


def test_on_a_level_hem_each_ray_has_the_length_that_the_body_asks_for_there() -> None:
    panel = pieces_of("level hem")[0]
    found = rays(panel)
    wide = path_length(edge_named(panel, "waist").path)
    for ray in found:
        # The first panel begins at centre back and takes half of the waist.
        assert ray.length == pytest.approx(UNEVEN.at(0.5 * ray.at / wide), abs=1e-6)
    assert max(ray.length for ray in found) - min(ray.length for ray in found) > 10


def test_under_a_tilted_waist_rays_run_square_to_the_hem() -> None:
    for piece in pieces_of("tilted waist"):
        for ray in rays(piece)[1:-1]:
            end = ray.path[-1].end
            radius = math.hypot(*end)
            assert radius == pytest.approx(CUTS["tilted waist"].hem_radius)
            start = ray.path[0].start
            assert math.hypot(*start) + ray.length == pytest.approx(radius)


@pytest.mark.parametrize("half", [False, True])
@pytest.mark.parametrize("name", CUTS)
def test_rays_stand_at_both_sides_and_close_enough_to_join_by_hand(name: str, half: bool) -> None:
    if half and name == "one wide panel":
        return
    for piece in pieces_of(name, half=half, grain=Grain.CENTRE):
        found = rays(piece)
        long = path_length(edge_named(piece, "waist").path)
        below = path_length(edge_named(piece, "hem").path)
        at = [ray.at for ray in found]
        assert at == sorted(at)
        assert at[0] == 0.0
        assert at[-1] == pytest.approx(long)
        widest = max(b - a for a, b in pairwise(at))
        assert widest <= WAIST_GAP + 1e-6
        assert widest / long * below <= HEM_GAP * 1.02 or widest < 2 * LEAST_GAP
        for notch in piece.notches:
            if notch.edge == 3 and LEAST_GAP < notch.at < long - LEAST_GAP:
                assert any(abs(long - notch.at - one) < 1e-6 for one in at)


@pytest.mark.parametrize("half", [False, True])
@pytest.mark.parametrize("name", CUTS)
def test_the_short_piece_lies_on_the_whole_one_and_keeps_its_waist(name: str, half: bool) -> None:
    if half and name == "one wide panel":
        return
    for piece in pieces_of(name, half=half, grain=Grain.CENTRE):
        short = waist_part(piece, Units.CM)
        assert is_shortened(short)
        assert edge_named(short, "waist") == edge_named(piece, "waist")
        whole = filled(cutting_line(piece))
        part = filled(cutting_line(short))
        assert part.is_valid
        assert part.difference(whole.buffer(0.1)).is_empty
        assert part.area < 0.6 * whole.area
        low = edge_named(short, "cut_off")
        assert (low.kind, low.allowance) == (EdgeKind.RAW, 0.0)
        stitched = as_line(edge_named(piece, "waist").path)
        depths = [Point(p).distance(stitched) for p in as_line(low.path).coords]
        assert min(depths) >= 99.0
        if name in ("full circle", "double circle", "level hem", "plain gores"):
            assert max(depths) == pytest.approx(100, abs=0.1)


@pytest.mark.parametrize("name", CUTS)
def test_the_grain_stays_parallel_and_on_the_paper(name: str) -> None:
    for grain in Grain:
        for piece in pieces_of(name, grain=grain):
            short = waist_part(piece, Units.CM)
            angles = [
                math.atan2(b.y - a.y, b.x - a.x) for a, b in (piece.grainline, short.grainline)
            ]
            assert math.remainder(angles[0] - angles[1], math.tau) == pytest.approx(0, abs=1e-9)
            line = LineString(short.grainline)
            assert line.length > 35
            assert filled(stitching_line(short)).contains(line)
            for ray in short.inner_lines:
                assert ray.kind is not InnerKind.RAY or not as_line(ray.path).intersects(line)


def test_each_ray_says_how_far_the_tape_goes() -> None:
    panel = piece_named(draft(chorus_skirt()).pieces, "skirt panel")
    short = waist_part(panel, Units.CM)
    words = {line.words for line in short.inner_lines if line.kind is InnerKind.RAY}
    assert words == {f"{length_text(620, Units.CM)} from the waist line to the hem line"}
    assert short.edges[0].words == "centre back: 62.0\u00a0cm to the hem line"
    assert short.edges[2].words == "centre front: 62.0\u00a0cm to the hem line"


def plain(piece: Piece) -> str:
    return "\n".join(waist_part(piece, Units.CM).notes).replace("\u00a0", " ")


def test_what_the_paper_leaves_out_is_told_in_lengths() -> None:
    pattern = draft(chorus_skirt())
    told = plain(piece_named(pattern.pieces, "skirt panel"))
    assert "hem line: 62.0 cm from the waist line, on every ray; add 1.2 cm below it" in told
    assert "notches on the edges, 37.2 cm below the waist line: seam 1, centre back" in told
    assert "opening ends: 19.6 cm below the waist line" in told
    told = plain(piece_named(pattern.pieces, "lining panel"))
    assert "ruffle's line: 38.0 cm below the waist line, on every ray" in told


def test_on_an_uneven_lining_the_ruffles_line_is_told_from_the_hem() -> None:
    chorus = chorus_skirt()
    spec = replace(chorus, skirt=replace(chorus.skirt, hem_above_floor=450.0))
    pattern = draft(spec)
    linings = [piece for piece in pattern.pieces if piece.name.startswith("lining")]
    up = 210.0  # 20 cm of ruffle, 1 cm above the hem
    assert linings
    for piece in linings:
        assert f"ruffle's line: {up / 10:.1f} cm above the hem line, on every ray" in plain(piece)


def test_notches_at_the_waist_stay_where_they_were() -> None:
    for piece in pieces_of("full circle"):
        short = waist_part(piece, Units.CM)
        at_waist = [notch for notch in piece.notches if notch.edge == 3]
        assert at_waist
        assert [notch for notch in short.notches if notch.edge == 3] == at_waist
        assert not any(
            notch.kind is NotchKind.BALANCE and notch.edge != 3 for notch in short.notches
        )


@pytest.mark.parametrize("length", [100.0 + LEFT - 1, 100.0 + LEFT + 1])
def test_a_panel_that_would_lose_little_is_printed_whole(length: float) -> None:
    wishes = PanelWishes(
        part="skirt", allowances=Widths(), grain=Grain.EDGE, closure=Closure.CENTRE_BACK
    )
    (panel,) = layer_pieces(Flare(fullness=1.0, panels=2, waistline=560, length=length), wishes)
    assert is_shortened(waist_part(panel, Units.CM)) == (length > 100 + LEFT)


def test_facings_pockets_and_bands_are_printed_whole() -> None:
    skirt = Skirt(length=620, panels=4, waist_finish=WaistFinish.FACING, pockets=True)
    pattern = draft(garment(skirt=skirt))
    kept = [piece for piece in pattern.pieces if piece.name != "skirt panel"]
    assert {"facing", "pocket bag"} <= {piece.name for piece in kept}
    for piece in kept:
        assert waist_part(piece, Units.CM) is piece


def test_a_shaped_gore_is_printed_down_to_where_its_sides_are_straight() -> None:
    for piece in pieces_of("shaped gores"):
        short = waist_part(piece, Units.CM)
        rest = piece.edges[0].length - short.edges[0].length
        lower = piece.edges[0].path[-1]
        assert path_length((lower,)) > rest
        reached = path_length(reversed_path(short.edges[0].path)[:1])
        assert reached == pytest.approx(40, abs=1e-6)


@settings(max_examples=drawn(40), deadline=None, suppress_health_check=list(HealthCheck))
@given(specs())
def test_whatever_the_cut_a_waist_part_can_be_cut_and_its_rays_stay_on_the_panel(
    spec: Spec,
) -> None:
    pattern = draft(spec)
    if stops(pattern.findings):
        return
    for piece in pattern.pieces:
        short = waist_part(piece, spec.units)
        outline = filled(cutting_line(short))
        assert outline.is_valid, piece.name
        if not is_shortened(short):
            continue
        whole = filled(stitching_line(piece)).buffer(0.1)
        for ray in rays(piece):
            assert whole.contains(as_line(ray.path)), piece.name
        assert outline.contains(LineString(short.grainline)), piece.name
        for line in short.inner_lines:
            assert outline.buffer(0.1).contains(as_line(line.path)), (piece.name, line.kind)


def test_a_tilted_waist_of_the_wardrobe_is_cut_off_below_its_lowest_point() -> None:
    skirt = Skirt(length=580, panels=4, hem_above_floor=480, level=LevelAt.WAIST)
    uneven = replace(SOUBRETTE, floor_front=1020, floor_back=1060)
    pattern = draft(garment(wearer=uneven, skirt=skirt))
    panels = [piece for piece in pattern.pieces if piece.name.startswith("skirt")]
    assert len(panels) > 1
    for piece in panels:
        assert is_shortened(waist_part(piece, Units.CM))
