"""Every printed piece carries its name on its own cloth, whatever the cut."""

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from drafting.allowance import Widths
from drafting.circle import Flare
from drafting.cloth import box_on_cloth
from drafting.cloth.boxes import bare_panels
from drafting.findings import stops
from drafting.geometry import Point, flattened, holds, stepped
from drafting.pattern import draft
from drafting.piece import Piece, cutting_line
from drafting.pieced import Unbroken, pieced
from drafting.spec import Cloths, Grain, PaperName, Spec
from render import fonts
from render.drawing import Text
from render.pages import free_room
from render.paper import grid
from render.piece_drawing import piece_lines
from render.piece_words import piece_words
from render.placement import Effort, place
from render.room import turned_box
from render.tiling import cut_into_pages
from render.words import fold_words, label_words
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import garment


def corners(text: Text) -> tuple[Point, ...]:
    """Return the corners of a text's capitals."""
    wide = fonts.width(text.text, text.size, bold=text.bold)
    middle = stepped(text.at, text.angle + math.pi / 2, 0.34 * text.size)
    return turned_box(middle, wide, 0.7 * text.size, text.angle)


@settings(max_examples=drawn(25), deadline=None, suppress_health_check=list(HealthCheck))
@given(specs())
def test_a_pieces_name_lies_inside_its_cutting_line(spec: Spec) -> None:
    pattern = draft(spec)
    if stops(pattern.findings):
        return
    pieces = [piece for piece in pattern.pieces if not piece.rectangle]
    if pieces:
        named_on_their_cloth(pieces, spec)


@pytest.mark.parametrize("panels", [4, 6, 8, 10, 11])
@pytest.mark.parametrize("name", ["skirt panel", "lining side right"])
def test_the_smallest_corners_carry_their_names(panels: int, name: str) -> None:
    # Just too wide for the cloth: 3 cm of corner, as sharp as they come.
    cut = Flare(fullness=1, panels=panels, waistline=720, length=900)
    (bare,) = bare_panels(cut, Widths(waist=10, side=10, hem=4), Grain.CENTRE, half=False)
    panel = replace(bare, name=name)
    usable = box_on_cloth(panel).height - 1
    made = pieced(panel, usable, Grain.CENTRE, Unbroken(), letters=("1a", "1b"))
    assert made is not None and made.width == pytest.approx(30)
    spec = garment(cloths=Cloths())
    named_on_their_cloth([replace(piece, cloth="skirt") for piece in made.corners], spec)


def named_on_their_cloth(pieces: Sequence[Piece], spec: Spec) -> None:
    on = grid(PaperName.A3, margin=None, overlap=10)
    sheets = cut_into_pages(place(pieces, on, effort=Effort.QUICK), on)
    lines = tuple(stroke for placed in sheets.placements for stroke in piece_lines(placed))
    room = free_room(sheets, lines)
    for placed in sheets.placements:
        name = placed.piece.name
        texts = piece_words(
            placed,
            title=name,
            lines=label_words(placed.piece, spec, number=1, of=2),
            fold=fold_words(placed.piece),
            room=room,
        )
        titles = [text for text in texts if text.text == name]
        assert len(titles) == 1, name
        cloth = flattened(placed.on_plane(cutting_line(placed.piece)))
        assert all(holds(cloth, corner) for corner in corners(titles[0])), name
