"""Pockets in the side seams: where they go, the bag that a hand fits, and why there is none."""

import math
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drafting.findings import Finding, Level, stops
from drafting.geometry import Point
from drafting.pattern import Pattern, draft
from drafting.piece import Piece, cutting_line, edge_named, stitching_line
from drafting.plan import plan
from drafting.pockets import bag_edge, pocket_place, pocket_sides
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Flounce,
    Godets,
    Lining,
    Owned,
    Ruffle,
    Skirt,
    Spec,
    Tiers,
    WaistFinish,
)
from drafting.units import Units
from tests import tape
from tests.garments import CHORUS_TALL, PAGE_BOY, garment

POCKETS = Skirt(length=620, panels=4, pockets=True)
WIDE = Cloths(skirt=Cloth(width=3000), lining=Cloth(width=3000))
FOLDED = Cloths(skirt=Cloth(width=3000, fold=True))


def bag_of(pattern: Pattern) -> Piece | None:
    return next((piece for piece in pattern.pieces if piece.name == "pocket bag"), None)


def the_bag(spec: Spec) -> Piece:
    bag = bag_of(draft(spec))
    assert bag is not None
    return bag


def said(spec: Spec, code: str) -> Finding:
    (found,) = (finding for finding in draft(spec).findings if finding.code == code)
    return found


def text(finding: Finding) -> str:
    return f"{finding.what} {finding.do}".replace("\u00a0", " ")


def drop(bag: Piece) -> float:
    """Return how far the bag's stitching hangs below its opening's lower notch."""
    _, bottom, _, _ = tape.extent(tape.chain(stitching_line(bag)))
    return -bottom - bag.notches[1].at


def marks(spec: Spec) -> dict[tuple[str, int], list[tuple[float, str]]]:
    """Return the pocket's marks by panel and edge, each with its way along the seam from the waist.

    Measured on the drawn panels, by a ruler of the tests' own.
    """
    found: dict[tuple[str, int], list[tuple[float, str]]] = {}
    for piece in draft(spec).pieces:
        for dot in piece.dots:
            if not dot.words.startswith("pocket"):
                continue
            (edge,) = (k for k in (0, 2) if tape.gap(dot.at, piece.edges[k].path) < 1e-6)
            path = piece.edges[edge].path
            waist = path[0].start if edge == 0 else path[-1].end
            down = math.dist(waist, dot.at)
            found.setdefault((piece.name, edge), []).append((down, dot.words))
    return found


# --- where ---------------------------------------------------------------------------------


def test_a_grown_hand_goes_in_from_6_to_22_cm_and_a_childs_from_4_5_to_16_5() -> None:
    assert pocket_place(plan(garment(skirt=POCKETS))) == pytest.approx((60, 220))
    assert pocket_place(plan(garment(wearer=PAGE_BOY, skirt=POCKETS))) == pytest.approx((45, 165))


def test_a_half_scale_draft_has_the_pocket_at_half_its_depth() -> None:
    half = replace(garment(skirt=replace(POCKETS, length=310)), scale=0.5)
    assert pocket_place(plan(half)) == pytest.approx((30, 110))
    full = the_bag(garment(skirt=POCKETS))
    small = the_bag(half)
    assert small.edges[1].length == pytest.approx(full.edges[1].length / 2)


def test_no_pocket_is_made_unless_asked_nor_in_a_skirt_already_sewn() -> None:
    plain = garment(skirt=replace(POCKETS, pockets=False))
    sewn = garment(
        skirt=replace(POCKETS, owned=Owned(waist=735, length=600, sweep=3000)),
        lining=Lining(fullness=0.5),
    )
    for spec in (plain, sewn):
        assert pocket_place(plan(spec)) is None
        pattern = draft(spec)
        assert bag_of(pattern) is None
        assert not [f for f in pattern.findings if f.code.startswith("pocket")]


@pytest.mark.parametrize(
    ("panels", "closure", "sides"),
    [
        (1, Closure.CENTRE_BACK, ()),
        (2, Closure.CENTRE_BACK, ()),
        (3, Closure.CENTRE_BACK, ()),
        (4, Closure.CENTRE_BACK, ("right side", "left side")),
        (6, Closure.CENTRE_BACK, ()),
        (8, Closure.CENTRE_BACK, ("right side", "left side")),
        (1, Closure.LEFT_SIDE, ()),
        (2, Closure.LEFT_SIDE, ("right side",)),
        (3, Closure.LEFT_SIDE, ()),
        (4, Closure.LEFT_SIDE, ("right side",)),
        (6, Closure.LEFT_SIDE, ("right side",)),
    ],
)
def test_a_pocket_needs_a_seam_at_a_side_that_is_not_the_closures(
    panels: int, closure: Closure, sides: tuple[str, ...]
) -> None:
    skirt = replace(POCKETS, fullness=0.8, panels=panels, closure=closure)
    spec = garment(skirt=skirt, cloths=WIDE)
    planned = plan(spec)
    assert planned.skirt.cut.panels == panels
    assert pocket_sides(planned) == sides
    bag = bag_of(draft(spec))
    assert (bag.count if bag else 0) == 2 * len(sides)


def test_a_skirt_that_is_pulled_on_has_a_pocket_at_each_side() -> None:
    skirt = replace(POCKETS, panels=2, waist_finish=WaistFinish.CASING)
    assert the_bag(garment(skirt=skirt, cloths=WIDE)).count == 4


def test_the_opening_begins_below_a_deep_facing() -> None:
    deep = replace(POCKETS, waist_finish=WaistFinish.FACING, facing=80)
    assert pocket_place(plan(garment(skirt=deep))) == pytest.approx((90, 250))


# --- the marks on the panels ---------------------------------------------------------------


def lying(spec: Spec) -> dict[tuple[str, int], set[str]]:
    """Return what the pocket's marks on each edge add to their words; depths are checked here."""
    place = pocket_place(plan(spec))
    assert place is not None
    found = {}
    for edge, dots in marks(spec).items():
        assert sorted(down for down, _ in dots) == pytest.approx(place, abs=1e-6)
        assert len(dots) == 2
        found[edge] = {re.sub(r"pocket (from|to) here", "", words) for _, words in dots}
    return found


BOTH = {" (side seams only)"}
RIGHT = {" (right side only)"}


@pytest.mark.parametrize(
    ("skirt", "cloths", "expected"),
    [
        ({"panels": 2, "closure": Closure.LEFT_SIDE}, WIDE, {2: {""}}),
        ({"panels": 2, "closure": Closure.LEFT_SIDE}, FOLDED, {0: RIGHT}),
        ({"panels": 2, "waist_finish": WaistFinish.CASING}, WIDE, {0: {""}, 2: {""}}),
        ({"panels": 2, "waist_finish": WaistFinish.CASING}, FOLDED, {0: {""}}),
        ({"panels": 4}, WIDE, {0: BOTH, 2: BOTH}),
        ({"panels": 4}, FOLDED, {0: BOTH}),
        ({"panels": 8}, WIDE, {0: BOTH, 2: BOTH}),
        ({"panels": 6, "closure": Closure.LEFT_SIDE}, WIDE, {0: RIGHT, 2: RIGHT}),
    ],
)
def test_panels_that_are_alike_say_at_which_of_their_seams_the_pocket_lies(
    skirt: dict[str, object], cloths: Cloths, expected: dict[int, set[str]]
) -> None:
    spec = garment(skirt=replace(POCKETS, **skirt), cloths=cloths)  # type: ignore[arg-type]
    assert {edge: words for (_, edge), words in lying(spec).items()} == expected


@pytest.mark.parametrize("panels", [3, 6])
def test_panels_without_a_seam_at_a_side_bear_no_marks(panels: int) -> None:
    assert marks(garment(skirt=replace(POCKETS, panels=panels))) == {}


@pytest.mark.parametrize("cut", [CutKind.CIRCLE, CutKind.GATHERED])
def test_levelled_panels_bear_the_marks_on_their_side_edges_alone(cut: CutKind) -> None:
    uneven = replace(CHORUS_TALL, floor_front=1030, floor_side=1060, floor_back=1045)
    level = replace(POCKETS, cut=cut, hem_above_floor=400)
    if cut is CutKind.GATHERED:
        level = replace(level, gather_ratio=2.0)
    four = garment(wearer=uneven, skirt=level, cloths=WIDE)
    assert lying(four) == {("skirt back", 2): {""}, ("skirt front", 0): {""}}
    left = replace(level, closure=Closure.LEFT_SIDE)
    four = garment(wearer=uneven, skirt=left, cloths=WIDE)
    assert set(map(str, lying(four).values())) == {str(RIGHT)}
    two = garment(wearer=uneven, skirt=replace(left, panels=2), cloths=WIDE)
    assert lying(two) == {("skirt back", 2): {""}, ("skirt front", 0): {""}}
    halves = garment(wearer=uneven, skirt=replace(left, panels=2), cloths=FOLDED)
    assert lying(halves) == {("skirt back", 0): RIGHT, ("skirt front", 0): RIGHT}


def test_a_body_with_one_hip_higher_has_the_right_pocket_on_the_right_panels() -> None:
    crooked = replace(CHORUS_TALL, floor_left=1045, floor_right=1070)
    level = replace(POCKETS, hem_above_floor=400, closure=Closure.LEFT_SIDE)
    found = lying(garment(wearer=crooked, skirt=level, cloths=WIDE))
    assert found == {("skirt back right", 2): {""}, ("skirt front right", 0): {""}}


# --- the bag -------------------------------------------------------------------------------


def test_the_bag_is_as_long_at_the_seam_as_its_opening_and_2_cm_more_at_both_ends() -> None:
    bag = the_bag(garment(skirt=POCKETS))
    assert edge_named(bag, "opening").length == pytest.approx(200)
    assert [(n.edge, n.at, n.seam) for n in bag.notches] == [(0, 20, "7"), (0, 180, "7")]
    left, _, right, _ = tape.extent(tape.chain(stitching_line(bag)))
    assert (left, right) == pytest.approx((0, 150), abs=1e-6)
    assert drop(bag) == pytest.approx(100)


def test_a_childs_bag_is_three_quarters_as_wide_and_hangs_three_quarters_as_low() -> None:
    bag = the_bag(garment(wearer=PAGE_BOY, skirt=replace(POCKETS, length=400)))
    assert edge_named(bag, "opening").length == pytest.approx(160)
    left, _, right, _ = tape.extent(tape.chain(stitching_line(bag)))
    assert right - left == pytest.approx(112.5)
    assert drop(bag) == pytest.approx(75)


@pytest.mark.parametrize("side", [3.0, 15.0, 50.0])
@pytest.mark.parametrize("hand", ["adult", "child", "half"])
def test_the_bag_is_closed_and_lies_inside_its_allowances(side: float, hand: str) -> None:
    skirt = replace(POCKETS, allowances=Allowances(side=side))
    spec = garment(skirt=skirt)
    if hand == "child":
        spec = garment(wearer=PAGE_BOY, skirt=skirt)
    if hand == "half":
        spec = replace(spec, scale=0.5)
    bag = the_bag(spec)
    sewn, cut = stitching_line(bag), cutting_line(bag)
    for line in (sewn, cut):
        for one, other in zip(line, (*line[1:], line[0]), strict=True):
            assert math.dist(one.end, other.start) < 1e-6
        assert tape.walked_area(line, 200) > 0  # counter-clockwise
    for edge, width in ((bag.edges[0], side), (bag.edges[1], 10.0)):
        assert edge.allowance == width
    # No stitching lies nearer to the cutting line than the narrower of its allowances.
    nearest = min(tape.gap(point, cut) for point in tape.chain(sewn, 60))
    assert nearest == pytest.approx(min(side, 10.0), abs=0.02)
    for end in bag.grainline:
        assert tape.gap(end, sewn) > 10
    assert bag.grainline[0].x == bag.grainline[1].x


@pytest.mark.parametrize(("below", "hand"), [(80, 1.0), (40, 1.0), (55, 0.75), (25, 0.75)])
def test_the_rounded_edge_has_a_corner_at_the_seam_and_nowhere_else(
    below: float, hand: float
) -> None:
    path = bag_edge(200, below, hand)
    for one, other in pairwise(path):
        arriving = tape.chain((one,), 20000)[-2:]
        leaving = tape.chain((other,), 20000)[:2]
        turns = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in (arriving, leaving)]
        assert abs(math.remainder(turns[1] - turns[0], math.tau)) < 1e-3
    assert math.dist(path[0].start, Point(0, -200)) < 1e-9
    _, bottom, right, top = tape.extent(tape.chain(path))
    assert (right, bottom, top) == pytest.approx((150 * hand, -200 - below, 0), abs=1e-6)


def test_the_bag_is_cut_from_the_lining_where_there_is_one() -> None:
    lined = garment(skirt=POCKETS, lining=Lining(fullness=0.5))
    assert the_bag(garment(skirt=POCKETS)).cloth == "skirt"
    bag = the_bag(lined)
    assert (bag.cloth, bag.count, bag.mirrored) == ("lining", 4, True)


def test_the_bag_is_sewn_to_its_pair_and_to_every_panel_with_a_side() -> None:
    uneven = replace(CHORUS_TALL, floor_front=1030, floor_side=1060, floor_back=1045)
    level = garment(wearer=uneven, skirt=replace(POCKETS, hem_above_floor=400), cloths=WIDE)
    seams = [seam for seam in draft(level).seams if seam.number == "7"]
    pair, *sides = seams
    assert pair.first == pair.second and pair.first[0].edge == "bag"
    assert {(seam.second[0].piece, seam.second[0].edge) for seam in sides} == {
        ("skirt back", 2),
        ("skirt front", 0),
    }
    # The bag and each panel are open for 16 cm between their own marks.
    walked = [found for found in draft(level).figures.truing if found.number == "7"]
    assert [(found.first, found.second) for found in walked[1:]] == [
        pytest.approx((160, 160)) for _ in sides
    ]


# --- room ----------------------------------------------------------------------------------


def ruffled(depth: float, *, length: float = 620) -> Spec:
    return garment(
        wearer=CHORUS_TALL,
        skirt=replace(POCKETS, length=length),
        lining=Lining(fullness=0.5, shorter=30),
        ruffle=Ruffle(depth=depth, gather_ratio=2, above_hem=10),
    )


def test_a_bag_is_shortened_so_that_it_stays_2_cm_above_the_ruffle() -> None:
    # The line lies 620 - 30 - 10 - 250 = 330 below the waist: 330 - 20 - 10 - 220 is left.
    bag = the_bag(ruffled(250))
    assert drop(bag) == pytest.approx(80)
    assert any("ruffle" in words for words in bag.notes)
    _, lowest, _, _ = tape.extent(tape.chain(cutting_line(bag)))
    assert 40 - lowest == pytest.approx(310)
    assert not any("ruffle" in words for words in the_bag(ruffled(150)).notes)


def test_a_bag_hangs_6_cm_below_its_opening_or_there_is_none() -> None:
    assert drop(the_bag(ruffled(270))) == pytest.approx(60)
    assert bag_of(draft(ruffled(271))) is None


def test_a_ruffle_that_leaves_no_room_is_told_with_its_numbers_and_its_cure() -> None:
    # 22 + 6 + 1 cm are needed; the line at 620 - 30 - 10 - 301 = 279 leaves 259.
    found = said(ruffled(301), "pocket-no-room")
    assert found.level is Level.CAUTION
    assert text(found) == (
        "A pocket reaches 29.0 cm below the waist, and the ruffle on the lining leaves 25.9 cm:"
        " none is drawn. Make the ruffle 3.1 cm less deep, or the skirt 3.1 cm longer, or leave"
        " the pockets out."
    )
    assert bag_of(draft(ruffled(270))) is not None


def test_a_short_skirt_is_told_how_much_longer_it_must_be() -> None:
    # 0.8 of 350 is 280; 290 / 0.8 = 362.5, rounded up to a millimetre.
    short = garment(skirt=replace(POCKETS, length=350))
    assert "leaves 28.0 cm" in text(said(short, "pocket-no-room"))
    assert "1.3 cm longer" in text(said(short, "pocket-no-room"))
    assert bag_of(draft(short)) is None and marks(short) == {}
    assert bag_of(draft(garment(skirt=replace(POCKETS, length=363)))) is not None
    inches = replace(short, units=Units.INCH)
    assert "½ in longer" in text(said(inches, "pocket-no-room"))


def test_a_yoke_a_flounce_and_godets_have_to_leave_room_too() -> None:
    tiered = replace(POCKETS, cut=CutKind.TIERED, length=800, tiers=Tiers(yoke=200))
    assert "Make the yoke 36.3 cm deep" in text(said(garment(skirt=tiered), "pocket-no-room"))
    deep = replace(tiered, tiers=Tiers(yoke=363))
    assert bag_of(draft(garment(skirt=deep, cloths=WIDE))) is not None
    flounced = replace(POCKETS, length=500, flounce=Flounce(depth=200))
    assert "Make the flounce 6.3 cm less deep" in text(
        said(garment(skirt=flounced), "pocket-no-room")
    )
    gored = replace(POCKETS, cut=CutKind.GORED, gores=8, godets=Godets(depth=400, angle=0.7))
    assert "Make the godets 2.0 cm less deep" in text(said(garment(skirt=gored), "pocket-no-room"))


@pytest.mark.parametrize(
    ("skirt", "cure"),
    [
        (Skirt(length=620, panels=2, pockets=True), 'panels = 4 .* "left side" with panels = 2 '),
        (Skirt(length=620, panels=6, pockets=True), 'panels = 8 .* "left side" with panels = 6 '),
        (
            Skirt(length=620, panels=3, pockets=True, closure=Closure.LEFT_SIDE),
            "panels = 4 .* right",
        ),
        (
            Skirt(length=620, panels=3, pockets=True, waist_finish=WaistFinish.CASING),
            "panels = 4, which puts a seam at each side",
        ),
        (Skirt(cut=CutKind.GORED, length=620, gores=6, pockets=True), "gores = 8 .*gores = 6 "),
    ],
)
def test_a_skirt_without_a_seam_at_a_side_is_told_which_panels_give_one(
    skirt: Skirt, cure: str
) -> None:
    spec = garment(skirt=skirt, cloths=WIDE)
    found = said(spec, "pocket-no-seam")
    assert found.level is Level.CAUTION
    assert re.search(cure, text(found)), text(found)
    panels = plan(spec).skirt.cut.panels
    assert re.search(rf"{panels} (gores|panels)", found.what)
    assert bag_of(draft(spec)) is None


def test_an_opening_far_below_the_hip_is_told_with_both_depths() -> None:
    dropped = replace(POCKETS, drop=60, length=700)
    found = said(garment(skirt=dropped), "pocket-below-hip")
    assert "22.0 cm" in text(found) and "14.0 cm" in text(found)
    codes = {f.code for f in draft(garment(skirt=POCKETS)).findings}
    assert "pocket-below-hip" not in codes


def test_one_pocket_is_told_and_why() -> None:
    left = replace(POCKETS, panels=2, closure=Closure.LEFT_SIDE)
    found = text(said(garment(skirt=left, cloths=WIDE), "pocket-one-side"))
    assert "1 pocket, in the right side seam" in found and "panels = 4" in found


# --- whoever is measured -------------------------------------------------------------------

bodies = st.builds(
    lambda wearer, waist, more, tilt: replace(
        wearer,
        waist=waist * wearer.waist,
        hip=waist * wearer.waist + more,
        floor_front=wearer.floor_side + tilt,
        floor_back=wearer.floor_side - tilt / 2,
    ),
    st.sampled_from((CHORUS_TALL, PAGE_BOY)),
    st.floats(0.8, 1.6),
    st.floats(60, 260),
    st.one_of(st.just(0.0), st.floats(-25, 25)),
)
skirts = st.builds(
    Skirt,
    cut=st.sampled_from(CutKind),
    fullness=st.floats(0.5, 1.2),
    length=st.floats(330, 900),
    panels=st.sampled_from((None, 2, 4, 4, 5, 6, 8)),
    gores=st.sampled_from((4, 6, 8)),
    gather_ratio=st.sampled_from((1.0, 1.5)),
    hem_above_floor=st.one_of(st.none(), st.floats(250, 450)),
    closure=st.sampled_from(Closure),
    waist_finish=st.sampled_from(WaistFinish),
    pockets=st.just(True),
    tiers=st.builds(Tiers, yoke=st.floats(150, 450)),
    allowances=st.builds(Allowances, side=st.one_of(st.none(), st.floats(5, 40))),
)
everyone = st.builds(
    garment,
    wearer=bodies,
    skirt=skirts,
    lining=st.builds(Lining, fullness=st.floats(0.4, 0.8), shorter=st.floats(20, 50)),
    ruffle=st.one_of(
        st.none(), st.builds(Ruffle, depth=st.floats(80, 350), gather_ratio=st.just(2.0))
    ),
    cloths=st.builds(lambda fold: Cloths(skirt=Cloth(width=3000, fold=fold)), st.booleans()),
)


@settings(
    max_examples=100,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(everyone)
def test_for_every_body_the_pocket_is_sewn_true_and_hangs_clear_of_the_ruffle(spec: Spec) -> None:
    pattern = draft(spec)  # walks every seam
    if not pattern.pieces:
        assert stops(pattern.findings)
        return
    bag, planned = bag_of(pattern), plan(spec)
    lacking = [f for f in pattern.findings if f.code in ("pocket-no-room", "pocket-no-seam")]
    # Either a pocket or the reason for none, never both nor neither.
    assert (bag is None) is (len(lacking) == 1)
    if bag is None:
        assert marks(spec) == {}
        return
    top, _ = place = pocket_place(planned) or (0.0, 0.0)
    down = top - bag.notches[0].at
    _, low, _, _ = tape.extent(tape.chain(cutting_line(bag), 100))
    if planned.ruffle is not None:
        assert down - low <= planned.ruffle.line_below_waist - 20 + 1e-6
    assert down - low <= 0.8 * planned.skirt.cut.length + 1e-6
    assert drop(bag) >= 60 * (0.75 if spec.wearer.figure.value == "child" else 1) - 1e-6
    assert marks(spec)
    # The marks and the seams name the same edges of the same panels.
    sewn = {(s.second[0].piece, s.second[0].edge) for s in pattern.seams if s.number == "7"}
    assert sewn - {("pocket bag", "bag")} == set(marks(spec))
    for (name, _edge), dots in marks(spec).items():
        assert len(dots) == 2, name
        if planned.closure is Closure.LEFT_SIDE:
            assert "left" not in " ".join(words for _, words in dots)
    assert place[1] - place[0] == pytest.approx(bag.notches[1].at - bag.notches[0].at)
