"""The example sheets, each drafted and laid out once for all tests of one process.

Millimetres. What is kept here is frozen, so no test can change it for another.
"""

from functools import cache
from pathlib import Path

import drafting
from drafting.pattern import Pattern
from drafting.spec import PaperName
from render.pages import Printed, printed
from render.parts import Plane, laid_out
from render.placement import Effort

EXAMPLES = {
    path.stem: path
    for path in sorted((Path(__file__).parent.parent / "measurements_examples").glob("*.toml"))
}


@cache
def pattern_of_example(name: str) -> Pattern:
    """Return an example's pattern by its stem."""
    return drafting.draft(drafting.load(EXAMPLES[name]))


@cache
def layout_of_example(name: str, paper: PaperName | None = None) -> Printed:
    """Return an example's layout on its own paper, or on another."""
    pattern = pattern_of_example(name)
    # How few pages there are is the placement's own concern; what is drawn on them is tested here.
    return printed(pattern, paper or pattern.spec.print.papers[0], effort=Effort.QUICK)


@cache
def plane_of_example(name: str) -> Plane:
    """Return an example's pieces on one plane."""
    return laid_out(pattern_of_example(name))
