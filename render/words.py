"""The words printed on pieces and in the cut list. Imports the piece and units."""

from drafting.piece import EdgeKind, FoldWay, Piece
from drafting.spec import Spec
from drafting.units import Units, length_text


def cut_words(piece: Piece, spec: Spec) -> str:
    """Return how many to cut, from what, and how: "cut 2 from skirt cloth, a mirrored pair"."""
    cloth = {
        "skirt": spec.cloths.skirt,
        "lining": spec.cloths.lining,
        "ruffle": spec.cloths.ruffle,
    }[piece.cloth]
    named = f"{piece.cloth} cloth" + (f" ({cloth.kind})" if cloth.kind else "")
    words = f"cut {piece.count} from {named}"
    if piece.mirrored:
        words += ", a mirrored pair"
    if piece.half:
        each = "each " if piece.count > 1 else ""
        words += ", " + each + _HALVES[piece.fold_way]
    return words


_HALVES = {
    FoldWay.NONE: "whole from this half: no fold of the cloth can take it",
    FoldWay.LENGTHWISE: "on a lengthwise fold, selvage laid to selvage",
    FoldWay.CROSSWISE: "on a crosswise fold, cut end laid to cut end",
}

_EDGES = {"waist": "waist", "waist_inside": "waist", "gathered": "gathered edge", "join": "joins"}


def allowance_words(piece: Piece, units: Units) -> str:
    """Return which allowances lie inside the cutting line: "included: seams 1.5 cm, …"."""
    named: dict[str, float] = {}
    for edge in piece.edges:
        if edge.kind is EdgeKind.HEM:
            named["hem"] = edge.allowance
        elif edge.kind is EdgeKind.RAW:
            named[edge.words or edge.name] = 0.0
        elif edge.kind is EdgeKind.SEAM:
            named[_EDGES.get(edge.name, "seams")] = edge.allowance
    if not any(named.values()):
        return "no allowances included: the stitching line is the cutting line"
    if len(set(named.values())) == 1 and len(named) > 1:
        return f"included: {length_text(next(iter(named.values())), units)} all round"
    given = [f"{name} {length_text(width, units)}" for name, width in named.items() if width]
    without = [name for name, width in named.items() if not width]
    if piece.half:
        without.append("middle" if piece.fold_way is FoldWay.NONE else "fold")
    return "included: " + ", ".join(given) + "".join(f"; none at the {name}" for name in without)


def fold_words(piece: Piece) -> tuple[str, ...]:
    """Return what is written along the fold of a half, and the same in one word."""
    if piece.fold_way is FoldWay.NONE:
        return (
            "middle of the panel: chalk this half, turn the paper over here, chalk the other",
            "middle: turn the paper over here",
            "middle",
        )
    return "lay this edge on the fold of the cloth; half is shown", "on the fold", "fold"


def check_words(piece: Piece, units: Units) -> str:
    """Return the true lengths of two stitching lines, to be measured on the taped pattern."""
    waist = next((edge for edge in piece.edges if edge.name == "waist"), None)
    straight = next((edge for edge in piece.edges if edge.kind is EdgeKind.SEAM), None)
    if waist is None or straight is None or piece.rectangle:
        return ""
    return (
        f"stitching lines on this paper: waist {length_text(waist.length, units)}, straight edge"
        f" {length_text(straight.length, units)}"
    )


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
        f"piece {number} of {of}: {cut_words(piece, spec)}",
        allowance_words(piece, spec.units),
        check_words(piece, spec.units),
        *piece.notes,
        ", ".join(part for part in (spec.title, wearer_words(spec), edition_words(spec)) if part),
        "right side of the cloth up, scale 1 : 1",
    ]
    return tuple(line for line in lines if line)
