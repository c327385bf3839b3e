"""The booklet's pages for the cutting table: cut list, lay plans, seams and marks.

Imports the making, the words of pieces, the lay picture and the booklet's values.
"""

from collections.abc import Iterator

from drafting.cloth.lays import Lay
from drafting.figures import SeamFigures
from drafting.geometry import Box, bounds
from drafting.language import clauses, decimal, listed, say
from drafting.piece import InnerKind, Piece, cutting_line
from drafting.piece_names import cloth_words, piece_words, seam_words
from drafting.units import Mm
from render.booklet.making import Making
from render.booklet.model import Block, Paragraph, Section, Table
from render.lay_picture import LayPicture, PictureError, lay_picture
from render.lay_words import along_text
from render.pictures.picture import TALL, WIDE, Picture
from render.words import cut_words, marks_words

LOW: Mm = 72.0
"""Two lay plans of this height stand on a page, each with its caption."""

EVEN = 0.05
"""Millimetres: two seam lines that differ by less are the same length."""


def cutting(making: Making, pieces: Picture | None) -> Section:
    """Return the cut list, the lay plans, and what is sewn to what."""
    blocks: list[Block] = [Paragraph(words=_numbers(making))]
    if pieces is not None:
        blocks.append(pieces)
    blocks.append(_list(making))
    blocks += _lays(making)
    blocks.append(
        Section(name="seams", title=say("Seams and marks"), blocks=(_seams(making), _marks(making)))
    )
    return Section(name="cutting", title=say("Cutting"), blocks=tuple(blocks))


def _numbers(making: Making) -> str:
    """Return where the numbers of pieces stand, and what tells of their allowances."""
    if making.on_paper and making.cloth:
        return say(
            "Pieces have the same numbers on the paper, in this list and on the lay plans. All"
            " allowances are inside the heavy line; how wide they are stands on each piece."
        )
    if making.on_paper:
        return say(
            "Pieces have the same numbers on the paper and in this list. All allowances are inside"
            " the heavy line; how wide they are stands on each piece."
        )
    if making.cloth:
        return say(
            "Pieces have the same numbers in this list and on the lay plans. The printed card tells"
            " how each is chalked and how wide its allowances are."
        )
    return say("The printed card tells how each piece is chalked and how wide its allowances are.")


def _list(making: Making) -> Table:
    return Table(
        caption=say("Cut list"),
        heads=(say("no."), say("piece"), say("cut"), say("to draw by rule")),
        rows=tuple(
            (str(number), piece_words(piece.name), cut_words(piece, making.spec),
             _by_rule(making, piece))
            for number, piece in enumerate(making.pattern.pieces, start=1)
        ),
    )  # fmt: skip


def _by_rule(making: Making, piece: Piece) -> str:
    if not piece.rectangle:
        return "–"
    box = bounds(cutting_line(piece))
    return say("{long} × {deep}", long=making.long(box.width), deep=making.long(box.height))


def _lays(making: Making) -> Iterator[Block]:
    if making.cloth is None:
        return
    pictures = [picture for lay in making.cloth.lays if (picture := _lay(making, lay))]
    if not pictures:
        return
    yield Section(
        name="lays",
        title=say("Lay plans"),
        blocks=(
            Paragraph(
                words=say(
                    "Drawn on the cloth opened out, selvages above and below. The lay plans in"
                    " their own file list where each piece lies."
                )
            ),
            *pictures,
        ),
    )


def _lay(making: Making, lay: Lay) -> Picture | None:
    if not lay.laid:
        return None
    drawn = _drawn(making, lay)
    if drawn is None:
        return None
    names = [piece_words(shape.piece.name) for shape in lay.shapes]
    return Picture(
        name=f"lay-{lay.name}",
        drawing=drawn.drawing,
        box=Box(left=0.0, bottom=0.0, right=drawn.width, top=drawn.height),
        caption=say(
            "{cloth}: {long} of cloth, {usable} between its selvages, drawn 1 : {scale}.",
            cloth=cloth_words(lay.name),
            long=along_text(lay.length, making.units),
            usable=making.long(lay.usable),
            scale=drawn.scale,
        ),
        alt=say(
            "Lay plan of the {cloth}. On {long} of cloth with {usable} between its selvages lie:"
            " {names}.",
            cloth=cloth_words(lay.name),
            long=along_text(lay.length, making.units),
            usable=making.long(lay.usable),
            names=listed(names),
        ),
    )


def _drawn(making: Making, lay: Lay) -> LayPicture | None:
    """Return a lay drawn so that two stand on a page, or on one by itself if it is too small so."""
    for height in (LOW, TALL):
        try:
            return lay_picture(lay, making.spec, width=WIDE, height=height)
        except PictureError:
            continue
    return None


def _seams(making: Making) -> Table:
    return Table(
        caption=say("What is sewn to what: seam lines, in the garment all round"),
        heads=(say("seam"), say("what"), say("one edge"), say("the other"), say("how")),
        rows=tuple(
            (
                seam.number,
                seam_words(seam.seam),
                making.long(seam.first),
                making.long(seam.second),
                _how(making, seam),
            )
            for seam in making.pattern.figures.truing
        ),
        figures=(2, 3),
    )


GATHERED = 1.05
"""From this ratio on an edge is gathered; below it, it is eased or stretched a little."""

STRETCHED: Mm = 0.5
"""What an edge stretches by less than this is not told."""


def _how(making: Making, seam: SeamFigures) -> str:
    """Return what becomes of the difference of two edges: first = gather x second + ease."""
    told = []
    if seam.gather >= GATHERED:
        told.append(say("gathered {ratio} to 1", ratio=decimal(f"{seam.gather:.3g}")))
    lap = abs(seam.ease) / (seam.gather if seam.ease < 0 else 1)
    if lap > EVEN:
        told.append(say("{long} of it laps over or is joined", long=making.long(lap)))
    stretched = seam.second - lap - seam.first
    if seam.gather < GATHERED and stretched > STRETCHED:
        told.append(say("the cut edge stretches by {long}", long=making.little(round(stretched))))
    return ", ".join(told) or say("edge to edge")


def _marks(making: Making) -> Table:
    return Table(
        caption=say("What is marked on each piece"),
        heads=(say("no."), say("piece"), say("marks")),
        rows=tuple(
            (str(number), piece_words(piece.name), _marked(making, piece))
            for number, piece in enumerate(making.pattern.pieces, start=1)
        ),
    )


def _marked(making: Making, piece: Piece) -> str:
    """Return a piece's marks; those of one that is drawn by rule with their distances."""
    told = marks_words(piece, making.units) if piece.rectangle else ""
    return told or clauses(marks(piece)) or "–"


def marks(piece: Piece) -> Iterator[str]:
    """Yield what is marked on a piece, as it is written there: notches, dots, lines."""
    numbers = dict.fromkeys(notch.seam for notch in piece.notches if notch.seam)
    if numbers:
        yield say("notches of seam {numbers}", numbers=listed(list(numbers)))
    places = dict.fromkeys(notch.words for notch in piece.notches if notch.words)
    if places:
        yield say("places: {places}", places=", ".join(places))
    yield from dict.fromkeys(dot.words for dot in piece.dots if dot.words)
    for line in piece.inner_lines:
        if line.kind is InnerKind.RUFFLE_LINE:
            yield line.words
    rows = [line for line in piece.inner_lines if line.kind is InnerKind.GATHERING]
    if rows:
        yield say("gathering rows") if len(rows) > 1 else rows[0].words
    if any(line.kind is InnerKind.FOLD_LINE for line in piece.inner_lines):
        yield say("fold line")
