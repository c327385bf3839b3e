"""Which pages of a nest a size needs, for the first page and for the map.

Words in the language spoken. Imports tiling and the nests.
"""

from collections.abc import Iterator
from dataclasses import replace

from drafting.language import say
from drafting.pattern import Pattern
from render.on_plane import nest_of
from render.tiling import Sheets, Tile, tiles_for


def tiles_of_sizes(pattern: Pattern, sheets: Sheets) -> dict[str, tuple[Tile, ...]]:
    """Return the pages that carry something of each size, by the sizes' names."""
    found: dict[str, tuple[Tile, ...]] = {}
    for size in pattern.spec.publish.sizes:
        own = []
        for placement in sheets.placements:
            piece = nest_of(pattern, placement.piece.name).get(size)
            own += [replace(placement, piece=piece)] if piece is not None else []
        found[size] = tiles_for(sheets, own)
    return found


def pages_words(pattern: Pattern, sheets: Sheets, *, after: int) -> Iterator[str]:
    """Yield how one size is printed alone, and which pages each size needs; like ones together.

    Args:
        after: how many pages of the file lead the pattern's own.
    """
    yield say(
        "To print one size alone, show its layer and no other size’s in your PDF viewer (size"
        " {size}), and give the printer the pages of the file that it needs:",
        size=pattern.spec.wearer.size,
    )
    alike: dict[tuple[Tile, ...], list[str]] = {}
    for size, tiles in tiles_of_sizes(pattern, sheets).items():
        alike.setdefault(tiles, []).append(size)
    for tiles, sizes in alike.items():
        yield say(
            "{sizes}: {count} pages (file pages {numbers})",
            sizes=", ".join(sizes),
            count=len(tiles),
            numbers=_numbers(tiles, sheets, after),
        )
    larger = sorted({whose for whose in sizes_by_page(pattern, sheets).values() if "+" in whose})
    if larger:
        yield say(
            "On the map {mark} stands in a page that only size {size} and larger ones need.",
            mark=larger[0],
            size=larger[0].removesuffix("+"),
        )


def _numbers(tiles: tuple[Tile, ...], sheets: Sheets, after: int) -> str:
    """Return the numbers of pages in a file, as a print dialogue takes them."""
    names = {tile.name for tile in tiles}
    runs: list[list[int]] = []
    for number, tile in enumerate(sheets.tiles, start=after + 1):
        if tile.name not in names:
            continue
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)


def sizes_by_page(pattern: Pattern, sheets: Sheets) -> dict[str, str]:
    """Return whom a page is for, by its name, where it is not for every size.

    "P06+" is for size P06 and all that are larger.
    """
    every = pattern.spec.publish.sizes
    needed = {
        size: {tile.name for tile in tiles}
        for size, tiles in tiles_of_sizes(pattern, sheets).items()
    }
    found = {}
    for tile in sheets.tiles:
        of = tuple(size for size in every if tile.name in needed[size])
        if len(of) == len(every) or not of:
            continue
        if of == every[-len(of) :]:
            found[tile.name] = f"{of[0]}+"
            continue
        first = every.index(of[0])
        in_a_row = of == every[first : first + len(of)] and len(of) > 1
        found[tile.name] = f"{of[0]}–{of[-1]}" if in_a_row else " ".join(of)
    return found
