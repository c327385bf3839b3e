"""What to buy of a cloth: washing, repeats, squaring, the shop's unit, weight and price."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from drafting.cloth.buying import panel_rows, purchase, rounded_up, sold_text
from drafting.cloth.in_rows import at, in_rows, rows_length
from drafting.cloth.laying import laid_plan, lay_of, lay_plans
from drafting.cloth.lays import Lay, Method, Stretch
from drafting.cloth.shapes import shapes_of
from drafting.cloth.shopping import Purchase, Shopping, shopping
from drafting.effort import Effort
from drafting.findings import stops
from drafting.half_scale import halved
from drafting.pattern import Pattern, draft
from drafting.piece import Piece
from drafting.spec import Cloth, Cloths, CutKind, Lining, Owned, Ruffle, Skirt, Spec
from drafting.units import Units
from tests import tape
from tests.drafting.cloth.test_boxes import E1, E11, box_piece, plain_mitres
from tests.drafting.test_allowance import a_panel
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import SOUBRETTE, chorus_skirt, garment

PLAIN = Cloth(width=1520, selvage=10, squared=True)
"""1500 mm between its selvages, its ends square."""


def rows_lay(of: Cloth, *pieces: Piece, usable: float = 1500) -> Lay:
    """The pieces in rows of boxes, as a teacher draws them."""
    laid, length = in_rows(shapes_of(pieces, "skirt", of), usable)
    return Lay(
        name="skirt",
        cloth=of,
        usable=usable,
        stretches=(Stretch(start=0.0, length=length, folded=False),),
        laid=laid,
        method=Method.ROWS,
        rows_length=length,
    )


def e11(**changes: object) -> Purchase:
    """Example 11: two half circles with their diameters on the selvage, in rows on 150 cm."""
    of = replace(PLAIN, shrink_length=0.03, **changes)  # type: ignore[arg-type]
    return purchase(rows_lay(of, plain_mitres(a_panel(E1, E11))), Units.CM)


# --- the worked examples -------------------------------------------------------------------


def test_example_11_two_half_circles_come_to_3_30_m_or_three_yards_and_five_eighths() -> None:
    bought = e11()
    assert bought.washed == pytest.approx(3118.4, abs=0.05)
    assert bought.washed + bought.shrinking == pytest.approx(3214.8, abs=0.05)
    assert bought.squaring == bought.repeats == 0
    assert bought.buy == pytest.approx(3300)
    in_yards = purchase(bought.lay, Units.INCH)
    assert in_yards.buy == pytest.approx(29 * 114.3)
    assert sold_text(bought.buy, Units.CM) == "3.3\u00a0m"
    assert sold_text(in_yards.buy, Units.INCH) == "3⅝\u00a0yd"


def test_example_9_four_strips_of_net_come_to_90_cm_or_a_yard() -> None:
    # Cut 215 deep, four across the cloth: 860; 860 / 114.3 = 7.52, so 8 eighths.
    bought = purchase(rows_lay(PLAIN, box_piece(215, 1124.4, 4)), Units.CM)
    assert bought.needed == pytest.approx(860)
    assert bought.buy == pytest.approx(900)
    assert purchase(bought.lay, Units.INCH).buy == pytest.approx(914.4)
    assert sold_text(914.4, Units.INCH) == "1\u00a0yd"


# --- what is added -------------------------------------------------------------------------


def test_squaring_takes_three_percent_of_what_has_shrunk_or_five_centimetres() -> None:
    # 3 % of 3214.8 is 96.4; of 860 it is 25.8, less than 50.
    assert e11(squared=False).squaring == pytest.approx(96.44, abs=0.01)
    strips = rows_lay(replace(PLAIN, squared=False), box_piece(215, 1124.4, 4))
    assert purchase(strips, Units.CM).squaring == 50
    assert purchase(strips, Units.CM).buy == pytest.approx(1000)


def test_each_panel_behind_another_takes_a_repeat_of_the_print() -> None:
    bought = e11(repeat=320)
    assert bought.panel_rows == 2
    assert bought.repeats == pytest.approx(640)
    assert bought.buy == pytest.approx(3900)  # 3214.8 + 640 = 3854.8


def test_panels_beside_each_other_share_their_repeat() -> None:
    # Two of 794.6 side by side on 1600.
    panel = plain_mitres(a_panel(E1, E11))
    of = replace(PLAIN, repeat=320)
    assert purchase(rows_lay(of, panel, usable=1600), Units.CM).panel_rows == 1


def test_bands_and_strips_take_no_repeat_beside_panels() -> None:
    # 900 and 1000 do not fit beside each other on 1500: five rows.
    band = replace(box_piece(800, 1000, 2), rectangle=True)
    of = replace(PLAIN, repeat=100)
    with_bands = rows_lay(of, box_piece(600, 900, 3), band)
    assert purchase(with_bands, Units.CM).panel_rows == 3
    # Strips alone are what the print is matched on: two rows of one.
    assert purchase(rows_lay(of, band), Units.CM).panel_rows == 2


def test_panels_that_only_just_reach_behind_each_other_lie_beside_each_other() -> None:
    (shape,) = shapes_of((box_piece(600, 700, 2),), "skirt", PLAIN)
    lay = rows_lay(replace(PLAIN, repeat=100), box_piece(600, 700, 2))

    def beside(shared: float) -> int:
        laid = (
            at(shape, 1, 0.0, 0.0, 0.0, flipped=False),
            at(shape, 2, 0.0, 600.0, 700.0 - shared, flipped=False),
        )
        return purchase(replace(lay, laid=laid), Units.CM).panel_rows

    assert [beside(0.0), beside(0.9), beside(1.1)] == [1, 1, 2]


@settings(max_examples=drawn(60), deadline=None)
@given(
    st.lists(st.tuples(st.floats(50, 900), st.floats(50, 900), st.integers(1, 5)), max_size=5),
    st.floats(900, 2800),
)
def test_panels_behind_each_other_are_counted_on_every_line_along_the_cloth(
    boxes: list[tuple[float, float, int]], usable: float
) -> None:
    of = replace(PLAIN, repeat=1)
    pieces = [replace(box_piece(*box), name=f"panel {k}") for k, box in enumerate(boxes)]
    lay = rows_lay(of, *pieces, usable=usable)
    lines = [usable * (k + 0.5) / 3000 for k in range(3000)]
    spans = [(one.box.bottom, one.box.top) for one in lay.laid]
    most = max((sum(low < y < high for low, high in spans) for y in lines), default=0)
    # Lines half a millimetre apart may miss where two panels only just lie behind each other.
    edges = sorted(edge for span in spans for edge in span)
    clear = all(b - a > 2.0 or b - a < 1e-6 for a, b in pairwise(edges))
    assert most <= panel_rows(lay) + (not clear)
    assert panel_rows(lay) <= most + (not clear)


@pytest.mark.parametrize("fold", [False, True])
@pytest.mark.parametrize("cut", [Skirt(length=580, panels=4), Skirt(length=580, fullness=2)])
def test_a_line_chalked_along_the_cloth_meets_as_many_panels_as_repeats_are_bought(
    cut: Skirt, fold: bool
) -> None:
    of = Cloth(repeat=200, fold=fold)
    lay = laid_plan(draft(garment(skirt=cut, cloths=Cloths(skirt=of))), "skirt", Effort.QUICK)
    outlines = [tape.chain(one.outline, 400) for one in lay.laid if not one.shape.rectangle]
    assert len(outlines) >= 4

    def met(y: float) -> int:
        return sum(min(p[1] for p in line) < y < max(p[1] for p in line) for line in outlines)

    most = max(met(lay.usable * (k + 0.5) / 1000) for k in range(1000))
    assert purchase(lay, Units.CM).repeats == pytest.approx(200 * most)


def test_strips_too_many_to_draw_take_a_repeat_for_every_row() -> None:
    # 700 of 300 x 200 on 1380: six across, 117 rows.
    shapes = shapes_of((box_piece(300, 200, 700),), "skirt", Cloth(repeat=50))
    lay = lay_of(shapes, "skirt", Cloth(repeat=50), Effort.QUICK, units=Units.CM)
    assert lay.counted
    bought = purchase(lay, Units.CM)
    assert bought.washed == pytest.approx(117 * 300)
    assert bought.repeats == pytest.approx(117 * 50)


# --- laws ----------------------------------------------------------------------------------

cloths = st.builds(
    Cloth,
    width=st.just(1520.0),
    shrink_length=st.floats(0, 0.1),
    repeat=st.floats(0, 800),
    squared=st.booleans(),
    price=st.one_of(st.none(), st.floats(0, 200)),
    grams=st.one_of(st.none(), st.floats(5, 1000)),
)


@given(st.floats(1, 1400), st.floats(10, 1500), st.integers(1, 9), cloths, st.sampled_from(Units))
def test_what_is_bought_is_enough_and_less_than_a_shops_unit_too_much(
    long: float, wide: float, count: int, of: Cloth, units: Units
) -> None:
    bought = purchase(rows_lay(of, box_piece(long, wide, count)), units)
    unit = {Units.CM: 100, Units.INCH: 914.4 / 8}[units]
    assert bought.buy >= bought.needed - 0.5 - 1e-6
    assert bought.buy - bought.needed < unit + 1e-6
    assert bought.buy / unit == pytest.approx(round(bought.buy / unit))
    # Washed, what was bought is still as long as the lay.
    assert bought.needed * (1 - of.shrink_length) >= bought.washed - 1e-6


@given(st.floats(1, 1400), st.floats(10, 1500), st.integers(1, 9), st.floats(0, 500), cloths)
def test_a_larger_repeat_never_takes_less_cloth(
    long: float, wide: float, count: int, more: float, of: Cloth
) -> None:
    piece = box_piece(long, wide, count)
    one = purchase(rows_lay(of, piece), Units.CM)
    other = purchase(rows_lay(replace(of, repeat=of.repeat + more), piece), Units.CM)
    assert other.buy >= one.buy


def test_a_length_that_a_shop_sells_is_not_rounded_up_for_half_a_millimetre() -> None:
    assert rounded_up(3300.4, Units.CM) == 3300
    assert rounded_up(3300.6, Units.CM) == 3400
    assert rounded_up(0, Units.CM) == 0


# --- weight and price ----------------------------------------------------------------------


def test_a_weight_is_the_area_that_is_cut_times_the_cloths_own() -> None:
    # 3 x 0.5 x 0.4 m2 x 200 g.
    bought = purchase(rows_lay(replace(PLAIN, grams=200), box_piece(500, 400, 3)), Units.CM)
    assert bought.grams == pytest.approx(120)
    assert not bought.estimated


@pytest.mark.parametrize(
    ("name", "kind", "square_metre"),
    [
        ("skirt", "cotton sateen", 140),
        ("ruffle", "stiff net", 33),
        ("lining", "", 75),
        ("ruffle", "", 33),
        ("interfacing", "", 50),
        ("skirt", "", 150),
    ],
)
def test_a_cloth_without_a_weight_is_taken_for_what_its_kind_weighs(
    name: str, kind: str, square_metre: float
) -> None:
    lay = replace(rows_lay(replace(PLAIN, kind=kind), box_piece(500, 400, 5)), name=name)
    bought = purchase(lay, Units.CM)
    assert bought.estimated
    assert bought.grams == pytest.approx(square_metre)


def test_a_price_is_for_a_metre_or_for_a_yard_as_the_sheet_counts() -> None:
    assert e11(price=12.5).cost == pytest.approx(3.3 * 12.5)
    assert e11().cost is None
    lay = e11(price=12.5).lay
    assert purchase(lay, Units.INCH).cost == pytest.approx(3.625 * 12.5)


def test_a_panel_too_wide_for_its_cloth_is_told_and_the_rest_is_still_bought() -> None:
    narrow = Cloth(width=720, selvage=10, squared=True)
    pieces = (plain_mitres(a_panel(E1, E11)), box_piece(800, 80, 1))
    lay = lay_of(shapes_of(pieces, "skirt", narrow), "skirt", narrow, Effort.QUICK, units=Units.CM)
    assert [finding.code for finding in lay.findings] == ["too-wide-to-lay"]
    assert purchase(lay, Units.CM).buy == pytest.approx(800)
    nothing = lay_of(
        shapes_of(pieces[:1], "skirt", narrow), "skirt", narrow, Effort.QUICK, units=Units.CM
    )
    bought = purchase(replace(nothing, cloth=replace(narrow, squared=False)), Units.CM)
    assert bought.needed == bought.buy == bought.grams == 0


# --- all of it together --------------------------------------------------------------------


def bag(spec: Spec) -> tuple[Pattern, Shopping]:
    """The pattern of a spec and everything to buy for it, other widths left aside."""
    pattern = draft(spec)
    return pattern, shopping(pattern, lay_plans(pattern, Effort.QUICK), widths=False)


def codes(found: Shopping) -> list[str]:
    return [finding.code for finding in found.findings]


def test_a_chorus_skirt_is_bought_cloth_by_cloth_and_its_unpriced_ones_named() -> None:
    _, found = bag(chorus_skirt())
    assert [one.name for one in found.purchases] == ["skirt", "lining", "ruffle", "interfacing"]
    assert found.unpriced == ("lining", "ruffle", "interfacing")
    skirt = found.purchases[0]
    assert found.cost == pytest.approx(12.5 * skirt.buy / 1000)
    assert found.grams == pytest.approx(sum(one.grams for one in found.purchases))
    assert found.findings == ()
    assert any(notion.name == "zip" for notion in found.notions)


def test_cloth_that_is_there_already_is_not_paid_for() -> None:
    spec = chorus_skirt()
    there = replace(spec.cloths, skirt=replace(spec.cloths.skirt, have=5000))
    _, found = bag(replace(spec, cloths=there))
    assert found.purchases[0].at_hand
    assert found.cost is None
    assert "skirt" not in found.unpriced
    assert codes(found) == ["cloth-enough"]


def test_cloth_that_is_too_short_is_paid_for() -> None:
    spec = chorus_skirt()
    short = replace(spec.cloths, skirt=replace(spec.cloths.skirt, have=1500))
    _, found = bag(replace(spec, cloths=short))
    assert found.cost == pytest.approx(12.5 * found.purchases[0].buy / 1000)
    assert codes(found) == ["cloth-short"]


def test_a_garment_over_1200_grams_drags_at_its_waist() -> None:
    def weighing(grams: float) -> Shopping:
        spec = garment(cloths=Cloths(skirt=Cloth(grams=grams)))
        return bag(spec)[1]

    each = weighing(100)
    skirt, rest = each.purchases[0].grams, each.grams - each.purchases[0].grams
    just = 100 * (1200 - rest) / skirt
    assert codes(weighing(just - 1)) == []
    heavy = weighing(just + 1)
    assert codes(heavy) == ["heavy-skirt"]
    assert "1.2\u00a0kg" in heavy.findings[0].what
    assert "about" in heavy.findings[0].what  # the interfacing's weight is an estimate


def test_a_half_scale_skirt_drags_at_a_quarter_of_the_weight() -> None:
    spec = garment(cloths=Cloths(skirt=Cloth(grams=800)))
    assert codes(bag(spec)[1]) == ["heavy-skirt"]
    _, half = bag(halved(spec))
    assert codes(half) == ["heavy-skirt"]
    assert "300\u00a0g" in half.findings[0].what
    # The same form in a cloth half as heavy weighs half.
    light = garment(cloths=Cloths(skirt=Cloth(grams=400)))
    assert codes(bag(halved(light))[1]) == []


def test_a_repeat_longer_than_a_panel_is_told_with_what_it_takes() -> None:
    skirt = Skirt(cut=CutKind.GATHERED, length=380, gather_ratio=2)
    spec = garment(skirt=skirt, cloths=Cloths(skirt=Cloth(repeat=640)))
    _, found = bag(spec)
    assert codes(found) == ["repeat-longer-than-piece"]
    what = found.findings[0].what
    assert "64.0\u00a0cm" in what
    of = replace(spec.cloths, skirt=Cloth(repeat=320))
    assert codes(bag(replace(spec, cloths=of))[1]) == []


def test_only_what_goes_into_an_owned_skirt_is_bought() -> None:
    spec = garment(
        skirt=Skirt(length=630, owned=Owned(waist=730, length=630, sweep=4300)),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(depth=200, gather_ratio=2.6),
    )
    _, found = bag(spec)
    assert [one.name for one in found.purchases] == ["lining", "ruffle"]
    assert not any(notion.name in ("zip", "hook and bar") for notion in found.notions)


def test_other_widths_are_looked_up_for_the_layers_alone() -> None:
    pattern = draft(chorus_skirt())
    lays = lay_plans(pattern, Effort.QUICK)
    assert list(shopping(pattern, lays).widths) == ["skirt", "lining", "ruffle"]
    assert shopping(pattern, lays, widths=False).widths == {}


def test_rows_are_an_upper_bound_for_what_is_bought() -> None:
    pattern = draft(garment(wearer=SOUBRETTE, cloths=Cloths(skirt=Cloth(one_way=True))))
    lay = laid_plan(pattern, "skirt", Effort.QUICK)
    assert purchase(lay, Units.CM).washed <= rows_length(lay.shapes, lay.usable) + 1e-6
    assert math.isfinite(purchase(lay, Units.CM).grams)


@settings(max_examples=drawn(15), deadline=None, suppress_health_check=list(HealthCheck))
@given(specs(), st.floats(200, 4000), st.floats(0, 700), st.booleans())
def test_whatever_is_cut_is_bought_and_cloth_at_hand_is_enough_or_short(
    spec: Spec, have: float, repeat: float, half: bool
) -> None:
    spec = halved(spec) if half else spec
    for name in ("skirt", "lining", "ruffle"):
        of = replace(getattr(spec.cloths, name), have=have, repeat=repeat, fold=half)
        spec = replace(spec, cloths=replace(spec.cloths, **{name: of}))
    assume(not stops(draft(spec).findings))
    pattern, found = bag(spec)
    assert [one.name for one in found.purchases] == list(pattern.figures.cloth)
    there = [one for one in found.purchases if one.lay.cloth.have is not None]
    said = [code for code in codes(found) if code in ("cloth-enough", "cloth-short")]
    assert sorted(said) == sorted(
        "cloth-enough" if one.needed <= have + 0.5 else "cloth-short" for one in there
    )
    assert found.unpriced == tuple(
        one.name for one in found.purchases if one.lay.cloth.have is None or not one.at_hand
    )
    assert found.grams > 0
    assert all(notion.amount > 0 for notion in found.notions)
