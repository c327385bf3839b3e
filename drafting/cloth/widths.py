"""About how much of a cloth to buy, were it sold in another width.

Millimetres. Each width is drafted and laid anew, quickly. Imports pattern, laying and buying.
"""

from dataclasses import replace
from typing import TYPE_CHECKING

from drafting.cloth.buying import purchase
from drafting.cloth.laying import laid_plan
from drafting.cloth.shopping import AtWidth, Purchase
from drafting.effort import Effort
from drafting.errors import DraftingError
from drafting.findings import stops
from drafting.spec import Cloth, CutKind, Spec
from drafting.units import Mm, Units

if TYPE_CHECKING:
    from drafting.pattern import Pattern

USUAL = {
    Units.CM: (900.0, 1120.0, 1400.0, 1500.0, 2800.0),
    Units.INCH: tuple(inches * 25.4 for inches in (36, 44, 54, 60, 110)),
}
"""Widths that cloth is sold in, where it is sold by the metre and by the yard."""

SAME_WIDTH: Mm = 6.0
"""Widths that differ by less are the same bolt, measured by two shops."""

VERY_WIDE: Mm = 20_000.0
"""No panel is too wide for this."""


def at_usual_widths(
    pattern: "Pattern", cloth: str, bought: Purchase | None = None
) -> tuple[AtWidth, ...]:
    """Return about how much of one cloth to buy at each usual width, the narrowest first.

    Args:
        cloth: its name on the sheet.
        bought: what was worked out for the sheet's own width, which then stands among them.
    """
    spec = pattern.spec
    own: Cloth = getattr(spec.cloths, cloth)
    fewest = _fewest_panels(pattern, cloth)
    widths = [width for width in USUAL[spec.units] if abs(width - own.width) >= SAME_WIDTH]
    found = [_at(pattern, cloth, width, fewest) for width in (*widths, own.width)]
    if bought is not None and not bought.lay.missing:
        found[-1] = replace(found[-1], buy=bought.buy)
    found.sort(key=lambda one: one.width)
    fit = [one for one in found if one.buy is not None and not one.more_seams]
    if not fit:
        return tuple(found)
    # The same area of cloth costs the same; of two alike the narrower is named.
    best = min(fit, key=lambda one: (round((one.buy or 0.0) * one.width), one.width))
    return tuple(replace(one, cheapest=one is best) for one in found)


def with_cloth(spec: Spec, cloth: str, of: Cloth) -> Spec:
    """Return a spec with one of its cloths replaced."""
    return replace(spec, cloths=replace(spec.cloths, **{cloth: of}))


def _at_width(pattern: "Pattern", cloth: str, width: Mm) -> "Pattern | None":
    """Return the pattern drafted for another width, or None where that cannot be drafted."""
    from drafting.pattern import draft

    of: Cloth = getattr(pattern.spec.cloths, cloth)
    if abs(of.width - width) < 1e-6:
        return None if stops(pattern.findings) else pattern
    try:
        found = draft(with_cloth(pattern.spec, cloth, replace(of, width=width)))
    except DraftingError:
        return None
    return None if stops(found.findings) else found


def _at(pattern: "Pattern", cloth: str, width: Mm, fewest: int | None) -> AtWidth:
    drafted = _at_width(pattern, cloth, width)
    if drafted is None:
        return AtWidth(width=width, buy=None)
    lay = laid_plan(drafted, cloth, Effort.QUICK)
    panels = _panels(drafted, cloth)
    if lay.missing:
        return AtWidth(width=width, panels=panels, buy=None)
    pieced = any(p.cloth == cloth and any(e.pieced for e in p.edges) for p in drafted.pieces)
    more = panels is not None and fewest is not None and panels > fewest
    return AtWidth(
        width=width,
        panels=panels,
        more_seams=more or pieced,
        buy=purchase(lay, pattern.spec.units).buy,
    )


def _panels(pattern: "Pattern", cloth: str) -> int | None:
    """Return how many panels the layer of a cloth is cut in."""
    if cloth == "skirt" and pattern.spec.skirt.owned is None:
        return pattern.figures.skirt.panels
    if cloth == "lining" and pattern.figures.lining is not None:
        return pattern.figures.lining.panels
    return None


def _fewest_panels(pattern: "Pattern", cloth: str) -> int | None:
    """Return in how many panels a layer is meant to be cut: as asked, or as wide cloth lets it.

    Gathered lengths are as many as any cloth's width asks for; the sheet's own width counts.
    """
    here = _panels(pattern, cloth)
    wish = pattern.spec.skirt if cloth == "skirt" else pattern.spec.lining
    if here is None or wish is None:
        return None
    if wish.cut is CutKind.GATHERED:
        return here
    if wish.cut is CutKind.CIRCLE and wish.panels is not None:
        return wish.panels
    widest = _at_width(pattern, cloth, VERY_WIDE)
    return here if widest is None else _panels(widest, cloth)
