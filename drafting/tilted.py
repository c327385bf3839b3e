"""A skirt whose waistline follows the body, so that its hem can be a true arc.

Millimetres and radians; places are shares of a turn from centre back by way of the right side,
measured along the waist seam. The hem keeps one radius all round and the waist seam lies as
far inside it as the body is long at each place. Imports around, circle, curve, errors, geometry
and outline.

Source: let s be the length along a waist seam of c in all, L the length there, R the hem's
radius and r = R - L the seam's. A step ds along the seam goes r' ds outwards and r d(alpha)
round the hem's centre, so d(alpha)/ds = sqrt(1 - r'^2) / r, and R is the radius at which the
whole seam turns through 2 pi F.
"""

import cmath
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from drafting.around import Around
from drafting.circle import ORIGIN
from drafting.curve import curve
from drafting.errors import GeometryError
from drafting.geometry import Arc, Path, Point, on_circle, reversed_path, straight
from drafting.outline import Outline
from drafting.units import Mm

STEEPEST = 0.995
"""Most that the length may grow for each mm of waist seam; at 1 the seam runs down the radius."""

NEAREST: Mm = 1.0
"""How near the waist seam may come to the centre of the hem."""

FEWEST = 128
MOST = 8192
"""Places round the waist that are looked at: as many as the answer asks for, in doublings.

The sums run over whole turns of smooth lengths, where plain sums gain digits with each place.
"""

SETTLED: Mm = 1e-9
"""The hem's radius is found when twice the places move it by less."""

FAINT = 1e-12
"""Waves of the pattern's angle that are weaker than this are left out."""

AtShare = Callable[[float], float]
"""A value at a share of a turn round the waist."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Angles:
    """The pattern's angle at every place round the waist.

    It is counted from a direction of its own: only the angle between two places has a meaning.

    Attributes:
        turn: the angle of the whole waist.
        waves: how the angle swings about an even turn; the k-th is the complex strength of
            k + 1 swings round the body.
    """

    turn: float
    waves: tuple[complex, ...]

    def at(self, share: float) -> float:
        """Return the angle at a share of a turn; beyond 1 the whole turns add up."""
        once = cmath.rect(1.0, math.tau * share)
        total = 0j
        for wave in reversed(self.waves):
            total = (total + wave) * once
        return self.turn * share + total.real


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ring:
    """The lengths at even places round the waist, and what follows from them alone.

    Attributes:
        outward: r', how fast the seam leaves the hem's centre for each mm along it.
        round: sqrt(1 - r'^2), the part of each mm that goes round the centre.
    """

    lengths: tuple[Mm, ...]
    outward: tuple[float, ...]
    round: tuple[float, ...]


def _ring(length_at: AtShare, slope_at: AtShare, waistline: Mm, places: int) -> _Ring:
    outward = tuple(-slope_at(k / places) / waistline for k in range(places))
    steepest = max(map(abs, outward))
    if not steepest < STEEPEST:
        raise GeometryError(
            f"somewhere the length changes by {steepest:.2f} mm for each mm along the waist seam;"
            f" a tilted waistline needs less than {STEEPEST:g}: take lengths that differ less"
            " round the body, or level the hem instead"
        )
    return _Ring(
        lengths=tuple(length_at(k / places) for k in range(places)),
        outward=outward,
        round=tuple(math.sqrt(1 - out * out) for out in outward),
    )


def hem_radius(length_at: AtShare, slope_at: AtShare, waistline: Mm, fullness: float) -> Mm:
    """Return the one hem radius at which the waist seam turns through ``fullness`` circles.

    Args:
        length_at: the length from the waist seam to the hem at a share of a turn.
        slope_at: its derivative, in mm for a whole turn.

    Raises:
        GeometryError: no such skirt can be cut.
    """
    if not 0 < waistline < math.inf:
        raise GeometryError(f"a tilted waistline needs a length above 0, not {waistline:g} mm")
    if not 0 < fullness < math.inf:
        raise GeometryError(f"a tilted waistline needs a fullness above 0, not {fullness:g}")
    places, before = FEWEST, math.inf
    while places <= MOST:
        ring = _ring(length_at, slope_at, waistline, places)
        found = _radius_of(ring, waistline, fullness)
        if abs(found - before) < SETTLED:
            return found
        places, before = 2 * places, found
    raise _too_sudden()


def _radius_of(ring: _Ring, waistline: Mm, fullness: float) -> Mm:
    """Return the radius for one ring of places, by Newton's steps.

    The steps are taken on 1 / turn: it is nearly straight in R and nowhere bends upwards, so
    that from the smallest radius on no step goes too far.
    """
    wanted = math.tau * fullness
    radius = max(ring.lengths) + NEAREST
    each = waistline / len(ring.lengths)
    for attempt in range(100):
        near = [1 / (radius - long) for long in ring.lengths]
        parts = [part * one for part, one in zip(ring.round, near, strict=True)]
        turn = each * math.fsum(parts)
        if attempt == 0 and not turn >= wanted:
            raise GeometryError(
                f"a waist seam of {waistline:g} mm cannot be tilted and cut from {fullness:g}"
                f" circles: with lengths from {min(ring.lengths):g} to {max(ring.lengths):g} mm"
                f" it would come nearer than {NEAREST:g} mm to the centre of the hem; take less"
                " fullness, or lengths that differ less round the body"
            )
        falls = each * math.fsum(part * one for part, one in zip(parts, near, strict=True))
        step = turn * (turn / wanted - 1) / falls
        radius += step
        if abs(step) < SETTLED / 10:
            break
    return radius


def pattern_angles(length_at: AtShare, slope_at: AtShare, waistline: Mm, hem_radius: Mm) -> Angles:
    """Return the pattern's angle at every place, for a hem of that radius.

    Source: d(alpha)/d(share) as a sum of waves, each integrated for itself.

    Raises:
        GeometryError: the seam runs down the radius, or the lengths change too suddenly.
    """
    places = FEWEST
    while places <= MOST:
        ring = _ring(length_at, slope_at, waistline, places)
        rates = [
            complex(waistline * part / (hem_radius - long))
            for part, long in zip(ring.round, ring.lengths, strict=True)
        ]
        found = _waves(rates)
        waves = [2 * found[k] / (places * math.tau * k * 1j) for k in range(1, places // 2)]
        if max(map(abs, waves[3 * places // 8 :])) < FAINT:
            while waves and abs(waves[-1]) < FAINT / 10:
                waves.pop()
            return Angles(turn=found[0].real / places, waves=tuple(waves))
        places *= 2
    raise _too_sudden()


def _waves(values: Sequence[complex]) -> list[complex]:
    """Return the discrete Fourier sums of a number of values that is a power of two."""
    count = len(values)
    if count == 1:
        return [values[0]]
    even, odd = _waves(values[::2]), _waves(values[1::2])
    turned = [cmath.rect(1.0, -math.tau * k / count) * wave for k, wave in enumerate(odd)]
    return [a + b for a, b in zip(even, turned, strict=True)] + [
        a - b for a, b in zip(even, turned, strict=True)
    ]


def _too_sudden() -> GeometryError:
    return GeometryError(
        "the lengths change too suddenly round the body for a tilted waistline; take lengths"
        " that differ less, or level the hem instead"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Solved:
    """What is found once for a waistline: the hem's radius, the angles and a fine ring."""

    hem_radius: Mm
    angles: Angles
    ring: _Ring


@lru_cache(maxsize=256)
def solved(fullness: float, waistline: Mm, around: Around) -> _Solved:
    def slope_at(share: float) -> float:
        return math.tau * around.slope(share)

    radius = hem_radius(around.at, slope_at, waistline, fullness)
    angles = pattern_angles(around.at, slope_at, waistline, radius)
    places = FEWEST
    while places < 4 * len(angles.waves):
        places *= 2
    ring = _ring(around.at, slope_at, waistline, places)
    return _Solved(hem_radius=radius, angles=angles, ring=ring)


def _crest(values: Sequence[float]) -> float:
    """Return the highest value of a ring, between its places too (a parabola through three)."""
    k = max(range(len(values)), key=values.__getitem__)
    left, top, right = values[k - 1], values[k], values[(k + 1) % len(values)]
    bend = left - 2 * top + right
    return top - (right - left) ** 2 / (8 * bend) if bend else top


@dataclass(frozen=True, slots=True, kw_only=True)
class Tilted:
    """One layer whose waistline follows the body, in numbers.

    Its panels take equal shares of the waist seam, and so differ in angle and at the hem.

    Attributes:
        fullness: circles it is cut from: the angle of all panels together, in whole turns.
        panels: how many panels, equally long at the waist.
        waistline: length of the flat waist seam all round.
        around: lengths from the waist seam to the finished hem.

    Raises:
        GeometryError: no such skirt can be cut.
    """

    fullness: float
    panels: int
    waistline: Mm
    around: Around

    def __post_init__(self) -> None:
        solved(self.fullness, self.waistline, self.around)

    @property
    def _found(self) -> _Solved:
        return solved(self.fullness, self.waistline, self.around)

    @property
    def waist_radius(self) -> Mm:
        """Smallest radius of the waist seam, wherever round the body it lies."""
        return self.hem_radius - _crest(self._found.ring.lengths)

    @property
    def waist_radius_max(self) -> Mm:
        """Greatest radius of the waist seam, wherever round the body it lies."""
        return self.hem_radius + _crest([-long for long in self._found.ring.lengths])

    @property
    def hem_radius(self) -> Mm:
        """Radius of the hem, the same all round."""
        return self._found.hem_radius

    @property
    def length(self) -> Mm:
        """Least length of the four that were measured."""
        return self.around.least

    @property
    def panel_angle(self) -> None:
        """None: the panels differ in angle; ``angle_between`` gives each its own."""
        return None

    @property
    def alike(self) -> bool:
        """Whether all panels are cut alike: these are not."""
        return False

    @property
    def sweep(self) -> Mm:
        """Length of the finished hem all the way round."""
        return self.girth_above_hem(0.0)

    def divided(self, panels: int) -> "Tilted":
        """Return the same layer in so many panels."""
        return replace(self, panels=panels)

    def girth_at(self, below: Mm) -> Mm:
        """Return the girth of the layer ``below`` its waist seam, measured down the panels.

        Source: at radius r + below the same step d(alpha) is longer by (r + below) / r.
        """
        found, ring = self._found, self._found.ring
        return (self.waistline / len(ring.lengths)) * math.fsum(
            math.hypot(out, part * (1 + below / (found.hem_radius - long)))
            for out, part, long in zip(ring.outward, ring.round, ring.lengths, strict=True)
        )

    def girth_above_hem(self, up: Mm) -> Mm:
        """Return the length all round of the line that runs ``up`` above the hem."""
        return math.tau * self.fullness * (self.hem_radius - up)

    def line_above_hem(self, up: Mm, begin: float, finish: float) -> Path:
        """Return the line ``up`` above the hem between two shares of a turn from centre back.

        In the frame of a panel that begins at the first of the two, at angle 0.
        """
        angle = self.angle_between(begin, finish)
        return (Arc(centre=ORIGIN, radius=self.hem_radius - up, begin=0.0, finish=angle),)

    def angle_between(self, begin: float, finish: float) -> float:
        """Return the pattern's angle between two shares of a turn; whole turns add up."""
        angles = self._found.angles
        return angles.at(finish) - angles.at(begin)

    def outline(self, begin: float, finish: float) -> Outline:
        """Return a panel between two shares of a turn, the hem's centre at the origin.

        Its first edge lies along +x.
        """
        angle = self.angle_between(begin, finish)
        waist = self._waist(begin, finish)
        near, far = waist[0].start, waist[-1].end
        return Outline(
            begin=straight(near, Point(self.hem_radius, 0.0)),
            hem=self.line_above_hem(0.0, begin, finish),
            finish=straight(on_circle(ORIGIN, self.hem_radius, angle), far),
            waist=reversed_path(waist),
        )

    def _waist(self, begin: float, finish: float) -> Path:
        """Return the waist seam of a panel, from its first edge to its last."""
        found = self._found
        first = found.angles.at(begin)

        def place(share: float) -> Point:
            radius = found.hem_radius - self.around.at(share)
            return on_circle(ORIGIN, radius, found.angles.at(share) - first)

        def heading(share: float) -> float:
            out = -math.tau * self.around.slope(share) / self.waistline
            return found.angles.at(share) - first + math.atan2(math.sqrt(1 - out * out), out)

        return curve(place, heading, begin, finish)
