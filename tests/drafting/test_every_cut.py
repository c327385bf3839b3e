"""Laws that hold for every cut, every body and every choice: what is drawn can be sewn."""

import math
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drafting.findings import stops
from drafting.geometry import flattened, holds
from drafting.half_scale import halved
from drafting.pattern import draft
from drafting.piece import EdgeKind, Piece, cutting_line, stitching_line
from drafting.spec import (
    Allowances,
    BandShape,
    Closure,
    Cloth,
    Cloths,
    CutKind,
    Flounce,
    Godets,
    Grain,
    HemFinish,
    LevelAt,
    Lining,
    Owned,
    Ruffle,
    SeamFinish,
    Skirt,
    Spec,
    Tiers,
    WaistFinish,
    Wearer,
)
from tests import tape
from tests.drawn import drawn
from tests.garments import PAGE_BOY, SOUBRETTE, garment

KINDS = ("", "poplin", "cotton sateen", "wool crepe", "viscose", "georgette", "net")


@st.composite
def bodies(draw: st.DrawFn) -> Wearer:
    """Draw a body that a sheet would take, its floor lengths uneven by up to 5 cm."""
    waist = draw(st.floats(560, 1250))
    hip = waist + draw(st.floats(60, 350))
    side = draw(st.floats(950, 1150))
    uneven = st.floats(-25, 25)
    left, right = side + draw(uneven), side + draw(uneven)
    return replace(
        SOUBRETTE,
        waist=waist,
        hip=hip,
        hip_depth=draw(st.floats(170, 240)),
        floor_front=side + draw(uneven),
        floor_side=(left + right) / 2,
        floor_left=left,
        floor_right=right,
        floor_back=side + draw(uneven),
        heel=draw(st.sampled_from([0.0, 40.0])),
    )


@st.composite
def skirts(draw: st.DrawFn, wearer: Wearer) -> Skirt:
    """Draw a skirt of any cut, with whatever that cut may have."""
    cut = draw(st.sampled_from(CutKind))
    level = draw(st.sampled_from([None, None, LevelAt.HEM, LevelAt.WAIST]))
    finish = draw(st.sampled_from(WaistFinish))
    drop = draw(st.sampled_from([0.0, 0.0, 60.0]))
    contour = drop > 0 and draw(st.booleans())
    pulled = finish is WaistFinish.CASING
    ratio = draw(st.floats(1.0, 1.6))
    if cut is CutKind.GATHERED:
        ratio = draw(st.floats(1.6, 3.0))
    elif pulled:
        ratio = max(ratio, 1.02 * (wearer.hip + 40) / (wearer.waist + 15))
    return Skirt(
        cut=cut,
        fullness=draw(st.floats(0.3, 3.0) if cut is CutKind.CIRCLE else st.floats(0.15, 0.8)),
        length=draw(st.floats(520, 900)),
        panels=draw(st.sampled_from([None, 1, 2, 3, 4, 6])),
        gores=draw(st.integers(4, 12)),
        shaped=draw(st.booleans()),
        godets=draw(st.sampled_from([None, Godets(depth=180, angle=math.radians(50))]))
        if cut is CutKind.GORED
        else None,
        hem_above_floor=draw(st.floats(300, 480)) if level is not None else None,
        level=level or LevelAt.HEM,
        waist_stretch=draw(st.sampled_from([0.0, 0.01, None])),
        gather_ratio=ratio,
        full_widths=draw(st.booleans()),
        drop=drop,
        grain=draw(st.sampled_from(Grain)),
        closure=draw(st.sampled_from([Closure.CENTRE_BACK, Closure.LEFT_SIDE])),
        waist_finish=finish,
        bodice_waist=wearer.waist + 20 if finish is WaistFinish.BODICE else None,
        band=50.0 if contour else 30.0,
        band_shape=BandShape.CONTOUR if contour else BandShape.STRAIGHT,
        hem=draw(st.sampled_from(HemFinish)),
        seams=draw(st.sampled_from(SeamFinish)),
        pockets=draw(st.booleans()),
        flounce=draw(st.sampled_from([None, None, Flounce(depth=150, ratio=2.0)]))
        if cut is not CutKind.TIERED
        else None,
        tiers=Tiers(ratios=(1.8, 1.5), growth=1.2),
        trim_bias=draw(st.booleans()),
        allowances=Allowances(spare=draw(st.sampled_from([None, 0.0, 10.0]))),
    )


@st.composite
def specs(draw: st.DrawFn) -> Spec:
    """Draw a whole garment: any skirt, or one that is owned, with or without what goes inside."""
    wearer = draw(bodies())
    skirt = draw(skirts(wearer))
    gored = draw(st.booleans())
    lining = Lining(
        cut=CutKind.GORED if gored else CutKind.CIRCLE,
        fullness=draw(st.floats(0.3, 0.6)),
        gores=draw(st.integers(4, 8)),
        shaped=draw(st.booleans()),
        vent=draw(st.sampled_from([None, None, 200.0])),
    )
    lined = draw(st.booleans())
    owned = draw(st.sampled_from([None, None, None, 1]))
    if owned:
        lined = True
        body = wearer.waist + 15
        skirt = replace(
            skirt,
            cut=CutKind.CIRCLE,
            godets=None,
            flounce=None,
            pockets=False,
            trim_bias=False,
            hem_above_floor=None,
            level=LevelAt.HEM,
            drop=0.0,
            waist_finish=WaistFinish.BAND,
            band_shape=BandShape.STRAIGHT,
            owned=Owned(waist=body, length=640, sweep=body + 3000),
        )
    ruffle = Ruffle(gather_ratio=2.2, depth=180, tiers=draw(st.integers(1, 3)))
    cloth = Cloth(
        kind=draw(st.sampled_from(KINDS)),
        width=draw(st.sampled_from([1120.0, 1500.0, 2800.0])),
        fold=draw(st.booleans()),
    )
    return replace(
        garment(
            wearer=wearer,
            skirt=skirt,
            lining=lining if lined else None,
            ruffle=ruffle if lined and draw(st.booleans()) else None,
            cloths=Cloths(skirt=cloth, lining=replace(cloth, kind="cotton lawn")),
        ),
        scale=1.0,
    )


def ends_meet(line: tuple[tuple[float, float], ...]) -> bool:
    return math.dist(line[0], line[-1]) < 1e-5


def crossings(points: list[tuple[float, float]]) -> bool:
    """Tell whether a closed polygon crosses itself, by shapely's own test."""
    from shapely.geometry import Polygon

    return not Polygon(points).is_valid


@settings(max_examples=drawn(500), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(specs())
def test_whatever_is_drawn_can_be_cut_and_sewn(spec: Spec) -> None:
    pattern = draft(spec)
    for seam in pattern.figures.truing:
        assert abs(seam.difference) < 0.1, seam.seam
    if stops(pattern.findings):
        return
    assert pattern.pieces
    names = [piece.name for piece in pattern.pieces]
    assert len(set(names)) == len(names)
    for piece in pattern.pieces:
        sound(piece)


def sound(piece: Piece) -> None:
    sewn, cut = flattened(stitching_line(piece)), flattened(cutting_line(piece), outside=True)
    assert ends_meet(sewn) and ends_meet(cut), piece.name
    assert tape.walked_area(stitching_line(piece), 60) > 0, piece.name
    assert not crossings([*sewn[:-1]]), piece.name
    assert not crossings([*cut[:-1]]), piece.name
    for point in sewn[:: max(len(sewn) // 60, 1)]:
        near = min(math.dist(point, other) for other in cut)
        assert holds(cut, point) or near < 0.05 or on_an_edge(point, piece), piece.name
    for end in piece.grainline:
        assert holds(cut, end), f"grain of {piece.name}"
    for notch in piece.notches:
        assert -1e-6 <= notch.at <= piece.edges[notch.edge].length + 1e-6, piece.name


def on_an_edge(point: tuple[float, float], piece: Piece) -> bool:
    """Tell whether a point lies on an edge that has no allowance, where both lines are one."""
    bare = [e for e in piece.edges if e.kind is EdgeKind.FOLD or e.allowance == 0]
    return any(tape.gap(point, edge.path) < 0.05 for edge in bare)


@st.composite
def hard_wishes(draw: st.DrawFn) -> Spec:
    """Draw what is asked for at the edges: half a form, a child, strips of cloth, odd lengths."""
    spec = draw(specs())
    skirt, cloths = spec.skirt, spec.cloths
    match draw(st.integers(0, 3)):
        case 0:
            return halved(spec)
        case 1:
            short = replace(skirt, length=draw(st.floats(150, 400)), owned=None)
            return replace(spec, wearer=PAGE_BOY, skirt=replace(short, hem_above_floor=None))
        case 2:
            narrow = replace(cloths.skirt, width=draw(st.floats(60, 700)))
            binding = Cloth(width=draw(st.floats(30, 500)))
            return replace(spec, cloths=replace(cloths, skirt=narrow, binding=binding))
        case _:
            odd = replace(
                skirt,
                length=draw(st.floats(120, 1500)),
                fullness=draw(st.floats(0.2, 4)),
                drop=draw(st.floats(0, 160)),
                tiers=Tiers(ratios=(3.0,) * draw(st.integers(2, 6))),
            )
            return replace(spec, skirt=odd)


@settings(max_examples=drawn(200), deadline=None, suppress_health_check=list(HealthCheck))
@given(hard_wishes())
def test_hard_wishes_are_drawn_soundly_or_stopped_and_never_an_accident(spec: Spec) -> None:
    pattern = draft(spec)
    if stops(pattern.findings):
        return
    assert pattern.pieces
    for piece in pattern.pieces:
        sound(piece)
