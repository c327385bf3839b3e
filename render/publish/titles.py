"""What a pack's sizes, files and folder are called.

Imports the pattern, the words of a wearer and safe names.
"""

import re
from collections.abc import Sequence

from drafting.language import headed, listed, say
from drafting.pattern import Pattern
from drafting.spec import Publish, Spec
from render.files import safe_name
from render.words import made_for


def sizes_of(pattern: Pattern) -> tuple[Pattern, ...]:
    """Return the pattern of each size, smallest first; of one size, the pattern itself."""
    return pattern.sizes or (pattern,)


def middle_of(pattern: Pattern) -> Pattern:
    """Return the size that stands for all where one picture must do."""
    sizes = sizes_of(pattern)
    return sizes[middle(len(sizes))]


def middle(count: int) -> int:
    """Return which of so many sizes is the middle one, as the draft has it."""
    return (count - 1) // 2


def size_words(pattern: Pattern, size: Pattern) -> str:
    """Return what a size is called beside the others; alone, whom or which waist it is for."""
    return size.spec.wearer.size if pattern.sizes else made_for(size.spec)


def all_sizes(pattern: Pattern) -> str:
    """Return which sizes there are, in a few words."""
    if not pattern.sizes:
        return made_for(pattern.spec)
    names = [size.spec.wearer.size for size in pattern.sizes]
    return headed(say("sizes"), listed(names))


def endings(pattern: Pattern) -> tuple[str, ...]:
    """Return what the names of each size's files end in: "-p05", or nothing for one size.

    No two are the same, whatever sign told the sizes apart.
    """
    if not pattern.sizes:
        return ("",)
    found: list[str] = []
    for size in pattern.sizes:
        name = ending = safe_name(size.spec.wearer.size)
        count = 1
        while f"-{ending}" in found:
            count += 1
            ending = f"{name}-{count}"
        found.append(f"-{ending}")
    return tuple(found)


def pack_name(spec: Spec) -> str:
    """Return what the folder and its zip are called: "chorus-skirt-edition-1"."""
    return f"{safe_name(spec.title)}{edition_ending(spec.publish)}"


def edition_ending(publish: Publish) -> str:
    """Return how a pack's name ends, by its edition if it has one."""
    if not publish.edition:
        return "-pack"
    name = safe_name(publish.edition)
    # What has no letter of ours is named as a skirt would be: an edition is none.
    told = name if "skirt" in publish.edition.lower() else name.removeprefix("skirt-")
    return f"-edition-{told}"


def in_natural_order(name: str) -> tuple[tuple[int, int, str], ...]:
    """Return a key that sorts names as people count: 2 before 10, 1 before 1-5."""
    parts: Sequence[str] = re.findall(r"\d+|[^\d-]+", name)
    return tuple((0, int(part), "") if part.isdigit() else (1, 0, part) for part in parts)
