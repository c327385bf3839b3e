"""Formulas as text: worked out, and set with letters or with numbers in them.

A formula is a Python expression of names, numbers, + - * / ** and the functions below; angles
are in degrees. Imports ast, language and the standard mathematics alone.
"""

import ast
import math
from collections.abc import Callable, Mapping
from functools import cache

from drafting.language import decimal, say_as

HAIR = 1e-9
"""A count this little above a whole number is that number."""


def _sold(least: float, *lengths: float) -> float:
    return next((length for length in lengths if length >= least - 1e-6), math.nan)


FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "ln": math.log,
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "arcsin": lambda share: math.degrees(math.asin(share)),
    "arccos": lambda share: math.degrees(math.acos(share)),
    "roundup": lambda value: float(math.ceil(value - HAIR)),
    "rounddown": lambda value: float(math.floor(value + HAIR)),
    "max": max,
    "min": min,
    "sold": _sold,
}
"""``sold`` is the first of several lengths that is at least the one before them."""

_RANK = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.Pow: 4}
_SIGNS = {ast.Add: " + ", ast.Sub: " − ", ast.Mult: " × ", ast.Div: " / "}


@cache
def _tree(formula: str) -> ast.expr:
    return ast.parse(formula, mode="eval").body


def value(formula: str, values: Mapping[str, float]) -> float:
    """Return what a formula comes to."""
    return _value(_tree(formula), values)


def _value(node: ast.expr, values: Mapping[str, float]) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return float(number)
        case ast.Name(id="pi"):
            return math.pi
        case ast.Name(id=letter):
            return values[letter]
        case ast.Call(func=ast.Name(id=name), args=args):
            return FUNCTIONS[name](*(_value(one, values) for one in args))
        case ast.BinOp(left=left, op=op, right=right):
            one, other = _value(left, values), _value(right, values)
            if isinstance(op, ast.Add):
                return one + other
            if isinstance(op, ast.Sub):
                return one - other
            if isinstance(op, ast.Mult):
                return one * other
            if isinstance(op, ast.Div):
                return one / other
            if isinstance(op, ast.Pow):
                return float(one**other)
    raise ValueError(f"no formula can hold {ast.dump(node)}")


def letters(formula: str) -> tuple[str, ...]:
    """Return the letters of a formula in the order in which they first come."""
    found = (node.id for node in _names(_tree(formula)) if node.id != "pi")
    return tuple(dict.fromkeys(found))


def _names(node: ast.AST) -> list[ast.Name]:
    if isinstance(node, ast.Name):
        return [node]
    children = node.args if isinstance(node, ast.Call) else ast.iter_child_nodes(node)
    return [name for child in children for name in _names(child)]


def set_out(formula: str, shown: Mapping[str, str]) -> str:
    """Return a formula as it is written, each letter replaced by what ``shown`` has for it."""
    return _set(_tree(formula), shown)


def _set(node: ast.expr, shown: Mapping[str, str]) -> str:
    match node:
        case ast.Constant(value=int() | float() as number):
            return decimal(f"{number}")
        case ast.Name(id="pi"):
            return "π"
        case ast.Name(id=letter):
            return shown[letter]
        case ast.Call(func=ast.Name(id="sqrt"), args=[one]):
            return f"√({_set(one, shown)})"
        case ast.Call(func=ast.Name(id=name), args=args):
            return f"{_function(name)}({'; '.join(_set(one, shown) for one in args)})"
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=power)):
            base = _bracketed(left, shown, least=5)
            return f"{base}²" if power == 2 else f"{base}^{power!r}"
        case ast.BinOp(left=left, op=op, right=right):
            rank = _RANK[type(op)]
            after = _bracketed(right, shown, least=rank + (0 if isinstance(op, ast.Add) else 1))
            sign = " ^ " if isinstance(op, ast.Pow) else _SIGNS[type(op)]
            before = _bracketed(left, shown, least=rank + (1 if isinstance(op, ast.Pow) else 0))
            return f"{before}{sign}{after}"
    raise ValueError(f"no formula can hold {ast.dump(node)}")


def _bracketed(node: ast.expr, shown: Mapping[str, str], *, least: int) -> str:
    words = _set(node, shown)
    rank = _RANK[type(node.op)] if isinstance(node, ast.BinOp) else 9
    return f"({words})" if rank < least or words.startswith("−") else words


def _function(name: str) -> str:
    return {
        "roundup": say_as("in a formula", "round up"),
        "rounddown": say_as("in a formula", "round down"),
        "max": say_as("in a formula", "greatest"),
        "min": say_as("in a formula", "least"),
        "sold": say_as("in a formula", "first that reaches"),
    }.get(name, name)
