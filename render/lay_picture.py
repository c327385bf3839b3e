"""A lay plan drawn small: the cloth with its edges and measures, and every piece where it lies.

Paper millimetres; the picture's lower left corner is its origin. Whoever lays cloth by it
needs nothing else: what a mark means is written at it or under the picture.
Imports lays, the runs a plan is broken into and the labels of its pieces.
"""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from drafting.cloth.lays import Laid, Lay, Lies
from drafting.errors import DraftingError
from drafting.geometry import Box, Path, Point, holds, moved, scaled, straight
from drafting.language import clauses, headed, say
from drafting.piece_names import piece_words
from drafting.spec import Spec
from drafting.units import MM_PER_INCH, Mm, Units, inch, length_text
from render import fonts, style
from render.clipping import clipped
from render.drawing import Anchor, Drawing, Layer, Pen, Stroke, Text, placed
from render.lay_labels import (
    OUTLINE,
    REACHING,
    Small,
    arrowhead,
    bounds_of,
    inner_points,
    likeness,
    ring,
    ring_radius,
    small,
    spans,
)
from render.lay_runs import Run, least_runs, runs
from render.lay_words import ONE_WAY, along_text, copy_words, must_words
from render.room import Room
from render.spots import text_box

SCALES = (5, 8, 10, 15, 20, 25, 40, 50, 75, 100, 150, 200, 300, 400, 500, 750, 1000)
"""Round scales that a ruler helps with, the largest picture first; past 1:100 only what must."""

MOST_RUNS = 8

STEP = 1.4
"""A plan that is only this much smaller in fewer runs is not broken into more."""

SELVAGE = Pen(width=0.25)
CUT_END = Pen(width=0.5)
BREAK = Pen(width=0.25)
FOLDED = Pen(width=0.7)
TICK = Pen(width=0.25)
HATCH = Pen(width=0.2, grey=0.45)
HATCH_STEP: Mm = 4.0
HATCHED = {"lining": math.pi / 4, "ruffle": -math.pi / 4}
"""How the layers are told apart wherever they are drawn: skirt cloth white."""

LEFT: Mm = 8.0
RIGHT: Mm = 9.0
CAPTION: Mm = 4.6
WORDS: Mm = 4.4
FIGURES: Mm = 7.4
"""Room at the left of a run, at its right, for a line of words above it, for its ruler."""

BETWEEN: Mm = 2.0
WORTH_A_NAME: Mm = 12.0
LEAST_SELVAGE: Mm = 0.9
FOLD_APART: Mm = 1.2
NEAR: Mm = 0.6
"""Lines and words keep this far apart."""

_TENTH = {Units.CM: 100.0, Units.INCH: 4 * MM_PER_INCH}
"""One length mark to the next: 10 cm, or 4 inches."""

_FIGURED = {Units.CM: (5, 10, 20, 50, 100), Units.INCH: (3, 9, 18, 36, 90)}
"""Every how many marks a figure may stand: 50 cm, 1 m …; 1 ft, 1 yd …"""


class PictureError(DraftingError):
    """A lay plan has nothing to show, or the space given is too small for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayPicture:
    """A lay plan drawn.

    Attributes:
        scale: 15 for 1:15.
        width, height: of the picture on paper.
        runs: how many lengths the cloth is shown in, one under the other.
    """

    drawing: Drawing
    scale: int
    width: Mm
    height: Mm
    runs: int


def lay_picture(
    lay: Lay, spec: Spec, *, width: Mm, height: Mm, coarsest: float = math.inf
) -> LayPicture:
    """Return a lay plan drawn as large as it can be in a space, at a round scale.

    A long plan is broken into runs; it is not where one run is as large but for one step.

    Args:
        coarsest: greatest scale that is looked at, 20 for 1:20.

    Raises:
        PictureError: no piece is laid, or the space does not hold the picture at any scale.
    """
    if not lay.laid:
        raise PictureError(f"the plan of the {lay.name} cloth lays no pieces, so none are drawn")
    found: list[LayPicture] = []
    for scale in (scale for scale in SCALES if scale <= coarsest):
        fewer = (found[-1].runs if found else MOST_RUNS + 1) - 1
        picture = _at_scale(lay, spec, scale, width, height, most=fewer)
        if picture is not None:
            found.append(picture)
        elif found:
            break
        if len(found) == 2 or (found and found[-1].runs == least_runs(lay)):
            break
    if len(found) == 2 and found[1].scale > found[0].scale * STEP:
        found.pop()
    if not found:
        raise PictureError(
            f"the {lay.name} cloth's plan does not go into {width:.0f} by {height:.0f} mm"
        )
    return found[-1]


def _at_scale(
    lay: Lay, spec: Spec, scale: int, width: Mm, height: Mm, *, most: int
) -> LayPicture | None:
    """Return the picture at a scale in the fewest runs that fit, or None."""
    for count in range(least_runs(lay), most + 1):
        found = runs(lay, count)
        if len(found) < count:
            return None  # what cannot be broken further was drawn already
        deep = math.fsum((run.high - run.low) / scale + CAPTION + WORDS for run in found)
        long = max(run.length for run in found) / scale + LEFT + RIGHT
        if deep > height:
            return None
        if long > width:
            continue
        picture = _Picture(lay=lay, spec=spec, scale=scale, width=width)
        drawn = picture.drawn(found)
        if drawn.height <= height:
            return drawn
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Group:
    """Pieces alike, one behind the other, too narrow to be named each.

    Attributes:
        tier: how high over the cloth its bracket stands; None where other pieces lie between,
            and it is strung together on the cloth instead.
    """

    pieces: tuple[Laid, ...]
    words: str
    tier: int | None


@dataclass(slots=True)
class _Picture:
    """One picture being drawn, from its top down."""

    lay: Lay
    spec: Spec
    scale: int
    width: Mm
    strokes: list[Stroke] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    smalls: dict[tuple[object, ...], Small] = field(default_factory=dict)
    key: dict[int, str] = field(default_factory=dict)
    unnumbered: dict[int, str] = field(default_factory=dict)

    @property
    def units(self) -> Units:
        return self.spec.units

    def drawn(self, found: Sequence[Run]) -> LayPicture:
        """Return the picture of these runs."""
        y = 0.0
        for run in found:
            y = self.run(run, y, only=len(found) == 1) - BETWEEN
        y = self.under(y)
        wide = min(self.width, max(self._right(run) for run in found))
        wide = max(wide, max((self._text_right(text) for text in self.texts), default=0.0))
        whole = Drawing(strokes=tuple(self.strokes), texts=tuple(self.texts))
        return LayPicture(
            drawing=placed(whole, y=-y),
            scale=self.scale,
            width=wide,
            height=-y,
            runs=len(found),
        )

    def _right(self, run: Run) -> Mm:
        return LEFT + run.length / self.scale + RIGHT

    def _text_right(self, text: Text) -> Mm:
        if text.angle != 0.0:
            return 0.0
        wide = fonts.width(text.text, text.size, bold=text.bold)
        return (
            text.at.x + {Anchor.START: wide, Anchor.MIDDLE: wide / 2, Anchor.END: 0.0}[text.anchor]
        )

    # --- one run -------------------------------------------------------------------------

    def run(self, run: Run, top: Mm, *, only: bool) -> Mm:
        """Draw one run from ``top`` down; return where it ends."""
        scale = self.scale
        groups = self.groups(run)
        tiers = max((1 + group.tier for group in groups if group.tier is not None), default=0)
        selvage = max(self.lay.cloth.selvage / scale, LEAST_SELVAGE)
        y = top
        caption = self.caption(run)
        rows = fonts.wrapped(caption, style.SMALL, self.width, bold=True)
        for row in rows:
            y -= CAPTION
            self.say(row, Point(0.0, y + 1.2), size=style.SMALL, bold=True)
        y -= tiers * WORDS
        y -= WORDS + selvage
        high = (run.high - run.low) / scale
        cloth = Box(left=LEFT, bottom=y - high, right=LEFT + run.length / scale, top=y)
        self.edges(run, cloth, selvage)
        for group in groups:
            if group.tier is not None:
                self.bracket(group, run, cloth.top + selvage + WORDS + group.tier * WORDS)
        self.pieces(run, cloth, groups)
        below = FOLD_APART if run.stretch.folded else selvage
        return self.ruler(run, cloth, cloth.bottom - below)

    def caption(self, run: Run) -> str:
        """Return the line over a run: which cloth it shows, how wide, how it lies."""
        units = self.units
        wide = length_text(self.lay.usable, units)
        if run.stretch.folded:
            words = say(
                "Folded right sides together: {width} from fold to selvages, both layers",
                width=length_text(self.lay.usable / 2, units),
            )
        else:
            words = say("Single layer, right side up: {width} between the selvages", width=wide)
            if any(stretch.folded for stretch in self.lay.stretches):
                words = say("Opened out.") + f" {words}"
        if run.start > 0:
            begin = say("From {length} on.", length=along_text(run.start, units))
            words = f"{begin} {words}"
        if run.ends and run.stretch is self.lay.stretches[-1]:
            to_lay = say("{length} to lay", length=along_text(self.lay.length, units))
            words = clauses((words, to_lay))
        return words

    def edges(self, run: Run, cloth: Box, selvage: Mm) -> None:
        """Draw the cloth's four edges with their words."""
        left, right, bottom, top = cloth.left, cloth.right, cloth.bottom, cloth.top
        for y in (top, top + selvage):
            self.draw(straight(Point(left, y), Point(right, y)), SELVAGE)
        if run.stretch.folded:
            self.draw(straight(Point(left, bottom), Point(right, bottom)), FOLDED)
            low = bottom - FOLD_APART
            self.draw(straight(Point(left, low), Point(right, low)), SELVAGE)
        else:
            low = bottom - selvage
            for y in (bottom, low):
                self.draw(straight(Point(left, y), Point(right, y)), SELVAGE)
        self.end(run.begins, left, low, top + selvage, side=-1)
        self.end(run.ends, right, low, top + selvage, side=1)
        high = cloth.height
        first = run.begins and run.start < 1
        if first:
            words: tuple[str, ...] = (say("cut end"),)
        elif run.begins:
            words = (say("opened out"), say("open"))
        else:
            words = (say("from above"),)
        self.upright(words, left - 3.6, cloth.centre.y, high)
        if run.ends:
            x = right + 3.2
            self.draw(straight(Point(x, bottom), Point(x, top)), TICK)
            for y, angle in ((top, math.pi / 2), (bottom, -math.pi / 2)):
                self.draw(arrowhead(Point(x, y), angle, 1.6), TICK)
            across = length_text(run.high - run.low, self.units)
            self.upright((across, across.split("\u00a0")[0]), x + 2.8, cloth.centre.y, high)
        else:
            self.upright((say("goes on below"), say("goes on")), right + 4.0, cloth.centre.y, high)
        selvages = say("both selvages") if run.stretch.folded else say("upper selvage")
        y = top + selvage + 1.2
        self.say(selvages, Point(left, y))
        if self.lay.cloth.one_way:
            self.one_way(left + fonts.width(selvages, style.NOTE) + 4, right, y)

    def end(self, true_end: bool, x: Mm, low: Mm, high: Mm, *, side: int) -> None:
        """Draw where a run ends: a line where the cloth is cut, a zigzag where it goes on."""
        if true_end:
            self.draw(straight(Point(x, low), Point(x, high)), CUT_END)
            return
        count = max(2, 2 * round((high - low) / 5))
        step = (high - low) / count
        spots = [Point(x + side * (0.4 + 0.9 * (k % 2)), low + step * k) for k in range(count + 1)]
        path: Path = ()
        for a, b in itertools.pairwise(spots):
            path += straight(a, b)
        self.draw(path, BREAK)

    def one_way(self, left: Mm, right: Mm, y: Mm) -> None:
        """Draw the arrow of a one-way cloth with its words, in the longest form that fits."""
        size = style.NOTE
        arrow = 14.0
        options = [say(words) for words in ONE_WAY]
        words = next(
            (
                words
                for words in options
                if left + arrow + 2 + fonts.width(words, size) <= max(right, LEFT + 60)
            ),
            options[-1],
        )
        middle = y + style.CAP_HEIGHT * size / 2
        tip = Point(left + arrow, middle)
        self.draw(straight(Point(left, middle), tip), FOLDED)
        self.draw(arrowhead(tip, 0.0, 3.0), FOLDED)
        self.say(words, Point(left + arrow + 2, y), bold=True)

    def ruler(self, run: Run, cloth: Box, top: Mm) -> Mm:
        """Draw length marks under a run, counted from the cut end; return where they end."""
        step = _TENTH[self.units]
        on_paper = step / self.scale
        widest = fonts.width(self.figure(run.end, unit=True), style.NOTE) + 2.5
        figured = next(
            (every for every in _FIGURED[self.units] if every * on_paper >= widest),
            _FIGURED[self.units][-1],
        )
        # Marks so near to each other that they would run together are left out.
        every = 1 if on_paper >= 1.2 else figured
        first = math.ceil(run.start / step - 1e-6)
        last = math.floor(run.end / step + 1e-6)
        base = top - FIGURES + 1.6
        taken: list[tuple[Mm, Mm]] = []
        for k in range(first, last + 1):
            x = cloth.left + (k * step - run.start) / self.scale
            long = k % figured == 0
            if k % every == 0:
                deep = 2.8 if long else 1.6
                self.draw(straight(Point(x, top), Point(x, top - deep)), TICK)
            if not long:
                continue
            words = self.figure(k * step, unit=k == 0 or not taken)
            wide = fonts.width(words, style.NOTE)
            before = taken[-1][1] + 1 if taken else 0.0
            if x - wide / 2 < before or x + wide / 2 > self.width:
                continue
            taken.append((x - wide / 2, x + wide / 2))
            self.say(words, Point(x, base), anchor=Anchor.MIDDLE)
        name = say("fold") if run.stretch.folded else say("lower selvage")
        wide = fonts.width(name, style.NOTE, bold=run.stretch.folded)
        ends = [0.0, *(right for _, right in taken)]
        begins = [*(left for left, _ in taken), cloth.right]
        spot = next(
            (a for a, b in zip(ends, begins, strict=True) if b - a >= wide + 3 and a > 0), None
        )
        bottom = top - FIGURES
        if spot is None:
            bottom -= WORDS
            spot, base = cloth.left - 1.5, bottom + 1.2
        self.say(name, Point(spot + 1.5, base), bold=run.stretch.folded)
        return bottom

    def figure(self, along: Mm, *, unit: bool) -> str:
        """Return a figure of the ruler: whole centimetres or inches."""
        if self.units is Units.CM:
            return f"{along / 10:.0f}" + ("\u00a0cm" if unit else "")
        return f"{along / MM_PER_INCH:.0f}" + (f"\u00a0{inch()}" if unit else "")

    # --- pieces --------------------------------------------------------------------------

    def small(self, one: Laid) -> Small:
        """Return a piece at this scale; those that lie alike are looked at once."""
        like = likeness(one, self.lay.usable)
        if like not in self.smalls:
            self.smalls[like] = small(one, self.scale, self.lay.usable)
        return self.smalls[like]

    def place(self, one: Laid, run: Run, cloth: Box) -> Point:
        """Return where a piece's own origin lies on the picture."""
        return Point(
            cloth.left + (one.x - run.start) / self.scale,
            cloth.bottom + (one.y - run.low) / self.scale,
        )

    def pieces(self, run: Run, cloth: Box, groups: Sequence[_Group]) -> None:
        """Draw every piece of a run with its words."""
        grouped = {id(one) for group in groups for one in group.pieces}
        tiny: list[Laid] = []
        polygons: list[tuple[Laid, tuple[Point, ...]]] = []
        first = len(self.strokes)
        for one in run.whole:
            at, held = self.place(one, run, cloth), self.small(one)
            polygon = tuple(Point(p.x + at.x, p.y + at.y) for p in held.polygon)
            polygons.append((one, polygon))
            boxes = [tuple(Point(p.x + at.x, p.y + at.y) for p in box) for box in held.boxes]
            self.hatch(polygon, boxes)
            for path in held.outline:
                self.draw(moved(path, x=at.x, y=at.y), OUTLINE, layer=Layer.CUTTING)
            grouped_here = id(one) in grouped
            marks = () if grouped_here and self.narrow(one) else held.marks
            self.put(Drawing(strokes=marks, texts=()), at)
            if held.place is not None:
                self.put(held.label(one), at)
            elif not grouped_here:
                tiny.append(one)
            if held.place is not None and not held.named:
                self.key[one.shape.number] = piece_words(one.shape.name)
        self.reaching(run, cloth)
        strung = [group for group in groups if group.tier is None]
        if tiny or strung:
            room = Room(box=cloth, cell=0.4)
            for stroke in self.strokes[first:]:
                if stroke.pen is not HATCH:
                    room.enter(stroke.path)
            for text in self.texts:
                room.claim(text_box(text))
            for group in strung:
                self.string(group, polygons, room)
            self.beside(tiny, polygons, room)

    def narrow(self, one: Laid) -> bool:
        """Tell whether an arrow on a piece would be a blot."""
        return min(one.box.width, one.box.height) / self.scale < 2.0

    def reaching(self, run: Run, cloth: Box) -> None:
        """Draw as much as is seen here of pieces that are drawn whole in another run."""
        for one in run.parts:
            at = self.place(one, run, cloth)
            home = scaled(one.outline, 1 / self.scale)
            origin = Point(at.x - one.x / self.scale, at.y - one.y / self.scale)
            path = moved(home, x=origin.x, y=origin.y)
            for part, walked in clipped(path, cloth, round_start=True):
                self.strokes.append(
                    Stroke(path=part, pen=REACHING, layer=Layer.MARKS, phase=walked % 2.5)
                )

    def hatch(self, polygon: Sequence[Point], boxes: Sequence[Sequence[Point]]) -> None:
        """Hatch a piece lightly, clear of its words."""
        angle = HATCHED.get(self.lay.name)
        if angle is None:
            return
        for path in hatching(polygon, boxes, angle):
            self.draw(path, HATCH)

    def groups(self, run: Run) -> list[_Group]:
        """Return rows of pieces alike that are too narrow to be named one by one."""
        rows: dict[tuple[object, ...], list[Laid]] = {}
        for one in run.whole:
            if self.small(one).place is None:
                row = (*likeness(one, self.lay.usable), round(one.y, 1))
                rows.setdefault(row, []).append(one)
        found: list[list[Laid]] = []
        for held in rows.values():
            held.sort(key=lambda one: one.x)
            found += [behind for behind in _one_behind_the_other(held) if len(behind) >= 3]
        groups: list[_Group] = []
        tiers: list[list[tuple[Mm, Mm]]] = []
        for behind in sorted(found, key=lambda behind: (behind[0].x, behind[0].y)):
            words = _group_words(behind)
            if not self.alone(behind, run):
                groups.append(_Group(pieces=tuple(behind), words=words, tier=None))
                continue
            reach = self.bracket_at(behind, words, run)
            a, b = min(reach[0], reach[2]), max(reach[1], reach[3])
            tier = next(
                (k for k, held in enumerate(tiers) if all(b < x or a > y for x, y in held)),
                len(tiers),
            )
            if tier == len(tiers):
                tiers.append([])
            tiers[tier].append((a, b))
            groups.append(_Group(pieces=tuple(behind), words=words, tier=tier))
        return groups

    def alone(self, behind: Sequence[Laid], run: Run) -> bool:
        """Tell whether pieces have their length of the cloth to themselves."""
        own = {id(one) for one in behind}
        left, right = behind[0].box.left, behind[-1].box.right
        return not any(
            one.box.right > left + 1 and one.box.left < right - 1
            for one in run.whole
            if id(one) not in own
        )

    def bracket_at(self, pieces: Sequence[Laid], words: str, run: Run) -> tuple[Mm, Mm, Mm, Mm]:
        """Return where a bracket begins and ends, and its words: in it, behind it or before it."""
        a = LEFT + (pieces[0].box.left - run.start) / self.scale
        b = LEFT + (pieces[-1].box.right - run.start) / self.scale
        wide = fonts.width(words, style.NOTE) + 6.0
        if wide + 4 <= b - a:
            return a, b, (a + b - wide) / 2, (a + b + wide) / 2
        if b + 1.5 + wide <= self.width:
            return a, b, b + 1.5, b + 1.5 + wide
        return a, b, a - 1.5 - wide, a - 1.5

    def bracket(self, group: _Group, run: Run, y: Mm) -> None:
        """Draw a bracket over like pieces, from the first to the last."""
        a, b, left, right = self.bracket_at(group.pieces, group.words, run)
        number = group.pieces[0].shape.number
        line = y + 1.6
        for x in (a, b):
            self.draw(straight(Point(x, y + 0.3), Point(x, y + 3.0)), TICK)
        gaps = ((a, left - 1), (right + 1, b)) if a < left < b else ((a, b),)
        for begin, end in gaps:
            self.draw(straight(Point(begin, line), Point(end, line)), TICK)
        centre = Point(left + 2.2, line)
        base = line - style.CAP_HEIGHT * style.NOTE / 2
        self.say(str(number), Point(centre.x, base), anchor=Anchor.MIDDLE, bold=True)
        self.strokes.append(ring(centre, ring_radius(number, style.NOTE)))
        self.say(group.words, Point(left + 5.4, base))

    def string(
        self,
        group: _Group,
        polygons: Sequence[tuple[Laid, tuple[Point, ...]]],
        room: Room,
    ) -> None:
        """Draw a line through like pieces, dotted in the first and the last, with its words."""
        own = {id(one): polygon for one, polygon in polygons}
        ends = []
        for one in (group.pieces[0], group.pieces[-1]):
            box = bounds_of(own[id(one)])
            ends.append(Point(box.centre.x, box.bottom + 0.75 * box.height))
        number = group.pieces[0].shape.number
        told = f"{number}  {group.words}"
        mine = {id(one) for one in group.pieces}
        others = [polygon for one, polygon in polygons if id(one) not in mine]
        best: tuple[Text, Path] | None = None
        for end, one in zip(ends, (group.pieces[0], group.pieces[-1]), strict=True):
            apart = [own[id(k)] for k in group.pieces if k is not one]
            text, line = _leader(((told,),), own[id(one)], [*others, *apart], room, (end,))
            if text is not None and line is not None:
                best = (text[0], line)
        if best is None:
            self.unnumbered[number] = piece_words(group.pieces[0].shape.name)
            return
        text_, line_ = best
        self.texts.append(text_)
        room.claim(text_box(text_))
        for path in (line_, straight(*ends)):
            self.draw(path, TICK, layer=Layer.MARKS)
        for end in ends:
            self.strokes.append(ring(end, 0.5))

    def beside(
        self,
        tiny: Sequence[Laid],
        polygons: Sequence[tuple[Laid, tuple[Point, ...]]],
        room: Room,
    ) -> None:
        """Set the numbers of pieces too small for them beside, each with a line to its piece."""
        for one in tiny:
            own = next(polygon for held, polygon in polygons if held is one)
            others = [polygon for held, polygon in polygons if held is not one]
            shape, name = one.shape, piece_words(one.shape.name)
            copy = (copy_words(one),) if shape.count > 1 else ()
            must = must_words(one)
            named = "  ".join((f"{shape.number}  {name}", *copy, *must))
            bare = "  ".join((f"{shape.number}", *copy, *must))
            stacked = ("  ".join((f"{shape.number}", *copy)), *must)
            options = tuple(dict.fromkeys(((named,), (bare,), stacked)))
            texts, line = _leader(options, own, others, room, tuple(inner_points(own)))
            if texts is None or line is None:
                self.unnumbered[shape.number] = name
                continue
            if texts[0].text != named:
                self.key[shape.number] = name
            self.texts += texts
            self.draw(line, TICK, layer=Layer.MARKS)
            self.strokes.append(ring(line[-1].end, 0.5))
            for text in texts:
                room.claim(text_box(text))
            room.enter(line)

    # --- under the runs ------------------------------------------------------------------

    def under(self, top: Mm) -> Mm:
        """Set the key and the scale under the runs; return where they end."""
        y = top
        words = [headed(str(number), name) for number, name in sorted(self.key.items())]
        rows = []
        if words:
            rows.append(";  ".join(words))
        if self.unnumbered:
            names = ", ".join(f"{n} {name}" for n, name in sorted(self.unnumbered.items()))
            rows.append(say("Too small to be numbered here, see the list: {pieces}.", pieces=names))
        told = [
            say(
                "Drawn at 1:{scale}: not to be cut from. Numbers are those of the cut list.",
                scale=self.scale,
            )
        ]
        if any(held.marks for held in self.smalls.values()):
            told.append(say("Arrow: the grain, along the cloth."))
        if any(stroke.pen is REACHING for stroke in self.strokes):
            told.append(say("Broken outline: drawn whole in another run."))
        if self.lay.name == "lining":
            told.append(say("Slanting lines mark the lining’s cloth."))
        elif self.lay.name in HATCHED:
            told.append(say("Slanting lines mark the ruffle’s cloth."))
        rows.append(" ".join(told))
        for paragraph in rows:
            for row in fonts.wrapped(paragraph, style.NOTE, max(self.width, 60.0)):
                y -= style.NOTE * style.LEADING
                self.say(row, Point(0.0, y + 0.9))
        return y

    # --- lines and words -----------------------------------------------------------------

    def draw(self, path: Path, pen: Pen, *, layer: Layer = Layer.PAGE) -> None:
        self.strokes.append(Stroke(path=path, pen=pen, layer=layer))

    def put(self, drawing: Drawing, at: Point) -> None:
        there = placed(drawing, x=at.x, y=at.y)
        self.strokes += there.strokes
        self.texts += there.texts

    def say(
        self,
        words: str,
        at: Point,
        *,
        size: Mm = style.NOTE,
        bold: bool = False,
        anchor: Anchor = Anchor.START,
        angle: float = 0.0,
    ) -> None:
        self.texts.append(Text(text=words, at=at, size=size, bold=bold, anchor=anchor, angle=angle))

    def upright(self, options: Sequence[str], x: Mm, y: Mm, high: Mm) -> None:
        """Set the longest words that a run is high enough for, reading upwards; none if none."""
        words = next((w for w in options if fonts.width(w, style.NOTE) <= high), None)
        if words is not None:
            self.say(words, Point(x + 1.0, y), anchor=Anchor.MIDDLE, angle=math.pi / 2)


def _one_behind_the_other(row: Sequence[Laid]) -> list[list[Laid]]:
    """Return pieces of one row parted where another lies between them."""
    found: list[list[Laid]] = []
    for one in row:
        if found and one.box.left - found[-1][-1].box.right < 0.5 * one.box.width:
            found[-1].append(one)
        else:
            found.append([one])
    return found


def _group_words(pieces: Sequence[Laid]) -> str:
    """Return what a bracket says: how many, and which copies, the first to the last."""
    shape = pieces[0].shape
    step = 2 if pieces[0].lies is Lies.UPPER else 1
    copies = sorted(one.copy for one in pieces)
    told = say("{number} behind each other", number=len(pieces))
    if copies == list(range(copies[0], copies[-1] + 1, step)):
        told = say(
            "{first} to {last} of {count}",
            first=copies[0],
            last=copies[-1] + step - 1,
            count=shape.count,
        )
    return "  ".join((f"{piece_words(shape.name)}, {told}", *must_words(pieces[0])))


def _leader(
    options: Sequence[tuple[str, ...]],
    own: tuple[Point, ...],
    others: Sequence[tuple[Point, ...]],
    room: Room,
    targets: Sequence[Point],
) -> tuple[tuple[Text, ...] | None, Path | None]:
    """Return rows of words in the nearest free spot on the cloth with a line to their piece.

    Args:
        options: rows of words, those to wish for first.
        targets: points on the piece where the line may end.
    """
    size = style.NOTE
    boxed = [(bounds_of(other), other) for other in others]
    sizes = [
        (max(fonts.width(words, size, bold=words.isdigit()) for words in rows) + 1.0)
        for rows in options
    ]
    best: tuple[Mm, tuple[Text, ...], Path] | None = None
    for target in _few(targets):
        for k, turn, (order, rows) in itertools.product(
            range(1, 17), range(16), enumerate(options)
        ):
            far = 2.5 * k
            # The name is worth a longer line.
            worth = far + WORTH_A_NAME * order
            if best is not None and worth >= best[0]:
                if far >= best[0]:
                    break
                continue
            wide, high = sizes[order], size * 1.2 * len(rows)
            across, up = _AROUND[turn]
            aside = math.copysign(wide / 2, across) if abs(across) > 1e-6 else 0.0
            spot = Point(target.x + far * across + aside, target.y + far * up)
            low, left = spot.y - high / 2, spot.x - wide / 2
            corners = (
                Point(left, low),
                Point(left + wide, low),
                Point(left + wide, low + high),
                Point(left, low + high),
            )
            if not room.is_free(corners):
                continue
            near = Point(
                min(max(target.x, spot.x - wide / 2), spot.x + wide / 2),
                min(max(target.y, spot.y - high / 2), spot.y + high / 2),
            )
            if any(holds(own, corner) for corner in corners):
                continue
            reach = bounds_of((*corners, target))
            steps = (*corners, *_steps(near, target))
            if any(
                holds(other, point) for box, other in boxed if box.meets(reach) for point in steps
            ):
                continue
            texts = []
            for n, words in enumerate(rows):
                y = spot.y + ((len(rows) - 1) / 2 - n) * size * 1.2
                at = Point(spot.x, y - style.CAP_HEIGHT * size / 2)
                bold = words.isdigit()
                texts.append(Text(text=words, at=at, size=size, anchor=Anchor.MIDDLE, bold=bold))
            best = (worth, tuple(texts), straight(near, target))
    return (None, None) if best is None else best[1:]


_AROUND = tuple((math.cos(k * math.tau / 16), math.sin(k * math.tau / 16)) for k in range(16))

_MOST_TARGETS = 24
"""Points of a piece that a line is led to, at most: a tiny piece has not many more places."""


def _few(targets: Sequence[Point]) -> Sequence[Point]:
    """Return some of the points, evenly among all."""
    step = max(1, math.ceil(len(targets) / _MOST_TARGETS))
    return targets[::step]


def _steps(one: Point, other: Point) -> list[Point]:
    """Return points along a straight line, half a millimetre apart."""
    long = math.hypot(other.x - one.x, other.y - one.y)
    count = max(1, math.ceil(long / 0.5))
    return [
        Point(one.x + (other.x - one.x) * k / count, one.y + (other.y - one.y) * k / count)
        for k in range(count + 1)
    ]


def hatching(
    polygon: Sequence[Point], holes: Sequence[Sequence[Point]], angle: float
) -> Iterable[Path]:
    """Yield straight lines that hatch a polygon but for some convex holes, evenly all over.

    The lines lie on one lattice of the picture, whatever they hatch.
    """
    c, s = math.cos(angle), math.sin(angle)

    def turned(points: Sequence[Point]) -> list[Point]:
        return [Point(p.x * c + p.y * s, p.y * c - p.x * s) for p in points]

    rim_, cut = turned(polygon), [turned(hole) for hole in holes]
    low, high = min(p.y for p in rim_), max(p.y for p in rim_)
    for k in range(math.ceil(low / HATCH_STEP), math.floor(high / HATCH_STEP) + 1):
        y = k * HATCH_STEP
        parts = list(spans(rim_, y))
        for hole in cut:
            for low_, high_ in spans(hole, y):
                parts = [p for part in parts for p in _without(part, low_ - NEAR, high_ + NEAR)]
        for a, b in parts:
            if b - a > 0.5:
                yield straight(
                    Point(a * c - y * s, a * s + y * c), Point(b * c - y * s, b * s + y * c)
                )


def _without(span: tuple[Mm, Mm], a: Mm, b: Mm) -> list[tuple[Mm, Mm]]:
    if b <= span[0] or a >= span[1]:
        return [span]
    return [part for part in ((span[0], a), (b, span[1])) if part[1] > part[0]]
