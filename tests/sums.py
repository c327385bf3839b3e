"""Formulas of workings, worked out by Python itself and not by the code that wrote them."""

import math
import re
from typing import Any

from drafting.pattern import draft
from drafting.spec import Spec
from drafting.working import Working, working


def first_sold(least: float, *lengths: float) -> float:
    return min(length for length in lengths if length > least - 1e-6)


ON_PAPER: dict[str, Any] = {
    "__builtins__": {},
    "pi": math.pi,
    "sqrt": math.sqrt,
    "ln": math.log,
    "sin": lambda angle: math.sin(math.pi * angle / 180),
    "cos": lambda angle: math.cos(math.pi * angle / 180),
    "arcsin": lambda share: 180 / math.pi * math.asin(share),
    "arccos": lambda share: 180 / math.pi * math.acos(share),
    "roundup": lambda value: -((-(value - 1e-9)) // 1),
    "rounddown": lambda value: (value + 1e-9) // 1,
    "max": max,
    "min": min,
    "sold": first_sold,
}


def comes_to(one: Working) -> float:
    """Return what a formula comes to with its own numbers."""
    numbers = {term.letter: term.value for term in one.terms}
    assert not re.search(r"__|\[|:|lambda", one.expression)
    return float(eval(one.expression, ON_PAPER, numbers))


def worked(spec: Spec) -> dict[str, Working]:
    found = working(draft(spec))
    assert len({one.key for one in found}) == len(found)
    return {one.key: one for one in found}
