"""Workings of how long a layer is round the body.

Millimetres. Imports the plan's constants and the model.
"""

from collections.abc import Iterator

from drafting.language import say
from drafting.measurements import SHOE_SHARE
from drafting.plan import SHORTEST_LINING
from drafting.spec import LevelAt
from drafting.working.draft import Draft, Part
from drafting.working.model import How, Law, Working


def lengths(part: Part) -> Iterator[Working]:
    """Yield how long a layer is in front, at the sides and at the back."""
    figures, draft = part.figures, part.draft
    titles = {
        "front": say("length in front"),
        "side": say("length at the side"),
        "back": say("length at the back"),
        "left": say("length on the left"),
        "right": say("length on the right"),
    }
    uneven = figures.length_left is not None
    for place, title in titles.items():
        result = getattr(figures, f"length_{place}")
        key = part.key(f"length_{place}")
        if result is None:
            continue
        if place == "side" and uneven:
            yield draft.slate.worked(
                key,
                title,
                say("mean of both sides"),
                "(Lside1 + Lside2) / 2",
                result,
                Lside1=figures.length_left or 0.0,
                Lside2=figures.length_right or 0.0,
            )
        elif part.of_lining:
            yield _shorter(part, key, title, place, result)
        else:
            yield _skirt_length(draft, key, title, place, result)


def _floor(draft: Draft, place: str) -> float:
    wearer = draft.plan.spec.wearer
    return {
        "front": wearer.floor_front,
        "back": wearer.floor_back,
        "side": wearer.floor_left or wearer.floor_side,
        "left": wearer.floor_left or wearer.floor_side,
        "right": wearer.floor_right or wearer.floor_side,
    }[place]


def _skirt_length(draft: Draft, key: str, title: str, place: str, result: float) -> Working:
    wish, wearer, floor = draft.plan.spec.skirt, draft.plan.spec.wearer, draft.plan.floor
    shoes = {"K": _floor(draft, place), "shoe": SHOE_SHARE, "heel": wearer.heel}
    if wish.hem_above_floor is not None:
        return draft.slate.worked(
            key,
            title,
            say("waist to floor + share of the heel − height of the hem above the floor − drop"),
            "K + shoe * heel - u - D",
            result,
            u=wish.hem_above_floor,
            D=wish.drop,
            **shoes,
        )
    if wish.level is LevelAt.WAIST:
        return draft.slate.worked(
            key,
            title,
            say("length asked for + what the body is longer here than at the side − drop"),
            "L0 + K + shoe * heel - Ks - D",
            result,
            L0=wish.length,
            D=wish.drop,
            Ks=(floor.left + floor.right) / 2,
            **shoes,
        )
    if not wish.drop:
        return draft.slate.worked(key, title, say("length asked for"), "L0", result, L0=wish.length)
    return draft.slate.worked(
        key,
        title,
        say("length asked for − how far the waist seam is dropped"),
        "L0 - D",
        result,
        L0=wish.length,
        D=wish.drop,
    )


def _shorter(part: Part, key: str, title: str, place: str, result: float) -> Working:
    draft = part.draft
    wish = draft.plan.spec.lining
    assert wish is not None
    skirt = draft.plan.skirt.around
    own = skirt.left if place == "side" else getattr(skirt, place)
    return draft.slate.worked(
        key,
        title,
        say("length of the skirt − what the lining is shorter"),
        "Lo - min(short, Lmin - floor)",
        result,
        How(law=Law.HABIT),
        Lo=own,
        short=wish.shorter,
        Lmin=skirt.least,
        floor=SHORTEST_LINING * draft.ease_scale,
    )
