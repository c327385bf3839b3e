"""The waist seam: dropped, drawn up, given by a bodice or by a skirt that is owned."""

import math
from dataclasses import replace

import pytest

from drafting.geometry import Arc
from drafting.pattern import Pattern, draft
from drafting.piece import Piece, edge_named
from drafting.spec import (
    BandShape,
    Cloth,
    Cloths,
    CutKind,
    Grain,
    LevelAt,
    Lining,
    Owned,
    Ruffle,
    Skirt,
    WaistFinish,
)
from drafting.waist import girth_below, planned_waist
from tests import tape
from tests.garments import SOUBRETTE, garment


def drafted(skirt: Skirt, **changes: object) -> Pattern:
    return draft(replace(garment(skirt=skirt), **changes))  # type: ignore[arg-type]


def piece(pattern: Pattern, name: str) -> Piece:
    return next(one for one in pattern.pieces if one.name == name)


def test_the_girth_grows_evenly_from_waist_to_hip() -> None:
    # W 720, H 960, 70 of 200 down: 804.
    assert girth_below(SOUBRETTE, 70) == pytest.approx(804)
    assert girth_below(SOUBRETTE, 0) == pytest.approx(720)
    assert girth_below(SOUBRETTE, 260) == pytest.approx(960)


def test_a_dropped_seam_has_the_girth_there_and_the_skirt_is_shorter_by_the_drop() -> None:
    pattern = drafted(Skirt(length=650, drop=70, drop_ease=30, waist_stretch=0))
    assert pattern.figures.skirt.waistline == pytest.approx(834)
    assert pattern.figures.waist.finished == pytest.approx(834)
    assert pattern.figures.skirt.length_side == pytest.approx(580)
    panel = piece(pattern, "skirt panel")
    assert panel.edges[0].length == pytest.approx(580)


def test_a_shaped_band_follows_the_body_from_its_seam_up() -> None:
    skirt = Skirt(
        length=650,
        drop=70,
        drop_ease=30,
        waist_ease=16,
        waist_stretch=0,
        band=50,
        band_shape=BandShape.CONTOUR,
    )
    pattern = drafted(skirt)
    band = piece(pattern, "band")
    assert band.half and band.count == 2
    lower = 2 * tape.walked_length(edge_named(band, "waist").path)
    upper = 2 * tape.walked_length(edge_named(band, "upper").path)
    assert lower == pytest.approx(834, abs=0.01)
    # 20 below the waist: 720 + 24 of body, 16 + 14 x 20 / 70 of ease.
    assert upper == pytest.approx(744 + 20, abs=0.01)
    # Two circles about one centre, the band's height apart.
    assert edge_named(band, "centre_back").length == pytest.approx(50)
    assert pattern.figures.contour is not None
    assert pattern.figures.contour.bottom_radius - pattern.figures.contour.top_radius == (
        pytest.approx(50)
    )


def test_a_bodice_gives_its_seam_and_nothing_is_drawn_above_it() -> None:
    skirt = Skirt(length=650, waist_finish=WaistFinish.BODICE, bodice_waist=755, waist_stretch=0.01)
    pattern = drafted(skirt)
    assert pattern.figures.skirt.waistline == pytest.approx(755 / 1.01)
    assert not {"band", "facing", "casing"} & {one.name for one in pattern.pieces}


def test_full_widths_of_gathered_cloth_set_the_ratio() -> None:
    # 735 x 2.5 = 1837.5 on 1380 less two allowances of 15: 2 lengths, 2700 flat.
    skirt = Skirt(cut=CutKind.GATHERED, length=600, gather_ratio=2.5, full_widths=True)
    spec = garment(skirt=replace(skirt, waist_stretch=0), cloths=Cloths(skirt=Cloth(width=1400)))
    waist = planned_waist(spec)
    assert waist.line == pytest.approx(2700)
    assert waist.gather_ratio == pytest.approx(2700 / 735)
    assert draft(spec).figures.skirt.panels == 2


def test_an_owned_skirt_is_not_drawn_but_checked() -> None:
    spec = garment(
        skirt=Skirt(length=620, owned=Owned(waist=735, length=620, sweep=4200)),
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(gather_ratio=2.2, depth=200),
    )
    pattern = draft(spec)
    names = {one.name for one in pattern.pieces}
    assert names == {"lining panel", "ruffle strip"}
    lining = piece(pattern, "lining panel")
    assert edge_named(lining, "waist").length == pytest.approx(735 / 1.01)
    assert lining.edges[0].length == pytest.approx(590)
    assert pattern.figures.skirt.sweep == pytest.approx(4200)
    assert pattern.figures.skirt.waist_radius is None
    # A narrow skirt cannot hold the same ruffle.
    narrow = replace(
        spec, skirt=replace(spec.skirt, owned=Owned(waist=735, length=620, sweep=2400))
    )
    assert "ruffle-not-held" in {finding.code for finding in draft(narrow).findings}
    assert "ruffle-not-held" not in {finding.code for finding in pattern.findings}


def test_stretch_by_cloth_is_half_the_give_on_whole_quarters_and_taken_off_once() -> None:
    skirt = Skirt(length=600, waist_stretch=None, waist_ease=0)
    spec = garment(skirt=skirt, cloths=Cloths(skirt=Cloth(kind="cotton sateen")))
    pattern = draft(spec)
    # Sateen gives 2.5 % at full bias; half circles hold whole quarters.
    assert pattern.figures.skirt.waist_stretch == pytest.approx(0.0125)
    assert pattern.figures.skirt.waistline == pytest.approx(720 / 1.0125)
    assert pattern.figures.waist.finished == pytest.approx(720)
    assert pattern.figures.band is not None
    # The band is cut to the waist itself, not to the smaller draft: 720 + 30 + 20.
    assert pattern.figures.band.cut_length == pytest.approx(770)


def test_a_narrow_gore_down_the_grain_stretches_less_than_a_half_circle() -> None:
    cloths = Cloths(skirt=Cloth(kind="cotton sateen"))
    gored = Skirt(cut=CutKind.GORED, gores=8, fullness=1 / 3, length=600, waist_stretch=None)
    narrow = planned_waist(garment(skirt=gored, cloths=cloths)).stretch
    t = math.radians(7.5)
    # Mean of sin^2 twice the angle, 7.5 degrees to both sides of a grain down the middle.
    mean = 0.5 - math.sin(4 * t) / (8 * t)
    assert centred(gored, cloths) == pytest.approx(0.025 * mean)
    assert narrow >= centred(gored, cloths)


def centred(gored: Skirt, cloths: Cloths) -> float:
    skirt = replace(gored, grain=Grain.CENTRE)
    return planned_waist(garment(skirt=skirt, cloths=cloths)).stretch


def test_e6_a_tilted_waist_under_a_true_hem() -> None:
    # The trade's E6, places by arc length: R 686.9, side at 87.4 degrees, sweep 4315.9.
    body = replace(SOUBRETTE, floor_front=1040, floor_side=1060, floor_back=1050)
    skirt = Skirt(
        length=580,
        hem_above_floor=480,
        level=LevelAt.WAIST,
        waist_ease=0,
        waist_stretch=0,
        panels=4,
    )
    pattern = draft(garment(wearer=body, skirt=skirt, cloths=Cloths(skirt=Cloth(width=1800))))
    found = pattern.figures.skirt
    assert found.hem_radius == pytest.approx(686.9, abs=0.05)
    assert found.sweep == pytest.approx(4315.9, abs=0.05)
    front = piece(pattern, "skirt front")
    (hem,) = edge_named(front, "hem").path
    assert isinstance(hem, Arc)
    assert math.degrees(abs(hem.finish - hem.begin)) == pytest.approx(87.4, abs=0.05)
    whole = sum(
        one.count * tape.walked_length(edge_named(one, "waist").path)
        for one in pattern.pieces
        if one.name.startswith("skirt")
    )
    assert whole == pytest.approx(720, abs=0.01)


def test_a_shaped_band_bears_the_marks_of_the_waist_it_is_sewn_to() -> None:
    skirt = Skirt(
        length=650, panels=1, fullness=0.5, drop=60, band=50, band_shape=BandShape.CONTOUR
    )
    pattern = drafted(skirt)
    band, panel = piece(pattern, "band"), piece(pattern, "skirt panel")

    def marks(of: Piece, edge: str) -> set[tuple[str, int, str]]:
        return {
            (notch.kind.value, notch.strokes, notch.seam)
            for notch in of.notches
            if of.edges[notch.edge].name == edge
        }

    # One stroke at the centre front, two at the sides, all of seam 2.
    assert marks(band, "waist") == marks(panel, "waist") == {("place", 1, "2"), ("place", 2, "2")}
