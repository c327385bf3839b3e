"""Bias: what woven cloth gives at a round waist, and how far it drops at the hem.

Millimetres and radians; an angle of cloth is counted from its lengthwise grain, an angle on a
panel from its first straight edge. Estimates, all of them. Imports geometry, curve and the
spec's words.
"""

import math
from collections.abc import Sequence

from drafting.curve import curve
from drafting.errors import GeometryError
from drafting.geometry import Arc, Path, Point, on_circle
from drafting.spec import Grain
from drafting.units import Mm

# Self-weight term of the reference skirt the bias drops were noted on: waist 720, one
# circle, length 650.
_REFERENCE_PULL = 411_909.0

MOST_TRIMMED = 0.5
"""Most of an estimated drop that may be cut away beforehand; what is cut off stays off."""

EVERY = math.radians(15)
"""How far apart the drops round a panel are printed."""

_ORIGIN = Point(0.0, 0.0)
_DIAGONAL = math.pi / 4
_CLOSE = 1e-9


def mean_extension(begin: float, finish: float) -> float:
    """Return the mean of sin^2(2 phi) from one angle to another, a share of the full give.

    Source: the integral is phi/2 - sin(4 phi)/8; over d = finish - begin its mean is
    1/2 - (sin 4 finish - sin 4 begin)/8d = 1/2 - cos 2(begin + finish) sin(2d)/4d.
    """
    # Written as a product, which keeps its digits for the shortest arc.
    long = 2 * (finish - begin)
    gathered = math.sin(long) / long if long else 1.0
    return (1 - math.cos(2 * (begin + finish)) * gathered) / 2


def waist_stretch(give: float, spans: Sequence[tuple[float, float]]) -> float:
    """Return by what fraction a waist of several arcs stretches, arcs of one radius.

    Source: each arc stretches by its own mean; a fraction of the whole is the mean of them,
    each counted by its angle and so by its length.

    Args:
        spans: from which angle to which each arc runs, from the lengthwise grain.

    Raises:
        GeometryError: the arcs have no length.
    """
    whole = math.fsum(abs(finish - begin) for begin, finish in spans)
    if not whole > 0:
        raise GeometryError("a waist whose arcs have no length does not stretch")
    parts = (abs(finish - begin) * mean_extension(begin, finish) for begin, finish in spans)
    return give * math.fsum(parts) / whole


def drop_at(angle: float, full_drop: Mm) -> Mm:
    """Return how far the hem drops at that angle from the lengthwise grain.

    Source: the cloth that hangs there is stretched along that angle, so the drop follows the
    extension: b sin^2(2 phi), nought on both straight grains.
    """
    return full_drop * math.sin(2 * angle) ** 2


def bias_drop(waist_radius: Mm, hem_radius: Mm, *, reference: Mm) -> Mm:
    """Return an estimate of how far the hem drops at full bias.

    Source: a sector hanging from its waist under its own weight stretches in proportion to
    Q = R^2/2 ln(R/r) - (R^2 - r^2)/4; ``reference`` is the drop where Q is 411 909 mm2.
    """
    big, small = hem_radius, waist_radius
    pull = big**2 / 2 * math.log(big / small) - (big**2 - small**2) / 4
    return reference * pull / _REFERENCE_PULL


def grain_from_edge(panel_angle: float, grain: Grain) -> float:
    """Return the angle from a panel's first edge to its lengthwise grain.

    Source: the grain lies on that edge, or on the line that halves the panel.
    """
    return panel_angle / 2 if grain is Grain.CENTRE else 0.0


def panel_waist_stretch(panel_angle: float, grain: Grain, give: float) -> float:
    """Return by what fraction the waist of a panel stretches, and so of panels all like it.

    Source: the one arc of ``waist_stretch``, counted from the panel's own grain.
    """
    begin = -grain_from_edge(panel_angle, grain)
    return waist_stretch(give, ((begin, begin + panel_angle),))


def drops_on_panel(panel_angle: float, grain: Grain, full_drop: Mm) -> tuple[tuple[float, Mm], ...]:
    """Return the drop every 15 degrees from a panel's first edge, and at its last edge.

    Source: ``drop_at``, of the angle between each place and the panel's grain.

    Returns:
        Pairs of the angle from the first edge and the drop there.
    """
    steps = math.ceil(panel_angle / EVERY - _CLOSE)
    angles = (*(k * EVERY for k in range(steps)), panel_angle)
    along = grain_from_edge(panel_angle, grain)
    return tuple((angle, drop_at(angle - along, full_drop)) for angle in angles)


def steepest_drop(panel_angle: float, grain: Grain, full_drop: Mm) -> Mm:
    """Return the greatest drop anywhere on a panel's hem.

    Source: sin^2(2 phi) peaks at 45 degrees and every quarter turn from there; a panel that
    reaches none of those drops most at one of its edges.
    """
    begin = -grain_from_edge(panel_angle, grain)
    finish = begin + panel_angle
    quarter = math.ceil((begin - _DIAGONAL) / (2 * _DIAGONAL) - _CLOSE)
    if _DIAGONAL + quarter * 2 * _DIAGONAL <= finish + _CLOSE:
        return full_drop
    return max(drop_at(begin, full_drop), drop_at(finish, full_drop))


def trimmed_hem(
    hem_radius: Mm,
    panel_angle: float,
    grain_angle: float,
    full_drop: Mm,
    share: float = MOST_TRIMMED,
) -> Path:
    """Return a finished hem with a share of its estimated drop cut away beforehand.

    The circle's centre is the origin; the hem runs from the panel's first edge, along +x,
    counter-clockwise to its last.

    Source: R(a) = R - share b sin^2 2(a - g), whose slope is -2 share b sin 4(a - g); the hem
    there points at a + atan2(R(a), R'(a)).

    Args:
        grain_angle: from the panel's first edge to its lengthwise grain (g).
        full_drop: estimated drop at 45 degrees to the grain (b).

    Raises:
        GeometryError: ``share`` is not between 0 and a half, the panel has no angle, or the
            drop leaves nothing of the skirt.
    """
    if not 0 <= share <= MOST_TRIMMED:
        raise GeometryError(
            f"a share of {share:g} of the bias drop cannot be trimmed beforehand;"
            f" 0 to {MOST_TRIMMED:g} can"
        )
    if not panel_angle > 0:
        raise GeometryError(f"a hem needs a panel wider than {math.degrees(panel_angle):g} degrees")
    taken = share * full_drop
    if not 0 <= taken < hem_radius:
        raise GeometryError(
            f"{taken:.1f} mm cannot be trimmed from a hem on a radius of {hem_radius:.1f} mm"
        )
    if not taken:
        return (Arc(centre=_ORIGIN, radius=hem_radius, begin=0.0, finish=panel_angle),)

    def radius(angle: float) -> Mm:
        return hem_radius - drop_at(angle - grain_angle, taken)

    def place(angle: float) -> Point:
        return on_circle(_ORIGIN, radius(angle), angle)

    def heading(angle: float) -> float:
        slope = -2 * taken * math.sin(4 * (angle - grain_angle))
        return angle + math.atan2(radius(angle), slope)

    return curve(place, heading, 0.0, panel_angle)
