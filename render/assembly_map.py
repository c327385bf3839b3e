"""The map of the assembled plane: pages in their places with the pieces drawn on them.

Millimetres, its lower left corner at the origin. Imports geometry, piece, drawing, tiling.
"""

from drafting.geometry import Box, Point, scaled, straight
from drafting.piece import cutting_line
from drafting.units import Mm
from render import style
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text
from render.tiling import Sheets

OUTLINE = Pen(width=0.5)
PAGE_EDGE = Pen(width=0.2)
LEAST_NAME: Mm = style.NOTE
LARGEST: Mm = 17.0
"""A page is drawn at most this wide on the map, however few pages there are."""


def map_size(sheets: Sheets, width: Mm, height: Mm) -> tuple[Mm, Mm, float]:
    """Return the width and height of the map that fits into a space, and its scale."""
    plane = _plane(sheets)
    scale = min(width / plane.width, height / plane.height, LARGEST / sheets.grid.window.width)
    return plane.width * scale, plane.height * scale, scale


def _plane(sheets: Sheets) -> Box:
    return Box(
        left=0.0,
        bottom=0.0,
        right=max(tile.window.right for tile in sheets.tiles),
        top=max(tile.window.top for tile in sheets.tiles),
    )


def assembly_map(sheets: Sheets, scale: float) -> Drawing:
    """Return the map at a scale: page edges thin, pieces bold, page names in the middle."""
    grid = sheets.grid
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for tile in sheets.tiles:
        left, bottom = tile.window.left * scale, tile.window.bottom * scale
        # Pages are drawn without their overlaps, as the taped plane shows them.
        right, top = left + grid.step_x * scale, bottom + grid.step_y * scale
        corners = (Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top))
        for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
            strokes.append(Stroke(path=straight(one, other), pen=PAGE_EDGE, layer=Layer.PAGE))
        size = max(min(0.36 * (top - bottom), 0.75 * (right - left) / 1.9, 5.0), LEAST_NAME)
        texts.append(
            Text(
                text=tile.name,
                at=Point((left + right) / 2, (bottom + top) / 2 - style.CAP_HEIGHT * size / 2),
                size=size,
                anchor=Anchor.MIDDLE,
                layer=Layer.PAGE,
            )
        )
    for placement in sheets.placements:
        path = scaled(placement.on_plane(cutting_line(placement.piece)), scale)
        strokes.append(Stroke(path=path, pen=OUTLINE, layer=Layer.PAGE))
    return Drawing(strokes=tuple(strokes), texts=tuple(texts))


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
    return ", ".join(run[0][2] if len(run) == 1 else f"{run[0][2]} to {run[-1][2]}" for run in runs)
