"""What the terminal shows of a pack: its sizes in a short table, then its files.

Plain text; nothing depends on colour. Imports the pack's tables.
"""

from collections.abc import Sequence

from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.units import length_text
from render.publish.manifest import bytes_words
from render.publish.pack import Pack
from render.publish.tables import body_columns, finished_columns
from render.publish.titles import size_words, sizes_of


@in_its_language
def pack_table(pattern: Pattern) -> str:
    """Return the sizes of a pack with what they measure."""
    units = pattern.spec.units
    columns = (body_columns(pattern)[0], *finished_columns(pattern))
    rows = [
        (
            size_words(pattern, size),
            *(
                "" if (value := column.values[k]) is None else length_text(value, units)
                for column in columns
            ),
        )
        for k, size in enumerate(sizes_of(pattern))
    ]
    heads = (say("size"), *(column.name for column in columns))
    # Few sizes and many measures are told the other way round, so that no line is too long.
    turned = list(zip(heads, *rows, strict=True))
    return "\n".join([pattern.spec.title, *_aligned(turned)]).replace("\u00a0", " ")


def published(pack: Pack) -> str:
    """Return the files of a pack, each with its pages and its size, and the sum of its zip."""
    rows = [
        (
            file.path.name,
            "" if not file.pages else "1 page" if file.pages == 1 else f"{file.pages} pages",
            bytes_words(pack.sizes[file.path]),
        )
        for file in pack.files
    ]
    proofs = [file.proof for file in pack.files if file.proof is not None]
    sound = sum(not one.faults for one in proofs)
    return "\n".join(
        [
            f"{pack.folder}",
            *_aligned(rows),
            f"  read back: {sound} of {len(proofs)} true-size and lay files without fault",
            f"  SHA-256 of the zip: {pack.zip_sum}",
        ]
    )


def _aligned(rows: Sequence[Sequence[str]]) -> list[str]:
    wide = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    return [
        "  "
        + "  ".join(
            cell.ljust(wide[k]) if k == 0 else cell.rjust(wide[k]) for k, cell in enumerate(row)
        ).rstrip()
        for row in rows
    ]
