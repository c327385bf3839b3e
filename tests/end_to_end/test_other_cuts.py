"""Cuts that are no plain circle, on paper: their ink lies where their pieces were drafted.

The shapes themselves are measured in tests/drafting; here the written pages are read with
pikepdf, taped together in memory, and held against them.
"""

import math
from itertools import groupby, pairwise

import drafting
from drafting.geometry import Path
from drafting.piece import EdgeKind, Piece, cutting_line
from tests import tape
from tests.end_to_end.conftest import Run
from tests.end_to_end.test_true_size import CUTTING, STITCHING, WITHIN, middle, on_plane, taped
from tests.end_to_end.true_shape import Near, Walk, runs, straight

Placed = list[tuple[Piece, dict[str, float]]]


def placed(run: Run) -> Placed:
    """Return every piece that is printed, with its place on the plane."""
    pieces = {piece.name: piece for piece in drafting.draft(drafting.load(run.path)).pieces}
    return [(pieces[held["piece"]], held) for held in run.paper["pieces"]]


def walked(path: Path) -> Walk:
    """Return a path in runs of half a millimetre at most."""
    dots = tape.chain(path, 400)
    steps = [spot for one, two in pairwise(dots) for spot in straight(one, two)[:-1]]
    return (*steps, dots[-1])


def true_cut(run: Run) -> list[Walk]:
    return [on_plane(walked(cutting_line(piece)), held) for piece, held in placed(run)]


def true_stitching(run: Run) -> list[tuple[str, Walk]]:
    return [
        (f"{piece.name}, {edge.name}", on_plane(walked(edge.path), held))
        for piece, held in placed(run)
        for edge in piece.edges
        if edge.kind is not EdgeKind.FOLD and edge.allowance > 0
    ]


def test_every_piece_that_is_no_listed_rectangle_is_on_the_pages(other: Run) -> None:
    pattern = drafting.draft(drafting.load(other.path))
    wanted = {piece.name for piece in pattern.pieces if not piece.rectangle}
    assert {held["piece"] for held in other.paper["pieces"]} == wanted
    assert wanted


def test_no_cutting_line_is_drawn_astray(other: Run) -> None:
    truth = Near(runs(true_cut(other)))
    drawn = list(taped(other, *CUTTING))
    assert len(drawn) > 10
    assert max(max(truth.off(spot) for spot in (*ink, middle(ink))) for ink in drawn) < WITHIN


def test_the_cutting_line_is_whole_across_every_join(other: Run) -> None:
    ink = Near(taped(other, *CUTTING))
    for walk in true_cut(other):
        gone = [spot for spot in walk if not ink.off(spot) < WITHIN]
        assert not gone, f"{len(gone)} of {len(walk)} points are on no page, such as {gone[0]}"


def test_no_stitching_line_is_drawn_astray(other: Run) -> None:
    truth = Near(runs(walk for _, walk in true_stitching(other)))
    drawn = list(taped(other, *STITCHING))
    assert drawn
    assert max(max(truth.off(spot) for spot in (*ink, middle(ink))) for ink in drawn) < WITHIN


def test_dashes_are_long_enough_to_follow_along_every_seam(other: Run) -> None:
    ink = Near(taped(other, *STITCHING))
    for name, walk in true_stitching(other):
        steps = [(ink.off(b) < WITHIN, math.dist(a, b)) for a, b in pairwise(walk)]
        long = math.fsum(step for _, step in steps)
        if long < 30:
            continue
        assert math.fsum(step for on, step in steps if on) > 0.6 * long, name
        gaps = [
            math.fsum(step for _, step in held)
            for on, held in groupby(steps, key=lambda step: step[0])
            if not on
        ]
        assert max(gaps, default=0.0) < 3.0 + 1.2, name
