"""Free spots for words on a plane: which a piece and its paper have, and the first that takes them.

Millimetres and radians. Imports geometry, drawing, fonts, style and room.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from drafting.geometry import Path, Point, direction_along, holds, path_length, point_along, stepped
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Text
from render.room import Room, spread, turned_box


@dataclass(frozen=True, slots=True, kw_only=True)
class Spots:
    """Where words may go: ``clear`` of all lines, and best also ``uncut`` by page joins."""

    clear: Room
    uncut: Room

    def claim(self, corners: Sequence[Point]) -> None:
        """Take a shape's room in both."""
        self.clear.claim(corners)
        self.uncut.claim(corners)

    def kept(self) -> tuple[list[int], list[int]]:
        """Return what is taken in both so far."""
        return list(self.clear.rows), list(self.uncut.rows)

    def restore(self, kept: tuple[list[int], list[int]]) -> None:
        """Give back all that was taken since."""
        self.clear.rows[:], self.uncut.rows[:] = kept

    def kinds(self) -> tuple[Room, ...]:
        """Return both, the one to wish for first; one alone where no joins are."""
        return (self.clear,) if self.uncut is self.clear else (self.uncut, self.clear)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place for a line of text: its middle and its angle."""

    at: Point
    angle: float


_STEEPEST = math.radians(80)
"""Text steeper than this reads upwards, so that all nearly upright words face one way."""


def upright(angle: float) -> float:
    """Return the angle, turned half round if text at it would stand on its head."""
    turned = math.remainder(angle, math.tau)
    if not -_STEEPEST < turned <= math.pi - _STEEPEST:
        turned = math.remainder(turned + math.pi, math.tau)
    return turned


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A piece's own ground on the plane: the room round it and its cutting line as a polygon."""

    room: Spots
    polygon: tuple[Point, ...]

    def holds(self, corners: Sequence[Point]) -> bool:
        """Tell whether a rectangle free of lines lies on the piece, not on the paper beside it."""
        return all(holds(self.polygon, corner) for corner in corners)


def first_free(
    options: Sequence[str],
    spots: Iterable[Spot],
    ground: Ground,
    *,
    size: Mm,
    bold: bool = False,
) -> Text | None:
    """Return the first wording for which there is a free spot, set there; its room is claimed.

    Best on the piece and uncut by page joins, then on the piece, then on the paper beside it.
    None where there is no free spot at all: words are never printed over lines.
    """
    tried = tuple(spots)
    room = ground.room
    wordings = [
        (words, [turned_box(spot.at, wide, size + 0.6, spot.angle) for spot in tried])
        for words in options
        for wide in (fonts.width(words, size, bold=bold) + 2.0,)
    ]
    for free, inside in ((room.uncut, True), (room.clear, True), (room.clear, False)):
        for words, boxes in wordings:
            for spot, box in zip(tried, boxes, strict=True):
                if free.is_free(box) and (not inside or ground.holds(box)):
                    room.claim(box)
                    return line_of(words, spot, size, bold=bold)
    return None


def line_of(words: str, spot: Spot, size: Mm, *, bold: bool) -> Text:
    return Text(
        text=words,
        at=stepped(spot.at, spot.angle - math.pi / 2, style.CAP_HEIGHT * size / 2),
        size=size,
        angle=spot.angle,
        anchor=Anchor.MIDDLE,
        bold=bold,
    )


def text_box(text: Text) -> tuple[Point, ...]:
    """Return the corners of the room that words of a piece take."""
    middle = stepped(text.at, text.angle + math.pi / 2, style.CAP_HEIGHT * text.size / 2)
    wide = fonts.width(text.text, text.size, bold=text.bold) + 2.0
    return turned_box(middle, wide, text.size + 0.6, text.angle)


def beside(path: Path, gaps: Sequence[Mm], count: int) -> Iterator[Spot]:
    """Yield spots beside a path, to its left first for gaps above 0, from its middle outwards."""
    long = path_length(path)
    for gap in gaps:
        for share in spread(count):
            at = share * long
            turn = direction_along(path, at)
            yield Spot(
                at=stepped(point_along(path, at), turn + math.pi / 2, gap), angle=upright(turn)
            )


def around(point: Point, near: Mm, wide: Mm) -> Iterator[Spot]:
    """Yield level spots round a point: beside it, then above and below, then further off."""
    for far in (near, 2 * near, 3 * near, 5 * near, 8 * near):
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)):
            sideways = dx * (far + wide / 2)
            yield Spot(at=Point(point.x + sideways, point.y + dy * far), angle=0.0)
