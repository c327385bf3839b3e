"""What a cutter says over your shoulder: every remark, when it is due and when it is not."""

import inspect
import re
from dataclasses import replace

import pytest

from drafting import advice
from drafting.findings import Finding, Level, by_weight, stops
from drafting.pattern import draft
from drafting.piece import edge_named
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Cloths,
    Figure,
    HemFinish,
    Lining,
    Ruffle,
    RuffleCloth,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import Units
from tests.garments import SOUBRETTE, chorus_skirt, garment

# The soubrette: waist 72, hip 96, hip depth 20, floor 104 to 106, step 70. Her plain skirt:
# ease 1.5, stretch 1 %, so a waistline of 735 / 1.01 = 727.72.
HALF = Lining(fullness=0.5)
LONG_STEP = replace(SOUBRETTE, step=1000.0)


def skirt(**changes: object) -> Spec:
    return garment(skirt=replace(Skirt(length=580), **changes))  # type: ignore[arg-type]


def ruffled(
    *, depth: float = 200, ratio: float = 2.6, lining: Lining = HALF, net: Cloth | None = None
) -> Spec:
    return garment(
        lining=lining,
        ruffle=Ruffle(depth=depth, gather_ratio=ratio),
        cloths=Cloths(ruffle=net or Cloth()),
    )


def cut_from(cloth: Cloth, **changes: object) -> Spec:
    return replace(skirt(**changes), cloths=Cloths(skirt=cloth))


S, C, N = Level.STOP, Level.CAUTION, Level.NOTE
CASES: list[tuple[str, Level, Spec, Spec]] = [
    # Side 1060 + 0.95 x heel less 1000 leaves less than 10 cm of skirt; less 900 leaves more.
    (
        "level-hem-out-of-reach", S,
        skirt(hem_above_floor=1000), skirt(hem_above_floor=900),
    ),
    (
        "hem-rises", N,
        replace(ruffled(), skirt=replace(ruffled().skirt, hem_above_floor=450)),
        ruffled(),
    ),
    # r = 727.72 / 8 pi = 28.96; 13.96 is left of it under an allowance of 15, 18.96 under 10.
    (
        "waist-radius-too-small", S,
        skirt(fullness=4, allowances=Allowances(waist=15)),
        skirt(fullness=4, allowances=Allowances(waist=10)),
    ),
    # r = 727.72 / 4 pi = 57.9 below 60; at F = 1.9 it is 60.96.
    ("waist-radius-small", C, skirt(fullness=2), skirt(fullness=1.9)),
    ("waist-gathers-bulky", C, skirt(gather_ratio=1.61), skirt(gather_ratio=1.6)),
    ("waist-stretch-high", C, skirt(waist_stretch=0.041), skirt(waist_stretch=0.04)),
    ("waist-ease-unusual", C, skirt(waist_ease=31), skirt(waist_ease=30)),
    ("band-unusual", C, skirt(band=51), skirt(band=50)),
    ("band-unusual", C, skirt(band=19), skirt(band=51, waist_finish=WaistFinish.FACING)),
    # F_min = (1000 - 727.72) / (2 pi 200) = 0.2167; barely up to 0.2467.
    ("hip-too-tight", S, skirt(fullness=0.216), skirt(fullness=0.218)),
    ("hip-barely", C, skirt(fullness=0.246), skirt(fullness=0.248)),
    ("hip-barely", C, skirt(fullness=0.218), skirt(fullness=0.216)),
    ("hip-does-not-pass", S, skirt(closure=Closure.NONE), skirt(closure=Closure.LEFT_SIDE)),
    # 735 G / 1.01 >= 1000 from G = 1.3741.
    (
        "hip-does-not-pass", S,
        skirt(waist_finish=WaistFinish.CASING, gather_ratio=1.37),
        skirt(waist_finish=WaistFinish.CASING, gather_ratio=1.38),
    ),
    # It opens at least 170; 0.7 x 240 = 168.
    ("opening-too-long", S, skirt(length=240), skirt(length=300)),
    # E10: a quarter circle needs about 249, past 180 + 60.
    (
        "opening-long", N,
        garment(
            wearer=replace(SOUBRETTE, hip_depth=180),
            skirt=Skirt(fullness=0.25, length=580, waist_ease=0, waist_stretch=0),
        ),
        garment(skirt=Skirt(fullness=0.25, length=580, waist_ease=0, waist_stretch=0)),
    ),
    ("openings-differ", N, garment(lining=HALF), garment(lining=Lining(fullness=1))),
    (
        "zip-too-long", C,
        garment(wearer=replace(SOUBRETTE, hip=1800), skirt=Skirt(length=900)),
        garment(skirt=Skirt(length=900)),
    ),
    ("longer-than-floor", S, skirt(length=1041), skirt(length=1039)),
    ("trodden-on", C, skirt(length=1021), skirt(length=1019)),
    # 0.12 x 1040 = 124.8 above the floor.
    ("long-hem", N, skirt(length=916), skirt(length=915)),
    # R = 115.82 + 580 = 695.82; 0.03 R / 1.015 = 20.57.
    (
        "hem-too-deep", C,
        skirt(allowances=Allowances(hem=20.7)),
        skirt(allowances=Allowances(hem=20.4)),
    ),
    # A single turn: 0.03 R / 2.03 = 10.28.
    (
        "hem-too-deep", C,
        skirt(hem=HemFinish.TURNED, allowances=Allowances(hem=10.4)),
        skirt(hem=HemFinish.TURNED, allowances=Allowances(hem=10.2)),
    ),
    # S_min = 2 x 1000 x 380 / 860 + 380 x 0.96 = 1248.5. Waist 500: 509.9 + 2 pi F 580, so
    # F 0.2026 walks and F 0.2370 climbs stairs (1373.4).
    (
        "sweep-too-small", S,
        garment(wearer=replace(LONG_STEP, waist=500), skirt=Skirt(length=580, fullness=0.202)),
        garment(wearer=replace(LONG_STEP, waist=500), skirt=Skirt(length=580, fullness=0.204)),
    ),
    (
        "sweep-tight", C,
        garment(wearer=replace(LONG_STEP, waist=500), skirt=Skirt(length=580, fullness=0.236)),
        garment(wearer=replace(LONG_STEP, waist=500), skirt=Skirt(length=580, fullness=0.238)),
    ),
    ("lining-wider", C, garment(lining=Lining(fullness=1.1)), garment(lining=HALF)),
    (
        "lining-length", C,
        garment(lining=Lining(fullness=0.5, shorter=51)),
        garment(lining=Lining(fullness=0.5, shorter=50)),
    ),
    (
        "lining-length", C,
        garment(lining=Lining(fullness=0.5, shorter=19)),
        garment(lining=Lining(fullness=0.5, shorter=20)),
    ),
    (
        "lining-too-short", S,
        garment(skirt=Skirt(length=129), lining=HALF),
        garment(skirt=Skirt(length=131), lining=HALF),
    ),
    # The lining is 550 long; 10 are below the ruffle.
    ("ruffle-too-deep", S, ruffled(depth=521), ruffled(depth=519)),
    ("ruffle-above-hip", C, ruffled(depth=341), ruffled(depth=339)),
    (
        "ruffle-peeps-out", C,
        ruffled(lining=Lining(fullness=0.5, shorter=14)),
        ruffled(lining=Lining(fullness=0.5, shorter=16)),
    ),
    # The line: 727.72 + pi 340 = 1795.9; the skirt at 540: 727.72 + 2 pi 540 = 4120.6, and 1.3
    # times that holds 5356.8: a ratio of 2.983.
    ("ruffle-not-held", C, ruffled(ratio=2.99), ruffled(ratio=2.98)),
    ("ruffle-depth-unusual", C, ruffled(depth=119), ruffled(depth=121)),
    ("ruffle-depth-unusual", C, ruffled(depth=351), ruffled(depth=349)),
    # The lining opens some 207: 320 deep starts at 220, 280 deep at 260.
    ("ruffle-open", N, ruffled(depth=320), ruffled(depth=280)),
    ("ruffle-ratio-unusual", C, ruffled(ratio=3.51), ruffled(ratio=3.5)),
    ("ruffle-ratio-unusual", C, ruffled(ratio=1.99), ruffled(ratio=2.0)),
    ("cloth-too-narrow", S, ruffled(net=Cloth(width=40)), ruffled(net=Cloth(width=60))),
    # In 24 panels of 15 degrees: 707.8 sin 15 and its allowances, over 200.
    ("cloth-too-narrow", S, cut_from(Cloth(width=200)), cut_from(Cloth(width=300))),
    # 1795.9 x 2.6 = 4669 flat: 60 strips of 77.8.
    ("many-strips", C, ruffled(net=Cloth(width=117)), ruffled(net=Cloth(width=119))),
    # Two circles of lining: 727.72 + 4 pi 340 = 5000.3, 3 times that is 15 001.
    (
        "long-gathering", C,
        ruffled(ratio=3.0, lining=Lining(fullness=2)),
        ruffled(ratio=2.99, lining=Lining(fullness=2)),
    ),
    # Four strips: 4669 / 4 = 1167. Against 7 seams 1795.9 / (2 x 28) = 32.1, against 5: 44.9.
    (
        "join-near-seam", N,
        ruffled(lining=Lining(fullness=0.5, panels=7)),
        ruffled(lining=Lining(fullness=0.5, panels=5)),
    ),
    # Rc = 707.82 and 15 x 707.82 / 683.82 = 15.53 below the seam: 723.35 between selvages.
    ("panel-split", C, cut_from(Cloth(width=743)), cut_from(Cloth(width=744))),
    ("panel-split", C, skirt(panels=1), skirt(panels=2)),
    # More than 100 degrees of panel: 360 F / n.
    ("half-saves-paper", N, skirt(fullness=0.2778), skirt(fullness=0.2777)),
    ("half-saves-paper", N, skirt(panels=3), skirt(panels=4)),
    (
        "half-saves-paper", N,
        cut_from(Cloth(width=1400)), cut_from(Cloth(width=1400, fold=True)),
    ),
    (
        "half-drawn", N,
        cut_from(Cloth(width=1400, fold=True), panels=3),
        cut_from(Cloth(width=1400, fold=True), panels=2),
    ),
    # 28.96 less 10 is 18.96: no room for sides of 20 in the waist hole.
    (
        "cannot-be-drawn", S,
        skirt(fullness=4, allowances=Allowances(side=20)),
        skirt(fullness=4, allowances=Allowances(side=15)),
    ),
]  # fmt: skip


def said(spec: Spec, code: str) -> list[Finding]:
    return [finding for finding in draft(spec).findings if finding.code == code]


@pytest.mark.parametrize(
    ("code", "level", "due", "not_due"), CASES, ids=[f"{k}-{c[0]}" for k, c in enumerate(CASES)]
)
def test_a_remark_is_made_when_it_is_due_and_not_before(
    code: str, level: Level, due: Spec, not_due: Spec
) -> None:
    found = said(due, code)
    assert found and {finding.level for finding in found} == {level}
    assert all(f.what.endswith(".") and f.do.endswith(".") for f in found)
    assert not said(not_due, code)


def test_every_remark_of_the_advice_is_tried_here() -> None:
    known = set(re.findall(r'_(note|caution|stop)\(\s*"([a-z-]+)"', inspect.getsource(advice)))
    words = {Level.NOTE: "note", Level.CAUTION: "caution", Level.STOP: "stop"}
    assert known == {(words[level], code) for code, level, _, _ in CASES}


@pytest.mark.parametrize(
    ("spec", "code", "words"),
    [
        # 979.05: 727.72 + 0.2 x 2 pi 200; F_min 0.2167, rounded up.
        (skirt(fullness=0.2), "hip-too-tight", ("97.9 cm", "96.0 cm", "4.0 cm", "0.22 of")),
        # 735 x 1.3 / 1.01 = 946.04; 1000 x 1.01 / 735 = 1.3741, rounded up.
        (
            skirt(waist_finish=WaistFinish.CASING, gather_ratio=1.3),
            "hip-does-not-pass",
            ("94.6 cm", "100.0 cm", "1.38 to 1"),
        ),
        (
            garment(skirt=Skirt(length=580, waist_ease=0, waist_stretch=0), lining=HALF),
            "openings-differ",
            ("18.3 cm", "20.9 cm"),  # E10: 183.1, and 209.48 for the half circle
        ),
        # 20.57, shown rounded down.
        (skirt(allowances=Allowances(hem=30)), "hem-too-deep", ("3.0", "2.05 cm")),
        (skirt(length=1030), "trodden-on", ("1.0 cm",)),
        (skirt(length=1100), "longer-than-floor", ("110.0 cm", "104.0 cm", "102.0 cm")),
        (
            ruffled(ratio=3.2),
            "ruffle-not-held",
            ("574.7 cm", "412.1 cm", "3.0 to 1"),  # 1795.9 x 3.2; 4120.6
        ),
        (
            garment(wearer=replace(LONG_STEP, waist=500), skirt=Skirt(length=580, fullness=0.2)),
            "sweep-too-small",
            # 509.9 + 728.8; (1373.4 - 509.9) / (2 pi 580) = 0.2370.
            ("123.9 cm", "100.0 cm", "124.9 cm", "0.24 of"),
        ),
        # An edge on the grain: 3 and 4 panels are as wide as 2; of 5, 707.8 sin 73.3 + 15.5 = 693;
        # of 6, 707.8 sin 61.3 + 15.5 = 636.
        (
            cut_from(Cloth(width=700)), "panel-split",
            ("Cut in 2 panels, the skirt needs", "72.3 cm", "68.0 cm", "it is cut in 6.", "wider"),
        ),
        # Half a circle always leaves room; no width of cloth would help a whole one.
        (
            skirt(panels=1), "panel-split",
            ("Cut in one, the skirt", "no room for its seam allowances", "it is cut in 2.",
             "Sew the seams that this adds."),
        ),
        (skirt(panels=3), "half-saves-paper", ("skirt panel", "fold = true", "[cloth.skirt]")),
        (
            garment(wearer=replace(SOUBRETTE, hip=1800), skirt=Skirt(length=900)),
            "zip-too-long", ("up to 60.0 cm",),
        ),
        # An open ruffle cannot be shifted round: 220 below the waist its line is 1418.9, so it
        # is 3689 flat in 3 strips, and their joins meet the seams of 3 panels.
        (
            ruffled(depth=320, lining=Lining(fullness=0.5, panels=3)), "join-near-seam",
            ("0.0 cm", "Make one strip longer"),
        ),
        (
            ruffled(lining=Lining(fullness=0.5, panels=7)), "join-near-seam",
            ("3.2 cm", "Shift the ring"),
        ),
        (skirt(fullness=2), "waist-radius-small", ("5.8 cm", "hard")),
        (skirt(fullness=3), "waist-radius-small", ("3.9 cm", "very hard")),
        (
            garment(skirt=Skirt(length=120), lining=HALF),
            "lining-too-short",
            ("9.0 cm", "10.0 cm"),
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_the_remark_tells_the_numbers(spec: Spec, code: str, words: tuple[str, ...]) -> None:
    (found,) = list(said(spec, code))[:1]
    text = f"{found.what} {found.do}".replace("\u00a0", " ")
    for word in words:
        assert word in text


def test_a_sheet_in_inches_is_answered_in_inches() -> None:
    (found,) = said(replace(skirt(length=1100), units=Units.INCH), "longer-than-floor")
    # 1100 / 25.4 = 43.31 and 1040 / 25.4 = 40.94, to the nearest eighth.
    said_plainly = "".join(found.what.split())
    assert "43¼in" in said_plainly and "41in" in said_plainly
    assert "cm" not in found.what + found.do


def test_a_ratio_at_the_edge_of_the_habit_is_no_cause_for_remark_at_any_length() -> None:
    for long in range(450, 900, 7):
        spec = garment(
            skirt=Skirt(length=float(long)),
            lining=HALF,
            ruffle=Ruffle(cloth=RuffleCloth.STIFF_NET, depth=200, gather_ratio=3.5),
        )
        assert not said(spec, "ruffle-ratio-unusual"), long


def test_the_chorus_skirt_has_nothing_worse_than_a_note() -> None:
    found = draft(chorus_skirt()).findings
    assert {f.level for f in found} == {N}
    assert [f.code for f in found] == ["openings-differ", "half-saves-paper", "half-saves-paper"]


def test_a_panel_on_a_fold_is_folded_where_its_cloth_can_be() -> None:
    # Half a circle with its diameter on the selvage lies on a crosswise fold: no remark. Its
    # lining of half a circle in two quarters has its middles on the bias.
    cloth = Cloth(width=1400, fold=True)
    spec = garment(lining=Lining(fullness=0.5, panels=2))
    found = said(replace(spec, cloths=Cloths(skirt=cloth, lining=cloth)), "half-drawn")
    assert [finding.what.split(" panel")[0] for finding in found] == ["The lining"]


def test_a_childs_ruffle_may_be_shallow() -> None:
    child = replace(ruffled(depth=90), wearer=replace(SOUBRETTE, figure=Figure.CHILD))
    assert not said(child, "ruffle-depth-unusual")


def test_a_silk_lining_hangs_and_hems_as_its_own_cloth() -> None:
    def linings_hem(kind: str) -> float:
        cloths = Cloths(lining=Cloth(kind=kind))
        pattern = draft(replace(garment(lining=HALF), cloths=cloths))
        assert "hem-too-deep" not in {finding.code for finding in pattern.findings}
        lining = next(piece for piece in pattern.pieces if piece.name == "lining panel")
        return edge_named(lining, "hem").allowance

    # R_l = 231.6 + 550 = 781.6: taffeta eases 1.5 %, 0.015 R / 1.0075 = 11.64 under 12.
    assert linings_hem("acetate taffeta") == 11.5
    assert linings_hem("cotton lawn") == 12


def test_a_hem_that_the_sheet_leaves_out_is_what_its_curve_takes() -> None:
    def cut(hem: HemFinish, allowance: float | None = None) -> float:
        spec = skirt(hem=hem, allowances=Allowances(hem=allowance))
        return edge_named(draft(spec).pieces[0], "hem").allowance

    # R = 695.82: 20.57 twice turned, 10.28 for a single turn.
    assert [cut(hem) for hem in HemFinish] == [
        {HemFinish.NARROW: 12, HemFinish.TURNED: 10, HemFinish.ROLLED: 4}[hem] for hem in HemFinish
    ]
    # What the sheet gives is cut as it is given; the advice says if it is too deep.
    assert cut(HemFinish.TURNED, 15) == 15
    # A lining is hemmed narrowly whatever its skirt's hem is.
    lined = draft(replace(garment(lining=HALF), skirt=Skirt(length=580, hem=HemFinish.ROLLED)))
    hems = {piece.name: edge_named(piece, "hem").allowance for piece in lined.pieces[:2]}
    assert hems == {"skirt panel": 4, "lining panel": 12}


@pytest.mark.parametrize("hem", HemFinish)
@pytest.mark.parametrize("kind", ["", "acetate taffeta", "wool flannel", "georgette"])
def test_a_hem_that_the_sheet_leaves_out_is_never_too_deep(hem: HemFinish, kind: str) -> None:
    # A taffeta circle shorter than 42 cm takes no turn of even 4 mm; that one is said.
    for length in range(450, 1001, 50):
        spec = skirt(hem=hem, length=float(length))
        spec = replace(spec, lining=HALF, cloths=Cloths(skirt=Cloth(kind=kind)))
        found = draft(spec)
        assert not said(spec, "hem-too-deep"), length
        # Nor is it shallower than it must be: half a millimetre more would be too deep.
        allowance = edge_named(found.pieces[0], "hem").allowance
        more = replace(spec.skirt, allowances=Allowances(hem=allowance + 0.5))
        usual = {HemFinish.NARROW: 12, HemFinish.TURNED: 15, HemFinish.ROLLED: 4}[hem]
        assert allowance == usual or said(replace(spec, skirt=more), "hem-too-deep")


def test_a_curve_that_takes_no_hem_at_all_is_still_said() -> None:
    # R = 115.82 + 300: 0.015 R / 2.015 = 3.1, and nothing under 4 can be turned.
    taffeta = cut_from(Cloth(kind="acetate taffeta"), hem=HemFinish.TURNED, length=300)
    (found,) = said(taffeta, "hem-too-deep")
    told = found.what.replace("\u00a0", " ")
    assert "allowance of 0.40 cm" in told and "0.30 cm at most" in told


def test_zips_are_sold_by_the_inch_where_the_sheet_is_in_inches() -> None:
    long = garment(wearer=replace(SOUBRETTE, hip=1800), skirt=Skirt(length=900), units=Units.INCH)
    (found,) = said(long, "zip-too-long")
    assert "24 in" in found.what.replace("\u00a0", " ")
    # With its band this one opens 60.5 cm: more than any zip in centimetres, less than 24 in.
    nearly = replace(long, wearer=replace(SOUBRETTE, hip=1725))
    assert not said(nearly, "zip-too-long")
    assert said(replace(nearly, units=Units.CM), "zip-too-long")


def test_stops_are_said_first() -> None:
    found = draft(skirt(closure=Closure.NONE, fullness=3, length=1030)).findings
    assert found == by_weight(found)
    assert found[0].level is Level.STOP and stops(found) == (found[0],)
    assert [f.level for f in found][-1] is not Level.STOP


def test_a_gathered_waist_opens_to_the_hip() -> None:
    spec = skirt(gather_ratio=1.2, fullness=2)
    assert draft(spec).figures.skirt.opening >= SOUBRETTE.hip_depth
