"""Spec sheets of the workroom, drafted and printed for the tests of the twenty mistakes.

Millimetres. What a test expects is worked out in the test itself, by school geometry.
"""

import math
from collections.abc import Iterable
from functools import cache

from drafting.findings import Finding
from drafting.geometry import Line, Path
from drafting.pattern import Pattern, draft
from drafting.piece import Edge, EdgeKind, Piece, cutting_box, cutting_line, edge_named
from drafting.sheet import read_sheet
from drafting.spec import PaperName
from render.chosen import on_paper as printed_pieces
from render.drawing import Drawing
from render.pages import Printed, pattern_pages, printed
from render.paper import grid
from render.placement import Effort, Placement
from render.ticket import ticket
from render.tiling import Sheets, cut_into_pages
from tests import tape

XY = tuple[float, float]

# Measured all of it, so that nothing is read from the size table.
WAIST, HIP, HIP_DEPTH, STEP = 720.0, 960.0, 200.0, 700.0
FLOOR_FRONT, FLOOR_SIDE, FLOOR_BACK = 1040.0, 1060.0, 1050.0
EASE, STRETCH = 15.0, 0.01  # what the sheet's guide promises where a circle leaves them open
WEARER = """
[wearer]
label = "Ticket seller"
waist = "72 cm"
hip = "96 cm"
hip_depth = "20 cm"
waist_to_knee = "58,3 cm"
floor_front = "104 cm"
floor_side = "106 cm"
floor_back = "105 cm"
height = "168 cm"
step = "70 cm"
"""
UNEVEN = WEARER.replace('floor_side = "106 cm"', 'floor_left = "107 cm"\nfloor_right = "105 cm"')
CHILD = """
[wearer]
label = "Young pierrot"
figure = "child"
waist = "56 cm"
hip = "66 cm"
hip_depth = "14 cm"
waist_to_knee = "42 cm"
floor_front = "76 cm"
floor_side = "77 cm"
floor_back = "76,5 cm"
height = "128 cm"
step = "48 cm"
"""


def sheet(skirt: str, more: str = "", *, wearer: str = WEARER, top: str = "") -> str:
    return f'title = "Pier skirt"\n{top}\n{wearer}\n[skirt]\n{skirt}\n{more}\n'


@cache
def drafted(skirt: str, more: str = "", *, wearer: str = WEARER, top: str = "") -> Pattern:
    """Return the pattern of a sheet: the lines under [skirt], then any further tables."""
    return draft(read_sheet(sheet(skirt, more, wearer=wearer, top=top)))


_PRINTED: dict[int, tuple[Pattern, Printed]] = {}


def on_paper(pattern: Pattern) -> Printed:
    """Return a pattern on A4, laid out once; it is kept, so that no other takes its place."""
    if id(pattern) not in _PRINTED:
        _PRINTED[id(pattern)] = (pattern, printed(pattern, PaperName.A4, effort=Effort.QUICK))
    return _PRINTED[id(pattern)][1]


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


def ticket_words(pattern: Pattern, paper: PaperName = PaperName.A3) -> str:
    """Return the words of the ticket, lines of a paragraph joined.

    It is the ticket of pieces laid side by side, which takes no search for fewer pages; but for
    the count of pages and the names on the map its words are those of any other.
    """
    return _words(ticket(pattern, _in_a_row(pattern, paper), 2))


def page_words(pattern: Pattern) -> str:
    """Return the words of the pattern's own pages, its pieces side by side on A3."""
    pages = pattern_pages(pattern, _in_a_row(pattern, PaperName.A3))
    return _words(page.drawing for page in pages)


def _words(drawings: Iterable[Drawing]) -> str:
    return plain(" ".join(text.text for drawing in drawings for text in drawing.texts))


def _in_a_row(pattern: Pattern, paper: PaperName) -> Sheets:
    """Return a pattern's pieces side by side on the plane of its pages."""
    placements, left = [], 0.0
    for one in printed_pieces(pattern):
        box = cutting_box(one)
        placements.append(Placement(piece=one, x=left - box.left, y=-box.bottom, turn=0.0))
        left += box.width + 10
    return cut_into_pages(tuple(placements), grid(paper, margin=None, overlap=10))


def printed_ticket_words(layout: Printed) -> str:
    """Return the words of the ticket of a layout, lines of a paragraph joined."""
    pages = layout.document.pages
    return _words(page.drawing for page in pages if page.label.startswith("ticket"))


def printed_page_words(layout: Printed) -> str:
    """Return the words of the pattern's own pages of a layout."""
    pages = layout.document.pages
    return _words(page.drawing for page in pages if not page.label.startswith("ticket"))


def finding(pattern: Pattern, code: str) -> Finding:
    (found,) = (one for one in pattern.findings if one.code == code)
    return found


def said(pattern: Pattern, code: str) -> str:
    one = finding(pattern, code)
    return plain(f"{one.what} {one.do}")


def codes(pattern: Pattern) -> set[str]:
    return {one.code for one in pattern.findings}


def cm(length: float) -> str:
    """Return a length as a sewer reads it off a tape in centimetres."""
    return f"{length / 10:.1f} cm"


# --- pieces under the tape -------------------------------------------------------------------


def parts(pattern: Pattern, part: str) -> tuple[Piece, ...]:
    """Return the panels, gores or yokes of a layer, which are the pieces that have a waist."""
    return tuple(
        piece
        for piece in pattern.pieces
        if piece.name.startswith(f"{part} ") and any(edge.name == "waist" for edge in piece.edges)
    )


def piece(pattern: Pattern, name: str) -> Piece:
    (found,) = (one for one in pattern.pieces if one.name == name)
    return found


def times(one: Piece) -> int:
    """Return how often what is drawn lies round the body."""
    return one.count * (2 if one.half else 1)


def all_round(pieces: Iterable[Piece], edge: str) -> float:
    """Return the drawn length of an edge, walked on every piece as often as it is cut."""
    return math.fsum(tape.walked_length(edge_named(p, edge).path) * times(p) for p in pieces)


def allowance_drawn(one: Piece, edge: Edge) -> float:
    """Return how far the cutting line really lies outside the middle of a stitching line."""
    middle = tape.chain(edge.path, 200)
    if len(middle) == 2:
        (ax, ay), (bx, by) = middle
        return tape.gap(((ax + bx) / 2, (ay + by) / 2), cutting_line(one))
    return tape.gap(middle[len(middle) // 2], cutting_line(one))


def apex(one: Piece) -> XY:
    """Return where the two straight sides of a panel meet, as a string and chalk would find it."""
    sides = [
        edge.path[0]
        for edge in one.edges
        if edge.kind in (EdgeKind.SEAM, EdgeKind.FOLD) and isinstance(edge.path[0], Line)
    ]
    one_line, other = sides
    (ax, ay), (bx, by) = one_line.start, one_line.end
    (cx, cy), (dx, dy) = other.start, other.end
    across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if abs(across) < 1e-6:  # a half circle: both sides on one line, the apex between them
        return _between(one)
    t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across
    return ax + t * (bx - ax), ay + t * (by - ay)


def _between(one: Piece) -> XY:
    waist = tape.chain(edge_named(one, "waist").path, 2)
    return (waist[0][0] + waist[-1][0]) / 2, (waist[0][1] + waist[-1][1]) / 2


def reach(path: Path, centre: XY) -> tuple[float, float]:
    """Return how near a path comes to a point, and how far it goes from it."""
    far = [math.dist(point, centre) for point in tape.chain(path, 2000)]
    return tape.gap(centre, path), max(far)


def box_on_grain(one: Piece) -> tuple[float, float]:
    """Return length along and width across the cloth of the whole of what is cut."""
    (ax, ay), (bx, by) = one.grainline
    turn = -math.atan2(by - ay, bx - ax)
    dots = tape.chain(cutting_line(one), 2000)
    if one.half:
        (fold,) = (edge for edge in one.edges if edge.kind is EdgeKind.FOLD)
        (px, py), (qx, qy) = fold.path[0].start, fold.path[0].end
        lean = 2 * math.atan2(qy - py, qx - px)
        c, s = math.cos(lean), math.sin(lean)
        dots += [
            (px + (x - px) * c + (y - py) * s, py + (x - px) * s - (y - py) * c) for x, y in dots
        ]
    c, s = math.cos(turn), math.sin(turn)
    left, bottom, right, top = tape.extent([(x * c - y * s, x * s + y * c) for x, y in dots])
    return right - left, top - bottom
