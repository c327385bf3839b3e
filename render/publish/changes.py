"""What changed since the last edition: sizes, numbers, cloth, paper, finishes.

Compares the figures of both editions, number by number; those of the other may hold anything.
Millimetres inside. Imports the booklet's values.
"""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeGuard

from drafting.cloth.buying import sold_text
from drafting.language import decimal, in_its_language, listed, say
from drafting.pattern import Pattern
from drafting.units import MM_PER_INCH, Mm, Units, length_text
from render.booklet.model import Block, Booklet, Bullets, Paragraph, Section, Table
from render.publish.editions import LastEdition
from render.words import edition_words

MOST = 1e7
"""No figure of ours is as great as ten kilometres."""

LEAST: Mm = 0.05
"""Lengths that differ by less are one length."""

_LEFT_OUT = re.compile(
    r"title|units|findings|truing|paper|cost|notions"
    r"|.*\.(bias_drops|ways|widths|pieces|stretches)"
    r"|cloth\.[^.]*\.asked\.(?!kind)\w+"
    r"|cloth\.[^.]*\.(usable|rows_length|lay_length|lower_bound|used|method|needed|grams|cost|buy)"
)
"""What is told elsewhere, what follows from the rest, and what is a search's own business."""

_NO_LENGTHS = {
    "fullness", "panels", "panel_angle", "ring_angle", "angle", "gather_ratio", "waist_stretch",
    "hang_hours", "strips", "rings", "count", "sections", "thread_metres", "cord_metres", "scale",
    "grams",
}  # fmt: skip
_LEAST_OF = {"grams": 5.0, "thread_metres": 0.05, "cord_metres": 0.05, "panel_angle": 0.005}
_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One figure that is not what it was; None where it was not, or is no more."""

    path: str
    was: Any
    now: Any


@in_its_language
def change_note(pattern: Pattern, now: Mapping[str, Any], last: LastEdition) -> Booklet:
    """Return what changed since another edition, as values to be written out.

    Args:
        now: figures of this edition.
    """
    assert last.figures is not None
    units = pattern.spec.units
    told = tuple(_sections(now, last.figures, units))
    publish = pattern.spec.publish
    heading = say("What changed since the last edition")
    nothing = Section(
        name="nothing",
        title=say("Nothing to measure"),
        blocks=(Paragraph(words=say("No size, number, cloth or count of pages has changed.")),),
    )
    compared = say(
        "Compared with the folder {folder}. Lengths that differ by less than 0.05 mm are left out.",
        folder=last.folder,
    )
    return Booklet(
        title=f"{pattern.spec.title}: {heading}",
        subtitle=compared,
        facts=tuple(fact for fact in (edition_words(pattern.spec),) if fact),
        cover=None,
        language=publish.language,
        author=publish.maker,
        subject=heading,
        sections=told or (nothing,),
    )


def by_size(figures: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Return the figures of each size by its name; of one size under ""."""
    sizes = figures.get("sizes")
    if isinstance(sizes, dict):
        return {str(name): held for name, held in sizes.items() if isinstance(held, dict)}
    return {"": dict(figures)}


def _sections(now: Mapping[str, Any], before: Mapping[str, Any], units: Units) -> Iterator[Section]:
    ours, theirs = by_size(now), by_size(before)
    came = [name for name in ours if name not in theirs]
    went = [name for name in theirs if name not in ours]
    if came or went:
        yield Section(name="sizes", title=say("Sizes"), blocks=(Bullets(items=_moved(came, went)),))
    kept = [name for name in ours if name in theirs]
    changed = {name: tuple(compared(theirs[name], ours[name])) for name in kept}
    alike = _in_every_size(changed)
    if blocks := tuple(_numbers(alike, units)):
        yield Section(name="every-size", title=say("In every size"), blocks=blocks)
    for name in kept:
        own = tuple(change for change in changed[name] if change not in alike)
        blocks = (*_numbers(own, units), *_bought(theirs[name], ours[name], units))
        if blocks:
            title = say("Size {size}", size=name) if name else say("Numbers")
            yield Section(name=f"size-{name}", title=title, blocks=blocks)
    if rows := tuple(_pages(before, now)):
        table = Table(
            caption="",
            heads=(say("paper"), say("pages before"), say("pages now")),
            rows=rows,
            figures=(1, 2),
        )
        yield Section(name="paper", title=say("Paper"), blocks=(table,))


def _in_every_size(changed: Mapping[str, tuple[Change, ...]]) -> tuple[Change, ...]:
    """Return what changed alike in all of several sizes, to be told once."""
    if len(changed) < 2:
        return ()
    first, *others = changed.values()
    return tuple(change for change in first if all(change in held for held in others))


def _moved(came: list[str], went: list[str]) -> tuple[str, ...]:
    told = []
    if came == [""] or went == [""]:
        told.append(
            say("This edition is in one size; the last was graded.")
            if came == [""]
            else say("This edition is graded; the last was in one size.")
        )
    if new := [name for name in came if name]:
        told.append(say("new: {sizes}", sizes=listed(new)))
    if old := [name for name in went if name]:
        told.append(say("no longer there: {sizes}", sizes=listed(old)))
    return tuple(told)


# --- numbers -------------------------------------------------------------------------------


def compared(before: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Change]:
    """Yield every figure of one size that is not what it was, in the order of the figures."""
    old, new = dict(_flat(before)), dict(_flat(now))
    for path in dict.fromkeys((*new, *old)):
        was, is_now = old.get(path), new.get(path)
        if not _same(path, was, is_now):
            yield Change(path=path, was=was, now=is_now)


DEEPEST = 8
"""Our figures are nested less deep; what lies deeper is not looked at."""


def _flat(value: Any, path: str = "", depth: int = 0) -> Iterator[tuple[str, Any]]:
    """Yield each figure with its path."""
    if path and _LEFT_OUT.fullmatch(path):
        return
    if isinstance(value, Mapping):
        inside = [(str(key), held) for key, held in value.items()]
    elif isinstance(value, list):
        inside = [(str(k), held) for k, held in enumerate(value)]
    else:
        yield path, value
        return
    if depth < DEEPEST:
        for key, held in inside:
            yield from _flat(held, f"{path}.{key}" if path else key, depth + 1)


def _is_number(value: Any) -> TypeGuard[float]:
    if not isinstance(value, int | float) or isinstance(value, bool):
        return False
    return math.isfinite(value) and abs(value) < MOST


def _key(path: str) -> str:
    """Return the name of a figure; of one in a list, that of the list."""
    return next((part for part in reversed(path.split(".")) if not part.isdigit()), path)


def _same(path: str, was: Any, now: Any) -> bool:
    if _is_number(was) and _is_number(now):
        key = _key(path)
        least = _LEAST_OF.get(key, _SAME) if key in _NO_LENGTHS else LEAST
        return bool(abs(now - was) < least)
    return bool(was == now)


def _numbers(changes: tuple[Change, ...], units: Units) -> Iterator[Block]:
    parts = dict.fromkeys(change.path.split(".")[0] for change in changes)
    for part in parts:
        mine = [change for change in changes if change.path.split(".")[0] == part]
        yield Table(
            caption=_named(part),
            heads=(say("figure"), say("before"), say("now"), say("change")),
            rows=tuple(_row(change, units) for change in mine),
            figures=(1, 2, 3),
        )


def _named(path: str) -> str:
    """Return a figure's path in words, as the figures file names it: these stay English."""
    words = [
        str(int(part) + 1) if part.isdigit() else part.replace("_", " ") for part in path.split(".")
    ]
    return " ".join(words)


def _row(change: Change, units: Units) -> tuple[str, str, str, str]:
    parts = change.path.split(".")
    key = _key(change.path)
    name = _named(".".join(parts[1:])) or _named(parts[0])
    differ = ""
    if _is_number(change.was) and _is_number(change.now):
        more = change.now - change.was
        sign = "+" if more > 0 else "−"
        differ = f"{sign}{_difference(abs(more), key, units)}"
    return name, _shown(change.was, key, units), _shown(change.now, key, units), differ


def _difference(more: float, key: str, units: Units) -> str:
    """Return by how much a figure changed; a length in finer steps than it is shown in."""
    if key in _NO_LENGTHS:
        return decimal(f"{more:.4g}")
    if units is Units.INCH:
        fine = more < MM_PER_INCH / 4
        return decimal(f"{more / MM_PER_INCH:.3f}\u00a0in") if fine else length_text(more, units)
    return decimal(f"{more:.2f}\u00a0mm") if more < 1 else decimal(f"{more / 10:.2f}\u00a0cm")


def _shown(value: Any, key: str, units: Units) -> str:
    if value is None:
        return "–"
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    if not _is_number(value):
        return str(value)[:LONGEST]
    return decimal(f"{value:.6g}") if key in _NO_LENGTHS else length_text(value, units)


LONGEST = 60


# --- cloth and paper -----------------------------------------------------------------------


def _bought(before: Mapping[str, Any], now: Mapping[str, Any], units: Units) -> Iterator[Block]:
    rows = []
    old, new = _cloths(before), _cloths(now)
    for name in dict.fromkeys((*new, *old)):
        was, is_now = old.get(name), new.get(name)
        if _same("cloth.buy", was, is_now):
            continue
        told = tuple(sold_text(one, units) if _is_number(one) else "–" for one in (was, is_now))
        rows.append((_named(name), *told))
    if rows:
        yield Table(
            caption=say("Cloth to buy"),
            heads=(say("cloth"), say("before"), say("now")),
            rows=tuple(rows),
            figures=(1, 2),
        )


def _cloths(figures: Mapping[str, Any]) -> dict[str, Any]:
    cloths = figures.get("cloth")
    if not isinstance(cloths, dict):
        return {}
    return {
        str(name): held["buy"]
        for name, held in cloths.items()
        if isinstance(held, dict) and "buy" in held
    }


def _pages(before: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    old, new = _counts(before), _counts(now)
    for name in dict.fromkeys((*new, *old)):
        if old.get(name) != new.get(name):
            yield name, str(old.get(name, "–"))[:LONGEST], str(new.get(name, "–"))[:LONGEST]


def _counts(figures: Mapping[str, Any]) -> dict[str, Any]:
    papers = figures.get("paper")
    if not isinstance(papers, dict):
        return {}
    return {
        str(name): held["pages"]
        for name, held in papers.items()
        if isinstance(held, dict) and "pages" in held
    }
