"""Hems on a curve: how deep an allowance may be, and how far the bias drops.

Millimetres. Imports nothing but units and the spec's words.
"""

import math

from drafting.spec import HemFinish
from drafting.units import Mm

# Self-weight term of the reference skirt the bias drops were noted on: waist 720, one
# circle, length 650.
_REFERENCE_PULL = 411_909.0


USUAL = {HemFinish.NARROW: 12.0, HemFinish.TURNED: 15.0, HemFinish.ROLLED: 4.0}
"""Hem allowances of each finish, on a curve that takes them."""

LEAST_HEM: Mm = 4.0
"""No hem can be turned or rolled with less."""


def usual_hem(hem_radius: Mm, *, ease: float, finish: HemFinish) -> Mm:
    """Return the usual allowance of a finish, or what the curve takes if that is less.

    Rounded down to half a millimetre, so that the figure on paper is the one that is cut.
    """
    limit = deepest_hem(hem_radius, ease=ease, finish=finish)
    return max(min(USUAL[finish], math.floor(limit * 2) / 2), LEAST_HEM)


def deepest_hem(hem_radius: Mm, *, ease: float, finish: HemFinish) -> Mm:
    """Return the deepest hem allowance that still lies flat on a hem of that radius.

    Source: a single turn lies on radius R - h and must lose q = 2h / (R - h); a narrow hem
    turned twice is stitched at R - h/2, where q = h / (R - h/2). Solved for h.
    """
    if finish is HemFinish.TURNED:
        return ease * hem_radius / (2 + ease)
    return ease * hem_radius / (1 + ease / 2)


def bias_drop(waist_radius: Mm, hem_radius: Mm, *, reference: Mm) -> Mm:
    """Return an estimate of how far the hem drops at full bias.

    Source: a sector hanging from its waist under its own weight stretches in proportion to
    Q = R^2/2 ln(R/r) - (R^2 - r^2)/4; ``reference`` is the drop where Q is 411 909 mm2.
    """
    big, small = hem_radius, waist_radius
    pull = big**2 / 2 * math.log(big / small) - (big**2 - small**2) / 4
    return reference * pull / _REFERENCE_PULL
