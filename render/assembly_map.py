"""The map of the assembled plane: pages in their places with the pieces drawn on them.

Millimetres, its lower left corner at the origin. Imports geometry, piece, drawing, tiling.
"""

import math
from collections.abc import Collection, Iterable, Mapping
from functools import lru_cache

from drafting.geometry import (
    Box,
    Path,
    Point,
    bounds,
    flattened,
    holds,
    rim,
    scaled,
)
from drafting.language import say
from drafting.piece import cutting_line
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text
from render.room import Room, turned_box
from render.tiling import Sheets

OUTLINE = Pen(width=0.5)
PAGE_EDGE = Pen(width=0.2)
LEAST_NAME: Mm = style.NOTE
LARGEST: Mm = 21.0
"""A page is drawn at most this wide on the map, however few pages there are."""


def map_size(sheets: Sheets, width: Mm, height: Mm, most: float = math.inf) -> tuple[Mm, Mm, float]:
    """Return the width and height of the map that fits into a space, and its scale."""
    plane = _plane(sheets)
    largest = min(LARGEST / sheets.grid.window.width, most)
    scale = min(width / plane.width, height / plane.height, largest)
    return plane.width * scale, plane.height * scale, scale


def least_scale(sheets: Sheets) -> float:
    """Return the least scale at which every page's name fits into its place on the map."""
    widest = max(fonts.width(tile.name, LEAST_NAME) for tile in sheets.tiles)
    grid = sheets.grid
    return max((widest + 1.5) / grid.step_x, (LEAST_NAME + 1.5) / grid.step_y)


def _plane(sheets: Sheets) -> Box:
    return Box(
        left=0.0,
        bottom=0.0,
        right=max(tile.window.right for tile in sheets.tiles),
        top=max(tile.window.top for tile in sheets.tiles),
    )


def assembly_map(
    sheets: Sheets,
    scale: float,
    numbers: Mapping[str, int] | None = None,
    starred: Collection[str] = (),
) -> Drawing:
    """Return the map at a scale: page edges thin, pieces bold with their numbers, page names.

    Args:
        numbers: the pieces' numbers by name, as the cut list has them; counted if left out.
        starred: names of the pages that not every size needs; a star follows them.
    """
    grid = sheets.grid
    strokes: list[Stroke] = []
    texts: list[Text] = []
    outlines = [
        scaled(placement.on_plane(cutting_line(placement.piece)), scale)
        for placement in sheets.placements
    ]
    wide, high, _ = map_size(sheets, math.inf, math.inf, scale)
    room = Room(box=Box(left=-1.0, bottom=-1.0, right=wide + 1, top=high + 1), cell=0.5)
    for path in outlines:
        strokes.append(Stroke(path=path, pen=OUTLINE, layer=Layer.PAGE))
        room.enter(path)
    cells = {}
    for tile in sheets.tiles:
        left, bottom = tile.window.left * scale, tile.window.bottom * scale
        # Pages are drawn without their overlaps, as the taped plane shows them.
        right, top = left + grid.step_x * scale, bottom + grid.step_y * scale
        cells[tile.name] = Box(left=left, bottom=bottom, right=right, top=top)
        for edge in rim(cells[tile.name]):
            strokes.append(Stroke(path=(edge,), pen=PAGE_EDGE, layer=Layer.PAGE))
            room.enter((edge,))
    for page, cell in cells.items():
        shown = f"{page}*" if page in starred else page
        text = _in_cell(shown, cell, LEAST_NAME, room)
        if text is None:
            wide = fonts.width(shown, LEAST_NAME)
            room.claim(turned_box(cell.centre, wide, LEAST_NAME, 0.0))
            text = _line(shown, cell.centre, LEAST_NAME, bold=False)
        texts.append(text)
    for order, path in enumerate(outlines, start=1):
        name = sheets.placements[order - 1].piece.name
        number = order if numbers is None else numbers[name]
        box = bounds(path)
        # On a very small map there may be no room; the list beside it names the pages too.
        sizes = (style.HEADING, style.BODY, style.NOTE)
        found = (_in_cell(str(number), box, size, room, bold=True, outline=path) for size in sizes)
        text = next((text for text in found if text is not None), None)
        texts += [text] if text is not None else []
    return Drawing(strokes=tuple(strokes), texts=tuple(texts))


@lru_cache(maxsize=64)
def _outwards(width: Mm, height: Mm) -> tuple[tuple[Mm, Mm], ...]:
    """Return places of a lattice round the middle of a cell, the nearest first."""
    steps = [(i * width / 32, j * height / 32) for i in range(-14, 15) for j in range(-14, 15)]
    return tuple(sorted(steps, key=lambda step: (round(math.hypot(*step), 3), step)))


def _in_cell(
    words: str, cell: Box, size: Mm, room: Room, *, bold: bool = False, outline: Path = ()
) -> Text | None:
    """Return words near the middle of a cell and clear of lines, or None without such room."""
    middle = cell.centre
    wide, high = fonts.width(words, size, bold=bold) + 0.8, size
    around = _outwards(round(cell.width, 6), round(cell.height, 6))
    spots = [Point(middle.x + dx, middle.y + dy) for dx, dy in around]
    if outline:
        # A piece's number stands on the piece, or beside it where it is too narrow.
        polygon = flattened(outline)
        spots.sort(key=lambda p: not holds(polygon, p))
    boxes = ((spot, turned_box(spot, wide, high, 0.0)) for spot in spots)
    spot = next((spot for spot, box in boxes if room.is_free(box)), None)
    if spot is None:
        return None
    room.claim(turned_box(spot, wide, high, 0.0))
    return _line(words, spot, size, bold=bold)


def _line(words: str, middle: Point, size: Mm, *, bold: bool) -> Text:
    at = Point(middle.x, middle.y - style.CAP_HEIGHT * size / 2)
    return Text(text=words, at=at, size=size, anchor=Anchor.MIDDLE, bold=bold, layer=Layer.PAGE)


def page_runs(sheets: Sheets, piece: str) -> str:
    """Return which pages carry a piece, runs shortened: "A1 to A4, B2"."""
    runs: list[list[tuple[int, int, str]]] = []
    for tile in sheets.tiles:
        if piece not in tile.pieces:
            continue
        here = (tile.row, tile.column, tile.name)
        if runs and runs[-1][-1][:2] == (tile.row, tile.column - 1):
            runs[-1].append(here)
        else:
            runs.append([here])
    return ", ".join(
        run[0][2] if len(run) == 1 else say("{first} to {last}", first=run[0][2], last=run[-1][2])
        for run in runs
    )


def file_pages(sheets: Sheets, piece: str, *, after: int) -> str:
    """Return the numbers of a file's pages that carry a piece, as a print dialogue takes them.

    Args:
        after: how many pages lead the pattern's own.
    """
    return in_runs(
        number for number, tile in enumerate(sheets.tiles, start=after + 1) if piece in tile.pieces
    )


def in_runs(numbers: Iterable[int]) -> str:
    """Return rising numbers as a print dialogue takes them, runs shortened: "3-7, 9"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)
