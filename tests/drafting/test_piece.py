"""Pieces: closed outlines, and what is measured on them."""

import math

import pytest

from drafting.errors import GeometryError
from drafting.geometry import Arc, Line, Path, Point, straight
from drafting.piece import (
    Edge,
    EdgeKind,
    Piece,
    cutting_area,
    cutting_box,
    cutting_line,
    edge_named,
    stitching_line,
)


def apron(*, gape: float = 0.0, count: int = 1) -> Piece:
    """A straight apron, 400 by 300, its corner open by ``gape``."""
    corners = (Point(0, 0), Point(400, 0), Point(400, 300), Point(0, 300))
    names = ("hem", "side", "waist", "side")
    ends = (*corners[1:], Point(0, gape))
    return Piece(
        name="apron",
        edges=tuple(
            Edge(
                name=name,
                path=straight(a, b),
                allowance=10,
                kind=EdgeKind.HEM if name == "hem" else EdgeKind.SEAM,
            )
            for name, a, b in zip(names, corners, ends, strict=True)
        ),
        grainline=(Point(100, 50), Point(100, 250)),
        cloth="skirt",
        count=count,
    )


def test_an_outline_that_is_not_closed_is_refused() -> None:
    with pytest.raises(GeometryError, match="the outline of apron is not closed"):
        apron(gape=0.5)


def test_a_piece_is_cut_at_least_once() -> None:
    with pytest.raises(GeometryError, match="at least once"):
        apron(count=0)


def test_an_aprons_allowance_of_10_all_round_makes_420_by_320() -> None:
    box = cutting_box(apron())
    assert [box.width, box.height] == pytest.approx([420, 320])
    assert cutting_area(apron()) == pytest.approx(420 * 320)


def test_edges_are_found_by_name_and_measured_along_their_curve() -> None:
    assert edge_named(apron(), "waist").length == pytest.approx(400)
    with pytest.raises(KeyError):
        edge_named(apron(), "train")
    curve: Path = (Arc(centre=Point(0, 0), radius=200, begin=0, finish=math.pi),)
    assert Edge(name="waist", path=curve, allowance=0).length == pytest.approx(628.3185)


def test_the_stitching_line_is_every_edge_in_turn() -> None:
    assert len(stitching_line(apron())) == 4
    assert all(isinstance(s, Line) for s in stitching_line(apron()))
    assert cutting_line(apron()) == cutting_line(apron())
