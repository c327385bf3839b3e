"""Lay plans made while pages are being laid out: the solver works in a process of its own.

Imports the cloth of ``drafting``.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from drafting.cloth.laying import lay_plans
from drafting.cloth.lays import Lay
from drafting.cloth.shopping import Shopping, shopping
from drafting.effort import Effort
from drafting.pattern import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """Every lay of a pattern, and what to buy for it."""

    lays: tuple[Lay, ...]
    shopping: Shopping


class Laying:
    """Lays a pattern's cloths from the moment it is made; ``made`` waits for the plans."""

    def __init__(self, pattern: Pattern, effort: Effort) -> None:
        self._pattern = pattern
        pool = ThreadPoolExecutor(max_workers=1)
        self._lays = pool.submit(lay_plans, pattern, effort)
        pool.shutdown(wait=False)

    def made(self, progress: Callable[[str], None]) -> Cloth:
        """Return the plans and the shopping list."""
        progress("laying the cloth")
        lays = self._lays.result()
        progress("working out what to buy")
        return Cloth(lays=lays, shopping=shopping(self._pattern, lays))
