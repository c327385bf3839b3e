"""Plans of placed panels: shifting them as one, and adding pieces on every side."""

from drafting.geometry import Point
from drafting.spec import PaperName
from render.packing import Labour, Plan, Search, Spot, laid
from render.paper import grid
from render.stands import Turned, divided

A4 = grid(PaperName.A4, margin=None, overlap=10)
CELLS = divided(A4, 2500, 3000)


def apron(width: float, height: float) -> Turned:
    rim = [Point(0, 0), Point(width, 0), Point(width, height), Point(0, height)]
    return Turned(rim, CELLS, 6.0)


def test_two_aprons_that_straddle_pages_are_shifted_onto_one() -> None:
    """Side by side they are 170 mm wide and 100 high; laid over a corner they touch 4 pages."""
    pieces = [apron(80, 100), apron(75, 100)]
    search = Search(pieces, Labour(turns=4, stands=5, looks=0))
    row, column = CELLS.y - 10, CELLS.x - 17
    second = column + 19
    plan = laid(
        {
            0: Spot(stand=pieces[0].stand(0.0, row, column), along=0, level=0),
            1: Spot(
                stand=pieces[1].stand(0.0, row, second % CELLS.x), along=second // CELLS.x, level=0
            ),
        },
        CELLS,
    )
    assert plan.pages.bit_count() == 4
    better = search.shifted(plan)
    assert better.pages.bit_count() == 1
    one, two = better.spots[0], better.spots[1]
    apart = (two.along - one.along) * CELLS.x + two.stand.column - one.stand.column
    assert apart == 19
    assert (one.stand.row, one.level) == (two.stand.row, two.level)


def test_a_piece_may_be_put_left_of_what_lies_there() -> None:
    """80 mm of a page are free at its left; the second apron reaches 30 mm into them from there.

    Anywhere else it would take two pages of its own.
    """
    pieces = [apron(100, 250), apron(120, 250)]
    search = Search(pieces, Labour(turns=1, stands=1, looks=0))
    search.ways[1] = (pieces[1].stand(0.0, 1, CELLS.x - 18),)
    plan = laid({0: Spot(stand=pieces[0].stand(0.0, 1, 16), along=0, level=0)}, CELLS)
    assert plan.pages.bit_count() == 1
    both = search.filled(plan, [1])
    assert both.pages.bit_count() == 2
    assert (both.spots[0].along, both.spots[1].along) == (1, 0)
    assert both.columns == 2


def test_a_piece_is_not_put_left_of_another_that_it_would_lie_over() -> None:
    """The second apron reaches 105 mm into the first one's page, of which 80 mm are free."""
    pieces = [apron(100, 250), apron(120, 250)]
    search = Search(pieces, Labour(turns=1, stands=1, looks=0))
    search.ways[1] = (pieces[1].stand(0.0, 0, CELLS.x - 3),)
    plan = laid({0: Spot(stand=pieces[0].stand(0.0, 0, 16), along=0, level=0)}, CELLS)
    assert search.filled(plan, [1]).pages.bit_count() == 3


def test_a_piece_may_be_put_below_what_lies_there() -> None:
    pieces = [apron(160, 150), apron(160, 150)]
    search = Search(pieces, Labour(turns=1, stands=1, looks=0))
    search.ways[1] = (pieces[1].stand(0.0, CELLS.y - 20, 1),)
    plan = laid({0: Spot(stand=pieces[0].stand(0.0, 22, 1), along=0, level=0)}, CELLS)
    both = search.filled(plan, [1])
    assert both.pages.bit_count() == 2
    assert (both.spots[0].level, both.spots[1].level) == (1, 0)
    assert both.height == 2


def test_a_search_ends_with_no_more_pages_than_it_began_with() -> None:
    pieces = [apron(400, 300), apron(300, 200), apron(150, 90), apron(90, 60)]
    search = Search(pieces, Labour(turns=8, stands=60, looks=0))
    begun = search.filled(Plan(spots={}), [0, 1, 2, 3])
    ended = search.improved(begun, 60_000)
    assert ended.score <= begun.score
    assert set(ended.spots) == {0, 1, 2, 3}
