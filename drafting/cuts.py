"""The ways a layer may be cut, chosen from what a spec asks for.

Millimetres and radians. Every cut answers to ``outline.Cut``; a new one is a module of its own
and a line here.
"""

import math

from drafting.around import Around
from drafting.circle import Flare, fewest_panels, least_fullness
from drafting.gathered import Gathered
from drafting.gored import ShapedGores
from drafting.levelled import Levelled
from drafting.outline import Cut
from drafting.spec import CutKind, LevelAt, Spec
from drafting.tilted import Tilted
from drafting.units import Mm
from drafting.waist import Waist

HIP_EASE: Mm = 40.0
"""Room at the hip line, below which a skirt strains when its wearer sits (20 to 80)."""

LEAST_FLARE = 0.02
"""A yoke or a shaped gore leans out by no less, so that it has the shape of a cone."""


def planned_cut(spec: Spec, waist: Waist, lengths: Around, *, of_lining: bool = False) -> Cut:
    """Return how a layer is cut, in numbers.

    Args:
        lengths: of its own panels, from the waist seam round the body.
    """
    wish = spec.lining if of_lining else spec.skirt
    assert wish is not None
    line = waist.lining_line if of_lining else waist.line
    hipline = spec.wearer.hip + HIP_EASE * spec.scale
    if wish.cut is CutKind.GATHERED:
        return Gathered(panels=wish.panels or 1, waistline=line, around=lengths)
    if wish.cut is CutKind.TIERED:
        lean = least_fullness(
            spec.wearer.hip, line=line, hip_depth=waist.hip_depth, ease=HIP_EASE * spec.scale
        )
        fullness, panels = max(lean, LEAST_FLARE), wish.panels or 1
    elif wish.cut is CutKind.GORED:
        fullness, panels = wish.fullness, wish.gores
        if wish.shaped:
            return ShapedGores(
                panels=panels,
                waistline=line,
                hipline=max(hipline, line),
                hip_depth=waist.hip_depth,
                flare=math.pi * fullness / panels,
                around=lengths,
            )
    else:
        fullness, panels = wish.fullness, wish.panels or fewest_panels(wish.fullness)
    if lengths.even:
        return Flare(fullness=fullness, panels=panels, waistline=line, length=lengths.front)
    if spec.skirt.level is LevelAt.WAIST:
        return Tilted(fullness=fullness, panels=panels, waistline=line, around=lengths)
    return Levelled(fullness=fullness, panels=panels, waistline=line, around=lengths)


def hip_fullness(cut: Cut, gather_ratio: float = 1.0) -> float | None:
    """Return the circles that a layer's cone amounts to between waist and hip.

    None for straight lengths, which have no cone.

    Args:
        gather_ratio: of its waist; the cone is that of the waist drawn up.
    """
    if isinstance(cut, ShapedGores):
        cone = (cut.hipline - cut.waistline / gather_ratio) / (math.tau * cut.hip_depth)
        return max(cone, LEAST_FLARE)
    return cut.fullness
