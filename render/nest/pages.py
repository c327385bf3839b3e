"""Which pages of a nest a size needs, for the first page and for the map.

Words in the language spoken. Imports tiling and the nests.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TypeAlias

from drafting.language import say
from drafting.pattern import Pattern
from render.assembly_map import in_runs
from render.on_plane import nest_of
from render.tiling import Sheets, Tile, tiles_for

Needed: TypeAlias = Mapping[str, tuple[Tile, ...]]
"""The pages that each size needs, by the sizes' names."""


def tiles_of_sizes(pattern: Pattern, sheets: Sheets) -> Needed:
    """Return the pages that carry something of each size; nothing for a pattern in one size."""
    if not pattern.sizes:
        return {}
    nests = [(one, nest_of(pattern, one.piece.name)) for one in sheets.placements]
    return {
        size: tiles_for(
            sheets,
            [replace(one, piece=pieces[size]) for one, pieces in nests if size in pieces],
        )
        for size in pattern.spec.publish.sizes
    }


def pages_words(pattern: Pattern, sheets: Sheets, needed: Needed, *, after: int) -> Iterator[str]:
    """Yield how one size is printed alone, and which pages each size needs; like ones together.

    Args:
        after: how many pages of the file lead the pattern's own.
    """
    yield say(
        "To print one size alone, show its layer and no other size's in your PDF viewer (size"
        " {size}), and give the printer this ticket and the pages of the file that it needs:",
        size=pattern.spec.wearer.size,
    )
    alike: dict[tuple[Tile, ...], list[str]] = {}
    for size, tiles in needed.items():
        alike.setdefault(tiles, []).append(size)
    for tiles, sizes in alike.items():
        yield say(
            "{sizes}: {count} pages (file pages {numbers})",
            sizes=", ".join(sizes),
            count=len(tiles),
            numbers=in_runs(
                number for number, tile in enumerate(sheets.tiles, start=after + 1) if tile in tiles
            ),
        )
    if len(alike) > 1:
        yield say("A page with a star on the map is one that not every size needs.")


def not_for_all(sheets: Sheets, needed: Needed) -> frozenset[str]:
    """Return the names of the pages that some size does not need."""
    return frozenset(
        tile.name for tile in sheets.tiles if not all(tile in own for own in needed.values())
    )
