"""Walking the seams: what agrees is said, and what does not is refused."""

import math
from dataclasses import replace

import pytest

from drafting.allowance import Widths
from drafting.circle import Flare
from drafting.errors import TruingError
from drafting.geometry import Arc, Point, point_along
from drafting.piece import Dot, InnerKind, InnerLine, Mark, Notch, Piece
from drafting.truing import Seam, Side, walk
from tests.drafting.test_allowance import a_panel
from tests.drafting.test_piece import apron

FLARE = Flare(fullness=0.5, panels=1, waistline=720, length=600)


def panel() -> Piece:
    return a_panel(FLARE, Widths())


def waist_to_apron(*, gather: float = 1.0, ease: float = 0.0, times: int = 1) -> Seam:
    return Seam(
        number="2",
        name="waist to apron",
        first=(Side(piece="skirt panel", edge="waist"),),
        second=(Side(piece="apron", edge="waist", times=times),),
        gather=gather,
        ease=ease,
    )


def test_a_waist_of_720_gathers_1_8_to_1_on_to_an_apron_of_400() -> None:
    (walked,) = walk([waist_to_apron(gather=1.8)], [panel(), apron()])
    assert walked.first == pytest.approx(720) and walked.second == pytest.approx(400)
    assert walked.difference == pytest.approx(0, abs=1e-9)


def test_a_stated_ease_is_allowed_for_and_a_repeat_is_counted() -> None:
    (walked,) = walk([waist_to_apron(ease=-80, times=2)], [panel(), apron()])
    assert walked.second == pytest.approx(800)
    assert walked.difference == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("out", [0.11, -0.11, 5])
def test_a_seam_that_is_out_by_more_than_a_tenth_is_refused(out: float) -> None:
    with pytest.raises(TruingError) as refused:
        walk([waist_to_apron(gather=1.8, ease=out)], [panel(), apron()])
    assert refused.value.seam == "waist to apron"
    assert refused.value.first == pytest.approx(720)


@pytest.mark.parametrize("out", [0.09, -0.09])
def test_a_seam_that_is_out_by_less_than_a_tenth_is_sewn(out: float) -> None:
    (walked,) = walk([waist_to_apron(gather=1.8, ease=out)], [panel(), apron()])
    assert walked.difference == pytest.approx(-out)


def test_a_seam_of_nan_is_refused() -> None:
    with pytest.raises(TruingError):
        walk([waist_to_apron(ease=math.nan)], [panel(), apron()])


def test_a_line_inside_a_piece_is_walked_by_its_name() -> None:
    line = InnerLine(
        kind=InnerKind.RUFFLE_LINE,
        path=(Arc(centre=Point(0, 0), radius=639.183, begin=0, finish=math.pi),),
        words="",
    )
    lined = replace(panel(), inner_lines=(line,))
    seam = Seam(
        number="5",
        name="ruffle",
        first=(Side(piece="skirt panel", edge="ruffle line"),),
        second=(Side(piece="apron", edge="waist", times=5),),
        ease=8.06,
    )
    (walked,) = walk([seam], [lined, apron()])
    assert walked.first == pytest.approx(2008.1, abs=0.05)


def test_notches_that_do_not_meet_are_refused() -> None:
    drawn = panel()
    side = [n for n in drawn.notches if n.edge == 2]
    moved = tuple(replace(n, at=n.at + 1) if n in side else n for n in drawn.notches)
    walk([], [drawn])
    with pytest.raises(TruingError, match="notches of seam 1"):
        walk([], [replace(drawn, notches=moved)])
    extra = Notch(edge=2, at=100, seam="1")
    with pytest.raises(TruingError):
        walk([], [replace(drawn, notches=(*drawn.notches, extra))])


def test_a_part_of_an_edge_is_measured_between_its_marks() -> None:
    drawn = panel()
    long = drawn.edges[0].length
    dots = (
        Dot(at=point_along(drawn.edges[0].path, 120), words="from", mark=Mark.POCKET_BEGINS),
        Dot(at=point_along(drawn.edges[0].path, 280), words="to", mark=Mark.POCKET_ENDS),
    )
    marked = replace(drawn, dots=dots)
    pocket = (Mark.POCKET_BEGINS, Mark.POCKET_ENDS)
    between = Side(piece=marked.name, edge=0, between=pocket)
    to_hem = Side(piece=marked.name, edge=0, between=(Mark.POCKET_ENDS, None))
    lost = Side(piece=marked.name, edge=0, between=(Mark.GODET_BEGINS, None))
    seam = Seam(number="7", name="part", first=(between,), second=(to_hem,), ease=160 - long + 280)
    (walked,) = walk([seam], [marked])
    assert (walked.first, walked.second) == pytest.approx((160, long - 280))
    with pytest.raises(TruingError):
        walk([replace(seam, second=(lost,))], [marked])
