"""The words printed on pieces and in the cut list. Imports the piece and units."""

from drafting.piece import EdgeKind, Piece
from drafting.spec import Spec
from drafting.units import Units, length_text

CLOTHS = {"skirt": "skirt cloth", "lining": "lining cloth", "ruffle": "ruffle cloth"}


def cut_words(piece: Piece) -> str:
    """Return how many to cut, from what, and how: "cut 2 from skirt cloth, mirrored"."""
    words = f"cut {piece.count} from {CLOTHS[piece.cloth]}"
    if piece.mirrored:
        words += ", a mirrored pair"
    if piece.half:
        each = "each " if piece.count > 1 else ""
        words += f", {each}on a fold" if piece.foldable else f", {each}whole from this half"
    return words


def allowance_words(piece: Piece, units: Units) -> str:
    """Return which allowances lie inside the cutting line: "seams 1.5 cm, hem 1.2 cm"."""
    named: dict[str, float] = {}
    for edge in piece.edges:
        if edge.kind is EdgeKind.HEM:
            named["hem"] = edge.allowance
        elif edge.kind is EdgeKind.RAW:
            named[edge.words or edge.name] = 0.0
        elif edge.kind is EdgeKind.SEAM:
            key = "waist" if edge.name.startswith("waist") else "seams"
            named[key] = max(named.get(key, 0.0), edge.allowance)
    if len(set(named.values())) == 1 and len(named) > 1:
        return f"{length_text(next(iter(named.values())), units)} included all round"
    given = [
        f"{name} {length_text(width, units)}" if width else f"{name} none"
        for name, width in named.items()
    ]
    return "included: " + ", ".join(given) + (", fold none" if piece.half else "")


def fold_words(piece: Piece) -> str:
    """Return what is written along the fold of a half."""
    if piece.foldable:
        return "lay this edge on the fold of the cloth; half is shown"
    return "middle of the panel: chalk this half, turn the paper over here, chalk the other"


def wearer_words(spec: Spec) -> str:
    """Return who the pattern is for: the label, the size, or both."""
    return ", ".join(
        part
        for part in (spec.wearer.label, f"size {spec.wearer.size}" if spec.wearer.size else "")
        if part
    )


def edition_words(spec: Spec) -> str:
    """Return the edition and its date, as far as the sheet gives them."""
    publish = spec.publish
    return ", ".join(
        part
        for part in (f"edition {publish.edition}" if publish.edition else "", publish.date)
        if part
    )


def label_words(piece: Piece, spec: Spec, *, number: int, of: int) -> tuple[str, ...]:
    """Return the lines of a piece's label under its name; pieces are numbered as in the list."""
    lines = [
        f"piece {number} of {of}: {cut_words(piece)}",
        allowance_words(piece, spec.units),
        ", ".join(part for part in (spec.title, wearer_words(spec)) if part),
        ", ".join(part for part in (edition_words(spec), "full scale") if part),
    ]
    return (*lines, *piece.notes)
