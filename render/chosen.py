"""Which pieces of a pattern go on paper: those that its sheet prints, or those asked for by name.

Imports drafting's values.
"""

from collections.abc import Sequence

from drafting.cloth import is_bias_strip
from drafting.errors import DraftingError, quoted
from drafting.pattern import Pattern
from drafting.piece import Piece
from drafting.spec import Scope, Strips
from drafting.waist_part import is_shortened, waist_part


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


class CardError(PieceWishError):
    """Pieces, or a drawing of them, were asked for where the sheet prints a card of figures."""

    def __init__(self) -> None:
        super().__init__(
            'The sheet says scope = "card", which prints one page of figures and no pieces.'
            ' Write scope = "whole" or "waist" under [print] to have pieces drawn.'
        )


def on_paper(pattern: Pattern, only: Sequence[str] = ()) -> tuple[Piece, ...]:
    """Return the pieces to print, in the pattern's order.

    Args:
        only: names or numbers of pieces, as the cut list has them; else those that the sheet
            prints. A band or a strip asked for by name is printed even where strips are listed.

    Raises:
        PieceWishError: the pattern has no such piece, it is a bias strip, or the sheet prints
            a card and no pieces.
    """
    scope, strips = pattern.spec.print.scope, pattern.spec.print.strips
    if scope is Scope.CARD:
        if only:
            raise CardError
        return ()
    if only:
        wanted = [_named(pattern, name) for name in only]
        chosen = tuple(piece for piece in pattern.pieces if piece in wanted)
    else:
        chosen = tuple(
            piece
            for piece in pattern.pieces
            if _is_printed(piece, strips) and traced_from(piece, pattern) is None
        )
    return tuple(as_printed(piece, pattern) for piece in chosen)


def as_printed(piece: Piece, pattern: Pattern) -> Piece:
    """Return a piece as its sheet has it printed: whole, or its waist alone."""
    if pattern.spec.print.scope is Scope.WAIST:
        return waist_part(piece, pattern.spec.units)
    return piece


def traced_from(piece: Piece, pattern: Pattern) -> Piece | None:
    """Return the panel that a hem's facing is traced from, where only its waist is printed."""
    if pattern.spec.print.scope is not Scope.WAIST or not piece.name.startswith("hem facing"):
        return None
    by_name = {one.name: one for one in pattern.pieces}
    for seam in pattern.seams:
        if len(seam.first) == 1 and [side.piece for side in seam.second] == [piece.name]:
            faced = by_name[seam.first[0].piece]
            return faced if is_shortened(as_printed(faced, pattern)) else None
    return None


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
