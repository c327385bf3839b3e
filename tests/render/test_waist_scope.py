"""The waist alone on paper: few pages, every ray with its length, a label on the paper itself."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from shapely import LineString
from shapely import Point as PlanePoint
from typer.testing import CliRunner

from cli import app
from drafting.findings import stops
from drafting.geometry import Point, direction_along, flattened, holds
from drafting.pattern import Pattern, draft
from drafting.piece import EdgeKind, InnerKind, Piece, cutting_line
from drafting.spec import PaperName, Scope, Spec
from drafting.units import Units, length_text
from drafting.waist_part import is_shortened
from render.chosen import on_paper, traced_from
from render.drawing import Text
from render.output import paper_figures
from render.pages import Printed, free_room, printed
from render.paper import grid
from render.piece_drawing import piece_lines
from render.piece_words import piece_words
from render.placement import Effort, Placement, place
from render.tiling import cut_into_pages
from render.words import allowance_words, check_words, fold_words, label_words
from tests import tape
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import chorus_skirt
from tests.render.test_labels import corners


def waist_only(spec: Spec) -> Spec:
    return replace(spec, print=replace(spec.print, scope=Scope.WAIST))


def layout_of_waist(pattern: Pattern, effort: Effort = Effort.QUICK) -> Printed:
    return printed(draft(waist_only(pattern.spec)), PaperName.A4, effort=effort)


def words_of(layout: Printed) -> str:
    pages = layout.document.pages
    words = " ".join(text.text for page in pages for text in page.drawing.texts)
    return words.replace("\u00a0", " ")


@pytest.fixture(scope="module")
def chorus(pattern_of: Callable[[str], Pattern]) -> Printed:
    return layout_of_waist(pattern_of("chorus-skirt"), Effort.USUAL)


def test_the_chorus_skirt_takes_four_pages(chorus: Printed) -> None:
    assert len(chorus.sheets.tiles) <= 4
    assert paper_figures(chorus)["pieces_pages"] == len(chorus.sheets.tiles)
    assert [one["piece"] for one in paper_figures(chorus)["pieces"]] == [
        "skirt panel",
        "lining panel",
    ]


def test_the_ticket_says_how_to_go_on(chorus: Printed) -> None:
    words = words_of(chorus)
    assert "This file prints the waist of each large piece and no more." in words
    for step in ("1 Cut the waist parts out.", "4 Join the marks by hand"):
        assert step in words.replace("  ", " ")
    assert "ray: lay the tape along it, from the waist line" in words
    assert "hem line: 62.0 cm from the waist line" in words
    assert "ruffle's line: 38.0 cm below the waist line" in words.replace("’", "'")


def test_a_whole_pattern_says_nothing_of_chalking(layout_of: Callable[..., Printed]) -> None:
    words = words_of(layout_of("chorus-skirt"))
    assert "tape along it" not in words
    assert "chalk on from here" not in words


def test_the_label_checks_the_waist_and_not_where_the_paper_ends() -> None:
    for piece in on_paper(draft(waist_only(chorus_skirt()))):
        told = check_words(piece, Units.CM).replace("\u00a0", " ")
        assert "waist" in told
        assert "straight edge" not in told
        allowed = allowance_words(piece, Units.CM).replace("\u00a0", " ")
        assert allowed == "included: seams 1.5 cm, waist 1.0 cm"


def test_a_hem_facing_is_traced_and_not_printed(pattern_of: Callable[[str], Pattern]) -> None:
    whole = pattern_of("signal-skirt")
    pattern = draft(waist_only(whole.spec))
    assert [piece.name for piece in on_paper(pattern)] == ["skirt back", "skirt front"]
    traced = {
        piece.name: faced.name
        for piece in pattern.pieces
        for faced in [traced_from(piece, pattern)]
        if faced
    }
    assert traced == {"hem facing back": "skirt back", "hem facing front": "skirt front"}
    words = words_of(printed(pattern, PaperName.A4, effort=Effort.QUICK))
    assert "trace the hem line and the sides of skirt back once they are chalked" in words
    assert "hem facing back" in [piece.name for piece in on_paper(whole)]
    # Asked for by name it is printed, and not called traced.
    alone = words_of(printed(pattern, PaperName.A4, only=["hem facing back"], effort=Effort.QUICK))
    assert "the sides of skirt back once" not in alone
    assert "the sides of skirt front once" in alone


def set_on_a4(pattern: Pattern) -> list[tuple[Placement, tuple[Text, ...]]]:
    """Return a pattern's shortened pieces on the plane of A4 pages, each with its words."""
    pieces = [piece for piece in on_paper(pattern) if is_shortened(piece)]
    if stops(pattern.findings) or not pieces:
        return []
    on = grid(PaperName.A4, margin=None, overlap=10)
    sheets = cut_into_pages(place(pieces, on, effort=Effort.QUICK), on)
    lines = tuple(stroke for placed in sheets.placements for stroke in piece_lines(placed))
    room = free_room(sheets, lines)
    return [
        (
            placed,
            piece_words(
                placed,
                title=placed.piece.name,
                lines=label_words(placed.piece, pattern.spec, number=1, of=2),
                fold=fold_words(placed.piece),
                room=room,
            ),
        )
        for placed in sheets.placements
    ]


def untold_sides(placed: Placement, whole: Piece, texts: Sequence[Text], units: Units) -> list[str]:
    """Return what no words along a side say of it: its name, and its length on the whole piece."""
    paths = [placed.on_plane(placed.piece.edges[k].path) for k in (0, 2)]
    sides = [LineString(flattened(path)) for path in paths]
    untold = []
    for k, edge in enumerate((whole.edges[0], whole.edges[2])):
        long = LineString(flattened(edge.path)).length
        length = length_text(long, units)
        named = edge.kind is not EdgeKind.FOLD
        wanted = f"{edge.words}: {length}" if named else length
        beside = [
            text
            for text in texts
            if text.text == wanted or text.text.startswith(f"{wanted} ")
            if sides[k].distance(PlanePoint(text.at))
            < min(30.0, sides[1 - k].distance(PlanePoint(text.at)))
            # A gore's side curves over the hip: its direction is that beside the words.
            and abs(
                math.sin(
                    text.angle - direction_along(paths[k], sides[k].project(PlanePoint(text.at)))
                )
            )
            < math.sin(math.radians(20))
        ]
        if not beside:
            untold.append(f"{whole.name}, {wanted}")
    return untold


def on_the_plane(layout: Printed) -> list[Text]:
    """Return the words on the pages of a pattern, where they stand on its plane."""
    sheets, found = layout.sheets, []
    pages = layout.document.pages[-len(sheets.tiles) :]
    for tile, page in zip(sheets.tiles, pages, strict=True):
        dx, dy = (tile.window.left - sheets.grid.margin, tile.window.bottom - sheets.grid.margin)
        found += [
            replace(text, at=Point(text.at.x + dx, text.at.y + dy)) for text in page.drawing.texts
        ]
    return found


READ_OFF_PAGES = ("chorus-skirt", "tea-dance-skirt", "box-office-skirt", "young-chorus-skirt")
"""A lining; inches; gores with a fold; one panel alone: their words are read off whole pages."""


def set_words(example: str, pattern: Pattern) -> list[tuple[Placement, Sequence[Text]]]:
    """Return an example's shortened pieces with the words on their pages, or those set for them."""
    if example not in READ_OFF_PAGES:
        return list(set_on_a4(draft(waist_only(pattern.spec))))
    layout = layout_of_waist(pattern)
    texts = on_the_plane(layout)
    return [(placed, texts) for placed in layout.sheets.placements if is_shortened(placed.piece)]


def test_every_side_of_every_example_says_its_name_and_its_length(
    pattern_of: Callable[[str], Pattern], example: str
) -> None:
    pattern = pattern_of(example)
    whole = {piece.name: piece for piece in pattern.pieces}
    untold = [
        words
        for placed, texts in set_words(example, pattern)
        for words in untold_sides(placed, whole[placed.piece.name], texts, pattern.spec.units)
    ]
    assert not untold


@settings(max_examples=drawn(20), deadline=None, suppress_health_check=list(HealthCheck))
@given(specs())
def test_any_skirt_has_its_sides_and_rays_told_and_its_label_on_the_paper(spec: Spec) -> None:
    """Setting words is slow: both laws look at the same ones."""
    pattern = draft(waist_only(spec))
    whole = {piece.name: piece for piece in pattern.pieces}
    found = set_on_a4(pattern)
    for placed, texts in found:
        assert not untold_sides(placed, whole[placed.piece.name], texts, spec.units)
    every_ray_has_its_length_and_the_label_stands_on_the_paper_cut_out(found)


def every_ray_has_its_length_and_the_label_stands_on_the_paper_cut_out(
    found_places: list[tuple[Placement, tuple[Text, ...]]],
) -> None:
    for placed, texts in found_places:
        piece = placed.piece
        cloth = flattened(placed.on_plane(cutting_line(piece)))
        (title,) = (text for text in texts if text.text == piece.name)
        assert all(holds(cloth, corner) for corner in corners(title))
        # The name and how it is cut stand in one block; half of a narrow gore has room for its
        # name alone, and the cut list tells the rest.
        block = [text for text in texts if text.angle == title.angle]
        outline = cutting_line(piece)
        wide = 2 * tape.walked_area(outline) / tape.walked_length(outline)
        assert wide < 60 or any(text.text.startswith("piece 1 of 2") for text in block)
        found = {
            line.words.partition(" from ")[0]
            for line in piece.inner_lines
            if line.kind is InnerKind.RAY
        }
        for length in found:
            wanted = sum(
                line.kind is InnerKind.RAY and line.words.startswith(f"{length} ")
                for line in piece.inner_lines
            )
            # The sides say theirs in words of their own, in bold.
            told = [text for text in texts if text.text.startswith(length) and not text.bold]
            assert len(told) >= wanted


def test_the_command_writes_a_sound_file_and_one_piece_of_it(tmp_path: Path) -> None:
    sheet = tmp_path / "quick.toml"
    sheet.write_text('[wearer]\nsize = "P05"\n[print]\nscope = "waist"\n')
    out = tmp_path / "out"
    for more in ([], ["--piece", "1"]):
        result = CliRunner().invoke(
            app,
            [
                "draft",
                str(sheet),
                "--quick",
                "--without",
                "lay",
                "--without",
                "booklet",
                "--out",
                str(out),
                *more,
            ],
        )
        assert result.exit_code == 0, result.output
    assert (out / "quick-skirt-panel-a4.pdf").exists()


def test_no_half_is_urged_where_it_saves_hardly_a_page(
    pattern_of: Callable[[str], Pattern],
) -> None:
    whole = pattern_of("understudy-skirt")
    assert "half-saves-paper" in {finding.code for finding in whole.findings}
    for scope in (Scope.WAIST, Scope.CARD):
        spec = replace(whole.spec, print=replace(whole.spec.print, scope=scope))
        assert "half-saves-paper" not in {finding.code for finding in draft(spec).findings}
