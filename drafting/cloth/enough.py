"""Whether cloth that is there already is enough, and what it would give if it is not.

Millimetres; shown in the sheet's units. What it would give is found by drafting again with
smaller values and laying each draft quickly. Imports pattern, laying, buying and widths.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from drafting.cloth.boxes import usable_width
from drafting.cloth.buying import purchase, sold_text
from drafting.cloth.laying import counted, laid_plan, lay_of
from drafting.cloth.lays import Lay
from drafting.cloth.shapes import shapes
from drafting.cloth.shopping import HAIR, Purchase
from drafting.effort import Effort
from drafting.errors import DraftingError
from drafting.findings import Finding, caution, note, stops
from drafting.language import decimal, said_later, say
from drafting.piece_names import cloth_in_full
from drafting.ruffle import HABITS
from drafting.spec import Cloth, CutKind, Spec
from drafting.units import MM_PER_INCH, Mm, Units, length_text

if TYPE_CHECKING:
    from drafting.pattern import Pattern

STEP = {Units.CM: 5.0, Units.INCH: MM_PER_INCH / 4}
"""Lengths on offer are rounded down to this, so that they are easily written on a sheet."""

RATIO_STEP = 0.05

SENSIBLE = 0.5
"""Less than half of what was asked is another garment, and is not offered."""

LEAST_FULLNESS = 0.25
LEAST_GATHERS = 1.2
"""A skirt less full than these is none that was meant to be full."""

MOST_REDRAFTS = 12
"""For one value at most: halving finds one of some thousands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One value of the sheet that takes less cloth as its number of steps grows.

    Attributes:
        steps: how many steps there are to the least sensible value.
        changed: the spec after so many steps, the first of which is 1.
        words: what the spec then gives, ``a skirt 54.5 cm long``.
    """

    steps: int
    changed: Callable[[int], Spec]
    words: Callable[[Spec], str]


def enough(pattern: "Pattern", lay: Lay, bought: Purchase) -> tuple[Finding, ...]:
    """Return whether the cloth that is there is enough, and what it would give if not.

    Nothing is said of cloth that is yet to be bought, or that some piece does not fit at all.
    """
    have, units = lay.cloth.have, pattern.spec.units
    if have is None or lay.missing:
        return ()
    needed = bought.needed
    cloth = cloth_in_full(lay.name)
    takes, there = length_text(needed, units), length_text(have, units)
    if bought.at_hand:
        over = length_text(max(have - needed, 0.0), units)
        return (
            note(
                "cloth-enough",
                say(
                    # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
                    "The pieces take {needed} of the {cloth}, and there are {have}: {over} is left"
                    " over.",
                    needed=takes,
                    cloth=cloth,
                    have=there,
                    over=over,
                ),
                say("Lay the whole plan out before you cut."),
            ),
        )
    return (
        caution(
            "cloth-short",
            say(
                # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
                "The pieces take {needed} of the {cloth}, and there are {have}: {lacking} too"
                " little.",
                needed=takes,
                cloth=cloth,
                have=there,
                lacking=length_text(needed - have, units),
            ),
            _what_it_gives(pattern, lay.name, bought),
        ),
    )


def _what_it_gives(pattern: "Pattern", cloth: str, bought: Purchase) -> str:
    """Return in a sentence what the cloth at hand would give."""
    whole = sold_text(bought.buy, pattern.spec.units)
    of: Cloth = getattr(pattern.spec.cloths, cloth)
    if of.fold and any(stretch.folded for stretch in bought.lay.stretches):
        opened = lay_of(
            shapes(pattern, cloth), cloth, replace(of, fold=False), Effort.QUICK,
            units=pattern.spec.units,
        )  # fmt: skip
        if purchase(opened, pattern.spec.units).at_hand:
            return say(
                "Open it: laid in a single layer it is enough. Chalk each half, turn it over and"
                " chalk again; leave fold = true out under [cloth.{key}].",
                key=cloth,
            )
    changes = list(changes_for(pattern, cloth))
    if not changes:
        return say("Buy {length} in one length.", length=whole)
    found = []
    for change in changes:
        spec = most(change, cloth)
        if spec is not None:
            found.append(change.words(spec))
    if not found:
        return say(_NOTHING_SMALLER[cloth], length=whole)
    wishes = found[0]
    for other in found[1:]:
        # TRANSLATORS: both are things that the cloth is enough for.
        wishes = say("{one}, or for {other}", one=wishes, other=other)
    return say(
        # TRANSLATORS: {wishes} is such as "a skirt 54.5 cm long and as full".
        "It is enough for {wishes}; or buy {length} in one length.",
        wishes=wishes,
        length=whole,
    )


_NOTHING_SMALLER = {
    "skirt": said_later(
        "No shorter and no less full skirt comes out of it either: buy {length} in one length."
    ),
    "lining": said_later(
        "No shorter and no less full lining comes out of it either: buy {length} in one length."
    ),
    "ruffle": said_later(
        "No shallower and no less full ruffle comes out of it either: buy {length} in one length."
    ),
}


class _Fit(StrEnum):
    """Whether a spec can be cut from the cloth at hand."""

    YES = "yes"
    TOO_LITTLE_CLOTH = "too little cloth"
    NO_DRAFT = "no draft"


def most(change: Change, cloth: str) -> Spec | None:
    """Return the spec with the least change that fits the cloth at hand, or None.

    By halving between too much and enough. Cloth does not shrink quite evenly with a value,
    so a better one may be missed; what is returned was drafted and laid, and does fit.
    """
    found: Spec | None = None
    low, high = 0, change.steps + 1
    for _ in range(MOST_REDRAFTS):
        if high - low <= 1:
            break
        # The least sensible value is tried first: often nothing fits, and that ends it.
        step = change.steps if high > change.steps else (low + high) // 2
        spec = change.changed(step)
        fit = _fit(spec, cloth)
        if fit is _Fit.TOO_LITTLE_CLOTH:
            if step == change.steps:
                return None
            low = step
            continue
        # A value that cannot be drafted goes too far, as one that fits may do.
        high = step
        if fit is _Fit.YES:
            found = spec
    return found


def fits(spec: Spec, cloth: str) -> bool:
    """Tell whether a spec can be drafted and all of it cut from the cloth at hand."""
    return _fit(spec, cloth) is _Fit.YES


def _fit(spec: Spec, cloth: str) -> _Fit:
    from drafting.pattern import draft

    of: Cloth = getattr(spec.cloths, cloth)
    try:
        pattern = draft(spec)
    except DraftingError:
        return _Fit.NO_DRAFT
    if of.have is None or stops(pattern.findings):
        return _Fit.NO_DRAFT
    cut, usable = shapes(pattern, cloth), usable_width(of)
    # Laying takes fifty times as long as drafting. Cloth without any waste is the least that a
    # plan takes; rows of boxes are a plan, on cloth that lies open.
    least = math.fsum(shape.area * shape.count for shape in cut) / max(usable, 1.0)
    if least / (1 - of.shrink_length) > of.have + HAIR:
        return _Fit.TOO_LITTLE_CLOTH
    fit_across = all(shape.box().height <= usable for shape in cut)
    if fit_across and not of.fold and purchase(counted(cut, cloth, of), spec.units).at_hand:
        return _Fit.YES
    lay = laid_plan(pattern, cloth, Effort.QUICK)
    enough_of_it = not lay.missing and purchase(lay, spec.units).at_hand
    return _Fit.YES if enough_of_it else _Fit.TOO_LITTLE_CLOTH


# --- what may be changed -------------------------------------------------------------------


def changes_for(pattern: "Pattern", cloth: str) -> Iterator[Change]:
    """Yield what of a garment may be changed to save one of its cloths."""
    spec = pattern.spec
    if cloth == "skirt" and spec.skirt.owned is None:
        yield from _skirt(pattern)
    elif cloth == "lining" and spec.lining is not None:
        yield from _lining(pattern)
    elif cloth == "ruffle" and spec.ruffle is not None:
        yield from _ruffle(pattern)


def _skirt(pattern: "Pattern") -> Iterator[Change]:
    spec, wish = pattern.spec, pattern.spec.skirt
    step = _step(spec)
    long = pattern.figures.skirt.length_side

    def with_skirt(**keys: float) -> Spec:
        return replace(spec, skirt=replace(wish, **keys))  # type: ignore[arg-type]

    above = wish.hem_above_floor
    if above is not None:
        start = math.floor(above / step + 1e-9)
        yield Change(
            steps=math.floor(SENSIBLE * long / step),
            changed=lambda k: with_skirt(hem_above_floor=(start + k) * step),
            words=lambda s: say(
                "a skirt with its hem {height} above the floor",
                height=_asked(s.skirt.hem_above_floor or 0.0, s),
            ),
        )
    else:
        top = math.ceil(wish.length / step - 1e-9)
        yield Change(
            steps=math.floor((wish.length - wish.drop) * SENSIBLE / step),
            changed=lambda k: with_skirt(length=(top - k) * step),
            words=lambda s: say(
                "a skirt {length} long and as full", length=_asked(s.skirt.length, s)
            ),
        )
    if wish.cut is CutKind.CIRCLE:
        yield _ratio(
            wish.fullness,
            max(LEAST_FULLNESS, SENSIBLE * wish.fullness),
            lambda value: with_skirt(fullness=value),
            lambda s: (
                say(
                    "a skirt as long, cut from {fullness} of a circle",
                    fullness=decimal(f"{s.skirt.fullness:g}"),
                )
                if s.skirt.fullness < 1
                else say(
                    "a skirt as long, cut from {fullness} circles",
                    fullness=decimal(f"{s.skirt.fullness:g}"),
                )
            ),
        )
    if wish.cut is CutKind.GATHERED:
        yield _ratio(
            wish.gather_ratio,
            LEAST_GATHERS,
            lambda value: with_skirt(gather_ratio=value),
            lambda s: say(
                "a skirt as long, gathered {ratio} to 1",
                ratio=decimal(f"{s.skirt.gather_ratio:g}"),
            ),
        )


def _lining(pattern: "Pattern") -> Iterator[Change]:
    spec, wish, figures = pattern.spec, pattern.spec.lining, pattern.figures.lining
    assert wish is not None and figures is not None
    step = _step(spec)
    start = math.floor(wish.shorter / step + 1e-9)

    def with_lining(**keys: float) -> Spec:
        return replace(spec, lining=replace(wish, **keys))  # type: ignore[arg-type]

    def told(changed: Spec) -> str:
        assert changed.lining is not None
        return say(
            "a lining {shorter} shorter than the skirt",
            shorter=_asked(changed.lining.shorter, changed),
        )

    yield Change(
        steps=math.floor(SENSIBLE * figures.length_side / step),
        changed=lambda k: with_lining(shorter=(start + k) * step),
        words=told,
    )
    if wish.cut is CutKind.CIRCLE:
        yield _ratio(
            wish.fullness,
            max(LEAST_FULLNESS, SENSIBLE * wish.fullness),
            lambda value: with_lining(fullness=value),
            lambda s: say(
                "a lining as long, cut from {fullness} of a circle",
                fullness=decimal(f"{s.lining.fullness if s.lining else 0:g}"),
            ),
        )


def _ruffle(pattern: "Pattern") -> Iterator[Change]:
    spec, wish, figures = pattern.spec, pattern.spec.ruffle, pattern.figures.ruffle
    assert wish is not None
    if figures is None:
        return
    step = _step(spec)
    top = math.ceil(figures.depth / step - 1e-9)

    def with_ruffle(**keys: float) -> Spec:
        return replace(spec, ruffle=replace(wish, **keys))  # type: ignore[arg-type]

    def depth(changed: Spec) -> Mm:
        return (changed.ruffle.depth if changed.ruffle else None) or 0.0

    yield Change(
        steps=math.floor(SENSIBLE * figures.depth / step),
        changed=lambda k: with_ruffle(depth=(top - k) * step),
        words=lambda s: say("a ruffle {depth} deep", depth=_asked(depth(s), s)),
    )
    yield _ratio(
        wish.gather_ratio,
        HABITS[wish.cloth].ratios[0],
        lambda value: with_ruffle(gather_ratio=value),
        lambda s: say(
            "a ruffle as deep, gathered {ratio} to 1",
            ratio=decimal(f"{s.ruffle.gather_ratio if s.ruffle else 0:g}"),
        ),
    )


def _ratio(
    asked: float, least: float, changed: Callable[[float], Spec], words: Callable[[Spec], str]
) -> Change:
    """Return the change of a ratio down from what was asked, by steps of 0.05."""
    top = math.ceil(asked / RATIO_STEP - 1e-9)
    return Change(
        steps=max(math.floor(top - least / RATIO_STEP + 1e-9), 0),
        changed=lambda k: changed(round((top - k) * RATIO_STEP, 2)),
        words=words,
    )


def _step(spec: Spec) -> Mm:
    """Return the step of lengths in a draft: of a half-scale one, half of the sheet's."""
    return STEP[spec.units] * spec.scale


def _asked(length: Mm, spec: Spec) -> str:
    """Return a length of the draft as it is asked for: sheets give full-size lengths."""
    told = length_text(length, spec.units)
    if spec.scale == 1:
        return told
    return say(
        "{length} ({written} on the sheet)",
        length=told,
        written=length_text(length / spec.scale, spec.units),
    )
