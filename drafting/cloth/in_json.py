"""Lay plans and the shopping list as the contract's JSON: millimetres, degrees, grams.

Imports lays and shopping.
"""

import math
from typing import Any

from drafting.cloth.lays import Lay
from drafting.cloth.shopping import AtWidth, Purchase, Shopping
from drafting.spec import Cloth
from drafting.units import Mm


def cloth_json(shopping: Shopping) -> dict[str, dict[str, Any]]:
    """Return what is to be added to the figures of each cloth: its lay, and what to buy."""
    return {
        purchase.name: _plan(purchase, shopping.widths.get(purchase.name, ()))
        for purchase in shopping.purchases
    }


def shopping_json(shopping: Shopping) -> dict[str, Any]:
    """Return the notions, and what the whole garment weighs and costs."""
    plain: dict[str, Any] = {
        "notions": [
            {
                "name": notion.name,
                "amount": _short(notion.amount),
                "measured": notion.measured.value,
                "about": notion.about,
                "why": notion.why,
            }
            for notion in shopping.notions
        ],
        "grams": _short(shopping.grams),
    }
    if shopping.cost is not None:
        plain["cost"] = round(shopping.cost, 2)
    return plain


def asked_json(of: Cloth) -> dict[str, Any]:
    """Return what the sheet asks of a cloth that changes its lay or what is bought."""
    return {
        "kind": of.kind,
        "selvage": _short(of.selvage),
        "shrink_length": of.shrink_length,
        "shrink_width": of.shrink_width,
        "one_way": of.one_way,
        "fold": of.fold,
        "repeat": _short(of.repeat),
        "squared": of.squared,
        "grams": of.grams,
        "price": of.price,
        "have": None if of.have is None else _short(of.have),
    }


def _plan(purchase: Purchase, widths: tuple[AtWidth, ...]) -> dict[str, Any]:
    lay = purchase.lay
    plain: dict[str, Any] = {
        "lay_length": _short(lay.length),
        "lower_bound": _short(lay.lower_bound),
        "buy": _short(purchase.buy),
        "needed": _short(purchase.needed),
        "used": round(lay.used, 4),
        "grams": _short(purchase.grams),
        "method": lay.method.value,
        "stretches": [
            {"start": _short(s.start), "length": _short(s.length), "folded": s.folded}
            for s in lay.stretches
        ],
        "asked": asked_json(lay.cloth),
        "pieces": _pieces(lay),
    }
    if purchase.cost is not None:
        plain["cost"] = round(purchase.cost, 2)
    if widths:
        plain["widths"] = [
            {
                "width": _short(at.width),
                "buy": None if at.buy is None else _short(at.buy),
                "more_seams": at.more_seams,
                "cheapest": at.cheapest,
            }
            for at in widths
        ]
    return plain


def _pieces(lay: Lay) -> list[dict[str, Any]]:
    return [
        {
            "piece": one.shape.name,
            "copy": one.copy,
            "x": _short(one.x),
            "y": _short(one.y),
            "turn": round(math.degrees(math.remainder(one.turn, math.tau)), 6) + 0.0,
            "flipped": one.flipped,
            "lies": one.lies.value,
            "half": one.shape.piece.half,
        }
        for one in lay.laid
    ]


def _short(value: Mm) -> float:
    """Return a number to a thousandth, below any tool's reach and the same on any machine."""
    return round(value, 3) + 0.0
