"""The figures file of a folder: a draft's numbers, its papers and its cloth, as JSON.

A further paper, or a lay plan, of the very same draft joins what the file tells already.
Imports the figures of the draft and the standard library.
"""

import json
from pathlib import Path
from typing import Any

from drafting.cloth.in_json import asked_json, cloth_json, shopping_json
from drafting.cloth.shopping import Shopping
from drafting.figures import as_json
from drafting.findings import Finding
from drafting.pattern import Pattern

_OF_THE_LAY = ("notions", "grams", "cost")
"""What a lay adds to the numbers of a draft, besides what it says of each cloth."""

_WRITTEN = ("paper", "findings", *_OF_THE_LAY)
"""What the writing of files adds to them, or what depends on it."""

_OF_A_CLOTH = ("width", "usable", "rows_length")
"""What the draft itself says of a cloth."""

LAY_CODES = frozenset(
    {
        "cloth-enough", "cloth-short", "heavy-skirt", "laid-without-solver", "may-shade",
        "not-folded", "opened-saves-cloth", "repeat-longer-than-piece", "too-many-to-draw",
        "too-wide-to-lay",
    }
)  # fmt: skip
PRINT_CODES = frozenset(
    {
        "letters-replaced", "letters-lost-in-dxf", "printer-corrected", "printer-far-off",
        "printer-not-this", "printer-true",
    }
)  # fmt: skip
"""Findings of a lay, and of pages: they are told on where the other half is made anew."""


def held(path: Path, pattern: Pattern) -> dict[str, Any] | None:
    """Return what a figures file tells of this very draft already.

    A lay that was made for other wishes of its cloths, such as a nap, is left out. None if there
    is no such file, or it is of another draft: that is not ours to change.
    """
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    if not isinstance(found, dict):
        return None
    ours = json.loads(json.dumps(as_json(pattern.figures, ())))
    if _bare(found, ours) != _bare(ours, ours):
        return None
    asked = {name: asked_json(getattr(pattern.spec.cloths, name)) for name in ours["cloth"]}
    told = {name: cloth.get("asked") for name, cloth in found["cloth"].items()}
    return found if told == json.loads(json.dumps(asked)) else without_lay(found)


def has_lay(told: dict[str, Any] | None) -> bool:
    """Tell whether the figures of a folder tell of a lay."""
    return told is not None and any("lay_length" in cloth for cloth in told["cloth"].values())


_OF_A_PLAN = ("lay_length", "method", "stretches", "pieces")
"""What tells one lay of a cloth from another."""


def tells_of(told: dict[str, Any] | None, shopping: Shopping) -> bool:
    """Tell whether the lays that figures tell of are these very ones."""
    cloths = json.loads(json.dumps(cloth_json(shopping)))
    return told is not None and all(
        told["cloth"].get(name, {}).get(key) == plan[key]
        for name, plan in cloths.items()
        for key in _OF_A_PLAN
    )


def without_lay(told: dict[str, Any] | None) -> dict[str, Any] | None:
    """Return figures as they would be had no lay been made."""
    if told is None:
        return None
    kept = {key: value for key, value in told.items() if key not in _OF_THE_LAY}
    kept["cloth"] = {
        name: {key: cloth[key] for key in _OF_A_CLOTH if key in cloth}
        for name, cloth in told["cloth"].items()
    }
    kept["findings"] = [one for one in _findings(told) if one["code"] not in LAY_CODES]
    return kept


def _findings(told: dict[str, Any]) -> list[dict[str, str]]:
    findings = told.get("findings", [])
    return [one for one in findings if isinstance(one, dict) and "code" in one]


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
    papers: dict[str, Any],
    shopping: Shopping | None,
    before: dict[str, Any] | None,
    printed: bool,
) -> bytes:
    """Return the file: the draft's numbers, every paper in its folder, and the lay if it was made.

    Args:
        findings: of the draft, and of what was made now.
        papers: what lies where on each paper, those of before among them.
        shopping: lays and what to buy; None keeps what the file told before.
        before: what the file told of this draft already.
        printed: pages were made now; else what was found then is told on.
    """
    plain = as_json(pattern.figures, findings)
    before = before or {}
    if shopping is not None:
        for name, told in cloth_json(shopping).items():
            plain["cloth"][name] |= told
        plain |= shopping_json(shopping)
    elif before:
        plain["cloth"] = before["cloth"]
        plain |= {key: before[key] for key in _OF_THE_LAY if key in before}
    if papers:
        plain["paper"] = papers
    # Findings stand last, after all numbers; those of what was not made anew stay.
    now = plain.pop("findings")
    codes = {one["code"] for one in now}
    plain["findings"] = now + [
        one
        for one in _findings(before)
        if one["code"] not in codes
        and (
            (shopping is None and one["code"] in LAY_CODES)
            or (not printed and papers and one["code"] in PRINT_CODES)
        )
    ]
    return (json.dumps(plain, indent=2, ensure_ascii=False) + "\n").encode()
