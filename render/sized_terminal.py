"""What the terminal shows of a garment in several sizes: a column for each, aligned on the unit.

Plain text, as many columns beside each other as have room. Imports drafting and facts of sizes.
"""

from collections.abc import Mapping, Sequence

from drafting.cloth.buying import sold_text
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from render.laying import Cloth
from render.measures import layer_words
from render.nest.facts import body_rows, cells, finished_rows

WIDTH = 88


@in_its_language
def sized_text(pattern: Pattern) -> str:
    """Return the measures of every size, part by part."""
    rows = [
        (row.name, cells(row, pattern)) for row in (*body_rows(pattern), *finished_rows(pattern))
    ]
    return "\n".join([pattern.spec.title, *_columns(pattern.spec.publish.sizes, rows)])


@in_its_language
def sized_cloths(pattern: Pattern, cloths: Mapping[str, Cloth]) -> str:
    """Return how much of each cloth to buy for each size; nothing is bought for two at once."""
    units = pattern.spec.units
    found: dict[str, dict[str, str]] = {}
    for size, cloth in cloths.items():
        for one in cloth.shopping.purchases:
            found.setdefault(one.name, {})[size] = sold_text(one.buy, units)
    rows = [
        (
            say("buy {layer} cloth", layer=layer_words(name)),
            tuple(bought.get(size, "–") for size in cloths),
        )
        for name, bought in found.items()
    ]
    return "\n".join(_columns(tuple(cloths), rows))


def _columns(sizes: Sequence[str], rows: Sequence[tuple[str, Sequence[str]]]) -> list[str]:
    """Return rows under the names of the sizes, in as many blocks as the width asks."""
    if not rows:
        return []
    first = max(len(name) for name, _ in rows) + 4
    wide = max(len(cell) for _, own in rows for cell in (*own, *sizes)) + 2
    fit = max(1, (WIDTH - first) // wide)
    lines = []
    for begin in range(0, len(sizes), fit):
        part = slice(begin, begin + fit)
        head = "".join(f"{size:>{wide}}" for size in sizes[part])
        lines.append(f"{'':<{first}}{head}")
        for name, own in rows:
            lines.append(
                f"  {name:<{first - 2}}" + "".join(f"{cell:>{wide}}" for cell in own[part])
            )
    return [line.rstrip().replace("\u00a0", " ") for line in lines]
