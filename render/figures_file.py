"""The figures file of a folder: a draft's numbers, its papers and its cloth, as JSON.

A further paper, or a lay plan, of the very same draft joins what the file tells already.
Imports the figures of the draft and the standard library.
"""

import json
from pathlib import Path
from typing import Any

from drafting.cloth.in_json import cloth_json, shopping_json
from drafting.cloth.shopping import Shopping
from drafting.figures import as_json
from drafting.findings import Finding
from drafting.pattern import Pattern

_WRITTEN = ("paper", "findings", "notions", "grams", "cost")
"""What the writing of files adds to the numbers of a draft, or what depends on it."""


def held(path: Path, pattern: Pattern) -> dict[str, Any] | None:
    """Return what a figures file tells of this very draft already.

    None if there is no such file, or it is of another draft: that is not ours to change.
    """
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    if not isinstance(found, dict):
        return None
    ours = json.loads(json.dumps(as_json(pattern.figures, ())))
    return found if _bare(found, ours) == _bare(ours, ours) else None


def _bare(told: dict[str, Any], ours: dict[str, Any]) -> dict[str, Any]:
    """Return the numbers of the draft alone: a cloth without its lay, and no paper."""
    bare = {key: value for key, value in told.items() if key not in _WRITTEN}
    cloths = bare.get("cloth")
    if isinstance(cloths, dict) and cloths.keys() == ours["cloth"].keys():
        bare["cloth"] = {
            name: {key: cloth[key] for key in mine if key in cloth}
            for name, mine in ours["cloth"].items()
            if isinstance(cloth := cloths[name], dict)
        }
    return bare


def figures_bytes(
    pattern: Pattern,
    findings: tuple[Finding, ...],
    *,
    papers: dict[str, Any] | None = None,
    shopping: Shopping | None = None,
    before: dict[str, Any] | None = None,
) -> bytes:
    """Return the file: the draft's numbers, every paper in its folder, and the lay if it was made.

    Args:
        papers: what lies where on each paper; None if nothing was printed.
        shopping: lays and what to buy; None keeps what the file told before.
        before: what the file told of this draft already.
    """
    plain = as_json(pattern.figures, findings)
    before = before or {}
    if shopping is not None:
        for name, told in cloth_json(shopping).items():
            plain["cloth"][name] |= told
        plain |= shopping_json(shopping)
    elif before:
        plain["cloth"] = before["cloth"]
        plain |= {key: before[key] for key in ("notions", "grams", "cost") if key in before}
    if papers or "paper" in before:
        plain["paper"] = papers if papers is not None else before["paper"]
    # Findings stand last, after all numbers.
    plain["findings"] = plain.pop("findings")
    return (json.dumps(plain, indent=2, ensure_ascii=False) + "\n").encode()
