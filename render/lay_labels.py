"""A piece on a lay plan in its own frame, small: its lines, and where its words stand in it.

Paper millimetres; the frame's origin is the piece's own, turned as it lies on the cloth.
Pieces that lie alike have the same label, so it is looked for once. Imports lays, room and words.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from drafting.cloth.lays import Laid, Lies
from drafting.geometry import (
    Arc,
    Box,
    Line,
    Path,
    Point,
    above_level,
    bounds,
    distance,
    flattened,
    holds,
    scaled,
    stepped,
    straight,
)
from drafting.piece import EdgeKind, cutting_line
from drafting.piece_names import piece_words
from drafting.units import Mm
from render import fonts, style
from render.clipping import clipped
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text, placed
from render.lay_words import copy_words, fold_words, must_words
from render.room import Room, spread, turned_box
from render.spots import upright

OUTLINE = Pen(width=0.5)
REACHING = Pen(width=0.25, dash=(1.5, 1.0))
ARROW = Pen(width=0.3)
MIDDLE = Pen(width=0.25, dash=(4.0, 1.2))
BRACKET = Pen(width=0.35)
RING = Pen(width=0.3)
HEAD: Mm = 2.2
CELL: Mm = 0.4
MARGIN: Mm = 0.8
"""Free on both sides of a label."""
_PLAIN_CAPS = style.CAP_HEIGHT + 0.22
"""A line of figures needs this much of its type's height, free of lines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where and how a label is set.

    Attributes:
        way: which of the ways to set it, the fullest being the first.
        wide: room it takes along its own direction.
        named: whether it has the piece's name.
        untold: whether it tells what stands nowhere along the middle of a half.
        apart: words that did not fit beside the number, each where else it stands on the piece.
    """

    way: int
    at: Point
    angle: float
    wide: Mm
    named: bool
    untold: bool
    apart: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Small:
    """A piece as it is drawn: its lines, its words if they fit it, what its words take.

    Attributes:
        outline: closed, or what of it lies above the fold.
        polygon: what is seen of the piece.
        place: where its number and words stand; None where it is too small for them.
        along: words along its middle, if it is a half.
        boxes: corners of what the words take.
    """

    outline: tuple[Path, ...]
    polygon: tuple[Point, ...]
    marks: tuple[Stroke, ...]
    place: Place | None
    along: tuple[Text, ...] = ()
    boxes: tuple[tuple[Point, ...], ...] = ()

    @property
    def named(self) -> bool:
        """Whether its name stands on it."""
        return self.place is not None and self.place.named

    def label(self, one: Laid) -> Drawing:
        """Return the words of one of the pieces that lie like this one.

        Raises:
            ValueError: it is too small for words.
        """
        if self.place is None:
            raise ValueError("too small for words")
        held = self.place
        untold = fold_words(one.shape)[-1:] if held.untold else ()
        way = tuple(_ways(one, untold))[held.way]
        label = _set(one.shape.number, way, held.at, held.angle, held.wide)
        return Drawing(strokes=label.strokes, texts=(*self.along, *held.apart, *label.texts))


def likeness(one: Laid, usable: Mm) -> tuple[object, ...]:
    """Return what pieces that are drawn alike have in common."""
    fold = round(usable / 2 - one.y, 3) if one.lies is Lies.ON_FOLD else 0.0
    turn = round(math.remainder(one.turn, math.tau), 6)
    return (one.shape.number, turn, one.flipped, one.lies, fold)


def small(one: Laid, scale: int, usable: Mm) -> Small:
    """Return a piece at a scale, about its own origin.

    Args:
        scale: 15 for 1:15.
        usable: width of the cloth; the fold lies along its middle.
    """
    # An arrow that leaves its piece no room for words is shown nearer the piece's edge.
    for aside in _ASIDE:
        held = _small(one, scale, usable, aside=aside)
        if held.place is not None:
            return held
    return _small(one, scale, usable, aside=0.0)


_ASIDE = (0.0, 0.3, -0.3)
"""Where a grain arrow is shown: in its place, or aside by shares of the piece's width."""


def _small(one: Laid, scale: int, usable: Mm, *, aside: float) -> Small:
    home = replace(one, x=0.0, y=0.0)
    whole = scaled(home.outline, 1 / scale)
    box = bounds(whole)
    fold: Mm | None = None
    outline: tuple[Path, ...] = (whole,)
    polygon = flattened(whole, error=0.05)
    if one.lies is Lies.ON_FOLD:
        fold = (usable / 2 - one.y) / scale
        above = Box(left=box.left - 1, bottom=fold, right=box.right + 1, top=box.top + 1)
        outline = tuple(path for path, _ in clipped(whole, above, round_start=True))
        polygon = above_level(polygon, fold)
        box = Box(left=box.left, bottom=fold, right=box.right, top=box.top)
    # A half's number stands beside its arrow, in the half that the paper shows.
    shown = polygon
    if one.shape.piece.half and fold is None:
        half = scaled(home.on_cloth(cutting_line(one.shape.piece)), 1 / scale)
        shown = flattened(half, error=0.05)
    room = Room(box=box.grown(1.0), cell=CELL)
    for path in outline:
        room.enter(path)
    if fold is not None:
        room.enter(straight(Point(box.left, fold), Point(box.right, fold)))
    grain = _grain(home, scale, box, shown, aside)
    if aside and not grain:
        return Small(outline=outline, polygon=polygon, marks=(), place=None)
    marks = [Stroke(path=path, pen=ARROW, layer=Layer.MARKS) for path in grain]
    middle = _middle(home, scale)
    if middle is not None:
        marks += _folding(middle, fold)
    for stroke in marks:
        room.enter(stroke.path)
    boxes: list[tuple[Point, ...]] = []
    texts: list[Text] = []
    untold: tuple[str, ...] = ()
    if middle is not None and fold is None:
        along = _along(middle, fold_words(one.shape), room, polygon)
        if along is None:
            untold = fold_words(one.shape)[-1:]
        else:
            texts.append(along[0])
            boxes.append(along[1])
    found = _label(one, untold, room, shown) or _label(one, untold, room, polygon)
    if found is None:
        # A number beside the piece will say all; words along its middle would be lost there.
        return Small(outline=outline, polygon=polygon, marks=tuple(marks), place=None)
    place, taken = found
    boxes += taken
    return Small(
        outline=outline,
        polygon=polygon,
        marks=tuple(marks),
        place=place,
        along=tuple(texts),
        boxes=tuple(boxes),
    )


def grain_ends(one: Laid) -> tuple[Point, Point] | None:
    """Return both ends of a piece's grain arrow on the cloth; None where it has no grain.

    A length of a bias strip has no arrow of its own on the paper: its middle serves, along
    the cloth.
    """
    if len(one.shape.turns) > 2:
        return None  # not woven: it lies any way round
    if one.shape.bias:
        box = one.box
        reach = box.width / 2 - box.height / 2
        middle, half = box.centre, max(abs(reach), 20.0) / 2
        return Point(middle.x - half, middle.y), Point(middle.x + half, middle.y)
    (line,) = one.on_cloth(straight(*one.shape.piece.grainline))
    return line.start, line.end


def _grain(
    home: Laid, scale: int, box: Box, polygon: tuple[Point, ...], aside: float
) -> tuple[Path, ...]:
    ends = grain_ends(home)
    if ends is None:
        return ()
    a, b = (Point(end.x / scale, end.y / scale + aside * box.height) for end in ends)
    if aside and not all(holds(polygon, end) for end in (a, b)):
        return ()
    long = distance(a, b)
    head = min(HEAD, long / 4, max(box.height, 1.0) / 3)
    angle = math.atan2(b.y - a.y, b.x - a.x)
    return (straight(a, b), arrowhead(b, angle, head), arrowhead(a, angle + math.pi, head))


def arrowhead(tip: Point, angle: float, size: Mm) -> Path:
    """Return an open arrowhead whose tip points along ``angle``."""
    return (
        Line(start=stepped(tip, angle + math.radians(155), size), end=tip),
        Line(start=tip, end=stepped(tip, angle - math.radians(155), size)),
    )


def _middle(home: Laid, scale: int) -> Path | None:
    """Return the line over which a piece drawn as a half is unfolded."""
    piece = home.shape.piece
    if not piece.half:
        return None
    fold = next(edge for edge in piece.edges if edge.kind is EdgeKind.FOLD)
    ends = straight(fold.path[0].start, fold.path[-1].end)
    return scaled(home.on_cloth(ends), 1 / scale)


def _folding(middle: Path, fold: Mm | None) -> list[Stroke]:
    """Return the middle of a half: a broken line, or a bracket whose arms point to the fold."""
    if fold is None:
        return [Stroke(path=middle, pen=MIDDLE, layer=Layer.MARKS)]
    left, right = sorted((middle[0].start.x, middle[-1].end.x))
    wide, reach = right - left, min(3.0, 0.2 * (right - left))
    arms = [Point(left + share * wide, fold + 0.4) for share in (0.15, 0.85)]
    bases = [Point(arm.x, fold + 0.4 + reach) for arm in arms]
    paths = [straight(*bases)]
    for base, arm in zip(bases, arms, strict=True):
        paths += [straight(base, arm), arrowhead(arm, -math.pi / 2, reach / 2)]
    return [Stroke(path=path, pen=BRACKET, layer=Layer.MARKS) for path in paths]


def _along(
    line: Path, options: Sequence[str], room: Room, polygon: tuple[Point, ...]
) -> tuple[Text, tuple[Point, ...]] | None:
    """Return words set along a straight line and beside it, in a free spot on the piece."""
    start, end = line[0].start, line[-1].end
    angle = math.atan2(end.y - start.y, end.x - start.x)
    size = style.NOTE
    for words in options:
        wide = fonts.width(words, size) + 1.0
        for share in spread(9):
            at = Point(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)
            for side in (1, -1):
                spot = stepped(at, angle + side * math.pi / 2, size * 0.5 + 0.8)
                corners = turned_box(spot, wide, size, angle)
                if room.is_free(corners) and all(holds(polygon, c) for c in corners):
                    room.claim(corners)
                    return _line(words, spot, size, upright(angle)), corners
    return None


def _line(
    words: str, middle: Point, size: Mm, angle: float, *, bold: bool = False, start: bool = False
) -> Text:
    return Text(
        text=words,
        at=stepped(middle, angle - math.pi / 2, style.CAP_HEIGHT * size / 2),
        size=size,
        angle=angle,
        anchor=Anchor.START if start else Anchor.MIDDLE,
        bold=bold,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """How a label is set: its number's and its words' size, whether ringed, its rows beside it.

    Attributes:
        names: how many of the rows are the piece's name.
        apart: words that stand elsewhere on the piece.
    """

    number: Mm
    name: Mm
    size: Mm
    ringed: bool
    rows: tuple[str, ...]
    names: int
    apart: tuple[str, ...] = ()


def _ways(one: Laid, untold: Sequence[str]) -> Iterator[_Way]:
    """Yield ways to set a label, the fullest first; the bare number and its copy come last."""
    shape = one.shape
    copy = (copy_words(one),) if shape.count > 1 else ()
    must = (*must_words(one), *untold)
    told = ("  ".join((*copy, *must)),) if copy or must else ()
    name_words = piece_words(shape.name)
    words = name_words.split(" ")
    middle = (len(words) + 1) // 2
    halves = (" ".join(words[:middle]), " ".join(words[middle:]))
    for number, name, size in (
        (style.HEADING, style.FACT, style.BODY),
        (style.FACT, style.BODY, style.SMALL),
        (style.BODY, style.NOTE, style.NOTE),
    ):
        for rows, lines in (((name_words, *told), 1), ((name_words, *copy, *must), 1)):
            yield _Way(number=number, name=name, size=size, ringed=True, rows=rows, names=lines)
        if len(words) > 1:
            rows = (*halves, *copy, *must)
            yield _Way(number=number, name=name, size=size, ringed=True, rows=rows, names=2)
    for ringed in (True, False):
        for rows, lines in (
            (("  ".join((name_words, *told)),), 1),
            (told, 0),
            ((*copy, *must), 0),
        ):
            yield _small_way(ringed, rows, lines)
    for ringed in (True, False):
        yield _small_way(ringed, copy, 0, apart=must)


def _small_way(
    ringed: bool, rows: tuple[str, ...], names: int, apart: tuple[str, ...] = ()
) -> _Way:
    note = style.NOTE
    return _Way(
        number=note, name=note, size=note, ringed=ringed, rows=rows, names=names, apart=apart
    )


def _label(
    one: Laid, untold: Sequence[str], room: Room, polygon: tuple[Point, ...]
) -> tuple[Place, list[tuple[Point, ...]]] | None:
    # Looked for with the longest words of its kind, so that all copies are set alike.
    widest = replace(one, copy=max(one.shape.count - (one.lies is Lies.UPPER), 1))
    rows: dict[float, tuple[Mm, tuple[Spans, ...]]] = {}

    def spot(wide: Mm, high: Mm, angles: Sequence[float]) -> tuple[Point, float] | None:
        for angle in angles:
            if angle not in rows:
                rows[angle] = _rows(polygon, angle)
            found = _spot(room, polygon, rows[angle], wide, high, angle)
            if found is not None:
                return found, angle
        return None

    for k, way in enumerate(_ways(widest, untold)):
        wide, high = _extent(widest.shape.number, way)
        # Only the smallest type is set aslant, along a narrow curved piece.
        angles = (*_STRAIGHT, *(_SLANTED if way.number == style.NOTE else ()))
        found = spot(wide, high, angles)
        if found is None:
            continue
        kept = list(room.rows)
        boxes = [turned_box(found[0], wide, high, found[1])]
        room.claim(boxes[0])
        apart: list[Text] = []
        for words in way.apart:
            across = fonts.width(words, way.size) + 1.2
            deep = way.size * (_PLAIN_CAPS + 0.15)
            where = spot(across, deep, angles)
            if where is None:
                break
            boxes.append(turned_box(where[0], across, deep, where[1]))
            room.claim(boxes[-1])
            apart.append(_line(words, where[0], way.size, where[1]))
        if len(apart) < len(way.apart):
            room.rows[:] = kept
            continue
        place = Place(
            way=k,
            at=found[0],
            angle=found[1],
            wide=wide,
            named=way.names > 0,
            untold=bool(untold),
            apart=tuple(apart),
        )
        return place, boxes
    return None


_STRAIGHT = (0.0, math.pi / 2)
_SLANTED = tuple(
    math.radians(side * angle)
    for angle in (45.0, 30.0, 60.0, 15.0, 75.0, 37.5, 52.5, 22.5, 67.5)
    for side in (1, -1)
)


def ring_radius(number: int, size: Mm) -> Mm:
    """Return the radius of the ring round a number of that size of type."""
    return max(fonts.width(str(number), size, bold=True) / 2 + 0.9, size * 0.62)


def _extent(number: int, way: _Way) -> tuple[Mm, Mm]:
    """Return the room that a label takes: along its rows and across them."""
    rows = [
        fonts.width(row, way.name if k < way.names else way.size, bold=k < way.names)
        for k, row in enumerate(way.rows)
    ]
    lines = len(way.rows)
    gap = 1.2 if lines else 0.0
    deep = _depth(way) if lines > 1 else way.name * _PLAIN_CAPS
    tall = 2 * ring_radius(number, way.number) if way.ringed else way.number * _PLAIN_CAPS
    return _number_width(number, way) + gap + max(rows, default=0.0) + 2 * MARGIN, max(
        tall, deep
    ) + 0.4


def _depth(way: _Way) -> Mm:
    """Return how deep a label's rows are together."""
    return math.fsum(way.name if k < way.names else way.size for k in range(len(way.rows))) * 1.2


def _number_width(number: int, way: _Way) -> Mm:
    if way.ringed:
        return 2 * ring_radius(number, way.number)
    return fonts.width(str(number), way.number, bold=True)


def _set(number: int, way: _Way, spot: Point, angle: float, wide: Mm) -> Drawing:
    """Return a label about a spot: the number at its left, its rows beside it."""
    first = _number_width(number, way)
    left = -wide / 2 + MARGIN
    strokes: list[Stroke] = []
    at = Point(left + first / 2, 0.0)
    texts = [_line(str(number), at, way.number, 0.0, bold=True)]
    if way.ringed:
        strokes.append(ring(at, ring_radius(number, way.number)))
    y = _depth(way) / 2
    for k, row in enumerate(way.rows):
        named = k < way.names
        size = way.name if named else way.size
        y -= size * 1.2
        middle = Point(left + first + 1.2, y + size * 0.6)
        texts.append(_line(row, middle, size, 0.0, bold=named, start=True))
    drawing = Drawing(strokes=tuple(strokes), texts=tuple(texts))
    return placed(drawing, x=spot.x, y=spot.y, turn=angle)


def ring(at: Point, radius: Mm) -> Stroke:
    """Return a ring to stand round a number."""
    circle = Arc(centre=at, radius=radius, begin=0.0, finish=math.tau)
    return Stroke(path=(circle,), pen=RING, layer=Layer.MARKS)


Spans = tuple[tuple[Mm, Mm], ...]


def _rows(polygon: tuple[Point, ...], angle: float) -> tuple[Mm, tuple[Spans, ...]]:
    """Return what of a polygon lies on each of many lines at an angle: the first line, the spans.

    Lines are a cell apart, in the frame turned by that angle.
    """
    c, s = math.cos(angle), math.sin(angle)
    turned = [Point(p.x * c + p.y * s, p.y * c - p.x * s) for p in polygon]
    low, high = min(p.y for p in turned), max(p.y for p in turned)
    first = low + CELL / 2
    count = max(int((high - first) / CELL) + 1, 0)
    return first, tuple(spans(turned, first + k * CELL) for k in range(count))


def spans(polygon: Sequence[Point], y: Mm) -> Spans:
    """Return what of a level line lies in a polygon."""
    found = []
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if (a.y > y) != (b.y > y):
            found.append(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
    found.sort()
    return tuple(zip(found[::2], found[1::2], strict=False))


def _spot(
    room: Room,
    polygon: tuple[Point, ...],
    rows: tuple[Mm, tuple[Spans, ...]],
    wide: Mm,
    high: Mm,
    angle: float,
) -> Point | None:
    """Return the free place for a rectangle that is nearest the middle of a piece, if any."""
    first, lines = rows
    deep = math.ceil(high / CELL)
    c, s = math.cos(angle), math.sin(angle)
    middle = bounds_of(polygon).centre
    places: list[tuple[float, Point]] = []
    for k in range(len(lines) - deep):
        common: Spans = lines[k]
        for line in lines[k + 1 : k + deep + 1]:
            common = _both(common, line, wide)
            if not common:
                break
        y = first + (k + deep / 2) * CELL
        for a, b in common:
            low, far = a + wide / 2, b - wide / 2
            if far < low:
                continue
            steps = min(12, int((far - low) / 1.0))
            for n in range(steps + 1):
                x = low + (far - low) * (n / steps if steps else 0.5)
                spot = Point(x * c - y * s, x * s + y * c)
                places.append((round(math.dist(spot, middle), 3), spot))
    for _, spot in sorted(places):
        corners = turned_box(spot, wide, high, angle)
        if room.is_free(corners) and all(holds(polygon, corner) for corner in corners):
            return spot
    return None


def bounds_of(points: Sequence[Point]) -> Box:
    """Return the box of some points."""
    xs, ys = [p.x for p in points], [p.y for p in points]
    return Box(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys))


def _both(one: Spans, other: Spans, least: Mm) -> Spans:
    """Return what two lines have in common, as far as it is long enough."""
    return tuple(
        (max(a, x), min(b, y)) for a, b in one for x, y in other if min(b, y) - max(a, x) >= least
    )


def inner_points(polygon: Sequence[Point]) -> Iterator[Point]:
    """Yield points well inside a polygon, from its middle to its ends."""
    box = bounds_of(polygon)
    for share in spread(7):
        y = box.bottom + share * box.height
        found = spans(polygon, y)
        if found:
            a, b = max(found, key=lambda span: span[1] - span[0])
            yield Point((a + b) / 2, y)
