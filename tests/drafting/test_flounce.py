"""Circular flounces: the trade's own example, and laws for every hem they are sewn to."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.errors import GeometryError
from drafting.flounce import flounce_flare, inner_radius, ring_count
from drafting.pattern import draft
from drafting.piece import Piece, cutting_line, edge_named
from drafting.spec import Cloth, Cloths, Flounce, HemFinish, Skirt
from tests import tape
from tests.garments import SOUBRETTE, garment


def pieces(skirt: Skirt) -> dict[str, Piece]:
    spec = garment(skirt=skirt, cloths=Cloths(skirt=Cloth(width=1500)))
    return {piece.name: piece for piece in draft(spec).pieces}


def test_the_trades_flounce_takes_four_rings() -> None:
    # D 150, k 2.5: r 100; 2008.1 / (2 pi 100 - 20) = 3.30.
    assert inner_radius(150, 2.5) == pytest.approx(100)
    assert ring_count(2008.1, 100, join=10, inner=10) == 4
    flare = flounce_flare(2008.1, depth=150, ratio=2.5, join=10, inner=10)
    assert flare.panels == 4
    assert flare.hem_radius == pytest.approx(250)
    assert flare.sweep == pytest.approx(2.5 * 2008.1)


def test_an_inner_edge_too_tight_to_clip_is_refused() -> None:
    with pytest.raises(GeometryError, match="deeper"):
        flounce_flare(2000, depth=50, ratio=4, join=15, inner=10)


def test_a_flounce_is_part_of_the_length_and_its_inner_edge_is_the_skirts_lower_edge() -> None:
    found = pieces(Skirt(length=650, panels=4, flounce=Flounce(depth=150, ratio=2.0)))
    skirt, ring = found["skirt panel"], found["flounce ring"]
    assert edge_named(skirt, "panel_seam").length == pytest.approx(500)
    assert edge_named(ring, "join").length == pytest.approx(150)
    lower = skirt.count * tape.walked_length(edge_named(skirt, "hem").path)
    # Half of each ring is drawn.
    inner = ring.count * 2 * tape.walked_length(edge_named(ring, "inner").path)
    outer = ring.count * 2 * tape.walked_length(edge_named(ring, "hem").path)
    assert inner == pytest.approx(lower, abs=0.1)
    assert outer == pytest.approx(2 * lower, abs=0.3)


def test_the_quarters_of_both_edges_carry_the_same_number() -> None:
    found = pieces(Skirt(length=650, panels=2, flounce=Flounce(depth=150, ratio=2.0)))
    on_skirt = [n for n in found["skirt panel"].notches if n.edge == 1]
    on_ring = [n for n in found["flounce ring"].notches if n.edge == 3]
    assert {n.seam for n in on_skirt} == {n.seam for n in on_ring} == {"5"}
    # A half circle from seam to seam has its middle at the side.
    assert on_skirt[0].at == pytest.approx(edge_named(found["skirt panel"], "hem").length / 2)


def test_the_figures_are_those_of_the_whole_skirt() -> None:
    spec = garment(skirt=Skirt(length=650, panels=4, flounce=Flounce(depth=150, ratio=2.0)))
    figures = draft(spec).figures
    assert figures.skirt.length_side == pytest.approx(650)
    assert figures.flounce is not None
    assert figures.skirt.sweep == pytest.approx(figures.flounce.sweep)
    radius = (720 + 15) / 1.01 / math.tau
    assert figures.flounce.sewn_length == pytest.approx(math.tau * (radius + 500), abs=0.01)


@settings(max_examples=100, deadline=None)
@given(
    length=st.floats(600, 9000),
    depth=st.floats(60, 400),
    ratio=st.floats(1.3, 3),
    join=st.floats(5, 16),
)
def test_rings_are_as_few_as_reach_round_and_each_leaves_room_for_its_joins(
    length: float, depth: float, ratio: float, join: float
) -> None:
    try:
        flare = flounce_flare(length, depth=depth, ratio=ratio, join=join, inner=10)
    except GeometryError:
        assert depth / (ratio - 1) - 10 <= max(join, 25) or length > 5000
        return
    ring = flare.waist_radius * flare.panel_angle
    assert flare.panels * ring == pytest.approx(length)
    assert ring <= math.tau * flare.waist_radius - 2 * join + 1e-6
    if flare.panels > 1:
        fewer = length / (flare.panels - 1)
        cut = flare.waist_radius - 10
        widest = flare.waist_radius * (math.tau - 2 * math.asin(join / cut))
        # A thousandth of a radian is kept, so that the cut edges do not touch.
        assert fewer > min(math.tau * flare.waist_radius - 2 * join, widest) - 1.0


def test_a_flounce_on_an_uneven_body_and_with_a_faced_hem_can_be_cut() -> None:
    crooked = replace(SOUBRETTE, floor_left=1070, floor_right=1050)
    skirt = Skirt(
        length=580,
        hem_above_floor=420,
        panels=4,
        flounce=Flounce(depth=140, ratio=1.8),
        hem=HemFinish.FACED,
    )
    pattern = draft(garment(wearer=crooked, skirt=skirt, cloths=Cloths(skirt=Cloth(width=1500))))
    names = {piece.name for piece in pattern.pieces}
    assert {"flounce ring", "hem facing"} <= names
    for piece in pattern.pieces:
        assert tape.walked_area(cutting_line(piece), 200) > 0
