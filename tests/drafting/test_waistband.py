"""What the waist is sewn to: band, casing, facing."""

import math
from dataclasses import replace

import pytest

from drafting.circle import Flare
from drafting.pattern import draft
from drafting.piece import EdgeKind, InnerKind, NotchKind, Piece, cutting_box
from drafting.spec import Closure, Lining, Skirt, WaistFinish
from drafting.units import Units
from drafting.waistband import band_strip, casing_strip, elastic_length, facing_flare, strip_piece
from tests import tape
from tests.garments import SOUBRETTE, garment, piece_named


def waist_piece(skirt: Skirt, name: str = "band") -> Piece:
    return piece_named(draft(garment(skirt=skirt)).pieces, name)


def test_a_band_is_waist_ease_overlap_and_two_allowances_long() -> None:
    # The contract's sheet: 740 + 15 + 30 + 2 x 10 by 2 x 30 + 2 x 10.
    strip = band_strip(755, height=30, allowance=10, closure=Closure.CENTRE_BACK)
    assert (strip.cut_length, strip.cut_width) == (805, 80)


def test_a_band_that_never_opens_has_no_overlap() -> None:
    strip = band_strip(1050, height=30, allowance=10, closure=Closure.NONE)
    assert strip.cut_length == 1070


def test_a_casing_is_as_long_as_the_flat_waist_and_lets_the_elastic_slide() -> None:
    strip = casing_strip(1160, elastic=25, allowance=10)
    assert (strip.cut_length, strip.cut_width) == (1180, 80)
    assert elastic_length(720) == pytest.approx(673)


def test_the_bands_marks_lie_at_quarters_of_the_waist_and_where_it_laps() -> None:
    band = waist_piece(Skirt(length=580))
    box = cutting_box(band)
    assert [box.width, box.height] == pytest.approx([785, 80])
    assert [(n.words, n.strokes) for n in band.notches] == [
        ("centre back", 3),
        ("right side", 2),
        ("centre front", 1),
        ("left side", 2),
        ("centre back", 3),
    ]
    assert {n.kind for n in band.notches} == {NotchKind.PLACE}
    assert [n.at for n in band.notches] == pytest.approx([0, 183.75, 367.5, 551.25, 735])
    assert {n.seam for n in band.notches} == {"2"}
    assert tape.walked_length(band.edges[0].path) == pytest.approx(735 + 30)


def test_a_band_that_closes_at_the_left_side_begins_there() -> None:
    band = waist_piece(Skirt(length=580, closure=Closure.LEFT_SIDE))
    words = {n.words: n.at for n in sorted(band.notches, key=lambda n: -n.at)}
    assert words["left side"] == 0
    assert words["centre back"] == pytest.approx(183.75)
    assert words["right side"] == pytest.approx(367.5)
    assert words["centre front"] == pytest.approx(551.25)
    assert max(n.at for n in band.notches) == pytest.approx(735)


def test_a_band_says_by_how_much_it_laps_and_a_casing_what_it_is_for() -> None:
    def notes(skirt: Skirt, units: Units = Units.CM) -> list[str]:
        pieces = draft(garment(skirt=skirt, units=units)).pieces
        piece = piece_named(pieces, skirt.waist_finish.value)
        return [note.replace("\u00a0", " ") for note in piece.notes]

    lap = "its end laps 3.0 cm over, for a hook and bar"
    assert notes(Skirt(length=580)) == [lap]
    assert notes(Skirt(length=580, closure=Closure.LEFT_SIDE)) == [lap]
    assert "in over" in notes(Skirt(length=580), Units.INCH)[0]
    casing = Skirt(length=580, gather_ratio=1.6, waist_finish=WaistFinish.CASING, elastic=30)
    assert notes(casing) == [
        "for elastic 3.0 cm wide",
        "leave 3 cm of its end seam open to thread it",
    ]
    assert notes(Skirt(length=580, waist_finish=WaistFinish.FACING)) == []
    # A waist that is as wide as the hip needs no closure, and its band no lap.
    wide = garment(
        wearer=replace(SOUBRETTE, waist=1000, hip=900),
        skirt=Skirt(length=580, closure=Closure.NONE),
    )
    assert piece_named(draft(wide).pieces, "band").notes == ()


def test_a_band_is_folded_along_its_middle() -> None:
    band = waist_piece(Skirt(length=580, band=40))
    (fold,) = band.inner_lines
    assert fold.kind is InnerKind.FOLD_LINE
    assert fold.path[0].start.y == pytest.approx(40) and fold.path[0].end.y == pytest.approx(40)


def test_a_casing_closes_in_a_ring_and_has_no_lap() -> None:
    casing = waist_piece(
        Skirt(length=580, gather_ratio=1.6, waist_finish=WaistFinish.CASING), "casing"
    )
    flat = 735 * 1.6 / 1.01
    assert tape.walked_length(casing.edges[0].path) == pytest.approx(flat)
    assert sorted(n.at for n in casing.notches) == pytest.approx([flat * k / 4 for k in range(4)])


def test_a_facing_has_the_skirts_own_waist_curve_and_a_raw_outer_edge() -> None:
    facing = waist_piece(Skirt(length=580, waist_finish=WaistFinish.FACING, facing=60), "facing")
    waist = 735 / 1.01
    assert facing.count == 2
    assert 2 * tape.walked_length(facing.edges[3].path) == pytest.approx(waist, abs=0.01)
    outer = facing.edges[1]
    assert (outer.name, outer.kind, outer.allowance) == ("outer", EdgeKind.RAW, 0)
    assert 2 * tape.walked_length(outer.path) == pytest.approx(waist + math.tau * 60, abs=0.01)
    assert facing.dots == () and all(n.edge == 3 for n in facing.notches)
    (ax, ay), (bx, by) = facing.grainline
    outline = tape.chain(tuple(s for e in facing.edges for s in e.path))
    assert ay == by and tape.winds_round((ax, ay), outline) and tape.winds_round((bx, by), outline)


def test_the_facing_of_a_gathered_skirt_is_cut_for_the_gathered_waist() -> None:
    skirt = Flare(fullness=0.75, panels=3, waistline=990, length=620)
    facing = facing_flare(skirt, finished=990 / 1.5, hip_fullness=0.3, depth=50)
    assert (facing.waistline, facing.length, facing.panels) == (660, 50, 3)
    assert facing.waist_radius == pytest.approx(140.06, abs=0.01)


def test_a_lined_skirt_has_one_band_for_both_layers() -> None:
    pattern = draft(garment(skirt=Skirt(length=580), lining=Lining(fullness=0.5)))
    assert [p.name for p in pattern.pieces] == [
        "skirt panel",
        "lining panel",
        "band",
        "opening stay",
    ]


def test_a_strip_can_be_drawn_without_a_garment() -> None:
    strip = band_strip(600, height=25, allowance=8, closure=Closure.CENTRE_BACK)
    piece = strip_piece(strip, name="band", around=600, closure=Closure.CENTRE_BACK, seam="2")
    assert piece.rectangle and piece.count == 1
    assert cutting_box(piece).height == pytest.approx(66)


def test_a_stay_on_each_side_of_the_opening_reaches_below_its_end() -> None:
    pattern = draft(garment(skirt=Skirt(length=580)))
    stay = piece_named(pattern.pieces, "opening stay")
    assert (stay.cloth, stay.count, stay.rectangle) == ("interfacing", 2, True)
    box = cutting_box(stay)
    # 2.5 cm wide, and 2 cm longer than the opening; it ends at the stitching.
    assert box.width == pytest.approx(pattern.figures.skirt.opening + 20)
    assert box.height == pytest.approx(25)
    assert {edge.allowance for edge in stay.edges} == {0}


@pytest.mark.parametrize("finish", WaistFinish)
def test_bands_and_facings_are_interfaced_and_elastic_and_bindings_are_not(
    finish: WaistFinish,
) -> None:
    plain = Skirt(length=580, waist_finish=finish, gather_ratio=1.5, bodice_waist=735)
    pieces = draft(garment(skirt=plain)).pieces
    also = {piece.name: piece.also for piece in pieces if piece.also}
    # A band once, and each of the two parts of a facing.
    wanted = {
        WaistFinish.BAND: {"band": (("interfacing", 1),)},
        WaistFinish.FACING: {"facing": (("interfacing", 2),)},
    }
    assert also == wanted.get(finish, {})
    # What opens is stayed; a casing is pulled on.
    stayed = "opening stay" in {piece.name for piece in pieces}
    assert stayed is (finish is not WaistFinish.CASING)
    bare = draft(garment(skirt=replace(plain, interfacing=False))).pieces
    assert not any(piece.also or piece.cloth == "interfacing" for piece in bare)
