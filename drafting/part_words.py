"""What is said of one part of a garment or another: a whole sentence for each, or its name.

A part put into braces would need another article, ending or case in other languages. Imports
the language spoken.
"""

from drafting.language import say, say_as


def by_part(part: str, *, skirt: str, lining: str) -> str:
    """Return which of two sentences is meant, one about the skirt and one about its lining.

    Args:
        part: ``skirt`` or ``lining``.
        skirt, lining: sentences given by ``said_later``, for ``say`` to be given the one returned.
    """
    return {"skirt": skirt, "lining": lining}[part]


def say_by_part(part: str, *, skirt: str, lining: str, **values: object) -> str:
    """Return one of two sentences, said, as ``say`` returns it.

    Babel does not gather what ``said_later`` is given inside another call inside ``say``.
    """
    return say(by_part(part, skirt=skirt, lining=lining), **values)


def part_words(name: str) -> str:
    """Return a part with its article, in the nominative: "the skirt".

    Raises:
        KeyError: there is no such part.
    """
    return {
        "skirt": say_as("part", "the skirt"),
        "lining": say_as("part", "the lining"),
        "ruffle": say_as("part", "the ruffle"),
        "interfacing": say_as("part", "the interfacing"),
        "binding": say_as("part", "the binding"),
    }[name]
