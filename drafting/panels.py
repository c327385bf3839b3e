"""The panels of a layer as pieces, whatever the cut: one builder for every outline.

Millimetres and radians. A cut says how its panels are shaped and how long the layer is round
the body; here they get names, allowances, notches, the ruffle's line and the opening. Panels
that are all alike are one piece; those that differ are in ``differing``. Imports geometry,
outline, piece, places and the spec's words.
"""

from drafting.differing import differing_panels
from drafting.geometry import path_length
from drafting.outline import Cut, Outline, outline_of
from drafting.panel_marks import (
    balance_notches,
    check_room,
    dot_at,
    edge_name,
    gathering_rows,
    grainline,
    hem_middle,
    is_rectangle,
    panel_edges,
    seam_marks,
    side_dots,
)
from drafting.panel_wishes import PanelWishes
from drafting.piece import Dot, Edge, FoldWay, InnerKind, InnerLine, Notch, NotchKind, Piece
from drafting.places import (
    PANEL_SEAM,
    STROKES,
    either,
    first_seam,
    place_name,
    place_words,
    places_on_panel,
    seam_names,
)


def layer_pieces(cut: Cut, wishes: PanelWishes) -> tuple[Piece, ...]:
    """Return the pieces of one layer: one for panels that are all alike, else one for each kind.

    Raises:
        GeometryError: a panel cannot be drawn at these measures.
    """
    if cut.alike:
        return (panel(cut, wishes),)
    return differing_panels(cut, wishes)


def panel(cut: Cut, wishes: PanelWishes) -> Piece:
    """Return the one pattern piece that all panels of a layer are cut from.

    With two panels the straight edges have names of their own and the pair is mirrored; with
    more, every panel is alike and so are its two edges.

    Raises:
        GeometryError: the panel is a whole circle or more, or its allowances overlap.
    """
    check_room(cut, wishes)
    begin = first_seam(cut.panels, wishes.closure)
    wide = 1 / cut.panels / (2 if wishes.half else 1)
    shape = outline_of(cut, begin, begin + wide)
    names = _alike_names(cut, wishes)
    words = [either(_alike_words(cut, wishes, name)) for name in names]
    edges = panel_edges(
        shape,
        wishes,
        (edge_name(names[0]), words[0]),
        None if wishes.half else (edge_name(names[1]), words[1]),
    )
    return Piece(
        name=f"{wishes.part} {wishes.shape}",
        edges=edges,
        grainline=grainline(shape, wishes, half=wishes.half),
        cloth=wishes.part,
        count=cut.panels,
        mirrored=cut.panels == 2 and not wishes.half,
        half=wishes.half,
        fold_way=wishes.fold_way if wishes.half else FoldWay.NONE,
        rectangle=is_rectangle(shape) and not wishes.half,
        notches=_alike_notches(cut, wishes, edges),
        inner_lines=(
            *_alike_ruffle_line(cut, wishes, begin, wide),
            *gathering_rows(shape, wishes),
        ),
        dots=(*_alike_dots(cut, wishes, shape), *side_dots(shape, wishes, edges, cut)),
        notes=wishes.notes,
    )


def _alike_names(cut: Cut, wishes: PanelWishes) -> tuple[str, str]:
    names = seam_names(cut.panels, wishes.closure)
    if cut.panels == 1:
        return names[0], names[0]
    if cut.panels == 2 and not wishes.half:
        return names[0], names[1]
    return PANEL_SEAM, PANEL_SEAM


def _alike_words(cut: Cut, wishes: PanelWishes, name: str) -> tuple[str, ...]:
    """Return what a straight edge may be; half a panel stands for both its edges."""
    if cut.panels == 2 and wishes.half:
        return seam_names(2, wishes.closure)
    return (name,)


def _alike_notches(cut: Cut, wishes: PanelWishes, edges: tuple[Edge, ...]) -> tuple[Notch, ...]:
    sides = (0,) if wishes.half else (0, 2)
    found: list[Notch] = []
    # Both edges are one and the same seam: counted from one length, whatever the last bits.
    long = edges[0].length
    rows = (balance_notches(side, long, wishes.seam, wishes.godet) for side in sides)
    for pair in zip(*rows, strict=True):
        found += pair
    twice = 2 if wishes.half else 1
    waist, hem = edges[3].length, edges[1].length
    for place in places_on_panel(cut.panels, wishes.closure, half=wishes.half):
        same = {STROKES[name] for name in place.names}
        plain = len(same) == 1 and place.panels == cut.panels
        # The waist edge runs from the panel's far side back to its first edge.
        marks = [(3, max(waist - place.share * waist * twice, 0.0), wishes.waist_seam)]
        if wishes.hem_seam and wishes.hem_quarters:
            marks.append((1, min(place.share * hem * twice, hem), wishes.hem_seam))
        found += [
            Notch(
                edge=edge,
                at=at,
                kind=NotchKind.PLACE if plain and edge == 3 else NotchKind.BALANCE,
                strokes=STROKES[place.names[0]] if plain and edge == 3 else 1,
                seam=seam,
                words=place_words(place, cut.panels),
            )
            for edge, at, seam in marks
        ]
    return (*found, *hem_middle(wishes, hem, half=wishes.half))


def _alike_ruffle_line(
    cut: Cut, wishes: PanelWishes, begin: float, wide: float
) -> tuple[InnerLine, ...]:
    if wishes.ruffle_line is None:
        return ()
    path = cut.line_above_hem(cut.length - wishes.ruffle_line, begin, begin + wide)
    drawn = path_length(path)
    whole = drawn * (2 if wishes.half else 1)
    shares = [p.share for p in places_on_panel(cut.panels, wishes.closure, half=wishes.half)]
    if all(place_name(begin + k / cut.panels) for k in range(cut.panels)):
        # Every seam lies at a quarter of the body, so its own end of the line is a mark too.
        shares += [0.0, 1.0]
    ticks = sorted({s * whole for s in shares if s * whole <= drawn + 1e-9})
    return (
        InnerLine(
            kind=InnerKind.RUFFLE_LINE,
            path=path,
            words=wishes.ruffle_words,
            shorter=wishes.ruffle_name,
            ticks=tuple(ticks),
        ),
    )


def _alike_dots(cut: Cut, wishes: PanelWishes, shape: Outline) -> tuple[Dot, ...]:
    one_named = cut.panels == 1 or (cut.panels == 2 and not wishes.half)
    sides = [0] if cut.panels == 2 or wishes.half else [0, 2]
    return tuple(
        dot
        for below, words in seam_marks(wishes, alike=not one_named)
        for side in sides
        for dot in [dot_at(shape, side, below, words)]
    )
