"""Words that the booklet adds of itself, and words made fit to be written out.

``render/booklet/pdf.py`` and ``html.py`` share them, so that both say the same. Imports the
language and the booklet's values.
"""

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from drafting.language import say
from render.booklet.model import Booklet, Section, Step, Steps

LOST = "\ufffd"
"""What stands in for a character that no page may hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A heading that can be gone to.

    Attributes:
        key: no two places of a booklet share one.
        words: of the heading; ``number`` of a step, or 0.
        depth: 0 for a section of the booklet, 1 for a section or a step in one, and so on.
    """

    key: str
    words: str
    depth: int
    number: int = 0


def places(booklet: Booklet) -> tuple[Place, ...]:
    """Return the headings of a booklet in their order."""
    taken = {"contents"}  # the web page's own
    return tuple(place for section in booklet.sections for place in _places_of(section, 0, taken))


def _places_of(section: Section, depth: int, taken: set[str]) -> Iterator[Place]:
    yield Place(key=_key(section.name, taken), words=clean(section.title), depth=depth)
    for block in section.blocks:
        if isinstance(block, Section):
            yield from _places_of(block, depth + 1, taken)
        elif isinstance(block, Steps):
            for number, step in enumerate(block.steps, block.start):
                yield Place(
                    key=_key(f"step-{step.name}", taken),
                    words=clean(step.title),
                    depth=depth + 1,
                    number=number,
                )


def _key(name: str, taken: set[str]) -> str:
    """Return a name as letters, figures and hyphens, told apart from those taken."""
    ascii_only = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    plain = "-".join("".join(c if c.isalnum() else " " for c in ascii_only).split()) or "part"
    key, count = plain, 1
    while key in taken:
        count += 1
        key = f"{plain}-{count}"
    taken.add(key)
    return key


def clean(words: str) -> str:
    """Return words on one line, each character that no page may hold replaced.

    Source: XML 1.0, 2.2, and HTML's "noncharacters and controls".
    """
    return "".join(_kept(c) for c in words.translate({9: " ", 10: " ", 13: " "}))


def _kept(character: str) -> str:
    code = ord(character)
    bad = unicodedata.category(character) in ("Cc", "Cs") or code & 0xFFFE == 0xFFFE
    return LOST if bad or 0xFDD0 <= code <= 0xFDEF else character


def time_words(step: Step) -> str:
    """Return how long a step takes, an estimate, or nothing if none is given."""
    if step.hands <= 0:
        return ""
    if step.first <= 0:
        return say("about {time}", time=minutes_words(step.hands))
    return say(
        "about {time}, a first time {longer}",
        time=minutes_words(step.hands),
        longer=minutes_words(step.first),
    )


def minutes_words(minutes: float) -> str:
    """Return a time: "20 min", "1 h", "1 h 30 min"."""
    hours, rest = divmod(max(1, round(minutes)), 60)
    if not hours:
        return say("{minutes}\u00a0min", minutes=rest)
    if not rest:
        return say("{hours}\u00a0h", hours=hours)
    return say("{hours}\u00a0h\u00a0{minutes}\u00a0min", hours=hours, minutes=rest)


def foot_words(booklet: Booklet) -> str:
    """Return what stands at the foot of every page: the garment and its maker."""
    told = (clean(booklet.title).strip(), clean(booklet.author).strip())
    return " · ".join(words for words in told if words)


def terms_words(booklet: Booklet) -> str:
    """Return what stands at the foot of every page behind the maker: edition, licence, page."""
    told = (*booklet.terms, booklet.page)
    return " · ".join(clean(words).strip() for words in told if words)
