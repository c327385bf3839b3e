"""The figures of a pack as JSON: every number of every size, the papers, what to buy.

Millimetres. Imports the figures of a draft and what a lay adds to them.
"""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from drafting.cloth.in_json import cloth_json, shopping_json
from drafting.cloth.shopping import Shopping
from drafting.figures import as_json
from drafting.pattern import Pattern
from render.publish.titles import sizes_of


def pack_figures(
    pattern: Pattern, shops: Sequence[Shopping], papers: Mapping[str, Any]
) -> dict[str, Any]:
    """Return the figures of one size, or of a graded pattern each size's by its name.

    Args:
        shops: what to buy, size by size.
        papers: what lies where on each paper.
    """
    if not pattern.sizes:
        return {**_of_size(pattern, shops[0]), "paper": dict(papers)}
    sizes = zip(sizes_of(pattern), shops, strict=True)
    return {
        "title": pattern.spec.title,
        "units": "mm",
        "sizes": {size.spec.wearer.size: _of_size(size, shop) for size, shop in sizes},
        "paper": dict(papers),
    }


def _of_size(size: Pattern, shop: Shopping) -> dict[str, Any]:
    plain = as_json(size.figures, size.findings)
    for name, told in cloth_json(shop).items():
        plain["cloth"][name] |= told
    return plain | shopping_json(shop)


def as_bytes(figures: Mapping[str, Any]) -> bytes:
    """Return figures as the bytes of a JSON file."""
    return (json.dumps(figures, indent=2, ensure_ascii=False) + "\n").encode()
