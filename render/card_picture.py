"""A picture of a panel on its cloth, for a card: where the tape is held and how far it swings.

Millimetres in the picture's own frame, its lower left corner at the origin; the selvages run
level. Drawn from the piece's own geometry. Imports chalked, cloth, piece, drawing and fonts.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.chalked import LengthAt, Swung, measured, short_side_names, swung, widths
from drafting.cloth import usable_width
from drafting.geometry import (
    Arc,
    Box,
    Path,
    Point,
    bounds,
    direction_along,
    distance,
    holds,
    moved,
    moved_point,
    on_circle,
    path_length,
    point_along,
    rim,
    scaled,
    sketched,
    stepped,
    straight,
)
from drafting.language import decimal, say, say_as
from drafting.piece import EdgeKind, FoldWay, Piece, cutting_line, stitching_line
from drafting.spec import Spec
from drafting.units import Mm, Units, length_text, radius_text
from drafting.waist_part import rays
from render import fonts, style
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text
from render.measures import LONGEST_RADIUS
from render.room import turned_box
from render.spots import upright

PANEL = Pen(width=0.5)
SEWN = Pen(width=0.25, dash=(2.5, 1.5))
TAPE = Pen(width=0.5, dash=(1.5, 1.0))
HATCH = Pen(width=0.2, grey=0.55)
HATCH_STEP: Mm = 3.0
MARGIN: Mm = 5.5
"""Room round the cloth for the words at its edges."""

NAMED_MARGIN: Mm = 9.0
"""The same, where a side's name stands outside the selvage's."""

WIDE = math.radians(40)
"""A narrower sector has no room for two tapes side by side; its widths are written instead."""


@dataclass(slots=True)
class _Sketch:
    """A picture being drawn: how the piece's frame lies in it, and what stands there already."""

    turn: float
    scale: float
    x: Mm
    y: Mm
    strokes: list[Stroke]
    texts: list[Text]

    def path(self, path: Path) -> Path:
        """Return a path of the piece's frame in the picture."""
        return moved(scaled(moved(path, turn=self.turn), self.scale), x=self.x, y=self.y)

    def point(self, point: Point) -> Point:
        """Return a point of the piece's frame in the picture."""
        (x, y) = moved_point(point, turn=self.turn)
        return Point(x * self.scale + self.x, y * self.scale + self.y)

    def draw(self, path: Path, pen: Pen) -> None:
        """Draw a path of the picture's frame."""
        self.strokes.append(Stroke(path=path, pen=pen, layer=Layer.PAGE))

    def has_room(self, words: str, middle: Point, angle: float) -> bool:
        """Tell whether words of the smallest type would stand clear of all that are set."""
        corners = turned_box(middle, fonts.width(words, style.NOTE) + 0.8, style.NOTE, angle)
        return not any(_meet(corners, _corners(text)) for text in self.texts)

    def say_clear(self, words: str, spots: Sequence[tuple[Point, float]]) -> None:
        """Set words at the first spot and angle that is clear of others.

        A very small picture has none, and goes without: the lists below it have every number.
        """
        clear = next((spot for spot in spots if self.has_room(words, *spot)), None)
        if clear is not None:
            self.say(words, *clear)

    def say(
        self, words: str, middle: Point, angle: float = 0.0, *, size: Mm = style.NOTE,
        bold: bool = False, anchor: Anchor = Anchor.MIDDLE,
    ) -> None:  # fmt: skip
        """Set words with the middle of their height at a point."""
        at = stepped(middle, angle - math.pi / 2, style.CAP_HEIGHT * size / 2)
        self.texts.append(
            Text(text=words, at=at, size=size, angle=angle, anchor=anchor, bold=bold,
                 layer=Layer.PAGE)
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """How a panel and its cloth lie in a picture."""

    turn: float
    cloth: Box
    to_selvage: bool
    whole: Box
    scale: float
    margin: Mm


def _framed(piece: Piece, spec: Spec, width: Mm, height: Mm) -> _Frame:
    turn = _turn(piece)
    shape = bounds(moved(cutting_line(piece), turn=turn))
    cloth, to_selvage = _cloth(piece, spec, shape)
    whole = _with(cloth, shape)
    arcs = swung(piece)
    if arcs is not None and arcs.outer < LONGEST_RADIUS:
        whole = _held(whole, moved_point(arcs.centre, turn=turn))
    margin = NAMED_MARGIN if measured(piece) else MARGIN
    by = min((width - 2 * margin) / whole.width, (height - 2 * margin) / whole.height)
    return _Frame(
        turn=turn, cloth=cloth, to_selvage=to_selvage, whole=whole, scale=by, margin=margin
    )


def picture_size(piece: Piece, spec: Spec, width: Mm, height: Mm) -> tuple[Mm, Mm]:
    """Return the width and height of a picture that fits into a space, its words included."""
    frame = _framed(piece, spec, width, height)
    return (
        frame.whole.width * frame.scale + 2 * frame.margin,
        frame.whole.height * frame.scale + 2 * frame.margin,
    )


def picture(piece: Piece, spec: Spec, width: Mm, height: Mm) -> Drawing:
    """Return a panel on its cloth, no larger than the space given.

    Its centre is in the picture, where the tape is held; fold and selvage are named.
    """
    frame = _framed(piece, spec, width, height)
    by, whole, arcs = frame.scale, frame.whole, swung(piece)
    sketch = _Sketch(
        turn=frame.turn,
        scale=by,
        x=frame.margin - whole.left * by,
        y=frame.margin - whole.bottom * by,
        strokes=[],
        texts=[],
    )
    _draw_cloth(sketch, piece, frame.cloth, to_selvage=frame.to_selvage)
    sketch.draw(sketch.path(stitching_line(piece)), SEWN)
    sketch.draw(sketch.path(cutting_line(piece)), PANEL)
    _name_middle(sketch, piece)
    if arcs is not None and arcs.angle >= WIDE and arcs.outer < LONGEST_RADIUS:
        _tapes(sketch, piece, arcs, spec.units)
    elif found := measured(piece):
        _lengths(sketch, piece, found, spec.units)
        _name_sides(sketch, piece, found, spec.units)
    else:
        _widths(sketch, piece, spec.units)
    if piece.cloth == "lining":
        sketch.strokes += _hatched(sketch, piece)
    return Drawing(strokes=tuple(sketch.strokes), texts=tuple(sketch.texts))


def _corners(text: Text) -> tuple[Point, ...]:
    """Return the corners of a text whose middle stands at its point."""
    wide = fonts.width(text.text, text.size, bold=text.bold)
    middle = stepped(text.at, text.angle + math.pi / 2, style.CAP_HEIGHT * text.size / 2)
    return turned_box(middle, wide, style.CAP_HEIGHT * text.size, text.angle)


def _meet(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Tell whether two rectangles meet: no side of either parts them."""
    for shape in (one, other):
        for (ax, ay), (bx, by) in pairwise((*shape, shape[0])):
            apart = [
                [(bx - ax) * (p.y - ay) - (by - ay) * (p.x - ax) for p in corners]
                for corners in (one, other)
            ]
            if max(apart[0]) < min(apart[1]) or max(apart[1]) < min(apart[0]):
                return False
    return True


def _turn(piece: Piece) -> float:
    """Return the turn that lays the grain level, with a fold at the left or at the bottom."""
    (ax, ay), (bx, by) = piece.grainline
    level = -math.atan2(by - ay, bx - ax)

    def rank(turn: float) -> float:
        fold = next((edge for edge in piece.edges if edge.kind is EdgeKind.FOLD), None)
        box = bounds(moved(cutting_line(piece), turn=turn))
        if fold is None:
            # The centre of its arcs at the lower left, where the eye begins.
            centre = moved_point(Point(0.0, 0.0), turn=turn)
            return (centre.y - box.centre.y) * 2 + centre.x - box.centre.x
        middle = bounds(moved(fold.path, turn=turn)).centre
        return middle.x - box.centre.x + middle.y - box.centre.y

    return min((level, level + math.pi), key=lambda turn: round(rank(turn), 3))


def _with(one: Box, other: Box) -> Box:
    return Box(
        left=min(one.left, other.left),
        bottom=min(one.bottom, other.bottom),
        right=max(one.right, other.right),
        top=max(one.top, other.top),
    )


def _held(box: Box, point: Point) -> Box:
    return _with(box, Box(left=point.x, bottom=point.y, right=point.x, top=point.y))


def _cloth(piece: Piece, spec: Spec, shape: Box) -> tuple[Box, bool]:
    """Return the cloth under a turned piece, and whether it is shown to its far selvage.

    Where the piece takes little of its width, the rest is not shown.
    """
    of = getattr(spec.cloths, piece.cloth)
    wide = usable_width(of) / (2 if piece.fold_way is FoldWay.LENGTHWISE else 1)
    spare = 0.05 * shape.width
    left = shape.left if piece.fold_way is FoldWay.CROSSWISE else shape.left - spare
    to_selvage = wide < FAR_SELVAGE * shape.height
    top = shape.bottom + wide if to_selvage else shape.top + 0.04 * shape.height
    box = Box(left=left, bottom=shape.bottom, right=shape.right + spare, top=top)
    return box, to_selvage


FAR_SELVAGE = 1.2
"""Cloth wider than so many times its piece is not shown as far as its other selvage."""


def _draw_cloth(sketch: _Sketch, piece: Piece, cloth: Box, *, to_selvage: bool) -> None:
    by = sketch.scale
    box = Box(
        left=cloth.left * by + sketch.x,
        bottom=cloth.bottom * by + sketch.y,
        right=cloth.right * by + sketch.x,
        top=cloth.top * by + sketch.y,
    )
    bottom, _, top, left = rim(box)
    way = piece.fold_way
    sketch.draw((bottom,), style.FOLD if way is FoldWay.LENGTHWISE else style.THIN)
    lower = say("fold") if way is FoldWay.LENGTHWISE else say("selvage")
    # To the right of the middle, where the centre of a half circle lies.
    aside = box.left + 0.8 * box.width
    sketch.say(lower, Point(aside, box.bottom - 2.8), bold=way is FoldWay.LENGTHWISE)
    if to_selvage:
        sketch.draw((top,), style.THIN)
        upper = say("both selvages") if way is FoldWay.LENGTHWISE else say("selvage")
        sketch.say(upper, Point(aside, box.top + 2.8))
    if way is FoldWay.CROSSWISE:
        sketch.draw((left,), style.FOLD)
        sketch.say(say("fold"), Point(box.left - 2.8, box.centre.y), math.pi / 2, bold=True)


def _name_middle(sketch: _Sketch, piece: Piece) -> None:
    """Name the middle of a half that no fold takes, beside it and outside the half."""
    if not piece.half or piece.fold_way is not FoldWay.NONE:
        return
    for edge in piece.edges:
        if edge.kind is EdgeKind.FOLD:
            path = sketch.path(edge.path)
            along = direction_along(path, 0.0)
            # An outline runs with its inside on the left.
            spots = [
                stepped(point_along(path, share * path_length(path)), along - math.pi / 2, 2.4)
                for share in (0.5, 0.35, 0.65)
            ]
            sketch.say_clear(say("middle line"), [(spot, upright(along)) for spot in spots])


def _tapes(sketch: _Sketch, piece: Piece, arcs: Swung, units: Units) -> None:
    """Draw the centre and two tapes that swing about it, with the radii that they reach."""
    centre = sketch.point(arcs.centre)
    _cross(sketch, centre)
    outer = max((edge.path[0] for edge in piece.edges if isinstance(edge.path[0], Arc)),
                key=lambda arc: arc.radius)  # fmt: skip
    first = min(outer.begin, outer.finish) + sketch.turn
    hem = first + 0.3 * arcs.angle
    waist = first + 0.68 * arcs.angle
    by = sketch.scale
    cut_at = say("hem: cut {radius}", radius=radius_text(arcs.outer_cut, units))
    told = [(EdgeKind.HEM, cut_at, hem, arcs.outer, arcs.outer_cut)]
    if arcs.inner:
        cut_at = say("waist: cut {radius}", radius=radius_text(arcs.inner_cut, units))
        told.append((EdgeKind.SEAM, cut_at, waist, arcs.inner, arcs.inner_cut))
    for kind, cut_words, angle, sewn, cut in told:
        end = on_circle(centre, cut * by, angle)
        sketch.draw(straight(centre, end), TAPE)
        for side in (math.radians(150), -math.radians(150)):
            sketch.draw(straight(stepped(end, angle + side, 2.4), end), style.MARK)
        sew_words = say("sew {radius}", radius=radius_text(sewn, units))
        bare = say_as("radius", "cut {radius}", radius=radius_text(cut, units))
        # The arrow shows which edge it is, where words of another language have no room to tell.
        for words, clear in (((cut_words, sew_words), 3.0), ((bare, sew_words), 1.5)):
            half = max(fonts.width(one, style.NOTE) for one in words) / 2 + clear
            near, far = arcs.inner * by + half, arcs.outer * by - half
            if kind is EdgeKind.HEM:
                middles = [near + (far - near) * share for share in (0.5, 0.6, 0.7, 0.8, 0.9, 1.0)]
            else:
                middles = [near + step for step in (0.0, 2.0, 4.0, 7.0, 10.0, 15.0)]
            spots = [on_circle(centre, at, angle) for at in middles if near <= at <= far + 1e-6]
            if _both_sides(sketch, words, spots, angle):
                break


def _both_sides(
    sketch: _Sketch, words: Sequence[str], spots: Sequence[Point], angle: float
) -> bool:
    """Set one line of words above a sloping line and the other below it, where there is room.

    The table tells them too: without such room they are left out. Tells whether they are set.
    """
    way = upright(angle)
    for spot in spots:
        places = [stepped(spot, way + math.pi / 2, gap) for gap in (2.0, -2.0)]
        if all(sketch.has_room(line, at, way) for line, at in zip(words, places, strict=True)):
            for line, at in zip(words, places, strict=True):
                sketch.say(line, at, way)
            return True
    return False


def _cross(sketch: _Sketch, at: Point) -> None:
    ring = Arc(centre=at, radius=1.5, begin=0.0, finish=math.tau)
    sketch.draw((ring,), style.MARK)
    for angle in (0.0, math.pi / 2):
        sketch.draw(straight(stepped(at, angle, -2.6), stepped(at, angle, 2.6)), style.MARK)


def _lengths(sketch: _Sketch, piece: Piece, found: Sequence[LengthAt], units: Units) -> None:
    """Draw the rays of a panel whose length differs, each with its length."""
    if found[0].turn is not None:
        _cross(sketch, sketch.point(Point(0.0, 0.0)))
    paths = [sketch.path(ray.path) for ray in rays(piece)]
    middles = [point_along(path, 0.68 * path_length(path)) for path in paths]
    # Nearer to each other than a line of type, they are told in the table alone.
    told = min(distance(*pair) for pair in pairwise(middles)) > style.NOTE + 1.2
    for place, path in zip(found, paths, strict=True):
        sketch.draw(path, TAPE)
        if not told:
            continue
        way = upright(direction_along(path, 0.0))
        same = math.cos(way - direction_along(path, 0.0)) > 0
        last = place is found[-1]
        # Within the panel: the last ray's words stand on its other side, and higher up.
        shares = (0.28, 0.34, 0.4, 0.22) if last else (0.68,)
        words = length_text(place.length, units)
        for share in shares:
            at = point_along(path, share * path_length(path))
            beside = stepped(at, way + math.pi / 2, 2.0 if same is not last else -2.0)
            if sketch.has_room(words, beside, way):
                sketch.say(words, beside, way)
                break


def place_texts(places: Sequence[LengthAt], units: Units) -> tuple[str, ...]:
    """Return where lengths are taken: angles from the first side, or lengths along the waist."""
    return tuple(
        decimal(f"{math.degrees(place.turn):.3g}°") if place.turn is not None
        else length_text(place.along, units).rpartition("\u00a0")[0]
        for place in places
    )  # fmt: skip


def _name_sides(sketch: _Sketch, piece: Piece, found: Sequence[LengthAt], units: Units) -> None:
    """Write beside a panel's first and last side which place of the table it is, and its name."""
    shown = place_texts(found, units)
    if found[0].turn is None:
        shown = tuple(length_text(place.along, units) for place in found)
    names = short_side_names(piece)
    for edge, place, name in zip((0, 2), (shown[0], shown[-1]), names, strict=True):
        side = piece.edges[edge]
        path = sketch.path(side.path)
        along = direction_along(path, 0.0)
        # An outline runs with its inside on the left.
        gap = side.allowance * sketch.scale + 2.8
        spots = [
            (
                stepped(point_along(path, share * path_length(path)), along - math.pi / 2, off),
                upright(along),
            )
            for off in (gap, gap + 3.4)
            for share in (0.5, 0.4, 0.6, 0.3, 0.7)
        ]
        long = path_length(path)
        fitting = f"{place} {name}"
        if fonts.width(fitting, style.NOTE) > long + 6:
            fitting = place
        sketch.say_clear(fitting, spots)


def _widths(sketch: _Sketch, piece: Piece, units: Units) -> None:
    """Write how wide a narrow panel is at its waist and hem, and how long down its middle."""
    found = widths(piece)
    if found is None:
        return
    # Either may be too short for its words: they stand outside it.
    for edge in (3, 1):
        # Along the seam, as it is drawn: a half is half as long.
        wide = length_text(path_length(piece.edges[edge].path), units)
        words = (
            say("waist {length}", length=wide) if edge == 3 else say("hem {length}", length=wide)
        )
        # A hem bows outwards by more than its allowance.
        bow = _bow(piece.edges[edge].path) if edge == 1 else 0.0
        gap = -((piece.edges[edge].allowance + bow) * sketch.scale + 2.6)
        path = sketch.path(piece.edges[edge].path)
        one, other = path[0].start, path[-1].end
        angle = math.atan2(other.y - one.y, other.x - one.x)
        middle = Point((one.x + other.x) / 2, (one.y + other.y) / 2)
        spots = [
            (stepped(stepped(middle, angle + math.pi / 2, gap - off), angle, along), upright(angle))
            for off in (0.0, 3.4)
            for along in (0.0, -4.0, 4.0, -8.0, 8.0)
        ]
        sketch.say_clear(words, spots)
    box = bounds(sketch.path(stitching_line(piece)))
    top, low = (bounds(sketch.path(piece.edges[k].path)).centre for k in (3, 1))
    words = say("length {length}", length=length_text(found[2], units))
    way = math.atan2(low.y - top.y, low.x - top.x)
    long = math.hypot(low.x - top.x, low.y - top.y)
    if long < fonts.width(words, style.NOTE) + 4:
        way += math.pi / 2
    outer = bounds(sketch.path(cutting_line(piece)))
    # In the middle; on a piece so low that other words reach there, aside of it or outside.
    sketch.say_clear(
        words,
        [
            (
                stepped(box.centre, turn, share * (box.width if turn == 0 else box.height)),
                upright(angle),
            )
            for angle in (way, way + math.pi / 2)
            for turn in (0.0, math.pi / 2)
            for share in (0.0, -0.15, 0.15, -0.3, 0.3, -0.45, 0.45)
        ]
        + [
            (Point(box.left + share * box.width, y), 0.0)
            for y in (outer.top + 2.8, outer.bottom - 2.8)
            for share in (0.5, 0.35, 0.65, 0.2, 0.8)
        ],
    )


def _bow(path: Path) -> Mm:
    """Return how far a path lies off the straight run between its ends, half way along."""
    one, other = path[0].start, path[-1].end
    middle = point_along(path, path_length(path) / 2)
    return math.hypot(middle.x - (one.x + other.x) / 2, middle.y - (one.y + other.y) / 2)


def _hatched(sketch: _Sketch, piece: Piece) -> Iterator[Stroke]:
    """Yield light strokes one way over a lining, clear of the words."""
    outline = sketch.path(stitching_line(piece))
    polygon, box = sketched(outline), bounds(outline)
    words = [
        turned_box(
            stepped(text.at, text.angle + math.pi / 2, style.CAP_HEIGHT * text.size / 2),
            fonts.width(text.text, text.size) + 1.5,
            text.size + 0.8,
            text.angle,
        )
        for text in sketch.texts
    ]

    def is_open(p: Point) -> bool:
        return holds(polygon, p) and not any(holds(corners, p) for corners in words)

    across = box.width + box.height
    for k in range(1, int(across / HATCH_STEP)):
        start = Point(box.left + k * HATCH_STEP, box.bottom)
        run: list[Point] = []
        for step in range(int(box.height / 0.5) + 1):
            here = Point(start.x - step * 0.5, start.y + step * 0.5)
            if is_open(here):
                run.append(here)
                continue
            if len(run) > 2:
                yield Stroke(path=straight(run[0], run[-1]), pen=HATCH, layer=Layer.PAGE)
            run = []
        if len(run) > 2:
            yield Stroke(path=straight(run[0], run[-1]), pen=HATCH, layer=Layer.PAGE)
