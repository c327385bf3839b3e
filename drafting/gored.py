"""Gores shaped over the hip, straight and flaring below it.

Millimetres and radians. Plain gores are sectors of a ring and belong to the circle family; a
shaped gore is a sector only where its sides run straight down to the hem. The point where
they would meet there is the origin, its centre line hangs straight down from it, and its
first edge is the left one. Imports geometry, curve, around, outline and errors.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from drafting.around import Around
from drafting.curve import curve
from drafting.errors import GeometryError
from drafting.geometry import (
    Arc,
    Line,
    Path,
    Point,
    Segment,
    mirrored,
    on_circle,
    path_length,
    reversed_path,
    straight,
)
from drafting.outline import Outline
from drafting.units import Mm

APEX = Point(0.0, 0.0)
"""Where the sides of a gore would meet, drawn on from the hem."""

DOWN = -math.pi / 2
"""The way its centre line hangs."""

STRAIGHT_WAIST = 1e-6
"""A waist whose ends lean less is drawn as a line: it bows by under a thousandth of a mm."""

STRAIGHT_SIDE = 1e-6
"""A side that turns less over one of its stretches is drawn as a line there."""

LEAN_MOST = math.pi / 3
"""A side that leans further runs along the waist rather than down from it."""

TURN = 0.6
"""So much of the hip depth is the seam below the hip in which a side may turn into its flare.

Some 12 cm on most bodies: the flare still springs from the hip, and the seam bends so gently
that it needs no clipping. A share, so that a pattern at half scale is half in this as well.
"""

TURN_MOST = 0.4
"""Of what hangs below the hip, a short skirt's sides turn in no more than so much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    """A stretch of a side, from above; its lean changes evenly from ``begin`` to ``finish``."""

    long: Mm
    begin: float
    finish: float

    def lean(self, up: Mm) -> float:
        """Return the lean ``up`` above its lower end."""
        return self.finish + (self.begin - self.finish) * up / self.long

    def above(self, end: Point, up: Mm) -> Point:
        """Return its point ``up`` above its lower end, on the right-hand side."""
        lean = self.lean(up)
        return Point(
            end.x - up * _mean_sine(lean, self.finish),
            end.y + up * _mean_cosine(lean, self.finish),
        )

    def drawn(self, start: Point, end: Point) -> Segment:
        """Return it on the left-hand side, downwards."""
        turn = self.finish - self.begin
        if abs(turn) < STRAIGHT_SIDE:
            return Line(start=start, end=end)
        # Looking down the left-hand side: more lean below than above is a turn to the right,
        # about a centre beyond the gore; less is a turn to the left, about one inside it.
        away = 0.0 if turn > 0 else math.pi
        radius = self.long / abs(turn)
        centre = on_circle(end, radius, away - self.finish + math.pi)
        return Arc(centre=centre, radius=radius, begin=away - self.begin, finish=away - self.finish)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapedGores:
    """Gores shaped over the hip, in numbers: the same figures as a plain flare, and more.

    Depths are measured along the seams, as the hip depth is taken along the body. Where the
    hip asks for more lean than the flare, a side is one arc from waist to hip, and leans less
    and less, down to the flare. Where the flare leans more, such an arc would run inside the
    body above the hip; so the side runs straight to the hip, and turns into the flare in an
    arc below it. The waist is an arc that meets both sides squarely.

    Attributes:
        panels: how many gores, equal down to the hem.
        waistline: length of the flat waist seam all round.
        hipline: girth at hip depth, straight across every gore: the hip and its ease, and no
            less than the waist.
        hip_depth: from the waist seam down to the hip.
        flare: how far each side leans out below the hip, in radians; half a gore's angle.
        around: lengths from the waist seam to the finished hem, along the seams.

    Raises:
        GeometryError: the hem comes above the hip, or no such gore can be drawn.
    """

    panels: int
    waistline: Mm
    hipline: Mm
    hip_depth: Mm
    flare: float
    around: Around

    def __post_init__(self) -> None:
        if self.panels < 1 or not min(self.waistline, self.hipline, self.hip_depth) > 0:
            raise GeometryError("a gored skirt needs a gore, a waist, a hip and a hip depth")
        if not self.waistline <= self.hipline:
            raise GeometryError(
                f"gores shaped from {self.waistline:g} mm at the waist need as much at the hip,"
                f" not {self.hipline:g} mm"
            )
        if not 0 < self.flare < LEAN_MOST:
            raise GeometryError(
                f"each side of a gore flares out by {math.degrees(self.flare):g} degrees;"
                f" it needs more than 0 and less than {math.degrees(LEAN_MOST):g}"
            )
        if not self.hip_depth < self.length:
            raise GeometryError(
                f"gores shaped down to a hip {self.hip_depth:g} mm below the waist need a longer"
                f" skirt than {self.length:g} mm; lengthen it or cut plain gores"
            )
        lean, (x, y) = self._side_at(0.0)
        # Straight below the waist's middle comes the hem's.
        if not y - x * math.tan(lean / 2) > -self.hem_radius:
            raise GeometryError(f"{self._shape()} fold over; cut more gores or flare them less")

    def _shape(self) -> str:
        return (
            f"{self.panels} gores from {self.waistline:g} mm at the waist to {self.hipline:g} mm"
            f" at the hip, {self.hip_depth:g} mm below it,"
        )

    @property
    def length(self) -> Mm:
        """Least length of the four that were measured."""
        return self.around.least

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        return self.girth_above_hem(0.0)

    @property
    def waist_radius(self) -> Mm | None:
        """Radius of each gore's waist; None when it is straight."""
        lean, at = self._side_at(0.0)
        return None if lean < STRAIGHT_WAIST else at.x / math.sin(lean)

    @property
    def hem_radius(self) -> Mm:
        """Smallest radius of the hem, from the point where a gore's sides would meet."""
        return self._reach + self.length

    @property
    def fullness(self) -> float:
        """Circles that the flare below the hip comes to."""
        return self.panels * self.flare / math.pi

    @property
    def panel_angle(self) -> None:
        """None: a shaped gore is no sector."""
        return None

    @property
    def alike(self) -> bool:
        """Whether all gores are cut from one pattern."""
        return self.around.even

    def divided(self, panels: int) -> "ShapedGores":
        """Return the same layer in so many panels."""
        return replace(self, panels=panels, flare=self.flare * self.panels / panels)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth ``below`` the waist seam, on a line that meets every seam squarely.

        Such a line is level on the body: the waist and an even hem are two of them. Straight
        across the gores the girth at hip depth is ``hipline``; this is a little more.
        """
        if below >= self._shaped_depth:
            return 2 * self.panels * self.flare * (self._reach + below)
        lean, at = self._side_at(below)
        return 2 * self.panels * at.x * _bow(lean)

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem.

        Raises:
            GeometryError: lengths differ and the line comes above the straight flare.
        """
        if self.around.even:
            return self.girth_at(self.length - up)
        return path_length(self.line_above_hem(up, 0.0, 1.0))

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return the line ``up`` above the hem between two shares of a turn from centre back.

        In the frame of a gore that begins at the first of the two, from left to right.

        Raises:
            GeometryError: the line comes above the straight flare, and lengths differ or it
                spans more than one gore.
        """
        wide = (finish - begin) * self.panels
        least = min(self.around.at(begin + (finish - begin) * k / 16) for k in range(17)) - up
        shaped = self._shaped_depth
        if least < shaped - 1e-9:
            if not self.around.even or wide > 1 + 1e-9:
                near = shaped - self.hip_depth
                where = (
                    f"above the hip or less than {near:g} mm below it" if near else "above the hip"
                )
                raise GeometryError(
                    f"a line {up:g} mm above the hem comes {where}, where the sides of these gores"
                    " are not yet straight; place it lower"
                )
            return self._level(least, wide)
        first = DOWN - self.flare
        last = first + 2 * self.flare * wide
        out = self._reach - up

        def share(angle: float) -> float:
            return begin + (angle - first) / (2 * self.flare * self.panels)

        def radius(angle: float) -> Mm:
            return out + self.around.at(share(angle))

        def heading(angle: float) -> float:
            # dR/d(angle): the length's slope round the body, spread over the gores' angles.
            grows = self.around.slope(share(angle)) / self.fullness
            r, c, s = radius(angle), math.cos(angle), math.sin(angle)
            return math.atan2(grows * s + r * c, grows * c - r * s)

        if self.around.even:
            return (Arc(centre=APEX, radius=radius(first), begin=first, finish=last),)
        return curve(lambda angle: on_circle(APEX, radius(angle), angle), heading, first, last)

    def outline(self, begin: float, finish: float) -> Outline:
        """Return a gore between two shares of a turn, or its first half, up to its middle.

        The last edge of a half is its straight centre line.

        Raises:
            GeometryError: the shares are neither a gore nor half a gore apart, or the hem
                comes above the straight flare there.
        """
        wide = (finish - begin) * self.panels
        half = abs(wide - 0.5) < 1e-9
        if not half and abs(wide - 1) > 1e-9:
            raise GeometryError(f"a gore is drawn whole or as a half, not as {wide:g} of one")
        hem = self.line_above_hem(0.0, begin, finish)
        waist = reversed_path(self._level(0.0, 0.5 if half else 1.0))
        if half:
            last = straight(hem[-1].end, waist[0].start)
        else:
            right = mirrored(self._side(self.around.at(finish)), through=APEX, along=math.pi / 2)
            last = reversed_path(right)
        return Outline(begin=self._side(self.around.at(begin)), hem=hem, finish=last, waist=waist)

    @property
    def _reach(self) -> Mm:
        """What a point of the straight flare lies further from the apex than from the waist."""
        out = self.hipline / (2 * self.panels)
        out += sum(s.long * _mean_sine(s.begin, s.finish) for s in self._stretches()[1:])
        return out / math.sin(self.flare) - self._shaped_depth

    @property
    def _shaped_depth(self) -> Mm:
        """How far below the waist the sides begin to run straight down to the hem."""
        return math.fsum(stretch.long for stretch in self._stretches())

    def _stretches(self) -> tuple[_Stretch, ...]:
        """Return a side above its straight flare: down to the hip, and perhaps a turn below it."""
        lean = self._waist_lean()
        over_hip = _Stretch(long=self.hip_depth, begin=lean, finish=min(lean, self.flare))
        if lean >= self.flare:
            return (over_hip,)
        turn = min(TURN * self.hip_depth, TURN_MOST * (self.length - self.hip_depth))
        return (over_hip, _Stretch(long=turn, begin=lean, finish=self.flare))

    def _waist_lean(self) -> float:
        """Return how far the sides lean out where they leave the waist.

        Source: a waist that meets both sides squarely is an arc of twice their lean, so it is
        as long as its half width across times 2 lean / sin lean. At the hip the sides lean as
        at the waist, but no more than the flare. The more they lean, the narrower the waist;
        halving the interval finds the lean at which it is right.

        Raises:
            GeometryError: no lean would do.
        """
        lean = lean_at_waist(
            self.waistline / (2 * self.panels),
            self.hipline / (2 * self.panels),
            self.hip_depth,
            self.flare,
        )
        if lean is None:
            raise GeometryError(
                f"{self._shape()} have no smooth side; cut more gores or give them a deeper hip"
            )
        return lean

    def _side_at(self, below: Mm) -> tuple[float, Point]:
        """Return how far the right-hand side leans out there, above its straight flare; and where.

        Walked upwards from where the straight flare begins.
        """
        shaped = self._shaped_depth
        lean, at = self.flare, on_circle(APEX, self._reach + shaped, DOWN + self.flare)
        rest = shaped - below
        for stretch in reversed(self._stretches()):
            up = min(rest, stretch.long)
            lean, at = stretch.lean(up), stretch.above(at, up)
            rest -= up
            if rest <= 0:
                break
        return lean, at

    def _level(self, below: Mm, share: float) -> Path:
        """Return a line of one gore that meets its sides squarely, from left to right.

        Above the straight flare; so much of the gore's width as ``share`` says, from the left.
        """
        lean, (x, y) = self._side_at(below)
        if lean < STRAIGHT_WAIST:
            return straight(Point(-x, y), Point(-x + 2 * x * share, y))
        centre, radius = Point(0.0, y + x / math.tan(lean)), x / math.sin(lean)
        begin = DOWN - lean
        return (Arc(centre=centre, radius=radius, begin=begin, finish=begin + 2 * lean * share),)

    def _side(self, long: Mm) -> Path:
        """Return the left-hand side of a gore, from the waist down to a hem ``long`` below it."""
        first = DOWN - self.flare
        reach, shaped = self._reach, self._shaped_depth
        at = on_circle(APEX, reach + shaped, first)
        path: Path = (Line(start=at, end=on_circle(APEX, reach + long, first)),)
        for stretch in reversed(self._stretches()):
            x, y = stretch.above(Point(-at.x, at.y), stretch.long)
            start = Point(-x, y)
            path = (stretch.drawn(start, at), *path)
            at = start
        return path


def _bow(lean: float) -> float:
    """Return how much longer an arc is than its chord, when it turns by twice ``lean``."""
    return lean / math.sin(lean) if abs(lean) > 1e-9 else 1.0


def _mean_sine(one: float, other: float) -> float:
    """Return the mean of the sine between two angles."""
    return math.sin((one + other) / 2) / _bow((one - other) / 2)


def _mean_cosine(one: float, other: float) -> float:
    """Return the mean of the cosine between two angles."""
    return math.cos((one + other) / 2) / _bow((one - other) / 2)


@lru_cache(maxsize=256)
def lean_at_waist(waist: Mm, hip: Mm, hip_depth: Mm, flare: float) -> float | None:
    """Return the lean at which half a gore is ``waist`` wide above a hip of ``hip``, or None."""

    def surplus(lean: float) -> Mm:
        taken_in = hip_depth * _mean_sine(lean, min(lean, flare))
        return (hip - taken_in) * _bow(lean) - waist

    low, high = 0.0, LEAN_MOST
    if not surplus(high) <= 0:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if surplus(middle) > 0 else (low, middle)
    return (low + high) / 2
