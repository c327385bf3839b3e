"""The lines and words of what is placed on a plane: of pieces, or of nests of a graded pattern's.

The one place that knows which of the two a pattern has. Millimetres. Imports the renderers of both.
"""

from collections.abc import Sequence

from drafting.geometry import Box
from drafting.pattern import Pattern
from drafting.piece import Piece
from render.chosen import as_printed, sized_pieces
from render.drawing import Stroke, Text
from render.piece_drawing import piece_lines
from render.piece_words import label_and_words
from render.placement import Placement
from render.resized import resized
from render.spots import Spots


def lines_on(
    pattern: Pattern,
    placements: Sequence[Placement],
    *,
    joins: Sequence[Box] = (),
    windows: Sequence[Box] = (),
    by: float = 1.0,
) -> tuple[tuple[Stroke, ...], tuple[Text, ...]]:
    """Return every line on the plane, and the names of sizes that are set into gaps of them.

    Args:
        joins: what two pages show; names keep clear of it.
        windows: what the pages show.
        by: how large the placed pieces are drawn.
    """
    if not pattern.sizes:
        return tuple(line for placement in placements for line in piece_lines(placement)), ()
    from render.nest.lines import nested

    nest = nested(
        placements,
        {one.piece.name: _drawn(pattern, one.piece.name, by) for one in placements},
        pattern.spec.publish.sizes,
        joins=joins,
        windows=windows,
    )
    return nest.strokes, nest.texts


def words_on(
    placement: Placement,
    pattern: Pattern,
    room: Spots,
    *,
    named: Piece | None = None,
    by: float = 1.0,
) -> tuple[Text, ...]:
    """Return the words of one piece or nest, numbered as in the cut list; their room is claimed.

    Args:
        named: the piece that the words tell of, if it is drawn at another size.
        by: how large it is drawn then.
    """
    if not pattern.sizes:
        return label_and_words(placement, pattern, room, named=named)
    from render.nest.words import nest_words

    name = placement.piece.name
    told = nest_of(pattern, name)
    return nest_words(placement, _drawn(pattern, name, by), pattern, room, told=told)


def nest_of(pattern: Pattern, name: str) -> dict[str, Piece]:
    """Return the pieces that a frame of a graded pattern holds, by their sizes, as printed."""
    frame = next(piece for piece in pattern.pieces if piece.name == name)
    return {
        each.spec.wearer.size: as_printed(one, each) for each, one in sized_pieces(pattern, frame)
    }


def _drawn(pattern: Pattern, name: str, by: float) -> dict[str, Piece]:
    pieces = nest_of(pattern, name)
    if by == 1.0:
        return pieces
    return {size: resized(piece, by) for size, piece in pieces.items()}
