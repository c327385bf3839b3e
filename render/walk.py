"""Walking a page's operators: what is drawn where, whatever matrices it is written under.

In the units that the caller's matrix makes of the file's own; x to the right, y up.
Knows neither the library that reads files nor what a pattern is. Whatever is damaged is
passed over, never raised.

Source: ISO 32000-1, 8.3 (matrices), 8.4 (graphics state), 8.5 (paths and clips), 8.10 (forms).
"""

import math
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

Matrix = tuple[float, float, float, float, float, float]
Spot = tuple[float, float]
Rect = tuple[float, float, float, float]
"""Left, bottom, right, top."""

PLAIN: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

DEEPEST = 8
"""Forms within forms are followed so far."""

LARGEST = 1e6
"""A coordinate beyond this is damage: pages end at 14 400 units."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """Operators, and the forms that they may call by name."""

    data: bytes
    forms: Mapping[str, "Form"] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """Content that is drawn where it is called, under a matrix of its own and in a box."""

    content: Content
    matrix: Matrix = PLAIN
    box: Rect | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """What a page strokes, and where it draws at all.

    Attributes:
        lines: straight lines that stand alone, each as two ends.
        outlines: closed outlines of four straight sides, each as four corners.
        window: the smallest upright box that holds every clip under which anything is
            stroked or set in type; None if nothing is, or something under no clip.
        mostly: of the clips the one under which most is drawn; None if there is none.
        scale: what the matrices enlarge most strokes by, across and up; 0, 0 where they turn
            or slant them; None where nothing is stroked.
    """

    lines: tuple[tuple[Spot, Spot], ...]
    outlines: tuple[tuple[Spot, Spot, Spot, Spot], ...]
    window: Rect | None
    mostly: Rect | None
    scale: tuple[float, float] | None


def walk(content: Content, under: Matrix = PLAIN) -> Walk:
    """Return what a page's operators stroke, all of it under one matrix more."""
    walker = _Walker(matrix=under)
    walker.follow(content, DEEPEST)
    boxes = [clip for clip in walker.clips if clip is not None]
    window = None
    if boxes and None not in walker.clips:
        window = (
            min(box[0] for box in boxes),
            min(box[1] for box in boxes),
            max(box[2] for box in boxes),
            max(box[3] for box in boxes),
        )
    scales = Counter({_scale(matrix): count for matrix, count in walker.matrices.items()})
    return Walk(
        lines=tuple(walker.lines),
        outlines=tuple(walker.outlines),
        window=window,
        mostly=max(boxes, key=lambda box: walker.clips[box], default=None),
        scale=scales.most_common(1)[0][0] if scales else None,
    )


# Possessive: a number that does not fit is not tried again digit by digit.
_NUMBER = rb"[-+]?+(?:\d++(?:\.\d*+)?+|\.\d++)"
_STRING = rb"\((?:[^()\\]++|\\.|\((?:[^()\\]++|\\.|\((?:[^()\\]++|\\.)*+\))*+\))*+\)"
# Words, comments and small pictures may hold anything; they are blanked out before the rest
# is looked at.
_BLANKED = re.compile(
    _STRING + rb"|%[^\r\n]*+|<[0-9A-Fa-f\s]*+>|\bBI\b.{0,20000}?\bEI\b", re.DOTALL
)
_TOKEN = re.compile(
    rb"/([^\s/\[\]()<>{}%]*+)|((?:" + _NUMBER + rb"\s++)*+)([A-Za-z'\"][A-Za-z0-9]*+\*?+)"
)

_STROKED = {b"S", b"s", b"B", b"B*", b"b", b"b*"}
_CLOSED_FIRST = {b"s", b"b", b"b*"}
_PAINTED = _STROKED | {b"f", b"F", b"f*", b"n"}
_SET_IN_TYPE = {b"Tj", b"TJ", b"'", b'"'}
_LAID = {b"m": 2, b"l": 2, b"c": 6, b"v": 4, b"y": 4, b"re": 4}
"""Operators that lay a path, and how many numbers each takes."""


@dataclass(slots=True)
class _Part:
    """One run of a path that is being laid."""

    spots: list[Spot]
    straight: bool = True
    closed: bool = False


@dataclass(slots=True)
class _Walker:
    matrix: Matrix = PLAIN
    clip: Rect | None = None
    parts: list[_Part] = field(default_factory=list)
    clipping: bool = False
    lines: list[tuple[Spot, Spot]] = field(default_factory=list)
    outlines: list[tuple[Spot, Spot, Spot, Spot]] = field(default_factory=list)
    clips: Counter[Rect | None] = field(default_factory=Counter)
    matrices: Counter[Matrix] = field(default_factory=Counter)

    def follow(self, content: Content, depth: int) -> None:
        """Walk through content; the state is afterwards what it was before."""
        kept: list[tuple[Matrix, Rect | None]] = [(self.matrix, self.clip)]
        name = ""
        for named, given, op in _TOKEN.findall(_BLANKED.sub(b" ", content.data)):
            if not op:
                name = named.decode("latin-1")
            elif op in _LAID:
                self.lay(op, [float(n) for n in given.split()][-_LAID[op] :])
            elif op in _PAINTED:
                self.paint(op)
            elif op in _SET_IN_TYPE:
                self.clips[self.clip] += 1
            elif op == b"h":
                if self.parts:
                    self.parts[-1].closed = True
            elif op in (b"W", b"W*"):
                self.clipping = True
            elif op == b"q":
                kept.append((self.matrix, self.clip))
            elif op == b"Q":
                # One more than was kept is damage; it gives back the page's own state.
                self.matrix, self.clip = kept.pop() if len(kept) > 1 else kept[0]
            elif op == b"cm":
                self.put_under([float(n) for n in given.split()])
            elif op == b"Do" and depth > 0 and name in content.forms:
                self.call(content.forms[name], depth - 1)
        self.matrix, self.clip = kept[0]

    def put_under(self, numbers: list[float]) -> None:
        """Put what follows under one more matrix."""
        if len(numbers) >= 6:
            a, b, c, d, e, f = numbers[-6:]
            self.matrix = times((a, b, c, d, e, f), self.matrix)

    def call(self, form: Form, depth: int) -> None:
        """Walk through a form where it stands."""
        kept = self.matrix, self.clip, self.parts, self.clipping
        self.matrix, self.parts, self.clipping = times(form.matrix, self.matrix), [], False
        if form.box is not None:
            left, bottom, right, top = form.box
            corners = ((left, bottom), (right, bottom), (right, top), (left, top))
            self.cut_to([self.spot(*corner) for corner in corners])
        self.follow(form.content, depth)
        self.matrix, self.clip, self.parts, self.clipping = kept

    def spot(self, x: float, y: float) -> Spot:
        a, b, c, d, e, f = self.matrix
        return a * x + c * y + e, b * x + d * y + f

    def lay(self, op: bytes, numbers: list[float]) -> None:
        """Lay one more stretch of a path."""
        if len(numbers) < _LAID[op]:
            return
        if op == b"re":
            x, y, wide, high = numbers
            corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
            self.parts.append(_Part([self.spot(*corner) for corner in corners], closed=True))
            return
        end = self.spot(*numbers[-2:])
        if op == b"m":
            self.parts.append(_Part([end]))
        elif self.parts:
            self.parts[-1].spots.append(end)
            self.parts[-1].straight = self.parts[-1].straight and op == b"l"

    def paint(self, op: bytes) -> None:
        """Note what is stroked of the path, take on its clip, and end it."""
        if op in _STROKED:
            for part in self.parts:
                part.closed = part.closed or op in _CLOSED_FIRST
                self.note(part)
        if self.clipping:
            self.cut_to([spot for part in self.parts for spot in part.spots])
        self.parts, self.clipping = [], False

    def note(self, part: _Part) -> None:
        """Note one stroked run."""
        spots = part.spots
        if not all(abs(x) < LARGEST and abs(y) < LARGEST for x, y in spots):
            return
        self.clips[self.clip] += 1
        self.matrices[self.matrix] += 1
        if not part.straight:
            return
        if len(spots) == 5 and math.dist(spots[0], spots[4]) < 1e-2:
            spots, part.closed = spots[:4], True
        if len(spots) == 2:
            self.lines.append((spots[0], spots[1]))
        elif len(spots) == 4 and part.closed:
            self.outlines.append((spots[0], spots[1], spots[2], spots[3]))

    def cut_to(self, spots: list[Spot]) -> None:
        """Let nothing be drawn outside the box of those spots and the clip so far."""
        if not spots or not all(abs(x) < LARGEST and abs(y) < LARGEST for x, y in spots):
            return
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        box = min(xs), min(ys), max(xs), max(ys)
        if self.clip is not None:
            left, bottom, right, top = self.clip
            box = max(box[0], left), max(box[1], bottom), min(box[2], right), min(box[3], top)
        self.clip = box


def times(first: Matrix, then: Matrix) -> Matrix:
    """Return the matrix that does one after the other."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def _scale(matrix: Matrix) -> tuple[float, float]:
    a, b, c, d, _, _ = matrix
    long = max(abs(a), abs(d))
    if not 0 < long < LARGEST or max(abs(b), abs(c)) > 1e-4 * long:
        return 0.0, 0.0
    return round(abs(a), 7), round(abs(d), 7)
