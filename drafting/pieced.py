"""Corners pieced on: a panel just too wide for its cloth is cut narrower, and made up at the hem.

What sticks out beyond the cloth is cut off along a line parallel to the grain and sewn on again
before any other seam, as it was done when cloth was narrow. Millimetres and radians; inside,
the panel is turned so that its grain runs along +x, from the waist down. Imports geometry,
piece, truing and the boxes of cloth.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from drafting.cloth.boxes import box_on_cloth
from drafting.errors import GeometryError
from drafting.geometry import (
    Arc,
    Line,
    Path,
    Point,
    Segment,
    area,
    bounds,
    direction_along,
    length,
    moved,
    moved_point,
    path_length,
    point_along,
    straight,
)
from drafting.language import listed, say, say_counted
from drafting.panel_marks import seams_at, side_notches
from drafting.piece import (
    Dot,
    Edge,
    FoldWay,
    InnerKind,
    InnerLine,
    Notch,
    NotchKind,
    Piece,
    cutting_line,
    grain_angle,
    stitching_line,
)
from drafting.piece_names import piece_words
from drafting.places import either
from drafting.spec import Grain
from drafting.truing import Seam, Side
from drafting.units import Mm

NARROWEST: Mm = 30.0
"""A corner is at least so wide, finished, that it can be sewn; its seam moves in for that."""

FARTHEST_IN: Mm = 45.0
"""By no more than this: where only a deep hem sticks out, there is no corner to piece on."""

WIDEST: Mm = 250.0
"""A wider corner, finished, is seen; then the panel is better split."""

LARGEST = 0.05
"""Nor is a corner more than this part of its panel."""

SHARPEST = math.radians(15)
"""Where a side runs nearer along the grain than this, the corner ends in a needle."""

FREE: Mm = 0.5
"""The panel is cut this much clear of each selvage."""

CLEAR: Mm = 30.0
"""An opening or a vent ends this far from the corner's seam at least."""

SHORTEST: Mm = 1e-7
"""What is left of a segment cut nearer to its end than this is dropped."""

_BEGIN, _HEM, _FINISH = 0, 1, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Unbroken:
    """How much of a side seam a corner keeps clear of.

    Attributes:
        above: down from the waist, where it opens for closure or pockets.
        below: up from the hem, where a vent or a godet lies; infinite for no corner at all.
    """

    above: Mm = 0.0
    below: Mm = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cutoff:
    """Where one corner is cut off.

    Attributes:
        edge: of the panel that it lies at, its first or its last.
        across: where its seam lies, at right angles to the grain.
        side, hem: how far along the panel's side and its hem the seam meets them.
        width: the corner's widest, finished, at right angles to the grain.
    """

    edge: int
    across: Mm
    side: Mm
    hem: Mm
    width: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieced:
    """A panel and its corners.

    Attributes:
        whole: the panel as it is sewn up.
        main: the panel without its corners; the whole if it needs none.
        corners: the pieces for them; mirror images of each other are one piece.
        width: the widest corner, finished; 0 without any.
        seams: those that sew the corners on.
        lies_on: what became of each edge of the whole: edges of pieces, each once for every
            time that it is met along the whole panel.
    """

    whole: Piece
    main: Piece
    corners: tuple[Piece, ...] = ()
    width: Mm = 0.0
    seams: tuple[Seam, ...] = ()
    lies_on: tuple[tuple[tuple[str, int], ...], ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The panel's pieces, as they stand in the cut list."""
        return (self.main, *self.corners)


def pieced(
    panel: Piece,
    usable: Mm,
    grain: Grain,
    unbroken: Unbroken,
    *,
    letters: Sequence[str] = ("", ""),
) -> Pieced | None:
    """Return a panel cut narrow enough for its cloth and its corners, or None where none will do.

    A panel that fits is returned as it is. A corner will do where it takes in the end of the
    hem and of one side and nothing else, is no wider and no larger than is allowed, and clear
    of what opens.

    Args:
        usable: width of the cloth between its selvages.
        grain: what of the panel lies on the lengthwise grain: with its middle there it has a
            corner at both sides, with an edge there one at its far side.
        letters: numbers of the seams that sew the corners on.
    """
    if box_on_cloth(panel).height <= usable:
        own = tuple(((panel.name, edge),) for edge in range(len(panel.edges)))
        return Pieced(whole=panel, main=panel, lies_on=own)
    edge_on_grain = grain is Grain.EDGE
    if len(panel.edges) != 4 or (panel.half and edge_on_grain):
        return None
    turned = _Turned(panel)
    found = turned.cutoffs(usable, grain)
    if not found or not all(turned.will_do(one, unbroken) for one in found):
        return None
    try:
        made = _drawn(turned, found, letters)
        wide = max(box_on_cloth(piece).height for piece in made.pieces)
    except GeometryError:
        return None
    return made if wide <= usable else None


class _Turned:
    """A panel with its grain along +x; its first side lies below, its last above."""

    def __init__(self, panel: Piece) -> None:
        self.panel = panel
        self.grain = grain_angle(panel)
        self.paths = [moved(edge.path, turn=-self.grain) for edge in panel.edges]

    def cutoffs(self, usable: Mm, grain: Grain) -> tuple[_Cutoff, ...]:
        """Return where corners must be cut off for the panel to fit; none where that cannot be."""
        cut = bounds(moved(cutting_line(self.panel), turn=-self.grain))
        least, most = cut.bottom, cut.top
        allowance = self.panel.edges[_BEGIN].allowance
        wanted: list[tuple[int, Mm]] = []
        if self.panel.half:
            fold = self.paths[_FINISH][0].start.y
            wanted.append((_BEGIN, fold - usable / 2 + FREE + allowance))
        elif grain is Grain.EDGE:
            wanted.append((_FINISH, least + usable - 2 * FREE - allowance))
        else:
            middle, reach = (least + most) / 2, usable / 2 - FREE - allowance
            wanted += [(_BEGIN, middle - reach), (_FINISH, middle + reach)]
        found = [self._cutoff(edge, across) for edge, across in wanted]
        return tuple(one for one in found if one is not None) if all(found) else ()

    def _cutoff(self, edge: int, across: Mm) -> _Cutoff | None:
        """Return a corner cut off at a line, moved in if that leaves too little to sew."""
        down = edge == _BEGIN
        corner = self.paths[_HEM][0].start if down else self.paths[_HEM][-1].end
        held = bounds(self.paths[_HEM])
        far = min(corner.y, held.bottom) if down else max(corner.y, held.top)
        if abs(far - corner.y) > 1.0:
            return None  # the hem reaches further than its end: a corner would lie in its middle
        sticks_out = (across - far) if down else (far - across)
        width = max(sticks_out, NARROWEST)
        if width - sticks_out > FARTHEST_IN:
            return None
        across = far + width if down else far - width
        met = [crossings(path, across) for path in self.paths]
        others = [k for k in range(4) if k not in (edge, _HEM)]
        if len(met[edge]) != 1 or len(met[_HEM]) != 1 or any(met[k] for k in others):
            return None
        return _Cutoff(edge=edge, across=across, side=met[edge][0], hem=met[_HEM][0], width=width)

    def will_do(self, one: _Cutoff, unbroken: Unbroken) -> bool:
        """Tell whether a dressmaker would piece that corner on."""
        side = self.paths[one.edge]
        long = path_length(side)
        above = one.side if one.edge == _BEGIN else long - one.side
        below = long - above
        if above < unbroken.above + CLEAR or (unbroken.below and below < unbroken.below + CLEAR):
            return False
        if one.width > WIDEST or abs(math.sin(direction_along(side, one.side))) < _SHARP:
            return False
        outline = stitching_line(self.panel)
        whole = area(outline) * (2 if self.panel.half else 1)
        first, second = self.cut_off(one)
        closed = (*first, *second, *straight(second[-1].end, first[0].start))
        return area(closed) <= LARGEST * whole

    def cut_off(self, one: _Cutoff) -> tuple[Path, Path]:
        """Return a corner's side and hem in the panel's own frame, in the order of its outline."""
        side, hem = (self.panel.edges[k].path for k in (one.edge, _HEM))
        if one.edge == _BEGIN:
            return divided_at(side, one.side)[1], divided_at(hem, one.hem)[0]
        return divided_at(hem, one.hem)[1], divided_at(side, one.side)[0]


_SHARP = math.sin(SHARPEST)


# --- cutting paths --------------------------------------------------------------------------


def crossings(path: Path, level: Mm) -> list[Mm]:
    """Return how far along a path it crosses a level line, y = ``level``, each crossing once.

    Source: on an arc, sin of the angle is the level's height above the centre over the radius.
    """
    found: list[Mm] = []
    walked = 0.0
    for segment in path:
        for at in _levels(segment, level):
            if not found or walked + at - found[-1] > 1e-6:
                found.append(walked + at)
        walked += length(segment)
    return found


def _levels(segment: Segment, level: Mm) -> list[Mm]:
    if isinstance(segment, Line):
        start, rise = segment.start.y, segment.end.y - segment.start.y
        share = (level - start) / rise if rise else math.inf
        return [share * length(segment)] if -1e-12 <= share <= 1 + 1e-12 else []
    height = (level - segment.centre.y) / segment.radius
    if not -1 <= height <= 1:
        return []
    sweep = segment.finish - segment.begin
    found = []
    for angle in (math.asin(height), math.pi - math.asin(height)):
        turn = math.copysign(1.0, sweep)
        ahead = ((angle - segment.begin) * turn + 1e-12) % math.tau - 1e-12
        if ahead <= abs(sweep) + 1e-12:
            found.append(segment.radius * max(ahead, 0.0))
    return sorted(set(found))


def divided_at(path: Path, walked: Mm) -> tuple[Path, Path]:
    """Return a path in two, divided ``walked`` along it: lines stay lines, arcs stay arcs."""
    before: list[Segment] = []
    after: list[Segment] = []
    start = 0.0
    for segment in path:
        long = length(segment)
        at = walked - start
        if at > long - SHORTEST:
            before.append(segment)
        elif at < SHORTEST:
            after.append(segment)
        else:
            one, other = _in_two(segment, at / long)
            before.append(one)
            after.append(other)
        start += long
    return tuple(before), tuple(after)


def _in_two(segment: Segment, share: float) -> tuple[Segment, Segment]:
    if isinstance(segment, Arc):
        angle = segment.begin + (segment.finish - segment.begin) * share
        return replace(segment, finish=angle), replace(segment, begin=angle)
    (ax, ay), (bx, by) = segment.start, segment.end
    middle = Point(ax + (bx - ax) * share, ay + (by - ay) * share)
    return Line(start=segment.start, end=middle), Line(start=middle, end=segment.end)


# --- the pieces -----------------------------------------------------------------------------


def _drawn(turned: _Turned, cutoffs: tuple[_Cutoff, ...], letters: Sequence[str]) -> Pieced:
    """Return the panel without its corners, and the corners.

    Raises:
        GeometryError: a piece of it has no outline.
    """
    whole = turned.panel
    drawn = [
        _corner(turned, one, letter, letters_all=len(cutoffs))
        for one, letter in zip(cutoffs, letters, strict=False)
    ]
    merged = len(drawn) == 2 and _mirror_images(*drawn)
    twice = 2 if merged or whole.half else 1
    if merged:
        letters = (letters[0], letters[0])
        drawn = [_merged(drawn[0], drawn[1])]
    corners = tuple(
        replace(
            piece,
            name=f"{whole.name} corner" if len(drawn) == 1 else piece.name,
            count=whole.count * twice,
            mirrored=twice == 2 or whole.mirrored,
            notches=(*piece.notches, *_seam_notches(piece, letter)),
        )
        for piece, letter in zip(drawn, letters, strict=False)
    )
    main, places = _main(turned, cutoffs, letters)
    of = [corners[0 if merged else k].name for k in range(len(cutoffs))]
    lies_on: list[list[tuple[str, int]]] = [[(main.name, at)] for at in places]
    for k, (one, name) in enumerate(zip(cutoffs, of, strict=True)):
        first = corners[0 if merged else k].edges[0].name == "hem"
        lies_on[one.edge].append((name, 1 if first else 0))
        lies_on[_HEM].append((name, 0 if first else 1))
    seams = tuple(
        Seam(
            number=letters[k],
            name=f"{of[k]} to {main.name}",
            first=(Side(piece=of[k], edge=2),),
            second=(Side(piece=main.name, edge=at),),
        )
        for k, at in enumerate(_pieced_edges(main))
    )
    return Pieced(
        whole=whole,
        main=main,
        corners=corners,
        width=max(one.width for one in cutoffs),
        seams=seams,
        lies_on=tuple(tuple(found) for found in lies_on),
    )


def _pieced_edges(piece: Piece) -> list[int]:
    return [k for k, edge in enumerate(piece.edges) if edge.pieced]


def _main(
    turned: _Turned, cutoffs: tuple[_Cutoff, ...], letters: Sequence[str]
) -> tuple[Piece, list[int]]:
    """Return the panel without its corners, and where its four edges stand in it now."""
    whole = turned.panel
    by_edge = {one.edge: one for one in cutoffs}
    begin, hem, finish, waist = whole.edges
    first, last = by_edge.get(_BEGIN), by_edge.get(_FINISH)
    hem_path, lost = hem.path, 0.0
    if last is not None:
        hem_path = divided_at(hem_path, last.hem)[0]
        finish = replace(finish, path=divided_at(finish.path, last.side)[1])
    if first is not None:
        hem_path, lost = divided_at(hem_path, first.hem)[1], first.hem
        begin = replace(begin, path=divided_at(begin.path, first.side)[0])
    edges = [begin]
    if first is not None:
        edges.append(_seam_edge(begin.path[-1].end, hem_path[0].start, whole, say("corner")))
    edges.append(replace(hem, path=hem_path))
    if last is not None:
        edges.append(_seam_edge(hem_path[-1].end, finish.path[0].start, whole, say("corner")))
    edges += [finish, waist]
    places = [0, 1 if first is None else 2, len(edges) - 2, len(edges) - 1]
    gone = [0.0, lost, last.side if last is not None else 0.0, 0.0]
    kept = tuple(
        replace(notch, edge=places[notch.edge], at=max(notch.at - gone[notch.edge], 0.0))
        for notch in whole.notches
        if not any(_on_corner(notch, one) for one in cutoffs)
    )
    one_alone = len(cutoffs) == 1 and not whole.half
    main = replace(
        whole,
        edges=tuple(edges),
        fold_way=FoldWay.LENGTHWISE if whole.half else whole.fold_way,
        inner_lines=tuple(
            line
            for held in whole.inner_lines
            for line, across in _inner_parts(held, turned, cutoffs)
            if across is None
        ),
        dots=tuple(
            dot for dot in whole.dots if not any(_beyond(dot, turned, one) for one in cutoffs)
        ),
        notes=(
            *whole.notes,
            _corners_first(letters[: len(cutoffs)], one_alone=one_alone),
        ),
    )
    notches = [
        notch
        for at, letter in zip(_pieced_edges(main), letters, strict=False)
        for notch in _notches_along(main, at, letter, down=at == 1 and first is not None)
    ]
    return replace(main, notches=(*kept, *notches)), places


def _corners_first(letters: Sequence[str], *, one_alone: bool) -> str:
    """Return what a panel's label says of its corners, by the numbers of their seams."""
    numbers = list(dict.fromkeys(number for number in letters if number))
    if one_alone:
        return say(
            "sew its corner on first (seam {seam}), then the side seams", seam=listed(numbers)
        )
    # Corners that mirror each other share one seam.
    return say_counted(
        "sew its corners on first (seam {seams}), then the side seams",
        "sew its corners on first (seam {seams}), then the side seams",
        len(numbers),
        seams=listed(numbers),
    )


def _seam_edge(start: Point, end: Point, panel: Piece, words: str) -> Edge:
    return Edge(
        name="pieced",
        path=straight(start, end),
        allowance=panel.edges[_BEGIN].allowance,
        words=words,
        pieced=True,
    )


def _corner(turned: _Turned, one: _Cutoff, letter: str, *, letters_all: int) -> Piece:
    """Return one corner as it is cut off, with what lies on it."""
    whole = turned.panel
    first, second = turned.cut_off(one)
    order = (one.edge, _HEM) if one.edge == _BEGIN else (_HEM, one.edge)
    held = [
        replace(whole.edges[k], path=path) for k, path in zip(order, (first, second), strict=True)
    ]
    # What a corner has lost of an edge lies before it on the edge that it begins with.
    lost = {order[0]: one.side if one.edge == _BEGIN else one.hem, order[1]: 0.0}
    name = f"{whole.name} corner"
    if letters_all > 1:
        name += " left" if one.edge == _BEGIN else " right"
    called = piece_words(whole.name)
    if letter:
        told = say(
            "sew to the {piece} before its side seam, seam {seam}", piece=called, seam=letter
        )
    else:
        told = say("sew to the {piece} before its side seam", piece=called)
    return Piece(
        name=name,
        edges=(*held, _seam_edge(second[-1].end, first[0].start, whole, say("to the panel"))),
        grainline=_grain(turned, one),
        cloth=whole.cloth,
        count=whole.count,
        notches=tuple(
            replace(notch, edge=order.index(notch.edge), at=max(notch.at - lost[notch.edge], 0.0))
            for notch in whole.notches
            if _on_corner(notch, one)
        ),
        inner_lines=tuple(
            line
            for inner in whole.inner_lines
            for line, edge in _inner_parts(inner, turned, (one,))
            if edge == one.edge
        ),
        dots=tuple(dot for dot in whole.dots if _beyond(dot, turned, one)),
        notes=(told,),
    )


def _grain(turned: _Turned, one: _Cutoff) -> tuple[Point, Point]:
    """Return a grainline inside the corner, from the waist's end to the hem's as the panel's."""
    inward = 1.0 if one.edge == _BEGIN else -1.0
    level = one.across - inward * GRAIN_ASIDE * one.width
    side, hem = (
        point_along(turned.paths[k], crossings(turned.paths[k], level)[0]) for k in (one.edge, _HEM)
    )
    start, end = (side.x + (hem.x - side.x) * share for share in (0.15, 0.85))
    return (
        moved_point(Point(start, level), turn=turned.grain),
        moved_point(Point(end, level), turn=turned.grain),
    )


GRAIN_ASIDE = 0.15
"""Where a corner's grainline lies, as a part of its width from the seam that sews it on."""


def _mirror_images(one: Piece, other: Piece) -> bool:
    """Tell whether the corners of a panel's two sides are each other's mirror image.

    The one begins with its side, the other with its hem, so that the edges of the one are met
    in the other the other way round.
    """
    pairs = ((0, 1), (1, 0), (2, 2))
    if any(abs(one.edges[a].length - other.edges[b].length) > ALIKE for a, b in pairs):
        return False
    if abs(area(stitching_line(one)) - area(stitching_line(other))) > ALIKE:
        return False
    if len(one.inner_lines) != len(other.inner_lines) or len(one.dots) != len(other.dots):
        return False
    marks = sorted((n.edge, n.seam, n.kind, n.strokes, n.at) for n in one.notches)
    twins = sorted(
        (1 - n.edge, n.seam, n.kind, n.strokes, other.edges[n.edge].length - n.at)
        for n in other.notches
    )
    return len(marks) == len(twins) and all(
        a[:4] == b[:4] and abs(a[4] - b[4]) < ALIKE for a, b in zip(marks, twins, strict=True)
    )


ALIKE: Mm = 0.01
"""Corners whose edges differ by less are cut from one piece; a tenth of truing."""


def _merged(one: Piece, other: Piece) -> Piece:
    """Return the first corner with the words of both along its side."""
    seams = (*seams_at(one.edges[0]), *seams_at(other.edges[1]))
    side = replace(one.edges[0], words=either(seams))
    return replace(one, edges=(side, *one.edges[1:]))


def _seam_notches(corner: Piece, letter: str) -> Iterator[Notch]:
    # A corner at the panel's first side ends its outline up along the seam, the other down.
    yield from _notches_along(corner, 2, letter, down=corner.edges[0].name == "hem")


def _notches_along(piece: Piece, edge: int, letter: str, *, down: bool) -> Iterator[Notch]:
    """Yield the marks of the seam between a panel and its corner, counted from its upper end."""
    long = piece.edges[edge].length
    for order, below in enumerate(side_notches(long), start=1):
        yield Notch(
            edge=edge,
            at=below if down else long - below,
            kind=NotchKind.BALANCE,
            strokes=order,
            seam=letter,
        )


# --- what lies on which piece ---------------------------------------------------------------


def _on_corner(notch: Notch, one: _Cutoff) -> bool:
    cut = {one.edge: one.side, _HEM: one.hem}.get(notch.edge)
    if cut is None:
        return False
    # Its outline comes to the corner on the first of its two edges, and leaves it on the other.
    comes = notch.edge == (_BEGIN if one.edge == _BEGIN else _HEM)
    return notch.at > cut if comes else notch.at < cut


def _beyond(dot: Dot, turned: _Turned, one: _Cutoff) -> bool:
    return _off(dot.at, turned, one) > 0


def _off(point: Point, turned: _Turned, one: _Cutoff) -> Mm:
    """Return how far a point lies beyond a corner's seam."""
    across = moved_point(point, turn=-turned.grain).y
    return one.across - across if one.edge == _BEGIN else across - one.across


def _inner_parts(
    line: InnerLine, turned: _Turned, cutoffs: Sequence[_Cutoff]
) -> list[tuple[InnerLine, int | None]]:
    """Return an inner line cut at the corners' seams, each part with the corner it lies on."""
    path = moved(line.path, turn=-turned.grain)
    long = path_length(path)
    cuts = sorted({at for one in cutoffs for at in crossings(path, one.across)})
    places = [0.0, *(at for at in cuts if SHORTEST < at < long - SHORTEST), long]
    found: list[tuple[InnerLine, int | None]] = []
    for start, end in pairwise(places):
        rest = divided_at(line.path, end)[0]
        part = divided_at(rest, start)[1]
        middle = point_along(line.path, (start + end) / 2)
        edge = next((one.edge for one in cutoffs if _off(middle, turned, one) > 0), None)
        last = end == long
        ticks = tuple(
            min(max(t - start, 0.0), end - start)
            for t in line.ticks
            if (start <= t < end) or (last and t >= start)
        )
        found.append((replace(line, path=part, ticks=ticks), edge))
    return found


# --- a whole layer --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecedLayer:
    """The pieces of a garment once some panels have their corners apart.

    Attributes:
        seams: every seam of the garment, told by the pieces that there are now.
        checks: walks of main and corner together against the whole edge they make up; the
            wholes for that have the names that ``wholes`` give them.
    """

    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    checks: tuple[Seam, ...]
    wholes: tuple[Piece, ...]


def _lettered(number: str) -> Iterator[str]:
    """Yield a number with a letter, then with two, for as many seams as there may be."""
    letters = [chr(ord("a") + k) for k in range(26)]
    yield from (f"{number}{one}" for one in letters)
    yield from (f"{number}{one}{other}" for one in letters for other in letters)


def apart(
    pieces: tuple[Piece, ...],
    seams: tuple[Seam, ...],
    panels: Sequence[Piece],
    *,
    number: str,
    usable: Mm,
    grain: Grain,
) -> PiecedLayer:
    """Return a garment's pieces with the corners of a layer's panels apart.

    Args:
        panels: the layer's, among the pieces.
        number: of the seams between them; the corners' seams get letters that are free.

    Raises:
        GeometryError: a panel cannot be pieced.
    """
    used = {n.seam for piece in pieces for n in piece.notches} | {s.number for s in seams}
    free = iter(name for name in _lettered(number) if name not in used)
    parts: dict[str, Pieced] = {}
    spare = [next(free), next(free)]
    for panel in panels:
        made = pieced(panel, usable, grain, Unbroken(), letters=spare)
        if made is None:
            raise GeometryError(f"the {panel.name} cannot be pieced at its hem")
        if made.corners:
            parts[panel.name] = made
            for seam in dict.fromkeys(one.number for one in made.seams):
                spare.remove(seam)
                spare.append(next(free))
    whole_names = {name: f"whole {name}" for name in parts}
    return PiecedLayer(
        pieces=tuple(
            one
            for piece in pieces
            for one in (parts[piece.name].pieces if piece.name in parts else (piece,))
        ),
        seams=tuple(
            sorted(
                (
                    *(_retold(seam, parts) for seam in seams),
                    *(seam for made in parts.values() for seam in made.seams),
                ),
                key=lambda one: one.number,
            )
        ),
        checks=tuple(
            Seam(
                number=number,
                name=f"{name} and its corner, {_called(made.whole.edges[edge])}",
                first=tuple(Side(piece=of, edge=at) for of, at in made.lies_on[edge]),
                second=(Side(piece=whole_names[name], edge=edge),),
            )
            for name, made in parts.items()
            for edge, where in enumerate(made.lies_on)
            if len(where) > 1
        ),
        wholes=tuple(replace(made.whole, name=whole_names[name]) for name, made in parts.items()),
    )


def _called(edge: Edge) -> str:
    return edge.name.replace("_", " ")


def _retold(seam: Seam, parts: dict[str, Pieced]) -> Seam:
    """Return a seam told by the pieces that its edges lie on now."""
    return replace(
        seam,
        first=tuple(now for side in seam.first for now in _sides(side, parts)),
        second=tuple(now for side in seam.second for now in _sides(side, parts)),
    )


def _sides(side: Side, parts: dict[str, Pieced]) -> Iterator[Side]:
    made = parts.get(side.piece)
    if made is None:
        yield side
        return
    if side.edge in set(InnerKind):
        # As often as the corner is met along the panel, so often is its part of the line.
        for name, _ in made.lies_on[_HEM]:
            held = next(piece for piece in made.pieces if piece.name == name)
            if any(line.kind == side.edge for line in held.inner_lines):
                yield replace(side, piece=name)
        return
    edge = side.edge
    if not isinstance(edge, int):
        edge = next(k for k, one in enumerate(made.whole.edges) if one.name == side.edge)
    where = made.lies_on[edge]
    # What is bounded by marks lies above the corner, with its marks.
    for name, at in where[:1] if side.between is not None else where:
        yield replace(side, piece=name, edge=at)
