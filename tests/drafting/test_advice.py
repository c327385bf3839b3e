"""What a cutter says over your shoulder: every remark, when it is due and when it is not."""

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest

from drafting import advice
from drafting.findings import Finding, Level, by_weight, stops
from drafting.pattern import draft
from drafting.piece import edge_named
from drafting.spec import (
    Allowances,
    BandShape,
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Figure,
    Flounce,
    Godets,
    Grain,
    HemFinish,
    LevelAt,
    Lining,
    Owned,
    Ruffle,
    RuffleCloth,
    Skirt,
    Spec,
    Tiers,
    WaistFinish,
)
from drafting.units import Units
from tests.garments import SOUBRETTE, chorus_skirt, garment, piece_named

# The soubrette: waist 72, hip 96, hip depth 20, floor 104 to 106, step 70. Her plain skirt:
# ease 1.5, stretch 1 %, so a waistline of 735 / 1.01 = 727.72.
HALF = Lining(fullness=0.5)

# What each finish takes below the hem: a narrow hem turns 6 twice, a facing is seamed on with
# 10, a braid with 8, a binding goes over the raw edge.
USUAL_HEMS = {
    HemFinish.NARROW: 12,
    HemFinish.TURNED: 15,
    HemFinish.ROLLED: 4,
    HemFinish.FACED: 10,
    HemFinish.BIAS_FACED: 10,
    HemFinish.BRAID: 8,
    HemFinish.BOUND: 0,
}
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


def dropped(**changes: object) -> Spec:
    """Return a skirt on a seam 40 below the waist, with a band shaped to the body."""
    return skirt(**{"drop": 40, "band": 45, "band_shape": BandShape.CONTOUR, **changes})


def gored(gores: int) -> Spec:
    return skirt(cut=CutKind.GORED, gores=gores, grain=Grain.CENTRE)


def with_godets(depth: float) -> Spec:
    return skirt(
        cut=CutKind.GORED, waist_ease=0, waist_stretch=0, godets=Godets(depth=depth, angle=0.5)
    )


def flounced(depth: float, ratio: float = 2.0) -> Spec:
    return skirt(flounce=Flounce(depth=depth, ratio=ratio))


def tiered(*, length: float = 580, first: float = 2.0, yoke: float | None = None) -> Spec:
    tiers = Tiers(ratios=(first, 1.6, 1.6), yoke=yoke)
    return skirt(cut=CutKind.TIERED, length=length, tiers=tiers)


def tiered_ruffle(*, doubled: bool, tiers: int = 2) -> Spec:
    ruffle = Ruffle(depth=200, gather_ratio=2.2, tiers=tiers, doubled=doubled)
    return garment(lining=HALF, ruffle=ruffle)


def gored_lining(fullness: float, *, vent: float | None = None) -> Spec:
    lining = Lining(cut=CutKind.GORED, fullness=fullness, gores=6, shaped=True, vent=vent)
    return garment(skirt=Skirt(length=800), lining=lining)


def owned(waist: float = 740) -> Spec:
    return replace(
        garment(lining=HALF),
        skirt=Skirt(length=580, owned=Owned(waist=waist, length=580, sweep=4000)),
    )


S, C, N = Level.STOP, Level.CAUTION, Level.NOTE
CASES: list[tuple[str, Level, Spec, Spec]] = [
    # Side 1060 + 0.95 x heel less 1000 leaves less than 10 cm of skirt; less 900 leaves more.
    (
        "level-hem-out-of-reach", S,
        skirt(hem_above_floor=1000), skirt(hem_above_floor=900),
    ),
    (
        "hem-rises", N, ruffled(), replace(ruffled(), ruffle=None),
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
    # Narrow hem 12 and spare 6: Rc = 713.82 and 15 x 713.82 / 677.82 = 15.80 below the seam:
    # 729.62 between selvages of 10.
    ("panel-split", C, cut_from(Cloth(width=749)), cut_from(Cloth(width=750))),
    ("panel-split", C, skirt(panels=1), skirt(panels=2)),
    # Six panels, their middle on the grain: 2 x 713.82 sin(30 + 1.2042) = 739.6, and a little
    # more where the hem's allowance turns the corner; 760 - 20.
    (
        "corner-pieced", C,
        cut_from(Cloth(width=680), panels=6, grain=Grain.CENTRE),
        cut_from(Cloth(width=680, piecing=False), panels=6, grain=Grain.CENTRE),
    ),
    (
        "corner-pieced", C,
        cut_from(Cloth(width=680), panels=6, grain=Grain.CENTRE),
        cut_from(Cloth(width=760), panels=6, grain=Grain.CENTRE),
    ),
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
    # --- dropped waists ---
    ("straight-band-dropped", C, skirt(drop=40), dropped()),
    ("band-unusual", C, dropped(band=39), dropped(band=40)),
    ("band-unusual", C, dropped(band=61), dropped(band=60)),
    ("waist-dropped", N, dropped(), skirt()),
    ("waist-dropped", N, dropped(), dropped(hem_above_floor=450)),
    # The floor lies 1040 in front below the natural waist, wherever the seam is.
    ("longer-than-floor", S, dropped(length=1041), dropped(length=1039)),
    # --- the hem's cloth ---
    ("hang", N, cut_from(Cloth(kind="soft net")), cut_from(Cloth(kind="cotton sateen"))),
    # r 115.82, R 695.82: full bias 7 x 316 376 / 411 909 = 5.377. With its middle on the grain
    # a gore of 360 / 14 reaches 12.86 from it, 5.377 sin^2 25.71 = 1.01; of 360 / 15, 12 and 0.89.
    ("bias-drop", N, gored(14), gored(15)),
    ("bias-drop", N, skirt(), skirt(cut=CutKind.GATHERED, gather_ratio=1.6)),
    ("bias-drop", N, cut_from(Cloth(kind="cotton lawn")), cut_from(Cloth(kind="wool jersey"))),
    # 8 x 86.9 = 695.2, 8 x 87 = 696.
    (
        "braid-too-wide", C,
        skirt(hem=HemFinish.BRAID, braid=87), skirt(hem=HemFinish.BRAID, braid=86.9),
    ),
    ("braid-too-wide", C, skirt(hem=HemFinish.BRAID, braid=87), skirt(braid=87)),
    # --- godets, flounces, tiers ---
    # E10 opens 183.1 of 580.
    ("godet-meets-opening", S, with_godets(397), with_godets(396)),
    ("godet-above-hip", C, with_godets(381), with_godets(380)),
    ("flounce-above-hip", C, flounced(381), flounced(380)),
    # D / (k - 1): 100 / 1.7 = 58.8, 100 / 1.6 = 62.5.
    ("flounce-tight", C, flounced(100, 2.7), flounced(100, 2.6)),
    ("flounce-rings", N, flounced(100), skirt()),
    (
        "bound-allowance", N,
        skirt(hem=HemFinish.BOUND, allowances=Allowances(hem=10)), skirt(hem=HemFinish.BOUND),
    ),
    # The waist is 72; a bodice may be 1 cm less and 6 cm more.
    (
        "bodice-waist", C,
        skirt(waist_finish=WaistFinish.BODICE, bodice_waist=781),
        skirt(waist_finish=WaistFinish.BODICE, bodice_waist=780),
    ),
    # 550 of lining less its opening and 3 cm.
    (
        "vent-shortened", C,
        garment(lining=Lining(fullness=0.5, vent=400)),
        garment(lining=Lining(fullness=0.5, vent=200)),
    ),
    # A godet of 300 and 90 degrees is 424 across and its allowances: on 420 it does not fit.
    (
        "piece-too-wide", S,
        replace(
            skirt(cut=CutKind.GORED, gores=12, length=600, grain=Grain.CENTRE,
                  godets=Godets(depth=300, angle=math.pi / 2)),
            cloths=Cloths(skirt=Cloth(width=440)),
        ),
        replace(
            skirt(cut=CutKind.GORED, gores=12, length=600, grain=Grain.CENTRE,
                  godets=Godets(depth=300, angle=math.pi / 3)),
            cloths=Cloths(skirt=Cloth(width=440)),
        ),
    ),
    (
        "levelled-at-hem", C,
        skirt(cut=CutKind.GATHERED, gather_ratio=2.2, hem_above_floor=450, level=LevelAt.WAIST),
        skirt(hem_above_floor=450, level=LevelAt.WAIST),
    ),
    # Panels of 60 degrees with an edge on the grain: the other edge drops by three quarters.
    ("bias-not-trimmed", C, skirt(trim_bias=True, panels=6), skirt(trim_bias=True, panels=4)),
    # L x 0.25 / (1.25^3 - 1) = 0.2623 L: 29.9 of 114 below the hip, 30.2 of 115.
    ("tiers-too-shallow", S, tiered(length=314), tiered(length=315)),
    ("yoke-above-hip", C, tiered(yoke=199), tiered(yoke=200)),
    # The yoke ends 1000 wide at the hip: 1000 x G (1 + 1.6 + 2.56), and 5.16 x 2.91 = 15.02.
    ("long-gathering", C, tiered(first=2.91), tiered(first=2.9)),
    ("tiers-single", C, tiered_ruffle(doubled=True), tiered_ruffle(doubled=False)),
    ("tiers-single", C, tiered_ruffle(doubled=True), tiered_ruffle(doubled=True, tiers=1)),
    # --- straight lengths; 735 G / 1.01 is 1000 from G = 1.3741 ---
    (
        "hip-too-tight", S,
        skirt(cut=CutKind.GATHERED, gather_ratio=1.374),
        skirt(cut=CutKind.GATHERED, gather_ratio=1.375),
    ),
    # --- gored linings ---
    # 770 below the waist a step needs 2 x 700 x 570 / 860 + (380 - 30 x 170 / 180) x 0.96 =
    # 1265.5, and on stairs 1392.1; shaped gores are 1000.5 at the hip and 2 pi F 570 more.
    ("vent", N, gored_lining(0.109), gored_lining(0.110)),
    ("sweep-tight", C, gored_lining(0.109, vent=0), gored_lining(0.109)),
    ("sweep-too-small", S, gored_lining(0.05, vent=0), gored_lining(0.109, vent=0)),
    # The knee is 583 below the waist; a vent that ends below it, 187 up, frees no step.
    ("sweep-too-small", S, gored_lining(0.05, vent=186), gored_lining(0.05, vent=187)),
    # --- a skirt already sewn; the waist is 720 and may have 40 of ease ---
    ("owned-skirt", N, owned(), garment(lining=HALF)),
    ("owned-waist", C, owned(waist=761), owned(waist=760)),
    ("owned-waist", C, owned(waist=719), owned(waist=720)),
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
    sources = sorted(Path(advice.__file__).parent.glob("advice*.py"))
    assert len(sources) > 1
    known = {
        made
        for source in sources
        for made in re.findall(
            r'\b(note|caution|stop)\(\s*"([a-z-]+)"', source.read_text(encoding="utf-8")
        )
    }
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
        # An edge on the grain: 3 and 4 panels are as wide as 2; of 5, 713.8 sin 73.3 + 15.8 = 699;
        # of 6, 713.8 sin 61.3 + 15.8 = 642.
        (
            cut_from(Cloth(width=700)), "panel-split",
            ("Cut in 2 panels, the skirt needs", "73.0 cm", "68.0 cm", "it is cut in 6.", "wider"),
        ),
        # Rc = 695.82 + 12 + 6 = 713.8, and 2 x 713.8 sin(30 + asin(15 / 713.8)) = 739.6; the seam
        # lies 330 - 15.5 aside, the hem's corner 347.9.
        (
            cut_from(Cloth(width=680), panels=6, grain=Grain.CENTRE), "corner-pieced",
            ("needs cloth 74.0 cm", "has 66.0 cm", "corners 3.3 cm wide are pieced on",
             "less cloth than 7 panels", "piecing = false under [cloth.skirt]", "wider cloth"),
        ),
        (
            cut_from(Cloth(width=700), panels=6, grain=Grain.CENTRE), "corner-pieced",
            ("corners 3.0 cm wide",),
        ),
        # Twelve narrow panels close up head to toe where eight do not.
        (
            cut_from(Cloth(width=660), panels=6, grain=Grain.CENTRE), "panel-split",
            ("64.0 cm", "it is cut in 12, which takes about", "less cloth than 8.", "wider"),
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
        (skirt(drop=40), "straight-band-dropped", ("4.0 cm below", 'band_shape = "contour"')),
        (dropped(), "waist-dropped", ("4.0 cm below", "hangs 54.0 cm", "together 58.0 cm")),
        # Whatever its hem does in front and behind, at the side it hangs 580 less 40.
        (
            dropped(level=LevelAt.WAIST), "waist-dropped",
            ("4.0 cm below", "hangs 54.0 cm", "together 58.0 cm"),
        ),
        # Both counted from the natural waist, as on the sheet.
        (dropped(length=1100), "longer-than-floor", ("110.0 cm long", "104.0 cm", "102.0 cm")),
        (dropped(band=65), "band-unusual", ("6.5 cm", "4.0 cm to 6.0 cm")),
        (cut_from(Cloth(kind="soft net")), "hang", ("skirt's cloth", "24 hours")),
        # 5.377, shown rounded down; 6 spare.
        (skirt(), "bias-drop", ("about 0.5 cm", "24 hours", "0.6 cm is spare below the hem")),
        # Chiffon: 40 / 7 of that is 30.7, hung for three days.
        (
            cut_from(Cloth(kind="silk chiffon")), "bias-drop",
            ("about 3.1 cm", "72 hours", "3.1 cm is spare below the hem"),
        ),
        (
            skirt(allowances=Allowances(hem=12)), "bias-drop",
            ("about 0.5 cm", "leave 0.5 cm to spare below the hem"),
        ),
        # 695.8 / 8 = 86.98, rounded down.
        (
            skirt(hem=HemFinish.BRAID, braid=100), "braid-too-wide",
            ("10.0 cm wide", "80.0 cm", "69.55 cm", "8.65 cm or less"),
        ),
        # 580 - 450; 580 less the hip's 200.
        (
            with_godets(450), "godet-meets-opening",
            ("45.0 cm deep", "begin 13.0 cm", "ends at 18.3 cm", "at most 38.0 cm deep"),
        ),
        (with_godets(390), "godet-above-hip", ("39.0 cm", "19.0 cm", "20.0 cm")),
        (flounced(400), "flounce-above-hip", ("begins 18.0 cm", "20.0 cm")),
        (flounced(100, 2.7), "flounce-tight", ("5.9 cm",)),
        # The edge at 480: 727.7 + 2 pi 480 = 3743.7; a ring gives 2 pi 100 - 30 = 598.3.
        (flounced(100), "flounce-rings", ("374.4 cm of edge", "7 rings")),
        # 727.7 + 2 pi 180 = 1858.7, and 2 pi 400 = 2513.
        (
            replace(flounced(400), cloths=Cloths(skirt=Cloth(width=1800))),
            "flounce-rings",
            ("185.9 cm of edge", "1 ring,"),
        ),
        # On 138 cm of cloth one ring, 162 across, does not fit, nor two of 149 each.
        (flounced(400), "flounce-rings", ("185.9 cm of edge", "3 rings,")),
        (tiered(length=300), "tiers-too-shallow", ("20.0 cm", "10.0 cm", "3 tiers")),
        (tiered(yoke=150), "yoke-above-hip", ("15.0 cm", "20.0 cm")),
        # 3000 (1 + 1.6 + 2.56).
        (tiered(first=3), "long-gathering", ("1548.0 cm", "ratios of the tiers")),
        (tiered_ruffle(doubled=True), "tiers-single", ("of 2 tiers", "Take doubled out")),
        # 1000.5 + 2 pi 0.109 x 570; the vent reaches 60 above the knee at 583: 770 - 523.
        (gored_lining(0.109), "vent", ("139.1 cm", "70.0 cm", "126.6 cm", "24.7 cm")),
        # (1392.1 - 1000) / (2 pi 570) = 0.1095.
        (gored_lining(0.109, vent=0), "sweep-tight", ("139.1 cm", "at least 0.11 of")),
        (
            owned(), "owned-skirt",
            ("58.0 cm", "waist seam of 74.0 cm", "sweep of 400.0 cm"),
        ),
        (owned(waist=800), "owned-waist", ("80.0 cm", "72.0 cm")),
        # 735 x 1.3 / 1.01.
        (
            skirt(cut=CutKind.GATHERED, gather_ratio=1.3), "hip-too-tight",
            ("94.6 cm", "96.0 cm", "4.0 cm", "gather_ratio"),
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
    # What is said of both layers is said twice.
    assert [f.code for f in found] == [
        "openings-differ",
        "hem-rises",
        "bias-drop",
        "bias-drop",
        "half-saves-paper",
        "half-saves-paper",
    ]


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
        lining = piece_named(pattern.pieces, "lining panel")
        held = pattern.figures.lining
        assert held is not None and held.hem_allowance is not None
        # What is spare for levelling lies below it.
        assert edge_named(lining, "hem").allowance >= held.hem_allowance
        return held.hem_allowance

    # R_l = 231.6 + 550 = 781.6: taffeta eases 1.5 %, 0.015 R / 1.0075 = 11.64 under 12.
    assert linings_hem("acetate taffeta") == 11.5
    assert linings_hem("cotton lawn") == 12


def test_a_hem_that_the_sheet_leaves_out_is_what_its_curve_takes() -> None:
    def cut(hem: HemFinish, allowance: float | None = None) -> float:
        spec = skirt(hem=hem, allowances=Allowances(hem=allowance, spare=0))
        return edge_named(piece_named(draft(spec).pieces, "skirt panel"), "hem").allowance

    # R = 695.82: 20.57 twice turned, 10.28 for a single turn.
    assert {hem: cut(hem) for hem in HemFinish} == {**USUAL_HEMS, HemFinish.TURNED: 10}
    # What the sheet gives is cut as it is given; the advice says if it is too deep.
    assert cut(HemFinish.TURNED, 15) == 15
    # A lining is hemmed narrowly whatever its skirt's hem is.
    rolled = Skirt(length=580, hem=HemFinish.ROLLED, allowances=Allowances(spare=0))
    found = draft(garment(lining=HALF, skirt=rolled)).figures
    assert found.lining is not None
    assert (found.skirt.hem_allowance, found.lining.hem_allowance) == (4, 12)


@pytest.mark.parametrize("hem", HemFinish)
@pytest.mark.parametrize("kind", ["", "acetate taffeta", "wool flannel", "georgette"])
def test_a_hem_that_the_sheet_leaves_out_is_never_too_deep(hem: HemFinish, kind: str) -> None:
    # A taffeta circle shorter than 42 cm takes no turn of even 4 mm; that one is said.
    for length in range(450, 1001, 50):
        spec = skirt(hem=hem, length=float(length), allowances=Allowances(spare=0))
        spec = replace(spec, lining=HALF, cloths=Cloths(skirt=Cloth(kind=kind)))
        found = draft(spec)
        assert not said(spec, "hem-too-deep"), length
        # Nor is it shallower than it must be: half a millimetre more would be too deep.
        allowance = edge_named(piece_named(found.pieces, "skirt panel"), "hem").allowance
        more = replace(spec.skirt, allowances=Allowances(hem=allowance + 0.5))
        assert allowance == USUAL_HEMS[hem] or said(replace(spec, skirt=more), "hem-too-deep")


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
