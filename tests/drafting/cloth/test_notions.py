"""What is bought besides cloth: thread, tape, cord, elastic, braid, and what closes the waist."""

import math
from dataclasses import replace

import pytest

from drafting.cloth.notions import bias_seam_length, join_length, notions
from drafting.cloth.shopping import Measured, Notion
from drafting.half_scale import halved
from drafting.pattern import draft
from drafting.spec import (
    BandShape,
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Flounce,
    Godets,
    Grain,
    HemFinish,
    Lining,
    Owned,
    Ruffle,
    RuffleCloth,
    SeamFinish,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import Units
from tests.garments import PAGE_BOY, chorus_skirt, garment

# Example 9: 2008.1 of line, 4417.7 of ruffle, drawn up in four lengths.
E9 = garment(
    skirt=Skirt(length=650, waist_ease=0, waist_stretch=0.0),
    lining=Lining(fullness=0.5),
    ruffle=Ruffle(depth=200, gather_ratio=2.2),
)
PLAIN = Skirt(length=580, panels=2, interfacing=False)
OWNED = Owned(waist=730, length=630, sweep=4300)


def skirt(**changes: object) -> Spec:
    return garment(skirt=replace(PLAIN, **changes))  # type: ignore[arg-type]


def bag(spec: Spec) -> dict[str, Notion]:
    """What is bought for a spec, by name; nothing is listed twice."""
    found = notions(draft(spec))
    named = {notion.name: notion for notion in found}
    assert len(named) == len(found)
    return named


def metres(spec: Spec, name: str = "sewing thread for the skirt") -> float:
    notion = bag(spec)[name]
    assert notion.measured is Measured.METRES
    assert notion.about
    return notion.amount


# --- thread --------------------------------------------------------------------------------


def test_the_thread_of_a_plain_skirt_by_hand() -> None:
    # Waist 735, cut 727.72 in two half circles of 580: a sweep of 727.72 + 2 pi 580 = 4371.96.
    # Seams: two of 580, and the band's two ends of 60 folded, as one more: 1.22 m.
    # 1.22 x (3 + 2 x 4.5), waist 0.735 x 6, staystitching 0.72772 x 3, hem 4.37196 x 6.
    spec = skirt()
    zipped = bag(spec)["zip"].amount / 1000 * 2 * 6
    by_hand = 1.22 * 12 + 0.735 * 6 + 0.72772 * 3 + 4.37196 * 6
    assert metres(spec) == pytest.approx(by_hand + zipped, abs=0.01)
    why = bag(spec)["sewing thread for the skirt"].why
    assert "hem 26.2\u00a0m" in why
    assert "one reel of 100\u00a0m is enough" in why


@pytest.mark.parametrize(
    ("hem", "rate"),
    [
        (HemFinish.TURNED, 7.5),
        (HemFinish.BRAID, 6),
        (HemFinish.BOUND, 6),
        (HemFinish.BIAS_FACED, 6),
        (HemFinish.FACED, 13.5),
    ],
)
def test_each_hem_takes_its_own_thread(hem: HemFinish, rate: float) -> None:
    sweep = draft(skirt(hem=hem)).figures.skirt.sweep / 1000
    narrow = metres(skirt()) - 6 * 4.37196
    ends = 0.0
    if hem is HemFinish.FACED:
        # The facing's own seams: two ends on each of two parts, 50 deep, sewn and neatened.
        ends = 2 * 0.05 * 12
    assert metres(skirt(hem=hem)) == pytest.approx(narrow + rate * sweep + ends, abs=0.02)


def test_a_rolled_hem_is_overlocked() -> None:
    found = bag(skirt(hem=HemFinish.ROLLED))
    assert found["overlock thread for the skirt"].amount == pytest.approx(43.72, abs=0.01)
    assert found["sewing thread for the skirt"].amount == pytest.approx(
        metres(skirt()) - 6 * 4.37196, abs=0.01
    )


@pytest.mark.parametrize(
    ("finish", "more"), [(SeamFinish.FRENCH, 3), (SeamFinish.BOUND, 6), (SeamFinish.OVERLOCKED, 0)]
)
def test_seams_are_neatened_as_the_sheet_says(finish: SeamFinish, more: float) -> None:
    # Pressed open, each edge is zigzagged: 9 m a metre of 1.22 m.
    others = metres(skirt()) - 1.22 * 9
    assert metres(skirt(seams=finish)) == pytest.approx(others + 1.22 * more, abs=0.01)
    found = bag(skirt(seams=finish))
    overlocked = found.get("overlock thread for the skirt")
    assert (overlocked is not None) == (finish is SeamFinish.OVERLOCKED)
    if overlocked is not None:
        assert overlocked.amount == pytest.approx(12.2, abs=0.01)
    tape = found.get("seam binding")
    assert (tape is not None) == (finish is SeamFinish.BOUND)
    if tape is not None:
        assert tape.amount == pytest.approx(2440, abs=1)


def test_thread_of_more_than_a_reel_is_told_in_short_and_long_reels() -> None:
    spec = garment(skirt=Skirt(length=950, fullness=2))
    found = bag(spec)["sewing thread for the skirt"]
    assert 100 < found.amount < 200
    assert "2 reels of 100\u00a0m, or one of 200\u00a0m" in found.why
    spec = garment(skirt=Skirt(length=950, fullness=4, seams=SeamFinish.OPEN))
    found = bag(spec)["sewing thread for the skirt"]
    assert 200 < found.amount < 400
    assert f"{math.ceil(found.amount / 100)} reels of 100\u00a0m, or 2 of 200\u00a0m" in found.why


def test_thread_is_listed_for_each_cloth_it_must_match() -> None:
    found = bag(chorus_skirt())
    assert {"sewing thread for the skirt", "sewing thread for the lining"} <= set(found)
    assert "sewing thread for the ruffle" in found
    assert "sewing thread for the lining" not in bag(skirt())


def test_joins_are_counted_once_for_both_their_edges() -> None:
    # Six godets in six seams: each seam of 660 less the godet's 200, and two of its sides.
    gored = skirt(cut=CutKind.GORED, gores=6, length=660, panels=None, fullness=0.4)
    with_godets = replace(
        gored, skirt=replace(gored.skirt, godets=Godets(depth=200, angle=math.radians(50)))
    )
    more = join_length(draft(with_godets), "skirt") - join_length(draft(gored), "skirt")
    assert more == pytest.approx(6 * 200, abs=1)
    # Four strips of net, 200 deep, close to a ring in four joins.
    assert join_length(draft(E9), "ruffle") == pytest.approx(800)


# --- gathering -----------------------------------------------------------------------------


def test_example_9_is_gathered_over_five_and_a_half_metres_of_cord() -> None:
    cord = bag(E9)["gathering cord"]
    assert cord.measured is Measured.METRES
    assert cord.amount == pytest.approx(5.6, abs=0.05)
    assert "in 4 lengths with 30.0\u00a0cm more for each" in cord.why
    # The zigzag 4.5 x 4.4177, sewn on with 10.5 x 2.0081, four joins of 200 with 3 m a metre.
    by_hand = 4.5 * 4.4177 + 10.5 * 2.0081 + 0.8 * 3
    assert metres(E9, "sewing thread for the ruffle") == pytest.approx(by_hand, abs=0.01)


def test_each_tier_of_a_ruffle_is_sewn_to_the_one_above_it() -> None:
    # 2008.1 of line and the first tier's 2.2 times that; the second's 1.6 times as much hangs.
    tiered = replace(E9, ruffle=replace(E9.ruffle, tiers=2, tier_ratio=1.6))  # type: ignore[type-var]
    sewn = 10.5 * 2.0081 * (1 + 2.2)
    assert f"sewing it on {sewn:.1f}\u00a0m" in bag(tiered)["sewing thread for the ruffle"].why
    edge = bag(tiered)["bias binding for the ruffle's edge, if you bind it"]
    assert edge.amount == pytest.approx(2008.1 * 2.2 * 1.6 + 60, abs=0.5)


def test_rows_are_gathered_with_strong_thread_for_each_row() -> None:
    # 1.6 of 2008.1 is 3213 flat: short enough for two rows, 2.3 m a metre of each.
    rows = replace(E9, ruffle=Ruffle(cloth=RuffleCloth.SILK_ORGANZA, depth=200, gather_ratio=1.6))
    strong = metres(rows, "strong gathering thread for the ruffle")
    assert strong == pytest.approx(2 * 2.3 * 1.6 * 2.0081, abs=0.01)
    assert "gathering cord" not in bag(rows)
    # Its edge is rolled: 10 m a metre.
    rolled = metres(rows, "overlock thread for the ruffle")
    assert rolled == pytest.approx(10 * 1.6 * 2.0081, abs=0.01)


def test_a_doubled_ruffle_has_no_lower_edge_to_finish() -> None:
    organza = Ruffle(cloth=RuffleCloth.SILK_ORGANZA, depth=200, gather_ratio=1.6, doubled=True)
    assert "overlock thread for the ruffle" not in bag(replace(E9, ruffle=organza))


def test_a_gathered_waist_takes_two_rows_of_strong_thread() -> None:
    gathered = skirt(cut=CutKind.GATHERED, gather_ratio=2.2, panels=None, waist_stretch=0.0)
    strong = metres(gathered, "strong gathering thread for the skirt")
    assert strong == pytest.approx(2 * 2.3 * 2.2 * 0.735, abs=0.01)
    assert "staystitching" not in bag(gathered)["sewing thread for the skirt"].why
    # Elastic draws a casing up without a thread.
    casing = replace(gathered, skirt=replace(gathered.skirt, waist_finish=WaistFinish.CASING))
    assert "strong gathering thread for the skirt" not in bag(casing)


def test_tiers_take_two_rows_each() -> None:
    tiered = skirt(cut=CutKind.TIERED, panels=None)
    figures = draft(tiered).figures
    yoke = figures.tiers[0].flat_length / 2
    # 2.0, 1.6 and 1.6 to 1: 2, 3.2 and 5.12 times the yoke's lower edge.
    strong = metres(tiered, "strong gathering thread for the skirt")
    assert strong == pytest.approx(4.6 * yoke * (2 + 3.2 + 5.12) / 1000, abs=0.01)
    why = bag(tiered)["sewing thread for the skirt"].why
    sewn = 10.5 * yoke * (1 + 2 + 3.2) / 1000
    assert f"sewing the tiers on {sewn:.1f}\u00a0m" in why


def test_a_flounce_is_sewn_on() -> None:
    flounced = skirt(flounce=Flounce(depth=150))
    assert "sewing the flounce on" in bag(flounced)["sewing thread for the skirt"].why


def test_no_cord_hangs_from_a_childs_skirt() -> None:
    child = garment(
        wearer=PAGE_BOY,
        skirt=Skirt(length=400),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(depth=120, gather_ratio=2.6),
    )
    assert "no end of it may hang" in bag(child)["gathering cord"].why
    assert "may hang" not in bag(E9)["gathering cord"].why


# --- closing and holding -------------------------------------------------------------------


def test_a_zip_is_as_long_as_the_opening_and_the_band_in_a_length_that_is_sold() -> None:
    # Example 10 with its ease of 15: some 21 cm with the band, 22 or 25 is sold.
    found = bag(skirt())
    assert found["zip"].amount == draft(skirt()).figures.opening.zip  # type: ignore[union-attr]
    assert found["zip"].amount in (220, 250)
    assert found["zip"].measured is Measured.LENGTH
    assert not found["zip"].about
    assert found["hook and bar"].amount == 1
    assert found["hook and bar"].measured is Measured.COUNT


def test_a_high_band_takes_two_hooks_and_a_facing_an_eye() -> None:
    assert bag(skirt(band=50.0))["hook and bar"].amount == 2
    faced = bag(skirt(waist_finish=WaistFinish.FACING))
    assert faced["hook and eye"].amount == 1
    assert "hook and bar" not in faced
    contour = bag(skirt(drop=60, band=50, band_shape=BandShape.CONTOUR))
    assert "hook and eye" in contour and "hook and bar" not in contour


def test_a_bodice_brings_its_own_fastening() -> None:
    found = bag(skirt(waist_finish=WaistFinish.BODICE, bodice_waist=740))
    assert "the bodice's own opening" in found["zip"].why
    assert not {"hook and bar", "hook and eye"} & set(found)


def test_a_casing_takes_elastic_and_nothing_that_cannot_stretch() -> None:
    found = bag(skirt(gather_ratio=1.6, waist_finish=WaistFinish.CASING))
    elastic = found["elastic, 2.5\u00a0cm wide"]
    assert elastic.amount == pytest.approx(0.9 * 720 + 25)
    assert elastic.about
    assert not {"zip", "hook and bar", "stay tape for the waist"} & set(found)


def test_without_a_closure_nothing_is_bought_to_close_it() -> None:
    found = bag(skirt(closure=Closure.NONE))
    assert not {"zip", "hook and bar", "hook and eye"} & set(found)


def test_tape_holds_the_waist_to_its_finished_length_and_not_to_what_it_was_cut() -> None:
    tape = bag(skirt(waist_stretch=0.02))["stay tape for the waist"]
    assert tape.amount == pytest.approx(735)
    assert not tape.about


def test_an_owned_skirt_has_its_zip_and_its_hem_already() -> None:
    spec = garment(
        skirt=Skirt(length=630, owned=OWNED),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(depth=200, gather_ratio=2.6),
    )
    assert set(bag(spec)) == {
        "sewing thread for the lining",
        "sewing thread for the ruffle",
        "gathering cord",
        "bias binding for the ruffle's edge, if you bind it",
    }


def test_seams_on_the_bias_are_taped_and_those_on_the_grain_are_not() -> None:
    quarters = skirt(panels=4, grain=Grain.CENTRE)
    assert bias_seam_length(draft(quarters), "skirt") == pytest.approx(4 * 580)
    assert bag(quarters)["stay tape for bias seams"].amount == pytest.approx(2320)
    # With an edge on the grain a quarter's other edge lies across it.
    assert "stay tape for bias seams" not in bag(skirt(panels=4))
    # Eighths: one edge on the grain and one on the bias in every seam; the first holds the other.
    assert "stay tape for bias seams" not in bag(skirt(panels=8))
    # Two panels of 135 degrees are a mirrored pair: one seam on the grain, one on the bias.
    pair = skirt(fullness=0.75)
    assert bias_seam_length(draft(pair), "skirt") == pytest.approx(580)
    # Level with the floor, in four quarters centred on the grain: front, back and both sides
    # are as long as the body is there, 1050 to 1060 less 450; four seams of some 60 cm.
    level = skirt(panels=4, grain=Grain.CENTRE, hem_above_floor=450)
    around = draft(level).figures.skirt
    long = around.length_front + around.length_back + 2 * around.length_side
    assert bias_seam_length(draft(level), "skirt") == pytest.approx(long, abs=2)


# --- edges ---------------------------------------------------------------------------------


def test_braid_goes_once_round_the_hem_and_laps() -> None:
    found = bag(skirt(hem=HemFinish.BRAID, braid=25))
    assert found["horsehair braid, 2.5\u00a0cm wide"].amount == pytest.approx(4401.96, abs=0.1)


def test_ready_made_binding_is_in_place_of_what_is_cut_from_cloth() -> None:
    found = bag(skirt(hem=HemFinish.BOUND, waist_finish=WaistFinish.BIAS))
    (binding,) = (n for name, n in found.items() if name.startswith("ready-made bias binding"))
    # Round the hem 4371.96 + 60 and two joints of 20 on 1380 sqrt 2 = 1951.6; the waist 735 + 20.
    assert binding.amount == pytest.approx(4371.96 + 60 + 40 + 755, abs=0.1)
    assert "in place of the binding cloth" in binding.name


def test_net_may_be_bound_canvas_must_be_and_organza_is_not() -> None:
    net = bag(E9)["bias binding for the ruffle's edge, if you bind it"]
    assert net.amount == pytest.approx(4477.7, abs=0.1)
    canvas = replace(E9, ruffle=Ruffle(cloth=RuffleCloth.CRINOLINE_CANVAS, gather_ratio=1.5))
    assert "bias binding for the ruffle's edge" in bag(canvas)
    organza = replace(E9, ruffle=Ruffle(cloth=RuffleCloth.SILK_ORGANZA, gather_ratio=2.2))
    assert not any("ruffle's edge" in name for name in bag(organza))


# --- whoever it is for ---------------------------------------------------------------------


def test_a_half_scale_skirt_takes_half_the_seams_and_a_zip_that_is_sold() -> None:
    whole, half = bag(chorus_skirt()), bag(halved(chorus_skirt()))
    assert half["stay tape for the waist"].amount == pytest.approx(755 / 2)
    assert half["zip"].amount in (150, 180, 200, 220)
    assert half["gathering cord"].amount < whole["gathering cord"].amount
    # Every seam is half as long; the zip comes in its own steps.
    assert half["sewing thread for the skirt"].amount == pytest.approx(
        metres(chorus_skirt()) / 2, rel=0.05
    )


def test_lengths_are_told_in_the_sheets_own_units_and_thread_in_metres() -> None:
    inches = bag(replace(chorus_skirt(), units=Units.INCH))
    assert "\u00a0in" in inches["zip"].why
    assert "cm" not in " ".join(n.why + n.name for n in inches.values())
    assert inches["sewing thread for the skirt"].measured is Measured.METRES


def test_a_draft_that_stops_takes_nothing() -> None:
    stopped = replace(draft(skirt()), pieces=())
    assert notions(stopped) == ()


@pytest.mark.parametrize("cut", CutKind)
@pytest.mark.parametrize("finish", [WaistFinish.BAND, WaistFinish.CASING, WaistFinish.BIAS])
def test_every_notion_of_every_cut_has_an_amount_and_says_why(
    cut: CutKind, finish: WaistFinish
) -> None:
    gathers = {CutKind.CIRCLE: 1.5, CutKind.GATHERED: 2.2}.get(cut, 1.0)
    spec = garment(
        skirt=Skirt(cut=cut, length=600, gather_ratio=gathers, waist_finish=finish),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(depth=200, gather_ratio=2, tiers=2),
        cloths=Cloths(skirt=Cloth(one_way=True)),
    )
    for notion in bag(spec).values():
        assert notion.amount > 0
        assert math.isfinite(notion.amount)
        assert len(notion.why) > 10
