"""The words printed on pieces and in the cut list. Imports the piece and units."""

from collections.abc import Iterator

from drafting.geometry import bounds, point_along
from drafting.piece import EdgeKind, FoldWay, InnerKind, Piece, cutting_box, stitching_line
from drafting.spec import Spec
from drafting.units import Units, length_text
from drafting.waist_part import CUT_OFF, is_shortened


def cut_words(piece: Piece, spec: Spec) -> str:
    """Return how many to cut, from what, and how: "cut 2 from skirt cloth, a mirrored pair"."""
    words = f"cut {piece.count} from {_cloth_words(piece.cloth, spec)}"
    if piece.mirrored:
        words += ", a mirrored pair"
    for name, count in piece.also:
        words += f", and {count} from {_cloth_words(name, spec)}"
    if piece.half:
        each = "each " if piece.count > 1 else ""
        words += ", " + each + _HALVES[piece.fold_way]
    return words


def _cloth_words(name: str, spec: Spec) -> str:
    cloth = getattr(spec.cloths, name)
    called = name if name in ("interfacing", "binding") else f"{name} cloth"
    return called + (f" ({cloth.kind})" if cloth.kind else "")


_HALVES = {
    FoldWay.NONE: "whole from this half: no fold of the cloth can take it",
    FoldWay.LENGTHWISE: "on a lengthwise fold, selvage laid to selvage",
    FoldWay.CROSSWISE: "on a crosswise fold, cut end laid to cut end",
}

_EDGES = {
    "waist": "waist",
    "waist_inside": "waist",
    "upper": "upper edge",
    "gathered": "gathered edge",
    "join": "joins",
    "lower": "lower edge",
    "end": "ends",
    "inner": "inner edge",
}


def allowance_words(piece: Piece, units: Units) -> str:
    """Return which allowances lie inside the cutting line: "included: seams 1.5 cm, …"."""
    named: dict[str, float] = {}
    for edge in piece.edges:
        if edge.name == CUT_OFF:
            continue
        if edge.kind is EdgeKind.HEM:
            named["hem"] = edge.allowance
        elif edge.kind is EdgeKind.RAW:
            named[edge.words or edge.name] = 0.0
        elif edge.kind is EdgeKind.SEAM:
            name = _EDGES.get(edge.name, "seams")
            if edge.name == "hem":
                name = "lower edge" if edge.goes_on else "hem"
            if named.get(name, edge.allowance) != edge.allowance:
                name = edge.name.replace("_", " ")  # two seams of different widths
            named[name] = edge.allowance
    if is_shortened(piece):
        # The hem's is told with its length: it is chalked on the cloth.
        named = {name: width for name, width in named.items() if name != "hem"}
        told = ", ".join(f"{name} {length_text(width, units)}" for name, width in named.items())
        return f"included: {told}" + ("; none at the fold" if piece.half else "")
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


CHECK = "stitching lines on this paper"
"""How the line begins that tells what to measure on the taped pattern."""


def check_words(piece: Piece, units: Units) -> str:
    """Return the true lengths of two stitching lines, to be measured on the taped pattern."""
    named = {edge.name: edge for edge in piece.edges}
    round_ = next((name for name in ("waist", "inner") if name in named), "")
    straight = next((edge for edge in piece.edges if edge.kind is EdgeKind.SEAM), None)
    if not round_ or straight is None or piece.rectangle:
        return ""
    curved = length_text(named[round_].length, units)
    if is_shortened(piece):
        return f"{CHECK}: {_EDGES[round_]} {curved}"
    return (
        f"{CHECK}: {_EDGES[round_]} {curved}, straight edge {length_text(straight.length, units)}"
    )


def marks_words(piece: Piece, units: Units) -> str:
    """Return where the marks of a rectangle lie, for a rule and chalk; of others, gathers alone.

    Measured on the stitching line: along it from its left end, down it from its upper edge.
    """
    if not piece.rectangle:
        # Drawn on the paper; along a short curve there is no room to say how far from the edge.
        drawn = (line.words for line in piece.inner_lines if line.kind is InnerKind.GATHERING)
        return "; ".join(dict.fromkeys(drawn))
    box = bounds(stitching_line(piece))
    rows: dict[str, list[tuple[float, str]]] = {}
    for notch in piece.notches:
        edge = piece.edges[notch.edge]
        here = point_along(edge.path, notch.at)
        words = notch.words or (f"seam {notch.seam}" if notch.seam else "a mark")
        level = abs(edge.path[0].start.y - edge.path[-1].end.y) < 1e-6
        along = here.x - box.left if level else box.top - here.y
        name = _EDGES.get(edge.name, edge.words or edge.name) if level else "side edges"
        if level and notch.seam:
            name = f"{name} (seam {notch.seam})"
        rows.setdefault(name, []).append((along, words))
    for dot in piece.dots:
        edge = piece.edges[0 if abs(dot.at.x - box.left) < 1e-6 else 2]
        place = f" ({edge.words})" if edge.name.endswith(("side", "back")) else ""
        rows.setdefault("side edges", []).append((box.top - dot.at.y, dot.words + place))
    parts = []
    for name, marks in rows.items():
        listed = dict.fromkeys(
            f"{length_text(along, units)} {words}" for along, words in sorted(marks)
        )
        start = (
            "down from the upper stitching line"
            if name == "side edges"
            else ("along its stitching line from the left")
        )
        parts.append(f"marks on the {name}, {start}: {', '.join(listed)}")
    return "; ".join((*parts, *dict.fromkeys(_gathering_words(piece, units))))


def _gathering_words(piece: Piece, units: Units) -> Iterator[str]:
    """Yield where each gathering row of a rectangle lies, from the raw edge it is drawn up at."""
    top = cutting_box(piece).top
    for line in piece.inner_lines:
        if line.kind is InnerKind.GATHERING:
            down = length_text(top - line.path[0].start.y, units)
            yield f"{line.brief}, {down} from the raw edge"


def wearer_words(spec: Spec) -> str:
    """Return who the pattern is for: the label, the size, or both."""
    return ", ".join(
        part
        for part in (spec.wearer.label, f"size {spec.wearer.size}" if spec.wearer.size else "")
        if part
    )


def made_for(spec: Spec) -> str:
    """Return who the pattern is for, or the waist that it fits if the sheet names nobody."""
    return wearer_words(spec) or f"for a waist of {length_text(spec.wearer.waist, spec.units)}"


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
    # A paper that shows half says so here too: along a short fold there is only room for "fold".
    shown = "half is shown, " if piece.half else ""
    lines = [
        f"piece {number} of {of}: {shown}{cut_words(piece, spec)}",
        allowance_words(piece, spec.units),
        check_words(piece, spec.units),
        *piece.notes,
        ", ".join(part for part in (spec.title, made_for(spec), edition_words(spec)) if part),
        "right side of the cloth up, scale 1 : " + ("1" if spec.scale == 1 else "2"),
    ]
    return tuple(line for line in lines if line)
