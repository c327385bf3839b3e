"""Every printed piece carries its name on its own cloth, whatever the cut."""

import math

from hypothesis import HealthCheck, given, settings

from drafting.findings import stops
from drafting.geometry import Point, flattened, holds, stepped
from drafting.pattern import draft
from drafting.piece import cutting_line
from drafting.spec import PaperName, Spec
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


def corners(text: Text) -> tuple[Point, ...]:
    """Return the corners of a text's capitals."""
    wide = fonts.width(text.text, text.size, bold=text.bold)
    middle = stepped(text.at, text.angle + math.pi / 2, 0.34 * text.size)
    return turned_box(middle, wide, 0.7 * text.size, text.angle)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(specs())
def test_a_pieces_name_lies_inside_its_cutting_line(spec: Spec) -> None:
    pattern = draft(spec)
    if stops(pattern.findings):
        return
    pieces = [piece for piece in pattern.pieces if not piece.rectangle]
    if not pieces:
        return
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
