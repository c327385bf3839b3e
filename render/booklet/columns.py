"""How wide a table's columns are, by measuring their words.

Any unit, the same for all. Imports the typeface's widths alone.
"""

from collections.abc import Sequence

from render import fonts


def column_widths(
    columns: Sequence[Sequence[str]],
    total: float,
    *,
    size: float,
    gap: float,
    figures: Sequence[int] = (),
) -> tuple[float, ...]:
    """Return widths that add up to ``total``, no word broken while there is room for all.

    Args:
        columns: the words of each column, its head first.
        size: height of the type.
        gap: white space a column holds beside its words.
        figures: columns of numbers, which are given no more than they need.
    """
    whole = [max(_width(words, size) for words in column) + gap for column in columns]
    least = [
        max(_width(word, size) for words in column for word in words.split(" ")) + gap
        for column in columns
    ]
    if sum(whole) <= total:
        spread = [0.0 if k in figures else wide for k, wide in enumerate(whole)]
        if not any(spread):
            spread = whole
        return _shared(whole, spread, total)
    if sum(least) <= total:
        return _shared(least, [w - n for w, n in zip(whole, least, strict=True)], total)
    return tuple(wide * total / sum(least) for wide in least)


def fits(columns: Sequence[Sequence[str]], total: float, *, size: float, gap: float) -> bool:
    """Tell whether no word of a table has to be broken."""
    return total >= sum(
        max(_width(word, size) for words in column for word in words.split(" ")) + gap
        for column in columns
    )


def _shared(widths: Sequence[float], shares: Sequence[float], total: float) -> tuple[float, ...]:
    """Return widths with what is left of the total added in proportion to their shares."""
    left, whole = total - sum(widths), sum(shares)
    return tuple(w + left * share / whole for w, share in zip(widths, shares, strict=True))


def _width(words: str, size: float) -> float:
    """Return how wide words are at most, set bold, and a hair more, lest rounding break them."""
    return fonts.width(words, size, bold=True) + 0.05 * size
