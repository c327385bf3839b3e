"""The figures of a pack as JSON: every number of every size, the papers, what to buy.

Millimetres. Imports the figures of a draft, of a graded one, and what a lay adds to them.
"""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from drafting.cloth.in_json import cloth_json, shopping_json
from drafting.figures import as_json
from drafting.findings import by_weight
from drafting.pattern import Pattern
from render.graded_output import sized_figures
from render.publish.size_files import SizeFiles


def pack_figures(
    pattern: Pattern, made: Sequence[SizeFiles], papers: Mapping[str, Any]
) -> dict[str, Any]:
    """Return the figures of one size, or of a graded pattern each size's by its name.

    Args:
        made: what every size has for itself.
        papers: what lies where on each paper.
    """
    if pattern.sizes:
        names = (size.spec.wearer.size for size in pattern.sizes)
        cloths = {name: one.cloth for name, one in zip(names, made, strict=True)}
        return {
            "title": pattern.spec.title,
            "units": "mm",
            **sized_figures(pattern, cloths, papers),
        }
    shop = made[0].cloth.shopping
    plain = as_json(pattern.figures, by_weight((*pattern.findings, *shop.findings)))
    for name, told in cloth_json(shop).items():
        plain["cloth"][name] |= told
    findings = plain.pop("findings")
    return {**plain, **shopping_json(shop), "paper": dict(papers), "findings": findings}


def as_bytes(figures: Mapping[str, Any]) -> bytes:
    """Return figures as the bytes of a JSON file."""
    return (json.dumps(figures, indent=2, ensure_ascii=False) + "\n").encode()
