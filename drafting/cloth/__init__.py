"""Cloth: what fits its width, how its pieces are laid, how much of it to buy.

Millimetres; x runs along the length of the cloth, y across it from one selvage to the other.
``lay`` returns a lay plan. What the plan of a garment asks for (widths, rows of boxes) loads
nothing more than geometry; the rest is loaded by who asks for it.
"""

from typing import TYPE_CHECKING

from drafting.cloth.boxes import (
    MOST_PANELS,
    box_on_cloth,
    cutting_box_along,
    fold_way,
    is_bias_strip,
    panel_width,
    usable_width,
)
from drafting.language import in_its_language

if TYPE_CHECKING:
    from drafting.cloth.lays import Lay
    from drafting.effort import Effort
    from drafting.pattern import Pattern

CLOTHS = ("skirt", "lining", "ruffle", "interfacing", "binding")
"""Names of the cloths that a sheet knows, in the order they are bought."""


@in_its_language
def lay(pattern: "Pattern", cloth: str, effort: "Effort | None" = None) -> "Lay":
    """Return how the pieces of one cloth are laid so that they take the least length of it.

    The same pattern gives the same plan, on any machine.

    Args:
        cloth: ``skirt``, ``lining``, ``ruffle``, ``interfacing`` or ``binding``.
        effort: how long to search; thoroughly, for up to some three seconds, if None.

    Raises:
        KeyError: nothing of the pattern is cut from that cloth.
    """
    from drafting.cloth.laying import laid_plan

    return laid_plan(pattern, cloth, effort)


__all__ = [
    "CLOTHS",
    "MOST_PANELS",
    "box_on_cloth",
    "cutting_box_along",
    "fold_way",
    "is_bias_strip",
    "lay",
    "panel_width",
    "usable_width",
]
