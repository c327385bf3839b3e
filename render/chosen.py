"""Which pieces of a pattern go on paper: those that its sheet prints, or those asked for by name.

Imports drafting's values.
"""

from collections.abc import Sequence

from drafting.cloth import is_bias_strip
from drafting.errors import DraftingError, quoted
from drafting.pattern import Pattern
from drafting.piece import Piece
from drafting.spec import Strips


class PieceWishError(DraftingError):
    """A piece was asked for that cannot be printed."""


class PieceNameError(PieceWishError):
    """The pattern has no piece of that name or number."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        listed = ", ".join(f"{number} {piece}" for number, piece in enumerate(known, start=1))
        super().__init__(
            f"{quoted(name)} is not a piece of this pattern; its pieces are {listed}."
            " Give a piece's name or its number."
        )
        self.name, self.known = name, known


class NotPrintedError(PieceWishError):
    """A bias strip was asked for: it is joined from lengths, and has no shape to print."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name} is joined from bias strips and is never printed."
            " Cut it by the measures in the cut list."
        )
        self.name = name


def on_paper(pattern: Pattern, only: Sequence[str] = ()) -> tuple[Piece, ...]:
    """Return the pieces to print, in the pattern's order.

    Args:
        only: names or numbers of pieces, as the cut list has them; else those that the sheet
            prints. A band or a strip asked for by name is printed even where strips are listed.

    Raises:
        PieceWishError: the pattern has no such piece, or it is a bias strip.
    """
    if not only:
        strips = pattern.spec.print.strips
        return tuple(piece for piece in pattern.pieces if _is_printed(piece, strips))
    wanted = [_named(pattern, name) for name in only]
    return tuple(piece for piece in pattern.pieces if piece in wanted)


def _is_printed(piece: Piece, strips: Strips) -> bool:
    return not piece.rectangle or (strips is Strips.DRAWN and not is_bias_strip(piece))


def _named(pattern: Pattern, name: str) -> Piece:
    given = " ".join(name.split()).lower()
    for number, piece in enumerate(pattern.pieces, start=1):
        if given in (piece.name.lower(), str(number)):
            if is_bias_strip(piece):
                raise NotPrintedError(piece.name)
            return piece
    raise PieceNameError(name, tuple(piece.name for piece in pattern.pieces))
