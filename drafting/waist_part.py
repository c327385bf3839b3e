"""The waist of a piece alone, with rays to measure the rest of it along on the cloth.

Millimetres and radians. A panel is cut off a hand's breadth below its waist seam. What the
paper leaves out is told in lengths: along each ray to the hem, along the sides to notches and
dots. Imports geometry, piece and units.

Flared panels have the point that their rays spread from at the origin, as ``outline.Cut``
draws them: the circle's centre, or where the sides of a gore would meet. Sides that are
parallel have no such point; their rays hang straight down.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from drafting.geometry import (
    Arc,
    Line,
    Path,
    Point,
    direction_along,
    distance,
    flattened,
    holds,
    off_run,
    on_circle,
    path_length,
    point_along,
    reversed_path,
    sketched,
    stepped,
    straight,
    walked_to,
)
from drafting.language import clauses, headed, said_later, say
from drafting.piece import (
    Dot,
    Edge,
    EdgeKind,
    InnerKind,
    InnerLine,
    Notch,
    NotchKind,
    Piece,
    stitching_line,
)
from drafting.units import Mm, Units, length_text

REACH: Mm = 100.0
"""How far below its waist a panel is printed: enough to lay a tape on along a ray."""

LEFT: Mm = 150.0
"""A panel that would lose less than this is printed whole: it is small anyway."""

STRAIGHT_SHOWN: Mm = 40.0
"""Sides curved over the hip are printed so far past the place where they begin to run straight."""

WAIST_GAP: Mm = 150.0
HEM_GAP: Mm = 300.0
"""Rays lie no further apart at the waist, and at the hem, where marks are joined by hand."""

LEAST_GAP: Mm = 15.0
"""Rays that would start nearer to each other than this are one."""

CUT_OFF = "cut_off"
"""Name of the edge where the paper ends and the tape goes on."""

_BEGIN, _HEM, _FINISH, _WAIST = range(4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ray:
    """A line to measure along.

    Attributes:
        at: where it starts, along the waist's stitching line from the piece's first edge.
        path: from the waist's stitching line to the hem's; a side's own edge at its two ends.
    """

    at: Mm
    path: Path

    @property
    def length(self) -> Mm:
        """What the tape shows where the ray meets the hem's stitching line."""
        return path_length(self.path)


def is_shortened(piece: Piece) -> bool:
    """Tell whether a piece is the waist part of a longer one."""
    return any(edge.name == CUT_OFF for edge in piece.edges)


def waist_part(piece: Piece, units: Units) -> Piece:
    """Return the waist of a piece with its rays, or the piece itself if it is printed whole.

    Edges keep their order, so that a notch at the waist is where it was.
    """
    cut = _cut_off(piece)
    if cut is None:
        return piece
    begin, finish = _upper(piece, cut)
    low = replace(
        Edge(name=CUT_OFF, path=cut.line, allowance=0.0, kind=EdgeKind.RAW),
        words=say("chalk on from here"),
    )
    drawn = rays(piece)
    whole = piece.edges
    edges = (
        _side(piece, whole[_BEGIN], begin, drawn[0], units),
        low,
        replace(whole[_FINISH], path=finish)
        if piece.half
        else _side(piece, whole[_FINISH], finish, drawn[-1], units),
        whole[_WAIST],
    )
    lines = [
        _ray_line(piece, ray, cut, units) for ray in (drawn[1:] if piece.half else drawn[1:-1])
    ]
    kept = tuple(line for line in piece.inner_lines if _above(line.path, cut))
    return replace(
        piece,
        edges=edges,
        grainline=_grain(piece.grainline, edges, [line.path for line in lines]),
        notches=_near_notches(piece, edges),
        inner_lines=(*kept, *lines),
        dots=tuple(dot for dot in piece.dots if cut.depth_left(dot.at) > 0),
        notes=(*_left_out(piece, drawn, cut, edges, units), *piece.notes),
    )


@lru_cache(maxsize=256)
def rays(piece: Piece) -> tuple[Ray, ...]:
    """Return the rays of a piece from its first edge to its last, both of them included.

    At every notch of the waist, at its middle, and between them, no further apart than
    ``WAIST_GAP`` at the waist and ``HEM_GAP`` at the hem.
    """
    waist = reversed_path(piece.edges[_WAIST].path)
    long, below = path_length(waist), path_length(piece.edges[_HEM].path)
    places = sorted({long - notch.at for notch in piece.notches if notch.edge == _WAIST})
    stops = [0.0]
    for at in (*places, *(() if piece.half else (long / 2,))):
        if all(abs(at - other) > LEAST_GAP for other in (*stops, long)):
            stops.append(at)
    stops = sorted([*stops, long])
    found = [0.0]
    for one, other in pairwise(stops):
        share = (other - one) / long
        wanted = max(math.ceil(share * below / HEM_GAP), math.ceil(share * long / WAIST_GAP))
        count = max(min(wanted, int((other - one) / LEAST_GAP)), 1)
        found += [one + (other - one) * k / count for k in range(1, count + 1)]
    return (
        Ray(at=0.0, path=piece.edges[_BEGIN].path),
        *(ray for at in found[1:-1] for ray in _ray(piece, waist, at)),
        Ray(at=long, path=reversed_path(piece.edges[_FINISH].path)),
    )


def _ray(piece: Piece, waist: Path, at: Mm) -> Iterator[Ray]:
    """Yield the ray that starts ``at`` along the waist, unless it would leave the piece."""
    start, hem = point_along(waist, at), piece.edges[_HEM].path
    if _curved(piece):
        end: Point | None = point_along(hem, at / path_length(waist) * path_length(hem))
    else:
        away = (
            direction_along(piece.edges[_BEGIN].path, 0.0)
            if not _spreads(piece)
            else math.atan2(start.y, start.x)
        )
        end = _crossing(start, away, hem)
    if end is None:
        return
    path = straight(start, end)
    outline = flattened(stitching_line(piece))
    if all(holds(outline, point_along(path, distance(start, end) * k / 12)) for k in range(1, 12)):
        yield Ray(at=at, path=path)


def _crossing(start: Point, away: float, hem: Path) -> Point | None:
    """Return where a straight line from a point first meets a path, or None."""
    met = []
    ux, uy = math.cos(away), math.sin(away)
    for segment in hem:
        if isinstance(segment, Line):
            (ax, ay), (bx, by) = segment.start, segment.end
            cross = ux * (by - ay) - uy * (bx - ax)
            steps = (
                [((ax - start.x) * (by - ay) - (ay - start.y) * (bx - ax)) / cross] if cross else []
            )
        else:
            dx, dy = segment.centre.x - start.x, segment.centre.y - start.y
            foot, off = dx * ux + dy * uy, dx * uy - dy * ux
            under = segment.radius**2 - off**2
            steps = [foot - math.sqrt(under), foot + math.sqrt(under)] if under >= 0 else []
        met += [
            step
            for step in steps
            if step > 0 and walked_to((segment,), stepped(start, away, step)) is not None
        ]
    return stepped(start, away, min(met)) if met else None


# --- where the paper ends ------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _CutOff:
    """Where the paper ends: an arc about the origin, or a level line below a straight waist.

    Attributes:
        line: from the first edge to the last.
        depth: its radius, or how far it lies along ``down`` from the origin.
        down: the way parallel sides hang, or None for sides that spread.
    """

    line: Path
    depth: Mm
    down: float | None

    def depth_left(self, point: Point) -> Mm:
        """Return how far above the cut-off a point lies, less than 0 below it."""
        if self.down is None:
            return self.depth - math.hypot(point.x, point.y)
        return self.depth - (point.x * math.cos(self.down) + point.y * math.sin(self.down))


def _cut_off(piece: Piece) -> _CutOff | None:
    """Return where a piece is cut off, or None for one that is printed whole."""
    edges = piece.edges
    if len(edges) != 4 or edges[_WAIST].name not in ("waist", "inner"):
        return None
    if edges[_HEM].name != "hem" or not all(
        isinstance(s, Line) for s in (edges[_BEGIN].path[-1], edges[_FINISH].path[0])
    ):
        return None
    begin, finish = edges[_BEGIN].path[-1], edges[_FINISH].path[0]
    waist, hem = flattened(edges[_WAIST].path), flattened(edges[_HEM].path)
    if not _spreads(piece):
        return _level(piece, waist, hem)
    upper = max(math.hypot(*p) for p in waist) + REACH
    if _curved(piece):
        ends = (begin.start, finish.end) if not piece.half else (begin.start,)
        upper = max(math.hypot(*p) for p in ends) + STRAIGHT_SHOWN
    if min(math.hypot(*p) for p in hem) - upper < LEFT:
        return None
    one = math.atan2(begin.end.y, begin.end.x)
    turn = (math.atan2(finish.start.y, finish.start.x) - one) % math.tau
    arc = Arc(centre=Point(0.0, 0.0), radius=upper, begin=one, finish=one + turn)
    return _CutOff(line=(arc,), depth=upper, down=None)


def _level(piece: Piece, waist: Sequence[Point], hem: Sequence[Point]) -> _CutOff | None:
    """Return the cut-off of a panel whose sides hang side by side."""
    sides = [piece.edges[k].path for k in (_BEGIN, _FINISH)]
    down = direction_along(sides[0], 0.0)
    if any(len(side) > 1 for side in sides) or not _alike(
        down, direction_along(sides[1], 0.0) + math.pi
    ):
        return None

    def depth(p: Point) -> Mm:
        return p.x * math.cos(down) + p.y * math.sin(down)

    at = max(map(depth, waist)) + REACH
    if min(map(depth, hem)) - at < LEFT:
        return None
    tops = (sides[0][0].start, sides[1][-1].end)
    ends = [stepped(top, down, at - depth(top)) for top in tops]
    return _CutOff(line=straight(*ends), depth=at, down=down)


def _alike(one: float, other: float) -> bool:
    return abs(math.remainder(one - other, math.tau)) < 1e-6


def _spreads(piece: Piece) -> bool:
    """Tell whether both sides meet the hem on lines through the origin."""
    return all(
        abs(s.start.x * s.end.y - s.start.y * s.end.x) < 1e-3 * distance(s.start, s.end)
        for s in (piece.edges[_BEGIN].path[-1], piece.edges[_FINISH].path[0])
    )


def _curved(piece: Piece) -> bool:
    """Tell whether a side is shaped before it runs straight to the hem."""
    return len(piece.edges[_BEGIN].path) > 1


def _upper(piece: Piece, cut: _CutOff) -> tuple[Path, Path]:
    """Return the two sides down to the cut-off, each in its own direction of travel."""
    begin = piece.edges[_BEGIN].path
    finish = reversed_path(piece.edges[_FINISH].path)
    ends = (cut.line[0].start, cut.line[-1].end)
    one, other = (
        (*side[:-1], Line(start=side[-1].start, end=end))
        for side, end in zip((begin, finish), ends, strict=True)
    )
    return one, reversed_path(other)


def _upto(path: Path, cut: _CutOff) -> Path:
    """Return a ray as far as the cut-off; a side that is one keeps its curve."""
    if len(path) > 1:
        last = path[-1]
        angle = math.atan2(last.end.y, last.end.x)
        return (
            *path[:-1],
            Line(start=last.start, end=on_circle(Point(0.0, 0.0), cut.depth, angle)),
        )
    (line,) = path
    away = direction_along(path, 0.0)
    end = _crossing(line.start, away, cut.line)
    return straight(line.start, end or cut.line[-1].end)


def _above(path: Path, cut: _CutOff) -> bool:
    return all(cut.depth_left(p) > 0 for p in flattened(path))


# --- what is drawn on it -------------------------------------------------------------------


def _near_notches(piece: Piece, edges: Sequence[Edge]) -> tuple[Notch, ...]:
    """Return the notches that the paper still carries, each where it was on the piece."""
    lost = piece.edges[_FINISH].length - edges[_FINISH].length
    found = []
    for notch in piece.notches:
        if notch.edge == _WAIST or _is_near(notch, piece, edges):
            at = notch.at - (lost if notch.edge == _FINISH else 0.0)
            found.append(replace(notch, at=at))
    return tuple(found)


def _is_near(notch: Notch, piece: Piece, edges: Sequence[Edge]) -> bool:
    """Tell whether a notch of a side lies well above the cut-off."""
    if notch.edge not in (_BEGIN, _FINISH):
        return False
    return _below(notch, piece) < edges[notch.edge].length - 10.0


def _below(notch: Notch, piece: Piece) -> Mm:
    """Return how far below the waist a side's notch lies."""
    long = piece.edges[notch.edge].length
    return notch.at if notch.edge == _BEGIN else long - notch.at


CLEAR: Mm = 7.0
"""A grainline keeps this far from rays and from the edges of the paper."""

LONGEST_GRAIN: Mm = 350.0
STEP: Mm = 2.5
"""A grainline is drawn out by such steps."""


def _grain(
    whole: tuple[Point, Point], edges: Sequence[Edge], rays_drawn: Sequence[Path]
) -> tuple[Point, Point]:
    """Return a grainline as long as there is room for between two rays, parallel to the whole's.

    The nearest to the first edge of those that are nearly as long as the longest.
    """
    along = math.atan2(whole[1].y - whole[0].y, whole[1].x - whole[0].x)
    polygon = sketched(tuple(segment for edge in edges for segment in edge.path))
    lines = [*pairwise((*polygon, polygon[0]))]
    lines += [pair for ray in rays_drawn for pair in pairwise((*sketched(ray), ray[-1].end))]
    sides = [edges[_BEGIN].path, *rays_drawn, reversed_path(edges[_FINISH].path)]

    def is_clear(p: Point) -> bool:
        return holds(polygon, p) and all(off_run(p, one, other) > CLEAR for one, other in lines)

    best: tuple[Mm, tuple[Point, Point]] = (0.0, whole)
    for middle in _between(sides):
        if not is_clear(middle):
            continue
        ends = []
        for way in (along + math.pi, along):
            far = 0.0
            while far < LONGEST_GRAIN / 2 and is_clear(stepped(middle, way, far + STEP)):
                far += STEP
            ends.append(stepped(middle, way, far))
        if distance(*ends) > best[0] + 10.0:
            best = (distance(*ends), (ends[0], ends[1]))
    return best[1]


def _between(sides: Sequence[Path]) -> Iterator[Point]:
    """Yield points half way down between neighbouring rays, the widest part of each gap last."""
    for near, far in pairwise(sides):
        for share in (0.25, 0.5, 0.75):
            for depth in (0.5, 0.35, 0.65):
                one = point_along(near, depth * path_length(near))
                other = point_along(far, depth * path_length(far))
                yield Point(one.x + (other.x - one.x) * share, one.y + (other.y - one.y) * share)


# --- what is told of the rest --------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lines:
    """The lines that lengths are told between, each with the words before it that go with it."""

    at_hem: str
    on_hem: str
    to_hem: str
    above_hem: str
    from_waist: str
    below_waist: str


def _lines(piece: Piece) -> _Lines:
    """Return how the two lines of a piece are told: a waist and a hem, or what stands for them."""
    waist, on = piece.edges[_WAIST].name == "waist", piece.edges[_HEM].goes_on
    return _Lines(
        at_hem=say("lower stitching line") if on else say("hem line"),
        on_hem=say("on the lower stitching line") if on else say("on the hem line"),
        to_hem=say("to the lower stitching line") if on else say("to the hem line"),
        above_hem=say("above the lower stitching line") if on else say("above the hem line"),
        from_waist=say("from the waist line") if waist else say("from the inner stitching line"),
        below_waist=say("below the waist line") if waist else say("below the inner stitching line"),
    )


def _side(piece: Piece, edge: Edge, path: Path, ray: Ray, units: Units) -> Edge:
    """Return a side as far as it is printed, with its name and how long it is to the hem."""
    long = length_text(ray.length, units)
    told = say("{length} {to_hem}", length=long, to_hem=_lines(piece).to_hem)
    if not edge.words:
        return replace(edge, path=path, words=told, shorter=long)
    named = (headed(edge.words, words) for words in (told, long))
    return replace(edge, path=path, words=next(named), shorter=next(named))


def _ray_line(piece: Piece, ray: Ray, cut: _CutOff, units: Units) -> InnerLine:
    lines, long = _lines(piece), length_text(ray.length, units)
    return InnerLine(
        kind=InnerKind.RAY,
        path=_upto(ray.path, cut),
        words=say(
            "{length} {from_waist} {to_hem}",
            length=long,
            from_waist=lines.from_waist,
            to_hem=lines.to_hem,
        ),
        shorter=(say("{length} {to_hem}", length=long, to_hem=lines.to_hem), long),
    )


def _left_out(
    piece: Piece, drawn: Sequence[Ray], cut: _CutOff, edges: Sequence[Edge], units: Units
) -> tuple[str, ...]:
    """Return what the paper leaves out, told in lengths, a line for each kind of mark."""
    told = [_hem_told(piece, drawn, units)]
    for line in piece.inner_lines:
        if not _above(line.path, cut):
            told.append(_line_told(piece, line, drawn, units))
    told += _notches_told(piece, edges, units)
    dots: dict[str, None] = {}
    for dot in piece.dots:
        if cut.depth_left(dot.at) <= 0:
            dots[_dot_told(piece, dot, units)] = None
    return (*told, *dots)


def _span(lengths: Sequence[Mm], units: Units) -> tuple[str, bool]:
    """Return a length, or the least and the greatest, and whether they differ."""
    least, most = (length_text(round(long, 3), units) for long in (min(lengths), max(lengths)))
    if least == most:
        return least, False
    return say("{least} to {most}", least=least, most=most), True


def _hem_told(piece: Piece, drawn: Sequence[Ray], units: Units) -> str:
    lines, allowed = _lines(piece), piece.edges[_HEM].allowance
    span, differ = _span([ray.length for ray in drawn], units)
    add = length_text(allowed, units)
    if differ:
        told = (
            said_later("{hem}: {span} {from_waist}, each ray says its own; add {add} below it")
            if allowed
            else said_later("{hem}: {span} {from_waist}, each ray says its own")
        )
    else:
        told = (
            said_later("{hem}: {span} {from_waist}, on every ray; add {add} below it")
            if allowed
            else said_later("{hem}: {span} {from_waist}, on every ray")
        )
    return say(told, hem=lines.at_hem, span=span, from_waist=lines.from_waist, add=add)


def _line_told(piece: Piece, line: InnerLine, drawn: Sequence[Ray], units: Units) -> str:
    """Return how far along the rays an inner line lies: below the waist, or above the hem."""
    pairs = [(down, ray.length - down) for ray in drawn for down in [_met(ray, line.path)] if down]
    if not pairs:
        return say("{line}: not on this paper", line=line.brief)
    (down, downs_differ), (up, ups_differ) = (
        _span(lengths, units) for lengths in zip(*pairs, strict=True)
    )
    lines = _lines(piece)
    above = downs_differ and not ups_differ
    length, place = (up, lines.above_hem) if above else (down, lines.below_waist)
    told = (
        said_later("{line}: {length} {place}, on every ray; mark its quarters")
        if line.ticks
        else said_later("{line}: {length} {place}, on every ray")
    )
    return say(told, line=line.brief, length=length, place=place)


def _met(ray: Ray, path: Path) -> Mm | None:
    """Return how far along a ray a line crosses it, or None."""
    walked = 0.0
    for segment in ray.path:
        if isinstance(segment, Line):
            away = math.atan2(segment.end.y - segment.start.y, segment.end.x - segment.start.x)
            # From a little before, for a line that ends on a side.
            crossed = _crossing(segment.start, away, path)
            if crossed is not None:
                step = distance(segment.start, crossed)
                if step <= distance(segment.start, segment.end):
                    return walked + step
        walked += path_length((segment,))
    return None


def _notches_told(piece: Piece, edges: Sequence[Edge], units: Units) -> list[str]:
    """Return where the notches lie that the paper leaves out, of like sides once for both."""
    rows: dict[str, list[str]] = {}
    for notch in piece.notches:
        if notch.edge in (_WAIST, _HEM) or _is_near(notch, piece, edges):
            continue
        side = piece.edges[notch.edge].words or say("side")
        if notch.seam:
            side = say("seam {seam}, {side}", seam=notch.seam, side=side)
        # Rounded first: both edges of a seam differ in their last bits.
        mark = length_text(round(_below(notch, piece), 3), units)
        if notch.strokes > 1:
            mark = say("{length} ({wedges} wedges)", length=mark, wedges=notch.strokes)
        rows.setdefault(side, []).append(mark)
    both: dict[str, list[str]] = {}
    for name, marks in rows.items():
        both.setdefault(_and(dict.fromkeys(marks)), []).append(name)
    told = [
        say(
            "notches on the edges, {marks} {below_waist}: {edges}",
            marks=marks,
            below_waist=_lines(piece).below_waist,
            edges=clauses(names),
        )
        for marks, names in both.items()
    ]
    return told + _hem_notches_told(piece, units)


def _and(marks: Iterable[str]) -> str:
    """Return marks in a row, each with an "and" before it but the first."""
    said, *more = marks
    for other in more:
        said = say("{one} and {other}", one=said, other=other)
    return said


def _hem_notches_told(piece: Piece, units: Units) -> list[str]:
    """Return where notches lie along the hem, from the edge that is on the left of the paper."""
    marks = [
        say("{length} ({words})", length=length_text(notch.at, units), words=notch.words)
        if notch.words
        else length_text(notch.at, units)
        for notch in sorted(piece.notches, key=lambda notch: notch.at)
        if notch.edge == _HEM and notch.kind is NotchKind.BALANCE
    ]
    if not marks:
        return []
    start = piece.edges[_BEGIN].words or say("left edge")
    if piece.edges[_FINISH].words == start:
        start = say("left edge, the waist above")
    return [
        say(
            "notches {on_hem}, along it from the {edge}: {marks}",
            on_hem=_lines(piece).on_hem,
            edge=start,
            marks=", ".join(marks),
        )
    ]


def _dot_told(piece: Piece, dot: Dot, units: Units) -> str:
    """Return how far below the waist a dot lies, along the side that it stands on."""
    below = _lines(piece).below_waist
    down = walked_to(piece.edges[_BEGIN].path, dot.at)
    if down is None:
        up = walked_to(piece.edges[_FINISH].path, dot.at)
        down = piece.edges[_FINISH].length - up if up is not None else None
    if down is None:
        return say("{mark}: on the paper {below_waist}", mark=dot.words, below_waist=below)
    return say(
        "{mark}: {length} {below_waist}",
        mark=dot.words,
        length=length_text(down, units),
        below_waist=below,
    )
