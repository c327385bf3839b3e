"""The lining: a slimmer layer with the same finished waist, wide enough to walk in.

Millimetres.
"""

from drafting.units import Mm

STAIRS = 1.1
"""Ten per cent on the walking sweep, for stairs."""

# Girth of one leg by how far the hem hangs below the waist, for a hip of 1 m.
_LEG = ((600.0, 380.0), (780.0, 350.0), (950.0, 250.0))


def leg_girth(below_waist: Mm, *, hip: Mm) -> Mm:
    """Return an estimate of one leg's girth at that height: knee, calf, ankle, and between."""
    (top, girth), *rest = _LEG
    if below_waist <= top:
        return girth * hip / 1000
    for low, slim in rest:
        if below_waist <= low:
            share = (below_waist - top) / (low - top)
            return (girth + share * (slim - girth)) * hip / 1000
        top, girth = low, slim
    return girth * hip / 1000


def walking_sweep(
    *, step: Mm, length: Mm, hip_depth: Mm, floor: Mm, hip: Mm, scale: float = 1.0
) -> Mm:
    """Return the least sweep that one ordinary step needs at a hem ``length`` below the waist.

    Source: the hip joint lies at hip depth, so at the hem the legs part by
    p (L - d) / (K - d); a loop round two legs that far apart is twice that and one leg's
    girth more. A model of the hem alone: sitting and stairs are tried on.

    Args:
        step: heel to heel of one step.
        floor: waist to floor in the shoes that are worn.
        scale: of the draft; all lengths given are the draft's own.
    """
    apart = step * max(length - hip_depth, 0.0) / (floor - hip_depth)
    # The heights of knee, calf and ankle are those of a full-size leg.
    return 2 * apart + leg_girth(length / scale, hip=hip)
