"""What is said of one layer or the other: a whole sentence for each. Imports nothing.

A part put into braces would need another article, ending or case in other languages.
"""


def by_part(part: str, *, skirt: str, lining: str) -> str:
    """Return which of two sentences is meant, one about the skirt and one about its lining.

    Args:
        part: ``skirt`` or ``lining``.
        skirt, lining: sentences given by ``said_later``, for ``say`` to be given the one returned.
    """
    return {"skirt": skirt, "lining": lining}[part]
