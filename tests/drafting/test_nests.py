"""Where the sizes of a piece lie: nested if their lines can be told apart, else side by side."""

from itertools import combinations

import pytest
from shapely import Polygon

from drafting.geometry import flattened
from drafting.nests import GAP, common_ground, nestled
from drafting.pattern import draft
from drafting.piece import Piece, cutting_line
from drafting.sheet import read_sheet

FIVE = '[publish]\nsizes = ["P03", "P04", "P05", "P06", "P07"]\n'


def sizes_of(sheet: str, name: str) -> tuple[Piece, ...]:
    pattern = draft(read_sheet(sheet + FIVE))
    return tuple(p for one in pattern.sizes for p in one.pieces if p.name == name)


def shape(piece: Piece) -> Polygon:
    return Polygon([(p.x, p.y) for p in flattened(cutting_line(piece))])


def test_panels_lie_about_one_centre_as_they_are_drafted() -> None:
    alike = sizes_of('[skirt]\nfullness = "full"\nlength = "60 cm"\n', "skirt panel")
    assert nestled(alike) == alike
    ground = Polygon([(p.x, p.y) for p in common_ground(alike)])
    assert all(shape(piece).buffer(0.01).covers(ground) for piece in alike)
    assert ground.area > 0.8 * shape(alike[0]).area


@pytest.mark.parametrize(
    ("sheet", "name"),
    [
        ('[skirt]\ncut = "gored"\ngores = 8\nshaped = true\n'
         'waist_finish = "facing"\n', "facing"),
        ('[skirt]\ndrop = "12 cm"\nband_shape = "contour"\nfullness = 0.75\nlength = "60 cm"\n',
         "band"),
    ],
)  # fmt: skip
def test_small_pieces_whose_lines_would_crowd_lie_beside_each_other(sheet: str, name: str) -> None:
    alike = sizes_of(sheet, name)
    laid = nestled(alike)
    for one, other in combinations(laid, 2):
        assert shape(one).distance(shape(other)) >= GAP - 0.01
    assert common_ground(laid) == ()
    for drafted, there in zip(alike, laid, strict=True):
        assert shape(there).area == pytest.approx(shape(drafted).area)
        # Moved and never turned: the grain lies along the same way of the paper.
        (ax, ay), (bx, by) = drafted.grainline
        (cx, cy), (dx, dy) = there.grainline
        assert (dx - cx, dy - cy) == pytest.approx((bx - ax, by - ay))


def test_pieces_alike_in_every_size_lie_on_each_other() -> None:
    alike = sizes_of('[skirt]\nfullness = "full"\nlength = "60 cm"\n', "skirt panel")[:1] * 3
    assert nestled(alike) == alike
    assert len(common_ground(alike)) > 2
