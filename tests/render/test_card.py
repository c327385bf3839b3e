"""The card: one page in legible type, its numbers those of the pieces, nothing over anything."""

import math
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from shapely import Polygon, STRtree
from typer.testing import CliRunner

from cli import app
from drafting.cautions import cautions
from drafting.chalked import Swung, measured, swung
from drafting.findings import stops
from drafting.geometry import Point, straight
from drafting.pattern import Pattern, draft
from drafting.piece import FoldWay, Piece
from drafting.printer import Measured
from drafting.spec import (
    Cloth,
    Cloths,
    CutKind,
    Flounce,
    Godets,
    Grain,
    HemFinish,
    Lining,
    PaperName,
    Ruffle,
    Scope,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import Units
from render import fonts
from render.chosen import CardError, on_paper
from render.drawing import Anchor, Kind, Text
from render.output import paper_figures
from render.pages import Printed, printed
from render.paper import HOME, LEAST_WINDOW, PAPERS, PaperError
from render.pdf import pdf_bytes
from render.proof import proof
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import CHORUS_TALL, PAGE_BOY, SOUBRETTE, chorus_skirt, garment, piece_named

EIGHT_POINTS = 8 * 25.4 / 72


def as_card(spec: Spec) -> Spec:
    return replace(spec, print=replace(spec.print, scope=Scope.CARD))


@cache
def card_of(spec: Spec, paper: PaperName = PaperName.A4) -> Printed:
    return printed(draft(as_card(spec)), paper)


def words_of(layout: Printed) -> str:
    (page,) = layout.document.pages
    return "\n".join(text.text for text in page.drawing.texts).replace("\u00a0", " ")


def row(layout: Printed, name: str, after: str = "") -> list[str]:
    """Return the words that stand on the same line as a name, from left to right."""
    texts = layout.document.pages[0].drawing.texts
    (head,) = (text for text in texts if text.text == name and text.bold)
    line = [text for text in texts if abs(text.at.y - head.at.y) < 1e-6 and text is not head]
    return [t.text.replace("\u00a0", " ") for t in sorted(line, key=lambda t: t.at.x)]


def box(text: Text) -> Polygon:
    wide = fonts.width(text.text, text.size, bold=text.bold)
    begin = {Anchor.START: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.END: -wide}[text.anchor]
    c, s = math.cos(text.angle), math.sin(text.angle)
    corners = ((begin, 0.0), (begin + wide, 0.0), (begin + wide, 0.65), (begin, 0.65))
    return Polygon(
        [
            (text.at.x + x * c - y * text.size * s, text.at.y + x * s + y * text.size * c)
            for x, y in ((x, y if y else 0.02) for x, y in corners)
        ]
    )


def assert_legible(layout: Printed) -> None:
    """Check that all words are 8 points or more, in the window, and none over another."""
    (page,) = layout.document.pages
    window = page.window
    boxes = [(text.text, box(text)) for text in page.drawing.texts]
    for text in page.drawing.texts:
        assert text.size >= EIGHT_POINTS, text.text
    for words, shape in boxes:
        left, bottom, right, top = shape.bounds
        assert left >= window.left - 0.01, words
        assert right <= window.right + 0.01, words
        assert bottom >= window.bottom - 0.01, words
        assert top <= window.top + 0.01, words
    shapes = [shape for _, shape in boxes]
    for one, other in STRtree(shapes).query(shapes, predicate="intersects").T:
        if one < other:
            over = shapes[one].intersection(shapes[other]).area
            assert over < 0.01, (boxes[one][0], boxes[other][0])


def test_the_card_tells_each_radius_to_cut_and_to_sew() -> None:
    layout = card_of(chorus_skirt())
    # Waist 74 + 1.5 over 1.01: 74.75 cm; by 2 pi a radius of 11.897 cm, rounded down to half mm.
    assert row(layout, "skirt panel")[:6] == [
        "2×", "180°", "10.85 cm", "11.85 cm", "73.85 cm", "75.05 cm",
    ]  # fmt: skip
    # A half circle for the same waist has twice the radius; it is 59 cm long, and below its hem
    # come 1.2 cm to turn and 0.5 cm to spare.
    assert row(layout, "lining panel")[:6] == [
        "1×", "180°", "22.75 cm", "23.75 cm", "82.75 cm", "84.45 cm",
    ]  # fmt: skip
    assert row(layout, "ruffle's line") == ["on lining", "61.75 cm"]


def test_a_chord_finds_the_second_side_where_no_set_square_does() -> None:
    spec = garment(skirt=Skirt(length=600, fullness=0.75, panels=2))
    layout = card_of(spec)
    (panel,) = [piece for piece in draft(spec).pieces if piece.name == "skirt panel"]
    start, end = panel.edges[1].path[0].start, panel.edges[1].path[-1].end
    chord = math.dist(start, end)
    assert row(layout, "skirt panel")[-1] == f"{chord / 10:.1f} cm"
    assert "Chord:" in words_of(layout)
    assert "Chord:" not in words_of(card_of(chorus_skirt()))


def swung_piece(spec: Spec, name: str) -> Swung:
    found = swung(piece_named(draft(spec).pieces, name))
    assert found is not None
    return found


def test_arcs_are_read_from_the_pieces_themselves() -> None:
    spec = garment(skirt=Skirt(length=600, panels=2, waist_finish=WaistFinish.FACING))
    skirt, facing = swung_piece(spec, "skirt panel"), swung_piece(spec, "facing")
    assert facing.inner == pytest.approx(skirt.inner)
    assert facing.inner_cut == pytest.approx(skirt.inner - 10)
    assert facing.outer == pytest.approx(facing.inner + 50)
    assert facing.outer_cut == facing.outer
    assert skirt.outer == pytest.approx(skirt.inner + 600)
    assert math.degrees(skirt.angle) == pytest.approx(180)


def test_no_radius_to_sew_is_given_for_an_edge_that_is_only_neatened() -> None:
    layout = card_of(garment(skirt=Skirt(length=600, panels=2, hem=HemFinish.FACED)))
    hem = row(layout, "skirt panel")[4]
    # The hem's facing is 5 cm deep: its upper edge is cut and never sewn to anything.
    upper = f"{float(hem.removesuffix(' cm')) - 5:.2f} cm"
    assert row(layout, "hem facing")[2:5] == [upper, "–", hem]


@pytest.mark.parametrize("angle", [50.0, 60.0, 90.0])
def test_a_godet_is_swung_from_its_point(angle: float) -> None:
    godets = Godets(depth=180, angle=math.radians(angle))
    spec = garment(skirt=Skirt(length=600, cut=CutKind.GORED, gores=6, godets=godets))
    layout = card_of(spec)
    assert "No tape" not in words_of(layout)
    shown = row(layout, "godet")
    assert shown[1] == f"{angle:g}°"
    assert "18.00 cm" in shown
    assert "no inner arc" in words_of(layout).replace("\n", " ")
    found = swung_piece(spec, "godet")
    assert found.inner == 0.0
    assert found.outer == pytest.approx(180, abs=0.02)


def test_a_sector_with_a_blunted_corner_is_not_swung() -> None:
    godets = Godets(depth=180, angle=math.radians(50))
    spec = garment(skirt=Skirt(length=600, cut=CutKind.GORED, gores=6, godets=godets))
    godet = piece_named(draft(spec).pieces, "godet")
    first, hem, last, top = godet.edges
    apex = Point(first.path[0].end.x * 0.2, first.path[0].end.y * 0.2)
    other = Point(-apex.x, apex.y)
    short = replace(
        godet,
        notches=(),
        edges=(
            replace(first, path=straight(apex, first.path[0].end)),
            hem,
            replace(last, path=straight(last.path[0].start, other)),
            replace(top, path=straight(other, apex)),
        ),
    )
    assert swung(godet) is not None
    assert swung(short) is None


def test_a_half_that_no_fold_takes_is_chalked_twice(pattern_of: Callable[[str], Pattern]) -> None:
    pattern = pattern_of("finale-skirt")
    panel = piece_named(pattern.pieces, "lining panel")
    assert panel.half
    assert panel.fold_way is FoldWay.NONE
    layout = card_of(pattern.spec)
    shown = row(layout, "lining panel")
    assert shown[1] == "60°, as 30° twice"
    # 2 R sin(30°/2) with the radius that stands in the row itself.
    outer = swung_piece(pattern.spec, "lining panel").outer
    assert shown[-1] == f"{2 * outer * math.sin(math.radians(15)) / 10:.1f} cm of half"
    words = words_of(layout).replace("\n", " ")
    assert "folded" not in words
    assert "Twice:" in words
    assert "middle line" in [text.text for text in layout.document.pages[0].drawing.texts]


def test_a_half_on_a_fold_is_said_to_be_folded() -> None:
    cloths = Cloths(skirt=Cloth(fold=True))
    skirt = Skirt(length=600, panels=2, fullness=0.5, grain=Grain.CENTRE)
    layout = card_of(garment(skirt=skirt, cloths=cloths))
    assert row(layout, "skirt panel")[1] == "90°, folded 45°"
    assert row(layout, "skirt panel")[-1].endswith("cm of half")
    assert "Twice:" not in words_of(layout)
    assert "middle line" not in [text.text for text in layout.document.pages[0].drawing.texts]


def test_a_level_hem_comes_as_a_table_of_lengths() -> None:
    spec = garment(wearer=CHORUS_TALL, skirt=Skirt(length=600, panels=4, hem_above_floor=450))
    layout = card_of(spec)
    assert "Lengths that differ, in cm, from the waist line to the hem line" in words_of(layout)
    for piece in draft(spec).pieces:
        if piece.name.startswith("skirt "):
            lengths = [f"{place.length / 10:.1f}" for place in measured(piece)]
            assert len(set(lengths)) > 1
            assert row(layout, piece.name)[1:-1] == lengths


def test_shaped_gores_are_measured_and_sent_to_be_printed() -> None:
    spec = garment(skirt=Skirt(length=680, cut=CutKind.GORED, shaped=True, gores=8, fullness=0.4))
    words = words_of(card_of(spec)).replace("\n", " ")
    assert "across the waist" in words
    assert "cannot be drawn with a tape" in words
    assert 'scope = "waist"' in words


def widest() -> Spec:
    """Return a garment with as many parts as a sheet can ask for at once."""
    uneven = replace(SOUBRETTE, floor_left=1070.0, floor_right=1050.0, label="Chorus " * 8)
    return replace(
        garment(
            wearer=uneven,
            skirt=Skirt(
                length=600,
                panels=4,
                hem_above_floor=400,
                pockets=True,
                waist_finish=WaistFinish.FACING,
                flounce=Flounce(depth=150, ratio=2),
                hem=HemFinish.BIAS_FACED,
            ),
            lining=Lining(fullness=0.5, panels=4),
            ruffle=Ruffle(gather_ratio=2.6, tiers=3),
            units=Units.INCH,
        ),
        title="A skirt with everything that the workroom can sew to it",
    )


@pytest.mark.parametrize("paper", HOME)
def test_the_widest_garment_fits_one_page_in_legible_type(paper: PaperName) -> None:
    assert_legible(card_of(widest(), paper))


def uneven_over_gores() -> Spec:
    """Return a gathered skirt, level with the floor, over a lining whose gores all differ."""
    return garment(
        wearer=replace(SOUBRETTE, floor_front=1010, floor_left=1030, floor_right=1045),
        skirt=Skirt(length=600, cut=CutKind.GATHERED, gather_ratio=2.2, hem_above_floor=300),
        lining=Lining(cut=CutKind.GORED, gores=6, fullness=0.35, shaped=True),
        ruffle=Ruffle(gather_ratio=2.6),
    )


def in_margins(spec: Spec, paper: PaperName, margin: float | None) -> Spec:
    """Return a card with margins as wide as given, or leaving the least window that is allowed."""
    widest_yet = (PAPERS[paper].width - LEAST_WINDOW) / 2
    # Nothing on a card is joined, so its overlap takes no room.
    wish = replace(spec.print, margin=margin or widest_yet, overlap=10.0)
    return replace(spec, print=wish)


# From the widest window down to the least; a card leaves one block more out at each step.
@pytest.mark.parametrize(
    ("paper", "margin"),
    [
        (PaperName.A4, 12.7),
        (PaperName.A4, 25.0),
        (PaperName.A4, 33.0),
        (PaperName.A4, None),
        (PaperName.LETTER, 20.0),
        (PaperName.LETTER, 30.0),
        (PaperName.LETTER, None),
    ],
)
def test_no_margin_takes_the_cautions_off_a_card(paper: PaperName, margin: float | None) -> None:
    for spec in (chorus_skirt(), uneven_over_gores(), widest()):
        try:
            layout = card_of(in_margins(spec, paper, margin), paper)
        except PaperError as error:
            assert "no room for a card" in str(error)
            continue
        words = words_of(layout).replace("\n", " ")
        for part in ("Take care", "Fire:", "Tools:", "qualified advice come first."):
            assert part in words
        assert_legible(layout)


def test_a_sheet_full_of_gores_has_room_in_wide_margins() -> None:
    assert card_of(in_margins(uneven_over_gores(), PaperName.LETTER, 25.0), PaperName.LETTER)
    assert card_of(in_margins(chorus_skirt(), PaperName.A4, 35.0), PaperName.A4)


def test_margins_that_leave_a_card_no_room_are_refused() -> None:
    with pytest.raises(PaperError, match="no room for a card") as caught:
        card_of(in_margins(widest(), PaperName.LETTER, None), PaperName.LETTER)
    assert "140 by 204" in str(caught.value)


def test_pictures_that_go_are_named() -> None:
    layout = card_of(in_margins(chorus_skirt(), PaperName.A4, 33.0))
    words = words_of(layout).replace("\n", " ")
    assert "skirt panel, on" not in words
    assert re.search(r"Left out here for want of room: [^.]*the pictures", words)


def test_only_what_there_is_can_be_left_out() -> None:
    spec = garment(skirt=Skirt(length=600, cut=CutKind.GATHERED, gather_ratio=2.2))
    for margin in (20.0, 30.0, 35.0):
        words = words_of(card_of(in_margins(spec, PaperName.A4, margin)))
        assert "the pictures" not in words
        assert "swing an arc" not in words


def test_what_is_left_out_is_named_with_where_it_stands() -> None:
    words = words_of(card_of(widest()))
    assert "Left out here for want of room: how to swing an arc, drops on the bias" in words
    assert "figures file" in words
    assert "Left out" not in words_of(card_of(chorus_skirt()))


def test_every_example_fits_one_page_in_legible_type(pattern: Pattern) -> None:
    for paper in (PaperName.A4, PaperName.LETTER):
        assert_legible(card_of(pattern.spec, paper))


@settings(max_examples=drawn(12), deadline=None, suppress_health_check=list(HealthCheck))
@given(specs())
def test_whatever_the_cut_a_card_is_one_legible_page(spec: Spec) -> None:
    pattern = draft(as_card(spec))
    if stops(pattern.findings):
        return
    try:
        layout = printed(pattern, PaperName.A4)
    except PaperError:
        # Gores that all differ, lined with more of them, can be more than a page holds.
        assert len(pattern.pieces) >= 10
        return
    assert_legible(layout)
    assert cautions(spec)[-1] in words_of(layout).replace("\n", " ")


def named(pieces: tuple[Piece, ...]) -> set[str]:
    return {piece.name for piece in pieces}


def test_every_piece_of_the_cut_list_stands_on_the_card(pattern: Pattern) -> None:
    words = words_of(card_of(pattern.spec))
    for name in named(pattern.pieces):
        assert name in words.replace("\n", " ")


def test_cautions_stand_on_the_card_too() -> None:
    words = words_of(card_of(garment(wearer=PAGE_BOY, skirt=Skirt(length=360, panels=2))))
    for word in ("candles", "rotary cutters", "Children: no cords"):
        assert word in words.replace("\n", " ")


def test_a_card_has_one_page_and_no_tiles(pattern_of: Callable[[str], Pattern]) -> None:
    layout = card_of(pattern_of("chorus-skirt").spec)
    assert [page.label for page in layout.document.pages] == ["card"]
    assert layout.document.about.kind is Kind.CARD
    figures = paper_figures(layout)
    assert (figures["pages"], figures["pieces_pages"]) == (1, 0)
    assert figures["tiles"] == figures["pieces"] == []


def test_a_cards_file_is_sound_without_a_test_square() -> None:
    found = proof(pdf_bytes(card_of(chorus_skirt()).document))
    assert found.faults == ()
    assert found.square is None
    assert found.about.kind is Kind.CARD


def test_no_piece_can_be_asked_of_a_card() -> None:
    pattern = draft(as_card(chorus_skirt()))
    assert on_paper(pattern) == ()
    with pytest.raises(CardError, match="no pieces"):
        on_paper(pattern, ["skirt panel"])


def test_the_command_refuses_a_piece_of_a_card_politely(tmp_path: Path) -> None:
    sheet = tmp_path / "quick.toml"
    sheet.write_text('[wearer]\nsize = "P05"\n[print]\nscope = "card"\n')
    out = tmp_path / "out"
    command = ["draft", str(sheet), "--out", str(out)]
    refused = CliRunner().invoke(app, [*command, "--piece", "skirt panel"])
    assert refused.exit_code == 2
    assert re.search(r"one page of figures and no pieces", refused.stderr)
    assert not out.exists()
    for more in ("--svg", "--dxf"):
        assert CliRunner().invoke(app, [*command, more]).exit_code == 2
    assert not out.exists()
    written = CliRunner().invoke(app, command)
    assert written.exit_code == 0, written.output
    assert (out / "quick-a4.pdf").exists()


def test_a_card_is_drawn_plain_whatever_the_printer_measures() -> None:
    spec = chorus_skirt()
    measured_print = replace(spec.print, scope=Scope.CARD, measured=(Measured(measured=99.0),) * 2)
    plain = card_of(spec)
    assert printed(draft(replace(spec, print=measured_print)), PaperName.A4) == plain


def lying(layout: Printed, words: str) -> tuple[str, ...]:
    """Return the texts of a card that hold some words."""
    texts = [text.text.replace("\u00a0", " ") for text in layout.document.pages[0].drawing.texts]
    return tuple(text for text in texts if words in text)


def test_a_table_of_lengths_names_the_side_where_it_begins(
    pattern_of: Callable[[str], Pattern],
) -> None:
    layout = card_of(pattern_of("character-skirt").spec)
    sides = ("centre back", "right side", "centre front", "left side", "centre back")
    names = ("skirt back right", "skirt front right", "skirt front left", "skirt back left")
    for k, name in enumerate(names):
        shown = row(layout, name)
        assert (shown[0], shown[-1]) == (sides[k], sides[k + 1])
    assert row(layout, "lining panel")[0] == "centre back"
    words = words_of(layout).replace("\n", " ")
    assert "0° is" in words
    assert "90° is" in words
    # The draft counts places round the body from centre back by way of the right side.
    assert "0° = centre back … 180° = centre back, the wearer's right half first" in words
    assert "With the right side of the cloth up, angles turn against the clock" in words
    assert "on the left, the waist above" not in words


def test_the_picture_has_the_tables_degrees_at_its_sides_and_turns_as_the_text_says(
    pattern_of: Callable[[str], Pattern],
) -> None:
    for name, first, last in (
        ("character-skirt", "0° centre back", "90° right side"),
        ("signal-skirt", "0° centre back", "92.6° side"),
    ):
        texts = card_of(pattern_of(name).spec).document.pages[0].drawing.texts
        one = next(text for text in texts if text.text == first)
        (other,) = [text for text in texts if text.text == last]
        # From a level side with the centre at its left, against the clock to one that stands up.
        assert one.angle == pytest.approx(0, abs=1e-6)
        assert other.at.y > one.at.y
        assert other.at.x < one.at.x
        assert abs(math.degrees(other.angle)) > 80


def test_the_second_of_a_mirrored_pair_is_said_to_run_the_other_way(
    pattern_of: Callable[[str], Pattern],
) -> None:
    layout = card_of(pattern_of("signal-skirt").spec)
    words = words_of(layout).replace("\n", " ")
    assert "The second of a mirrored pair runs the other way round." in words
    # 2 R sin(92.6°/2) of the level hem's radius, 68.78 cm, finds a side no set square does.
    assert row(layout, "skirt back")[-2:] == ["right side or left side", "99.5 cm"]


def test_sides_side_by_side_are_told_by_hand_too() -> None:
    words = words_of(card_of(uneven_over_gores())).replace("\n", " ")
    assert "on your left with the waist away from you" in words


def test_a_waist_radius_that_differs_is_rounded_down(pattern_of: Callable[[str], Pattern]) -> None:
    spec = pattern_of("signal-skirt").spec
    radii = lying_beside(card_of(spec), "its waist radius")
    back = measured(piece_named(draft(spec).pieces, "skirt back"))
    assert radii == [f"{math.floor(place.start * 2 + 1e-3) / 20:.2f}" for place in back]


def lying_beside(layout: Printed, name: str) -> list[str]:
    """Return the words on the line of the first text of that name."""
    texts = layout.document.pages[0].drawing.texts
    head = next(text for text in texts if text.text == name)
    return [t.text for t in texts if abs(t.at.y - head.at.y) < 1e-6 and t is not head]


def test_a_band_and_a_facing_tell_of_their_interfacing() -> None:
    assert "and 1 from interfacing" in lying(card_of(chorus_skirt()), "interfacing")
    faced = garment(skirt=Skirt(length=600, panels=2, waist_finish=WaistFinish.FACING))
    ((_, count),) = piece_named(draft(faced).pieces, "facing").also
    assert f"{count}×, and {count} from interfacing" in lying(card_of(faced), "interfacing")


def test_a_yoke_too_flat_to_swing_is_set_off_from_a_straight_line(
    pattern_of: Callable[[str], Pattern],
) -> None:
    layout = card_of(pattern_of("wave-petticoat").spec)
    # A waist of 1000 mm on a radius of 7957.7: t = 0.12566, chord 999.34, rise R (1 - cos(t/2))
    # = 15.71, and 11.78 at a quarter.
    assert row(layout, "skirt yoke, upper edge") == [
        "1×", "795.75 cm", "100.0 cm", "99.9 cm", "1.6 cm", "1.2 cm", "20.2 cm", "1.0 cm",
    ]  # fmt: skip
    assert row(layout, "lower edge")[:2] == ["815.95 cm", "102.5 cm"]
    assert lying(layout, "waist 100.0 cm")
    assert not lying(layout, "waist 99.9 cm")


@pytest.mark.parametrize("name", ["twirl-skirt", "signal-skirt", "chorus-skirt", "wave-petticoat"])
def test_inches_are_no_finer_than_a_rule(name: str, pattern_of: Callable[[str], Pattern]) -> None:
    words = words_of(card_of(replace(pattern_of(name).spec, units=Units.INCH)))
    assert not re.search(r"/(32|64)\b", words)
    if name == "twirl-skirt":
        assert "every few inches" in words.replace("\n", " ")
        # 334.6 mm is 13.17 in.
        found = swung_piece(pattern_of(name).spec, "skirt gore")
        assert found.inner / 25.4 == pytest.approx(13.17, abs=0.01)
        layout = card_of(replace(pattern_of(name).spec, units=Units.INCH))
        assert row(layout, "skirt gore")[3] == "13⅛ in"


def test_how_to_swing_is_there_or_named_wherever_a_tape_swings(pattern: Pattern) -> None:
    layout = card_of(pattern.spec)
    words = words_of(layout).replace("\n", " ")
    arcs = [piece for piece in pattern.pieces if (found := swung(piece)) and found.outer < 3000]
    turned = [p for p in pattern.pieces if measured(p) and measured(p)[0].turn is not None]
    assert ("how to swing an arc" in words.lower()) == bool(arcs or turned)


def test_an_outer_arc_that_is_only_cut_is_not_read_as_an_inner_one(
    pattern_of: Callable[[str], Pattern],
) -> None:
    layout = card_of(pattern_of("box-office-skirt").spec)
    assert lying_beside(layout, "inner arc: cut") == [
        "cut", "angle", "inner: sew", "outer: cut", "sides", "chord",
    ]  # fmt: skip


def test_places_along_a_straight_waist_have_their_unit_in_the_picture() -> None:
    layout = card_of(uneven_over_gores())
    assert lying(layout, "0.0 cm centre back")
    assert lying(layout, "80.0 cm centre front")
