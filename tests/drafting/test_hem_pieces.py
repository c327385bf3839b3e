"""What finishes a hem: facings of its own curve, bias strips, braid; and what each needs."""

import math
from dataclasses import replace

import pytest

from drafting.edging import edging
from drafting.errors import GeometryError
from drafting.hem_pieces import braid_length, strip_length
from drafting.pattern import Pattern, draft
from drafting.piece import EdgeKind, Piece, cutting_line, edge_named
from drafting.spec import Cloth, Cloths, CutKind, HemFinish, LevelAt, Skirt, WaistFinish
from tests import tape
from tests.garments import SOUBRETTE, garment

UNEVEN = replace(SOUBRETTE, floor_front=1040, floor_side=1060, floor_back=1050)


def drafted(skirt: Skirt, kind: str = "") -> Pattern:
    return draft(
        garment(wearer=UNEVEN, skirt=skirt, cloths=Cloths(skirt=Cloth(kind=kind, width=1800)))
    )


def named(pattern: Pattern, name: str) -> Piece:
    return next(piece for piece in pattern.pieces if piece.name == name)


def test_a_faced_hem_has_a_facing_of_its_own_curve() -> None:
    pattern = drafted(Skirt(length=650, panels=4, hem=HemFinish.FACED, hem_facing=50))
    panel, facing = named(pattern, "skirt panel"), named(pattern, "hem facing")
    assert facing.count == 4
    sewn, hem = facing.edges[0], edge_named(panel, "hem")
    assert tape.walked_length(sewn.path) == pytest.approx(tape.walked_length(hem.path), abs=1e-6)
    radius = 735 / 1.01 / math.tau + 650
    outer = edge_named(facing, "outer")
    assert tape.walked_length(outer.path) == pytest.approx((radius - 50) * math.pi / 2, abs=0.01)
    assert outer.kind is EdgeKind.RAW
    # Both edges of the seam have a seam's allowance, the skirt's with its spare besides.
    assert sewn.allowance == pytest.approx(10)
    assert hem.kind is EdgeKind.SEAM
    # Area of the finished facing: a ring of the circle, pi (R^2 - (R - 50)^2).
    ring = math.pi * (radius**2 - (radius - 50) ** 2)
    from drafting.piece import stitching_line

    assert 4 * tape.walked_area(stitching_line(facing)) == pytest.approx(ring, rel=1e-4)


def test_facings_of_panels_that_differ_are_told_apart_and_meet_their_own_panel() -> None:
    skirt = Skirt(length=580, hem_above_floor=480, panels=4, hem=HemFinish.FACED)
    pattern = drafted(skirt)
    for side in ("front", "back"):
        panel, facing = named(pattern, f"skirt {side}"), named(pattern, f"hem facing {side}")
        assert (facing.count, facing.mirrored) == (2, True)
        assert tape.walked_length(facing.edges[0].path) == pytest.approx(
            tape.walked_length(edge_named(panel, "hem").path), abs=1e-6
        )
        on_panel = [n.at for n in panel.notches if n.edge == 1]
        assert [n.at for n in facing.notches] == pytest.approx(on_panel)


@pytest.mark.parametrize(
    "skirt",
    [
        Skirt(length=580, hem_above_floor=480, level=LevelAt.WAIST, panels=4),
        Skirt(length=650, cut=CutKind.GORED, shaped=True, fullness=0.5),
    ],
)
def test_a_waist_that_is_no_plain_arc_is_faced_along_its_own_line(skirt: Skirt) -> None:
    pattern = drafted(replace(skirt, waist_finish=WaistFinish.FACING))
    facings = [piece for piece in pattern.pieces if piece.name.startswith("facing")]
    panels = [piece for piece in pattern.pieces if piece.name.startswith("skirt")]
    assert len(facings) == len(panels)
    for panel, facing in zip(panels, facings, strict=True):
        one, other = edge_named(panel, "waist"), edge_named(facing, "waist")
        assert tape.walked_length(one.path) == pytest.approx(tape.walked_length(other.path))
        assert [n.words for n in facing.notches] == [
            n.words for n in panel.notches if panel.edges[n.edge].name == "waist"
        ]


def test_a_facing_too_deep_for_its_curve_is_refused() -> None:
    panel = named(drafted(Skirt(length=650, panels=4)), "skirt panel")
    with pytest.raises(GeometryError):
        edging(panel, "hem", 900, allowance=10, name="hem facing", words="hem")


def test_bias_strips_reach_round_with_their_joints() -> None:
    # 4804 and 60; strips run 1380 x root 2 = 1951.6 across: three of them, two joints of 20.
    assert strip_length(4804, 1380) == pytest.approx(4904)
    assert strip_length(1800, 1380) == pytest.approx(1860)
    assert braid_length(4804) == pytest.approx(4834)


@pytest.mark.parametrize(
    ("finish", "name", "width", "allowance"),
    [
        (HemFinish.BOUND, "hem binding", 35, 0),
        (HemFinish.BIAS_FACED, "hem facing strip", 40, 10),
    ],
)
def test_a_strip_is_cut_on_the_bias(
    finish: HemFinish, name: str, width: float, allowance: float
) -> None:
    pattern = drafted(Skirt(length=650, panels=4, hem=finish), kind="net")
    strip = named(pattern, name)
    (ax, ay), (bx, by) = strip.grainline
    assert abs(by - ay) == pytest.approx(abs(bx - ax))
    left, bottom, right, top = tape.extent(tape.chain(cutting_line(strip)))
    assert top - bottom == pytest.approx(width)
    hem = pattern.figures.hem
    assert hem is not None and hem.strip_length == pytest.approx(right - left)
    assert edge_named(named(pattern, "skirt panel"), "hem").allowance == pytest.approx(allowance)
    assert strip.cloth == "binding"


def test_a_braid_is_told_with_its_length_and_lies_in_a_narrow_turn() -> None:
    pattern = drafted(Skirt(length=650, panels=4, hem=HemFinish.BRAID, braid=25), kind="net")
    hem = pattern.figures.hem
    assert hem is not None and hem.braid_length is not None
    assert hem.braid_length == pytest.approx(pattern.figures.skirt.sweep + 30)
    assert edge_named(named(pattern, "skirt panel"), "hem").allowance == pytest.approx(8)
