"""The words printed on pieces and in the cut list, in the language spoken.

Imports the piece, units and the language.
"""

from collections.abc import Iterator

from drafting.geometry import bounds, point_along
from drafting.graded_sheet import sizes_words
from drafting.language import clauses, headed, said_later, say
from drafting.piece import Edge, EdgeKind, FoldWay, InnerKind, Piece, cutting_box, stitching_line
from drafting.piece_names import cloth_words, kind_words
from drafting.spec import Spec
from drafting.units import Mm, Units, length_text
from drafting.waist_part import CUT_OFF, is_shortened


def cut_words(piece: Piece, spec: Spec) -> str:
    """Return how many to cut, from what, and how: "cut 2 from skirt cloth, a mirrored pair"."""
    cloth = _cloth_words(piece.cloth, spec)
    told = [say("cut {count} from {cloth}", count=piece.count, cloth=cloth)]
    if piece.mirrored:
        told.append(say("a mirrored pair"))
    for name, count in piece.also:
        told.append(say("and {count} from {cloth}", count=count, cloth=_cloth_words(name, spec)))
    if piece.half:
        told.append(say((_EACH_HALF if piece.count > 1 else _HALF)[piece.fold_way]))
    return ", ".join(told)


def _cloth_words(name: str, spec: Spec) -> str:
    cloth = getattr(spec.cloths, name)
    return cloth_words(name) + (f" ({kind_words(cloth.kind)})" if cloth.kind else "")


_HALF = {
    FoldWay.NONE: said_later("whole from this half: no fold of the cloth can take it"),
    FoldWay.LENGTHWISE: said_later("on a lengthwise fold, selvage laid to selvage"),
    FoldWay.CROSSWISE: said_later("on a crosswise fold, cut end laid to cut end"),
}
_EACH_HALF = {
    FoldWay.NONE: said_later("each whole from this half: no fold of the cloth can take it"),
    FoldWay.LENGTHWISE: said_later("each on a lengthwise fold, selvage laid to selvage"),
    FoldWay.CROSSWISE: said_later("each on a crosswise fold, cut end laid to cut end"),
}

_EDGES = {
    "waist": said_later("waist"),
    "waist_inside": said_later("waist"),
    "upper": said_later("upper edge"),
    "gathered": said_later("gathered edge"),
    "join": said_later("joins"),
    "lower": said_later("lower edge"),
    "end": said_later("ends"),
    "inner": said_later("inner edge"),
}

_OWN_NAMES = {
    "edge": said_later("edge"),
    "long edges": said_later("long edges"),
    "bag": said_later("bag"),
    "opening": said_later("opening"),
    "top": said_later("top"),
    "side": said_later("side"),
    "hem": said_later("hem"),
    "pieced": said_later("pieced edge"),
    "panel_seam": said_later("panel seam"),
    "centre_back": said_later("centre back"),
    "centre_front": said_later("centre front"),
    "left_side": said_later("left side"),
    "right_side": said_later("right side"),
}
"""What edges are called that need a name of their own: all others are a piece's seams."""


def _own_name(edge: Edge) -> str:
    """Return what an edge alone is called, in the language spoken."""
    known = _EDGES.get(edge.name) or _OWN_NAMES.get(edge.name)
    return say(known) if known else edge.words or edge.name.replace("_", " ")


def allowance_words(piece: Piece, units: Units) -> str:
    """Return which allowances lie inside the cutting line: "included: seams 1.5 cm, …"."""
    named = _allowances(piece)
    if is_shortened(piece):
        # The hem's is told with its length: it is chalked on the cloth.
        told = [_width_words(name, wide, units) for name, wide in named.items() if name != _hem()]
        included = [say("included: {edges}", edges=", ".join(told))]
        if piece.half:
            included.append(say("none at the fold"))
        return clauses(included)
    if not any(named.values()):
        return say("no allowances included: the stitching line is the cutting line")
    if len(set(named.values())) == 1 and len(named) > 1:
        return say(
            "included: {width} all round", width=length_text(next(iter(named.values())), units)
        )
    given = [_width_words(name, width, units) for name, width in named.items() if width]
    without = [say("none at the {edge}", edge=name) for name, width in named.items() if not width]
    if piece.half:
        chalked = piece.fold_way is FoldWay.NONE
        without.append(say("none at the middle") if chalked else say("none at the fold"))
    return clauses((say("included: {edges}", edges=", ".join(given)), *without))


def _width_words(name: str, width: Mm, units: Units) -> str:
    return f"{name} {length_text(width, units)}"


def _hem() -> str:
    return say("hem")


def _allowances(piece: Piece) -> dict[str, Mm]:
    """Return the widths outside a piece's edges by their names, like ones under one name."""
    named: dict[str, Mm] = {}
    for edge in piece.edges:
        if edge.name == CUT_OFF:
            continue
        if edge.kind is EdgeKind.HEM:
            named[_hem()] = edge.allowance
        elif edge.kind is EdgeKind.RAW:
            named[edge.words or _own_name(edge)] = 0.0
        elif edge.kind is EdgeKind.SEAM:
            name = say(_EDGES[edge.name]) if edge.name in _EDGES else say("seams")
            if edge.name == "hem":
                name = say("lower edge") if edge.goes_on else _hem()
            if named.get(name, edge.allowance) != edge.allowance:
                name = _own_name(edge)  # two seams of different widths
            named[name] = edge.allowance
    return named


def fold_words(piece: Piece) -> tuple[str, ...]:
    """Return what is written along the fold of a half, and the same in one word."""
    if piece.fold_way is FoldWay.NONE:
        return (
            say("middle of the panel: chalk this half, turn the paper over here, chalk the other"),
            say("middle: turn the paper over here"),
            say("middle"),
        )
    return (
        say("lay this edge on the fold of the cloth; half is shown"),
        say("on the fold"),
        say("fold"),
    )


CHECK = said_later("stitching lines on this paper")
"""How the line begins that tells what to measure on the taped pattern."""


def is_check(line: str) -> bool:
    """Tell whether a line of a label is the one that tells what to measure."""
    return line.startswith(say(CHECK))


def check_words(piece: Piece, units: Units) -> str:
    """Return the true lengths of two stitching lines, to be measured on the taped pattern."""
    named = {edge.name: edge for edge in piece.edges}
    round_ = next((name for name in ("waist", "inner") if name in named), "")
    straight = next((edge for edge in piece.edges if edge.kind is EdgeKind.SEAM), None)
    if not round_ or straight is None or piece.rectangle:
        return ""
    told = [_width_words(say(_EDGES[round_]), named[round_].length, units)]
    if not is_shortened(piece):
        told.append(_width_words(say("straight edge"), straight.length, units))
    return headed(say(CHECK), ", ".join(told))


def marks_words(piece: Piece, units: Units) -> str:
    """Return where the marks of a rectangle lie, for a rule and chalk; of others, gathers alone.

    Measured on the stitching line: along it from its left end, down it from its upper edge.
    """
    if not piece.rectangle:
        # Drawn on the paper; along a short curve there is no room to say how far from the edge.
        drawn = (line.words for line in piece.inner_lines if line.kind is InnerKind.GATHERING)
        return clauses(dict.fromkeys(drawn))
    told = []
    for name, marks in _marks(piece).items():
        listed = dict.fromkeys(
            f"{length_text(along, units)} {words}" for along, words in sorted(marks)
        )
        of_them = ", ".join(listed)
        if name is None:
            told.append(
                say(
                    "marks on the side edges, down from the upper stitching line: {marks}",
                    marks=of_them,
                )
            )
        else:
            told.append(
                say(
                    "marks on the {edge}, along its stitching line from the left: {marks}",
                    edge=name,
                    marks=of_them,
                )
            )
    return clauses((*told, *dict.fromkeys(_gathering_words(piece, units))))


def _marks(piece: Piece) -> dict[str | None, list[tuple[Mm, str]]]:
    """Return where a rectangle's marks lie and what they are, by their edge; None for its sides."""
    box = bounds(stitching_line(piece))
    rows: dict[str | None, list[tuple[Mm, str]]] = {}
    for notch in piece.notches:
        edge = piece.edges[notch.edge]
        here = point_along(edge.path, notch.at)
        seam = say("seam {number}", number=notch.seam) if notch.seam else say("a mark")
        words = notch.words or seam
        if abs(edge.path[0].start.y - edge.path[-1].end.y) >= 1e-6:
            rows.setdefault(None, []).append((box.top - here.y, words))
            continue
        known = _EDGES.get(edge.name)
        name = say(known) if known else edge.words or edge.name
        if notch.seam:
            name = say("{edge} (seam {number})", edge=name, number=notch.seam)
        rows.setdefault(name, []).append((here.x - box.left, words))
    for dot in piece.dots:
        edge = piece.edges[0 if abs(dot.at.x - box.left) < 1e-6 else 2]
        place = f" ({edge.words})" if edge.name.endswith(("side", "back")) else ""
        rows.setdefault(None, []).append((box.top - dot.at.y, dot.words + place))
    return rows


def _gathering_words(piece: Piece, units: Units) -> Iterator[str]:
    """Yield where each gathering row of a rectangle lies, from the raw edge it is drawn up at."""
    top = cutting_box(piece).top
    for line in piece.inner_lines:
        if line.kind is InnerKind.GATHERING:
            down = length_text(top - line.path[0].start.y, units)
            yield say("{row}, {down} from the raw edge", row=line.brief, down=down)


def wearer_words(spec: Spec) -> str:
    """Return who the pattern is for: the label, the size, or both; or the sizes it comes in."""
    if spec.publish.sizes:
        return sizes_words(spec.publish.sizes)
    size = say("size {size}", size=spec.wearer.size) if spec.wearer.size else ""
    return ", ".join(part for part in (spec.wearer.label, size) if part)


def made_for(spec: Spec) -> str:
    """Return who the pattern is for, or the waist that it fits if the sheet names nobody."""
    waist = length_text(spec.wearer.waist, spec.units)
    return wearer_words(spec) or say("for a waist of {waist}", waist=waist)


def edition_words(spec: Spec) -> str:
    """Return the edition and its date, as far as the sheet gives them."""
    publish = spec.publish
    edition = say("edition {edition}", edition=publish.edition) if publish.edition else ""
    return ", ".join(part for part in (edition, publish.date) if part)


def label_words(piece: Piece, spec: Spec, *, number: int, of: int) -> tuple[str, ...]:
    """Return the lines of a piece's label under its name; pieces are numbered as in the list."""
    # A paper that shows half says so here too: along a short fold there is only room for "fold".
    told = [*([say("half is shown")] if piece.half else []), cut_words(piece, spec)]
    lines = [
        say("piece {number} of {count}: {told}", number=number, count=of, told=", ".join(told)),
        allowance_words(piece, spec.units),
        check_words(piece, spec.units),
        *piece.notes,
        ", ".join(part for part in (spec.title, made_for(spec), edition_words(spec)) if part),
        say("right side of the cloth up, scale 1 : {scale}", scale=1 if spec.scale == 1 else 2),
    ]
    return tuple(line for line in lines if line)
