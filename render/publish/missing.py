"""What a reader will miss in a pack, told to its maker as notes: nothing of it stops the pack.

Imports findings and the spec.
"""

from collections.abc import Iterable, Iterator
from pathlib import Path

from drafting.findings import Finding, Level
from drafting.language import said_later, say
from drafting.spec import Spec
from render.publish.editions import LastEdition

_MISSED = {
    "maker": (
        said_later("The sheet names no maker: readers cannot tell whom to name or to ask."),
        said_later('Write maker = "The Pier Workroom" under [publish].'),
    ),
    "licence": (
        said_later("The sheet gives no licence: readers do not know what they may do with it."),
        said_later('Write licence = "CC BY-NC 4.0" under [publish], or your own terms in words.'),
    ),
    "edition": (
        said_later(
            "The sheet gives no edition: readers cannot tell this file from a later one, and no"
            " change note is written."
        ),
        said_later('Write edition = "1" under [publish], and raise it with every change.'),
    ),
    "page": (
        said_later("The sheet gives no page: readers of a file do not find back to it."),
        said_later('Write page = "https://example.org/skirts" under [publish].'),
    ),
}


def missing(spec: Spec) -> Iterator[Finding]:
    """Yield a note for each thing that a reader will miss."""
    for key, (what, do) in _MISSED.items():
        if not getattr(spec.publish, key):
            yield Finding(level=Level.NOTE, code=f"no-{key}", what=say(what), do=say(do))


def strays(folder: Path, ours: Iterable[str]) -> Iterator[Finding]:
    """Yield a caution where a folder holds files that are not of the pack just written to it."""
    kept = set(ours)
    others = sorted(path.name for path in folder.iterdir() if path.name not in kept)
    if others:
        named = ", ".join(others[:MOST_NAMED]) + (" …" if len(others) > MOST_NAMED else "")
        yield Finding(
            level=Level.CAUTION,
            code="other-files",
            what=say(
                "The folder holds what is not of this pack, neither in its zip nor in its lists:"
                " {files}.",
                files=named,
            ),
            do=say("Take it out before you upload the folder, or upload the zip alone."),
        )


MOST_NAMED = 6


def unread(last: LastEdition) -> Iterator[Finding]:
    """Yield a caution where the last edition could not be compared."""
    if last.figures is None:
        yield Finding(
            level=Level.CAUTION,
            code="last-edition-unread",
            what=say(
                "The last edition in {folder} could not be compared: {fault}.",
                folder=last.folder,
                fault=say(last.fault),
            ),
            do=say(
                "No change note was written. Give the right folder with --last if there is one."
            ),
        )
