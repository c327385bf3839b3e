"""The skirt's own keys: what each cut takes and gets by default, and what clashes."""

import math

import pytest

from drafting.errors import Fault, SheetError
from drafting.sheet import read_sheet
from drafting.spec import (
    BandShape,
    Closure,
    CutKind,
    Flounce,
    Godets,
    Grain,
    HemFinish,
    LevelAt,
    Lining,
    Owned,
    SeamFinish,
    Skirt,
    Tiers,
    WaistFinish,
)

# A waist of 74 cm is size P05: hip depth 20.8 cm, waist to knee 58.4 cm.
WAIST = '[wearer]\nwaist = "74 cm"\nhip_depth = "20 cm"\nwaist_to_knee = "58 cm"\n'
OWNED = 'owned = { waist = "75 cm", length = "62 cm", sweep = "4.6 m" }'


def skirt(*lines: str) -> Skirt:
    return read_sheet(WAIST + "[skirt]\n" + "\n".join(lines) + "\n").skirt


def lining(*lines: str, skirt: str = "") -> Lining:
    found = read_sheet(f"{WAIST}[skirt]\n{skirt}\n[lining]\n" + "\n".join(lines) + "\n").lining
    assert found is not None
    return found


def faults(*lines: str, then: str = "") -> tuple[Fault, ...]:
    with pytest.raises(SheetError) as refused:
        read_sheet(WAIST + "[skirt]\n" + "\n".join(lines) + "\n" + then)
    return refused.value.faults


def fault(*lines: str, then: str = "") -> Fault:
    (one,) = faults(*lines, then=then)
    return one


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


# --- cuts ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cut", "fullness", "gathers", "stretch", "hem"),
    [
        ("circle", 1, 1, 0.01, HemFinish.NARROW),
        ("gored", 1 / 3, 1, 0, HemFinish.NARROW),
        ("gathered", 1, 2.2, 0, HemFinish.TURNED),
        ("tiered", 1, 1, 0, HemFinish.NARROW),
    ],
)
def test_each_cut_has_defaults_of_its_own(
    cut: str, fullness: float, gathers: float, stretch: float, hem: HemFinish
) -> None:
    made = skirt(f'cut = "{cut}"')
    assert made.cut is CutKind(cut)
    assert made.fullness == pytest.approx(fullness)
    assert (made.gather_ratio, made.waist_stretch, made.hem) == (gathers, stretch, hem)


def test_a_plain_skirt_has_nothing_that_was_not_asked_for() -> None:
    made = skirt()
    assert (made.cut, made.level, made.seams) == (
        CutKind.CIRCLE,
        LevelAt.HEM,
        SeamFinish.OPEN,
    )
    assert (made.godets, made.flounce, made.owned, made.bodice_waist) == (None, None, None, None)
    assert (made.shaped, made.full_widths, made.pockets, made.trim_bias) == (False,) * 4
    assert made.interfacing
    assert (made.drop, made.drop_ease) == (0, 30)
    assert (made.band_shape, made.band) == (BandShape.STRAIGHT, 30)
    assert (made.hem_facing, made.braid, made.gores) == (50, 50, 8)
    assert made.tiers == Tiers()
    assert (made.allowances.waist, made.allowances.spare) == (None, None)


def test_every_choice_of_a_skirt_is_kept() -> None:
    made = skirt(
        'seams = "french"', 'hem = "bias-faced"', "pockets = true", "interfacing = false",
        "trim_bias = true", 'level = "waist"', 'waist_finish = "bias"', 'hem_facing = "6 cm"',
        'braid = "7.5 cm"', 'drop = "4 cm"', 'drop_ease = "2 cm"', 'allowances.spare = "2 cm"',
    )  # fmt: skip
    assert (made.seams, made.hem) == (SeamFinish.FRENCH, HemFinish.BIAS_FACED)
    assert (made.pockets, made.interfacing, made.trim_bias) == (True, False, True)
    assert (made.level, made.waist_finish) == (LevelAt.WAIST, WaistFinish.BIAS)
    assert [made.hem_facing, made.braid, made.drop, made.drop_ease] == pytest.approx(
        [60, 75, 40, 20]
    )
    assert made.allowances.spare == pytest.approx(20)


@pytest.mark.parametrize("finish", HemFinish)
def test_every_hem_can_be_asked_for(finish: HemFinish) -> None:
    assert skirt(f'hem = "{finish}"').hem is finish


def test_gores_may_be_shaped_and_have_godets() -> None:
    made = skirt(
        'cut = "gored"', "gores = 6", "shaped = true", 'godets = { depth = "25 cm", angle = 90 }'
    )
    assert (made.gores, made.shaped) == (6, True)
    assert made.godets == Godets(depth=250, angle=math.pi / 2)


def test_godets_left_to_themselves_are_a_third_of_what_hangs_and_of_60_degrees() -> None:
    made = skirt('cut = "gored"', 'length = "66 cm"', "godets = {}", 'drop = "6 cm"')
    assert made.godets is not None
    assert [made.godets.depth, made.godets.angle] == pytest.approx([200, math.pi / 3])


def test_a_gathered_skirt_may_take_whole_widths() -> None:
    made = skirt('cut = "gathered"', "full_widths = true", "gather_ratio = 4")
    assert (made.full_widths, made.gather_ratio) == (True, 4)


@pytest.mark.parametrize(
    ("lines", "ratios"),
    [
        ((), (2, 1.6, 1.6)),
        (("tiers = 2",), (2, 1.6)),
        (("tiers = 5",), (2, 1.6, 1.6, 1.6, 1.6)),
        (("tier_ratios = [1.5, 2]",), (1.5, 2)),
        (("tiers = 2", 'tier_ratios = ["1,5", 2]'), (1.5, 2)),
    ],
)
def test_each_tier_is_gathered_by_its_ratio(lines: tuple[str, ...], ratios: object) -> None:
    assert skirt('cut = "tiered"', *lines).tiers.ratios == ratios


def test_tiers_may_grow_and_hang_from_a_yoke_of_any_depth() -> None:
    made = skirt('cut = "tiered"', "tier_growth = 1.6", 'yoke = "18 cm"').tiers
    assert (made.growth, made.yoke) == (1.6, 180)
    assert (Tiers().growth, Tiers().yoke) == (1.25, None)


@pytest.mark.parametrize(
    ("written", "stretch"),
    [('"by cloth"', None), ('" By  cloth"', None), ("0", 0), ("0.1", 0.1), ('"0,02"', 0.02)],
)
def test_the_waist_stretches_by_a_number_or_by_its_cloth(
    written: str, stretch: float | None
) -> None:
    assert skirt(f"waist_stretch = {written}").waist_stretch == stretch


def test_a_word_that_is_not_by_cloth_is_told() -> None:
    told = fault('waist_stretch = "by clot"')
    assert told.nearest == "by cloth"
    assert '"by cloth"' in fault('waist_stretch = "a lot"').allowed


HOMES = [
    ("gores = 8", ("gored",)),
    ("shaped = true", ("gored",)),
    ("godets = {}", ("gored",)),
    ("full_widths = true", ("gathered",)),
    ("tiers = 3", ("tiered",)),
    ("tier_ratios = [2, 2]", ("tiered",)),
    ("tier_growth = 1.1", ("tiered",)),
    ('yoke = "20 cm"', ("tiered",)),
    ("panels = 2", ("circle", "gathered")),
]


@pytest.mark.parametrize("cut", CutKind)
@pytest.mark.parametrize(("line", "homes"), HOMES)
def test_a_key_of_another_cut_is_told_where_it_belongs(
    line: str, homes: tuple[str, ...], cut: CutKind
) -> None:
    if cut in homes:
        assert skirt(f'cut = "{cut}"', line).cut is cut
        return
    told = fault(f'cut = "{cut}"', line)
    key = line.split(" = ")[0]
    assert (told.line, told.key) == (7, f"skirt.{key}")
    assert told.what.startswith(f'{key} belongs to cut = "{homes[0]}"')
    assert f'This skirt is cut = "{cut}"' in told.allowed


def test_a_skirt_that_names_no_cut_is_a_circle() -> None:
    assert fault("gores = 8").what == 'gores belongs to cut = "gored".'


@pytest.mark.parametrize("cut", ['cut = "goerd"', 'cutt = "gored"', 'cut = "gored'])
def test_keys_are_not_blamed_for_a_cut_that_cannot_be_read(cut: str) -> None:
    assert fault(cut, "gores = 8", "fullness = 0.1").line == 6


@pytest.mark.parametrize(
    ("cut", "line", "instead"),
    [
        ("gathered", 'fullness = "full"', "gather_ratio = 2.2"),
        ("tiered", "fullness = 1", "tier_ratios = [2, 1.6, 1.6]"),
        ("tiered", "gather_ratio = 2", "tier_ratios = [2, 1.6, 1.6]"),
    ],
)
def test_gathers_are_not_told_in_circles(cut: str, line: str, instead: str) -> None:
    told = fault(f'cut = "{cut}"', line)
    assert f'does not go with cut = "{cut}"' in told.what
    assert instead in told.allowed


@pytest.mark.parametrize(
    ("cut", "good", "bad", "said"),
    [
        ("circle", (0.2, 4), (0.19, 4.1), "It can be from 0.2 to 4 circles"),
        ("gored", (0.1, 2), (0.09, 2.1), "For a gored skirt it can be from 0.1 to 2 circles"),
    ],
)
def test_fullness_has_limits_that_fit_the_cut(
    cut: str, good: tuple[float, ...], bad: tuple[float, ...], said: str
) -> None:
    for circles in good:
        assert skirt(f'cut = "{cut}"', f"fullness = {circles}").fullness == circles
    for circles in bad:
        told = fault(f'cut = "{cut}"', f"fullness = {circles}")
        assert told.what == f"fullness is {circles}."
        assert told.allowed.startswith(said)


def test_a_fullness_is_judged_even_while_the_cut_is_unknown() -> None:
    assert [one.line for one in faults('cut = "goerd"', "fullness = 5")] == [6, 7]


@pytest.mark.parametrize("cut", ["circle", "gored"])
def test_only_a_gathered_skirt_takes_more_than_three_times_its_waist(cut: str) -> None:
    assert skirt(f'cut = "{cut}"', "gather_ratio = 3").gather_ratio == 3
    told = fault(f'cut = "{cut}"', "gather_ratio = 3.5")
    assert told.allowed.startswith('It can be from 1 to 3; with cut = "gathered", to 4.')
    assert fault('cut = "gathered"', "gather_ratio = 4.5").key == "skirt.gather_ratio"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("gores = 3", "whole number from 4 to 12"),
        ("gores = 7.5", "whole number from 4 to 12"),
        ("gores = 13", "whole number from 4 to 12"),
        ("godets = { angle = 10 }", "from 20 to 120 degrees"),
        ("godets = { angle = 121 }", "from 20 to 120 degrees"),
        ('godets = { depth = "3 cm" }', "4.0 cm to 100.0 cm"),
        ("godets = 3", 'Write godets = { depth = "20 cm", angle = 60 }.'),
        ("godets = { deph = 3 }", 'Did you mean "depth"?'),
    ],
)
def test_a_gore_or_godet_that_will_not_do_is_told_what_would(line: str, said: str) -> None:
    assert said in plain(str(fault('cut = "gored"', line)))


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("tiers = 1", "whole number from 2 to 6"),
        ("tiers = 7", "whole number from 2 to 6"),
        ("tier_ratios = 2", "Write tier_ratios = [2, 1.6, 1.6]."),
        ("tier_ratios = [2]", "lists 1 number. It can list 2 to 6"),
        ("tier_ratios = []", "lists 0 numbers."),
        ("tier_ratios = [2, 5]", "lists 5. Each can be from 1 to 4."),
        ("tier_ratios = [2, true]", "needs a number"),
        ("tiers = 3\ntier_ratios = [2, 2]", "tier_ratios lists 2 numbers, and tiers is 3."),
        ("tier_growth = 1.7", "from 1 to 1.6"),
        ('yoke = "5 cm"', "6.0 cm to 50.0 cm"),
    ],
)
def test_a_tier_that_will_not_do_is_told_what_would(line: str, said: str) -> None:
    assert said in plain(str(fault('cut = "tiered"', line)))


# --- the waist -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "shape", "band", "drop"),
    [
        (('drop = "7 cm"',), BandShape.CONTOUR, 50, 70),
        (('drop = "3 cm"',), BandShape.CONTOUR, 30, 30),
        (('drop = "5 mm"',), BandShape.STRAIGHT, 30, 5),
        (('drop = "0 cm"',), BandShape.STRAIGHT, 30, 0),
        (('drop = "7 cm"', 'band_shape = "straight"'), BandShape.STRAIGHT, 30, 70),
        (('drop = "7 cm"', 'waist_finish = "facing"'), BandShape.STRAIGHT, 30, 70),
        (('band_shape = "contour"',), BandShape.CONTOUR, 50, 50),
        (('band_shape = "contour"', 'band = "6 cm"'), BandShape.CONTOUR, 60, 60),
        (('drop = "7 cm"', 'band = "7 cm"'), BandShape.CONTOUR, 70, 70),
    ],
)
def test_a_contour_band_and_a_dropped_waist_go_together(
    lines: tuple[str, ...], shape: BandShape, band: float, drop: float
) -> None:
    made = skirt(*lines)
    assert made.band_shape is shape
    assert [made.band, made.drop] == pytest.approx([band, drop])


@pytest.mark.parametrize(
    ("lines", "key"),
    [
        (('drop = "4 cm"', 'band = "5 cm"'), "band"),
        (('drop = "0 cm"', 'band_shape = "contour"'), "drop"),
        (('drop = "5 mm"', 'band_shape = "contour"'), "drop"),
    ],
)
def test_a_contour_band_cannot_reach_above_the_natural_waist(
    lines: tuple[str, ...], key: str
) -> None:
    told = fault(*lines)
    assert told.key == f"skirt.{key}"
    assert "reaches above the natural waist" in told.what


def test_only_a_band_can_be_contoured() -> None:
    told = fault('waist_finish = "facing"', 'band_shape = "contour"')
    assert told.key == "skirt.band_shape"
    assert 'belongs to waist_finish = "band"' in told.what


def test_the_waist_drops_no_lower_than_the_hip() -> None:
    assert skirt('drop = "19.9 cm"').drop == 199
    told = fault('drop = "20 cm"')
    assert (told.line, told.key) == (6, "skirt.drop")
    assert "less than the hip depth of 20.0 cm" in plain(told.allowed)


def test_a_drop_is_held_against_a_hip_depth_that_was_not_measured_too() -> None:
    with pytest.raises(SheetError, match="hip depth of"):
        read_sheet('[wearer]\nwaist = "74 cm"\n[skirt]\ndrop = "22 cm"\n')


def test_a_dropped_waist_leaves_some_skirt() -> None:
    assert skirt('drop = "10 cm"', 'length = "20 cm"').drop == 100
    told = fault('drop = "10.1 cm"', 'length = "20 cm"')
    assert "10.0 cm must hang from the seam" in plain(told.allowed)


def test_a_bodice_brings_its_waist_seam() -> None:
    made = skirt('waist_finish = "bodice"', 'bodice_waist = "75 cm"')
    assert (made.waist_finish, made.bodice_waist) == (WaistFinish.BODICE, 750)
    lacking = fault('waist_finish = "bodice"')
    assert (lacking.line, lacking.key) == (6, "skirt.waist_finish")
    assert 'bodice_waist = "75 cm"' in lacking.allowed
    for lines in (
        ('bodice_waist = "75 cm"',),
        ('waist_finish = "band"', 'bodice_waist = "75 cm"'),
    ):
        alone = fault(*lines)
        assert alone.key == "skirt.bodice_waist"
        assert 'belongs to waist_finish = "bodice"' in alone.what


@pytest.mark.parametrize(
    "lines",
    [
        ('waist_finish = "bodic"', 'bodice_waist = "75 cm"'),
        ('waist_finis = "bodice"', 'bodice_waist = "75 cm"'),
        ('waist_finish = "bodice', 'bodice_waist = "75 cm"'),
        ('waist_finish = "bodice"', 'bodice_wast = "75 cm"'),
        ('waist_finish = "bodice"', "bodice_waist = 75 cm"),
    ],
)
def test_a_slip_in_one_of_two_keys_is_not_told_of_the_other(lines: tuple[str, ...]) -> None:
    assert len(faults(*lines)) == 1


# --- a flounce, a godet, a yoke ------------------------------------------------------------


def test_a_flounce_has_a_depth_and_a_ratio() -> None:
    assert skirt('flounce = { depth = "15 cm" }').flounce == Flounce(depth=150, ratio=2)
    made = skirt('flounce = { depth = "15 cm", ratio = 2.5 }')
    assert made.flounce == Flounce(depth=150, ratio=2.5)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("flounce = {}", 'no depth. Write flounce = { depth = "15 cm", ratio = 2 }.'),
        ("flounce = { ratio = 2 }", "no depth."),
        ('flounce = "15 cm"', "Write flounce = { depth"),
        ('flounce = { depth = "15 cm", ratio = 1.1 }', "from 1.2 to 4"),
        ('flounce = { depth = "39 mm" }', "4.0 cm to 50.0 cm"),
        ('flounce = { depth = "51 cm" }', "4.0 cm to 50.0 cm"),
    ],
)
def test_a_flounce_that_will_not_do_is_told_what_would(line: str, said: str) -> None:
    assert said in plain(str(fault(line)))


def test_a_misspelt_depth_of_a_flounce_is_not_called_missing_as_well() -> None:
    assert fault('flounce = { deph = "15 cm" }').nearest == "depth"


@pytest.mark.parametrize(
    ("cut", "key", "fits", "too_deep", "room"),
    [
        ("circle", 'flounce = { depth = "%s" }', "39.9 cm", "40 cm", "40.0 cm"),
        ("gored", 'godets = { depth = "%s" }', "49.9 cm", "50 cm", "50.0 cm"),
        ("tiered", 'yoke = "%s"', "39.9 cm", "40 cm", "40.0 cm"),
    ],
)
def test_what_hangs_on_a_skirt_must_fit_its_length(
    cut: str, key: str, fits: str, too_deep: str, room: str
) -> None:
    head = (f'cut = "{cut}"', 'length = "50 cm"')
    assert skirt(*head, key % fits).length == 500
    told = fault(*head, key % too_deep)
    assert told.line == 8
    assert f"must be less than {room}" in plain(told.allowed)
    # A dropped waist leaves that much less.
    dropped = 'drop = "1 cm"\nband_shape = "straight"'
    assert "less than" in fault(*head, key % fits, dropped).allowed


def test_a_flounce_is_held_against_a_length_that_is_left_out() -> None:
    # Waist to knee is 58 cm.
    assert skirt('flounce = { depth = "47.9 cm" }').flounce is not None
    assert fault('flounce = { depth = "48 cm" }').key == "skirt.flounce.depth"


def test_the_shortest_skirt_takes_no_flounce() -> None:
    told = fault('length = "10 cm"', 'flounce = { depth = "4 cm" }')
    assert told.allowed == "A skirt as short as that takes none."


# --- the lining ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("outer", "fullness"),
    [
        ("", 0.5),
        ('fullness = "third"', 1 / 3),
        ('cut = "gored"', 1 / 3),
        ('cut = "gored"\nfullness = 0.9', 0.5),
        ('cut = "gored"\nfullness = 0.1', 0.2),
        # Under 2.2 to 1 the hip decides; under 4 to 1 there is room for a half circle.
        ('cut = "gathered"', 0.26),
        ('cut = "gathered"\ngather_ratio = 4', 0.5),
        ('cut = "tiered"', 0.5),
        (OWNED, 0.5),
        (OWNED.replace("4.6 m", "2 m"), (2000 - 750) / (math.tau * 620)),
        (OWNED.replace("4.6 m", "1 m"), 0.2),
    ],
)
def test_a_lining_is_as_full_as_a_half_circle_or_its_skirt(outer: str, fullness: float) -> None:
    made = lining(skirt=outer)
    assert made.fullness == pytest.approx(fullness)
    assert (made.cut, made.shaped, made.vent) == (CutKind.CIRCLE, False, None)


def test_a_gored_lining_is_shaped_over_the_hip() -> None:
    made = lining('cut = "gored"')
    assert (made.cut, made.gores, made.shaped, made.fullness) == (CutKind.GORED, 6, True, 0.2)
    made = lining('cut = "gored"', "gores = 4", "shaped = false", "fullness = 0.05")
    assert (made.gores, made.shaped, made.fullness) == (4, False, 0.05)
    assert lining('vent = "30 cm"').vent == 300


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ('cut = "gathered"', 'Write "circle" or "gored".'),
        ("gores = 6", 'gores belongs to cut = "gored". This lining is cut = "circle"'),
        ("shaped = true", 'shaped belongs to cut = "gored".'),
        ('cut = "gored"\npanels = 2', 'panels belongs to cut = "circle".'),
        ('cut = "gored"\nfullness = 0.04', "For a gored lining it can be from 0.05 to 2"),
        ("fullness = 0.1", "It can be from 0.2 to 4 circles"),
        ('vent = "71 cm"', "0.0 cm to 70.0 cm"),
    ],
)
def test_a_lining_that_will_not_do_is_told_what_would(lines: str, said: str) -> None:
    assert said in plain(str(fault(then=f"[lining]\n{lines}\n")))


# --- a skirt that is sewn already ----------------------------------------------------------


def test_a_sewn_skirt_gives_its_lining_a_length() -> None:
    spec = read_sheet(f"{WAIST}[skirt]\n{OWNED}\n[lining]\n")
    assert spec.skirt.owned == Owned(waist=750, length=620, sweep=4600)
    assert spec.skirt.length == 620
    # 3850 mm more at the hem than at the waist, over a turn of 620.
    assert spec.skirt.fullness == pytest.approx(3850 / (math.tau * 620))


def test_what_a_lining_takes_may_stand_beside_a_sewn_skirt() -> None:
    sheet = (
        f'{WAIST}[skirt]\n{OWNED}\nclosure = "left side"\nwaist_finish = "bodice"\n'
        'waist_stretch = 0.02\ngrain = "centre"\nseams = "french"\nallowances.waist = "8 mm"\n'
        'allowances.side = "9 mm"\n[lining]\n'
    )
    made = read_sheet(sheet).skirt
    assert (made.closure, made.grain, made.seams) == (
        Closure.LEFT_SIDE,
        Grain.CENTRE,
        SeamFinish.FRENCH,
    )
    assert (made.waist_stretch, made.bodice_waist) == (0.02, 750)
    assert (made.allowances.waist, made.allowances.side) == (8, 9)


def test_a_sewn_skirt_is_not_drafted_again() -> None:
    told = fault(
        OWNED, 'fullness = "full"', 'hem = "narrow"', "gores = 8", 'allowances.hem = "1 cm"',
        then="[lining]\n",
    )  # fmt: skip
    assert (told.line, told.key) == (6, "skirt.owned")
    assert "fullness, gores, hem and allowances.hem would draft one" in told.what
    assert "closure" in told.allowed


def test_a_sewn_skirt_is_nothing_to_draft_without_a_lining() -> None:
    told = fault(OWNED)
    assert (told.line, told.key) == (6, "skirt.owned")
    assert "[lining]" in told.allowed


@pytest.mark.parametrize(
    ("line", "missing"),
    [
        ("owned = {}", "no waist, length or sweep"),
        ('owned = { waist = "75 cm", length = "62 cm" }', "no sweep"),
        ('owned = { sweep = "4 m" }', "no waist or length"),
    ],
)
def test_a_sewn_skirt_is_measured_in_three_places(line: str, missing: str) -> None:
    told = fault(line, then="[lining]\n")
    assert told.what == f"owned gives {missing} of the skirt that is sewn already."


def test_a_hem_cannot_be_less_than_the_waist() -> None:
    told = fault(OWNED.replace("4.6 m", "70 cm"), then="[lining]\n")
    assert told.key == "skirt.owned.sweep"
    assert "all the way round" in told.allowed


# --- all at once ---------------------------------------------------------------------------


def test_clashes_are_told_together_in_the_order_of_their_lines() -> None:
    told = faults(
        "gores = 8", 'length = "60 cm"', 'hem_above_floor = "40 cm"', 'bodice_waist = "70 cm"',
        "fullness = 9", 'yoke = "20 cm"', 'flounce = { depth = "45 cm", ratio = 9 }',
        then='[lining]\ncut = "gored"\npanels = 2\n',
    )  # fmt: skip
    assert [one.line for one in told] == [6, 8, 9, 10, 11, 12, 15]


# --- the cloths ----------------------------------------------------------------------------


@pytest.mark.parametrize(("units", "dress", "inner"), [("cm", 1400, 900), ("in", 1371.6, 914.4)])
def test_interfacing_is_narrower_and_has_no_selvage(units: str, dress: float, inner: float) -> None:
    cloths = read_sheet(f'units = "{units}"\n{WAIST}[cloth.skirt]\nkind = "linen"\n').cloths
    assert [cloths.interfacing.width, cloths.interfacing.selvage] == pytest.approx([inner, 0])
    assert (cloths.interfacing.shrink_length, cloths.interfacing.shrink_width) == (0, 0)
    assert [cloths.binding.width, cloths.binding.selvage] == pytest.approx([dress, 10])
    assert (cloths.binding.kind, cloths.binding.shrink_length) == ("linen", 0.05)


def test_interfacing_and_binding_of_your_own_win() -> None:
    cloths = read_sheet(
        f'{WAIST}[cloth.interfacing]\nkind = "cotton organdy"\nwidth = "112 cm"\n'
        'selvage = "5 mm"\n[cloth.binding]\nkind = "silk"\n'
    ).cloths
    assert (cloths.interfacing.width, cloths.interfacing.selvage) == (1120, 5)
    assert (cloths.interfacing.shrink_length, cloths.binding.kind) == (0.04, "silk")
