"""What pieces and cloths are called in the language spoken. Imports nothing but that language.

``Piece.name`` and the names of cloths are English in every language: seams, figures and files go
by them. What is read on paper is said here.
"""

import re

from drafting.language import said_later, say, say_as

_NAMES = frozenset(
    (
        said_later("skirt panel"),
        said_later("skirt gore"),
        said_later("skirt yoke"),
        said_later("skirt front"),
        said_later("skirt front left"),
        said_later("skirt front right"),
        said_later("skirt back"),
        said_later("skirt back left"),
        said_later("skirt back right"),
        said_later("skirt side"),
        said_later("skirt side left"),
        said_later("skirt side right"),
        said_later("skirt centre front"),
        said_later("skirt centre front left"),
        said_later("skirt centre front right"),
        said_later("skirt centre back"),
        said_later("skirt centre back left"),
        said_later("skirt centre back right"),
        said_later("skirt side front"),
        said_later("skirt side front left"),
        said_later("skirt side front right"),
        said_later("skirt side back"),
        said_later("skirt side back left"),
        said_later("skirt side back right"),
        said_later("lining panel"),
        said_later("lining gore"),
        said_later("lining front"),
        said_later("lining front left"),
        said_later("lining front right"),
        said_later("lining back"),
        said_later("lining back left"),
        said_later("lining back right"),
        said_later("lining side"),
        said_later("lining side left"),
        said_later("lining side right"),
        said_later("lining centre front"),
        said_later("lining centre front left"),
        said_later("lining centre front right"),
        said_later("lining centre back"),
        said_later("lining centre back left"),
        said_later("lining centre back right"),
        said_later("lining side front"),
        said_later("lining side front left"),
        said_later("lining side front right"),
        said_later("lining side back"),
        said_later("lining side back left"),
        said_later("lining side back right"),
        said_later("facing"),
        said_later("facing front"),
        said_later("facing front left"),
        said_later("facing front right"),
        said_later("facing back"),
        said_later("facing back left"),
        said_later("facing back right"),
        said_later("facing side"),
        said_later("facing side left"),
        said_later("facing side right"),
        said_later("facing centre front"),
        said_later("facing centre front left"),
        said_later("facing centre front right"),
        said_later("facing centre back"),
        said_later("facing centre back left"),
        said_later("facing centre back right"),
        said_later("facing side front"),
        said_later("facing side front left"),
        said_later("facing side front right"),
        said_later("facing side back"),
        said_later("facing side back left"),
        said_later("facing side back right"),
        said_later("hem facing"),
        said_later("hem facing front"),
        said_later("hem facing front left"),
        said_later("hem facing front right"),
        said_later("hem facing back"),
        said_later("hem facing back left"),
        said_later("hem facing back right"),
        said_later("hem facing side"),
        said_later("hem facing side left"),
        said_later("hem facing side right"),
        said_later("hem facing centre front"),
        said_later("hem facing centre front left"),
        said_later("hem facing centre front right"),
        said_later("hem facing centre back"),
        said_later("hem facing centre back left"),
        said_later("hem facing centre back right"),
        said_later("hem facing side front"),
        said_later("hem facing side front left"),
        said_later("hem facing side front right"),
        said_later("hem facing side back"),
        said_later("hem facing side back left"),
        said_later("hem facing side back right"),
        said_later("hem facing gore"),
        said_later("hem facing godet"),
        said_later("hem facing strip"),
        said_later("hem binding"),
        said_later("waist binding"),
        said_later("band"),
        said_later("casing"),
        said_later("opening stay"),
        said_later("pocket bag"),
        said_later("godet"),
        said_later("flounce ring"),
        said_later("ruffle strip"),
    )
)

_CORNER = re.compile(r"(?P<piece>.+) corner(?: (?P<side>left|right))?")
_TIER = re.compile(r"(?P<part>skirt|ruffle) tier (?P<number>\d+)")
_LETTERED = re.compile(r"(?P<piece>.+) (?P<letter>[A-Z])")


def piece_words(name: str) -> str:
    """Return what a piece is called in the language spoken.

    Args:
        name: of the piece, such as ``skirt side A`` or ``skirt panel corner left``.

    Raises:
        KeyError: no piece has such a name.
    """
    if name in _NAMES:
        return say(name)
    if cornered := _CORNER.fullmatch(name):
        return _corner_words(piece_words(cornered["piece"]), cornered["side"])
    if tier := _TIER.fullmatch(name):
        if tier["part"] == "skirt":
            return say("skirt tier {number}", number=tier["number"])
        return say("ruffle tier {number}", number=tier["number"])
    if lettered := _LETTERED.fullmatch(name):
        return say("{piece} {letter}", piece=piece_words(lettered["piece"]), letter=lettered[2])
    raise KeyError(name)


def _corner_words(piece: str, side: str | None) -> str:
    if side is None:
        return say("{piece} corner", piece=piece)
    if side == "left":
        return say("{piece} corner left", piece=piece)
    return say("{piece} corner right", piece=piece)


def cloth_in_full(name: str) -> str:
    """Return the same for sentences, where every cloth is called one: "interfacing cloth".

    Raises:
        KeyError: a sheet knows no such cloth.
    """
    return {
        "skirt": say_as("cloth", "skirt cloth"),
        "lining": say_as("cloth", "lining cloth"),
        "ruffle": say_as("cloth", "ruffle cloth"),
        "interfacing": say_as("cloth", "interfacing cloth"),
        "binding": say_as("cloth", "binding cloth"),
    }[name]


def cloth_words(name: str) -> str:
    """Return what a cloth of the sheet is called: "skirt cloth", "lining cloth", "interfacing".

    A noun without its article: sentences that hold it are worded so that it can stand in the
    nominative.

    Raises:
        KeyError: a sheet knows no such cloth.
    """
    return {
        "skirt": say_as("cloth", "skirt cloth"),
        "lining": say_as("cloth", "lining cloth"),
        "ruffle": say_as("cloth", "ruffle cloth"),
        "interfacing": say_as("cloth", "interfacing"),
        "binding": say_as("cloth", "binding"),
    }[name]


_KINDS = (
    said_later("soft tulle"),
    said_later("stiff net"),
    said_later("silk organza"),
    said_later("polyester organza"),
    said_later("cotton organdy"),
    said_later("crinoline canvas"),
)
"""Kinds of cloth that a ruffle may be of: the words that a sheet has for them."""


def kind_words(kind: str) -> str:
    """Return what kind of cloth it is: a ruffle's said, any other as the sheet has it."""
    return say(kind) if kind in _KINDS else kind


def seam_words(name: str) -> str:
    """Return what a seam is called in the language spoken: what is sewn to what.

    Args:
        name: of the seam, as its figures have it.
    """
    for whole in _WHOLE_SEAMS:
        if name == whole:
            return say(whole)
    for shape, words in _SEAMS:
        if told := shape.fullmatch(name):
            return say(words, **{key: _part_called(part) for key, part in told.groupdict().items()})
    return name


def _part_called(part: str) -> str:
    """Return a piece's name said, or words that were said when the seam was made."""
    try:
        return piece_words(part)
    except KeyError:
        return part


_WHOLE_SEAMS = (
    said_later("skirt waist to lining waist"),
    said_later("flounce to the skirt's lower edge"),
    said_later("ruffle to its line on the lining"),
    said_later("pocket bag to its pair"),
)

_SEAMS = (
    (re.compile("hem of (?P<piece>.+) to (?P<other>.+)"), said_later("hem of {piece} to {other}")),
    (re.compile("hem to (?P<piece>.+)"), said_later("hem to {piece}")),
    (re.compile("skirt waist to (?P<piece>.+)"), said_later("skirt waist to {piece}")),
    (re.compile("(?P<piece>.+) to the edge above it"), said_later("{piece} to the edge above it")),
    (
        re.compile("(?P<piece>.+) and its corner, (?P<edge>.+)"),
        said_later("{piece} and its corner, {edge}"),
    ),
    (
        re.compile("(?P<piece>.+) to (?P<other>.+), (?P<place>.+)"),
        said_later("{piece} to {other}, {place}"),
    ),
    (re.compile("(?P<piece>.+) to (?P<other>.+)"), said_later("{piece} to {other}")),
)
