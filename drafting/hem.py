"""Hems on a curve: how deep an allowance may be.

Millimetres. Imports bias, units and the spec's words.
"""

import math

# Offered here too: a draft's figures ask it of the hem.
from drafting.bias import bias_drop as bias_drop
from drafting.spec import HemFinish
from drafting.units import Mm

USUAL = {
    HemFinish.NARROW: 12.0,
    HemFinish.TURNED: 15.0,
    HemFinish.ROLLED: 4.0,
    HemFinish.FACED: 10.0,
    HemFinish.BIAS_FACED: 10.0,
    HemFinish.BRAID: 8.0,
    HemFinish.BOUND: 0.0,
}
"""Hem allowances of each finish, on a curve that takes them; a facing's is its seam."""

STRAIGHT_HEM: Mm = 60.0
"""Turn-up of a straight hem: deep, so that it weighs the cloth down (50 to 100)."""

LEAST_HEM: Mm = 4.0
"""No hem can be turned or rolled with less."""

_SEWN_ON = (HemFinish.FACED, HemFinish.BIAS_FACED, HemFinish.BOUND)
"""Finishes that turn up no cloth of the skirt's own, so that no curve limits them."""


def usual_hem(hem_radius: Mm | None, *, ease: float, finish: HemFinish) -> Mm:
    """Return the usual allowance of a finish, or what the curve takes if that is less.

    Rounded down to half a millimetre, so that the figure on paper is the one that is cut.

    Args:
        hem_radius: smallest radius of the hem; None for a straight one.
    """
    if hem_radius is None and finish is HemFinish.TURNED:
        return STRAIGHT_HEM
    usual = USUAL[finish]
    if finish in _SEWN_ON:
        return usual
    limit = deepest_hem(hem_radius, ease=ease, finish=finish)
    if limit >= usual:
        return usual
    return max(math.floor(limit * 2) / 2, LEAST_HEM)


def deepest_hem(hem_radius: Mm | None, *, ease: float, finish: HemFinish) -> Mm:
    """Return the deepest hem allowance that still lies flat on a hem of that radius.

    Infinite where nothing is turned up on a curve: on a straight hem, a faced or a bound one.

    Source: a single turn lies on radius R - h and must lose q = 2h / (R - h); a narrow hem
    turned twice is stitched at R - h/2, where q = h / (R - h/2). Solved for h. Over a braid
    the hem is turned once.
    """
    if hem_radius is None or finish in _SEWN_ON:
        return math.inf
    if finish in (HemFinish.TURNED, HemFinish.BRAID):
        return ease * hem_radius / (2 + ease)
    return ease * hem_radius / (1 + ease / 2)
