"""Workings by the part of the garment that they belong to.

Imports language and the model.
"""

from itertools import groupby

from drafting.language import said_later, say
from drafting.working.model import Working

_PARTS = {
    "waist": said_later("waist"),
    "skirt": said_later("skirt"),
    "lining": said_later("lining"),
    "flounce": said_later("flounce"),
    "godets": said_later("godets"),
    "hem": said_later("finish of the hem"),
    "ruffle": said_later("ruffle"),
    "opening": said_later("opening and zip"),
    "band": said_later("band"),
    "casing": said_later("casing"),
    "binding": said_later("binding of the waist"),
    "contour": said_later("shaped band"),
    "facing": said_later("facing of the waist"),
}

_CLOTHS = {
    "skirt": said_later("cloth of the skirt"),
    "lining": said_later("cloth of the lining"),
    "ruffle": said_later("cloth of the ruffle"),
    "interfacing": said_later("interfacing"),
    "binding": said_later("cloth of the binding"),
}


def chapters(
    workings: tuple[Working, ...],
) -> tuple[tuple[str, str, tuple[Working, ...]], ...]:
    """Return the workings part by part: the path of the part, its heading, its workings."""
    return tuple((path, heading(path), tuple(held)) for path, held in groupby(workings, _part))


def _part(working: Working) -> str:
    """Return the part of a key that names the part of the garment: "skirt", "ruffle.tiers.1"."""
    names = working.key.split(".")
    if names[0] == "cloth":
        return ".".join(names[:2])
    if "tiers" in names:
        return ".".join(names[: names.index("tiers") + 2])
    return names[0]


def heading(path: str) -> str:
    """Return the heading of a part, in the language spoken."""
    first, *rest = path.split(".")
    if first == "cloth":
        return say(_CLOTHS[rest[0]])
    if first == "tiers":
        return say("tier {number} of the skirt", number=int(rest[0]) + 1)
    if rest:
        return say("tier {number} of the ruffle", number=int(rest[1]) + 1)
    return say(_PARTS[first])
