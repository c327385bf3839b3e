"""The plain layout: every piece in its own box on a shelf, and no search that does worse."""

from itertools import combinations

import shapely

from drafting.geometry import Point
from drafting.spec import PaperName
from render.paper import grid
from render.placement import Effort, place
from render.shelves import shelved
from render.stands import Turned, divided
from render.tiling import cut_into_pages
from tests.render.cloth_shapes import rectangle

A4 = grid(PaperName.A4, margin=None, overlap=10)
CELLS = divided(A4, 2500, 3000)


def aprons(sizes: list[tuple[float, float]]) -> list[Turned]:
    return [
        Turned([Point(0, 0), Point(w, 0), Point(w, h), Point(0, h)], CELLS, 6.0) for w, h in sizes
    ]


def test_four_pockets_share_the_page_that_holds_them() -> None:
    """Two and two of 75 by 110 mm with 10 to 15 mm between them: about 165 by 235 mm in all."""
    plan = shelved(aprons([(75, 110)] * 4))
    assert plan.pages.bit_count() == 1
    boxes = []
    for spot in plan.spots.values():
        x = (spot.along * CELLS.x + spot.stand.column) * CELLS.wide
        y = (spot.level * CELLS.y + spot.stand.row) * CELLS.high
        boxes.append(shapely.box(x, y, x + 75, y + 110))
    assert all(one.distance(other) > 5 for one, other in combinations(boxes, 2))


def test_flaps_drafted_upright_are_laid_where_that_takes_fewer_pages() -> None:
    """Eight flaps of 55 by 170 mm: upright, three a page on one shelf; lying, four a page."""
    plan = shelved(aprons([(55, 170)] * 8))
    assert plan.pages.bit_count() == 2
    assert {spot.stand.turned.turn for spot in plan.spots.values()} != {0.0}


def test_a_quick_search_takes_no_more_pages_than_shelves() -> None:
    sizes = [(75.0, 110.0)] * 4 + [(160.0, 60.0)] * 5 + [(50.0, 240.0)] * 3
    pieces = [rectangle(*size, name=f"pocket {k}") for k, size in enumerate(sizes)]
    tiles = cut_into_pages(place(pieces, A4, effort=Effort.QUICK), A4).tiles
    assert len(tiles) <= shelved(aprons(sizes)).pages.bit_count()
