"""The lines and words of what is placed on a plane: of pieces, or of nests of a graded pattern's.

The one place that knows which of the two a pattern has. Millimetres. Imports the renderers of both.
"""

from collections.abc import Sequence
from dataclasses import replace

from drafting.geometry import Box
from drafting.nests import common_ground, nestled
from drafting.pattern import Pattern
from drafting.piece import Piece
from render.drawing import Stroke, Text
from render.piece_drawing import piece_lines
from render.piece_words import label_and_words
from render.placement import Placement
from render.spots import Spots


def lines_on(
    pattern: Pattern,
    placements: Sequence[Placement],
    *,
    joins: Sequence[Box] = (),
    windows: Sequence[Box] = (),
) -> tuple[tuple[Stroke, ...], tuple[Text, ...]]:
    """Return every line on the plane, and the names of sizes that are set into gaps of them.

    Args:
        joins: what two pages show; names keep clear of it.
        windows: what the pages show.
    """
    if not pattern.sizes:
        return tuple(line for placement in placements for line in piece_lines(placement)), ()
    from render.nest.lines import nested

    nest = nested(
        placements,
        {one.piece.name: nest_of(pattern, one.piece.name) for one in placements},
        pattern.spec.publish.sizes,
        joins=joins,
        windows=windows,
    )
    return nest.strokes, nest.texts


def words_on(placement: Placement, pattern: Pattern, room: Spots) -> tuple[Text, ...]:
    """Return the words of one piece or nest, numbered as in the cut list; their room is claimed."""
    if not pattern.sizes:
        return label_and_words(placement, pattern, room)
    from render.nest.words import nest_words

    pieces = nest_of(pattern, placement.piece.name)
    ground = common_ground(tuple(pieces.values()))
    if ground:
        return nest_words(placement, pieces, ground, pattern, room)
    # Sizes that lie beside each other have each their own words.
    own = {each.spec.wearer.size: each for each in pattern.sizes}
    return tuple(
        replace(text, sizes=(size,))
        for size, piece in pieces.items()
        for text in label_and_words(replace(placement, piece=piece), own[size], room)
    )


def nest_of(pattern: Pattern, name: str) -> dict[str, Piece]:
    """Return the pieces that a frame of a graded pattern holds, by size, as they lie in it."""
    found = {
        each.spec.wearer.size: piece
        for each in pattern.sizes
        for piece in each.pieces
        if piece.name == name
    }
    return dict(zip(found, nestled(tuple(found.values())), strict=True))
