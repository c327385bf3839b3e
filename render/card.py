"""A card: no pieces, one page with every radius, length and strip for tape, rule and chalk.

Millimetres in the page's frame. Everything stands on one page: type is set as large as it can
be, never under 8 points; pictures shrink, and what is least needed is left out and named. The
cautions never are: a page that has no room for them is refused.
Imports drafting's values and the renderers of its parts.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from drafting.cautions import cautions
from drafting.chalked import (
    LengthAt,
    Swung,
    flat_curves,
    measured,
    side_names,
    swung,
    widths,
)
from drafting.cloth import is_bias_strip
from drafting.findings import Level
from drafting.geometry import Box, Point, distance, straight
from drafting.language import (
    clauses,
    decimal,
    headed,
    in_its_language,
    listed,
    said_later,
    say,
    say_as,
    say_counted,
)
from drafting.pattern import Pattern
from drafting.piece import FoldWay, Piece, cutting_box
from drafting.piece_names import piece_words
from drafting.units import MM_PER_INCH, Mm, Units, length_text, radius_text
from render import fonts, style
from render.card_picture import picture, picture_size, place_texts
from render.drawing import Drawing
from render.imprint import imprint_of, set_code
from render.measures import LONGEST_RADIUS, layer_words, measures_by_part
from render.paper import PaperError
from render.setting import Setting
from render.words import allowance_words, edition_words, made_for

SIZES: tuple[Mm, ...] = (4.2, 3.8, style.BODY, style.SMALL, style.NOTE)
PICTURES = (0.4, 0.36, 0.33, 0.3, 0.27)
SMALL_PICTURES = (0.24, 0.21, 0.18)
"""Sizes of type, and heights of the pictures as shares of the page's, those to wish for first."""


DROPS = said_later("drops on the bias")
BEFORE = said_later("what to do before you cut")
PARTS = said_later("how each part is sewn")
PICTURED = said_later("the pictures")
SWING = said_later("how to swing an arc")
"""What a full card lacks, by the name it is then told under; the least needed first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """How a card is set.

    Attributes:
        size: of its type.
        picture: height of its pictures, as a share of the page's.
        left_out: blocks that it lacks.
        coded: the code of the page's address stands beside the title.
        drawn: the pictures are drawn, not only given their room.
    """

    size: Mm
    picture: float
    left_out: tuple[str, ...]
    coded: bool
    drawn: bool = False


@in_its_language
def card(pattern: Pattern, window: Box) -> Drawing:
    """Return the card of a pattern, drawn in a page's window.

    Raises:
        PaperError: the window is too small for what a card must hold, its cautions among it.
    """
    # A card of many parts may have no room left for the code; then its address in words must do.
    imprint = imprint_of(pattern.spec)
    coded = imprint is not None and imprint.code is not None
    try:
        way = _best_way(pattern, window, coded=coded)
    except PaperError:
        if not coded:
            raise
        way = _best_way(pattern, window, coded=False)
    (page,) = _set(pattern, window, replace(way, drawn=True)).pages()
    return page


def _best_way(pattern: Pattern, window: Box, *, coded: bool) -> _Way:
    """Return the most generous way that fits one page: all blocks, then large type, then pictures.

    Pictures of a size of type that does not fit with the smallest are not tried larger; where
    they must be small, they come before large type. Without pictures there may again be room for
    blocks.

    Raises:
        PaperError: none fits.
    """
    optional = _optional(pattern)
    if _panels(pattern):
        for left_out in _ever_more(optional):
            for size in SIZES:
                ways = [
                    _Way(size=size, picture=share, left_out=left_out, coded=coded)
                    for share in PICTURES
                ]
                if _fits(pattern, window, ways[-1]):
                    return next(way for way in ways if _fits(pattern, window, way))
            if SWING in optional and SWING not in left_out:
                # A picture that tells which side is which goes before what is rarely swung.
                continue
            for share in SMALL_PICTURES:
                for size in SIZES[2:]:
                    way = _Way(size=size, picture=share, left_out=left_out, coded=coded)
                    if _fits(pattern, window, way):
                        return way
    bare = (PICTURED,) if _panels(pattern) else ()
    last = (SWING,) if _swings_panels(pattern) else ()
    for left_out in _ever_more((*optional, *last)):
        for size in SIZES[2:] if bare else SIZES:
            way = _Way(size=size, picture=0.0, left_out=(*left_out, *bare), coded=coded)
            if _fits(pattern, window, way):
                return way
    raise PaperError(
        f"the margins leave {window.width:.0f} by {window.height:.0f} mm of the paper, and no room"
        " for a card of this garment with its cautions; take narrower margins, a larger paper or"
        ' scope = "waist"'
    )


def _ever_more(names: Sequence[str]) -> list[tuple[str, ...]]:
    return [tuple(names[:count]) for count in range(len(names) + 1)]


def _optional(pattern: Pattern) -> list[str]:
    """Return those blocks of this card that may be left out beside pictures."""
    parts = {part for part, _, _ in _sewing(pattern)}
    found = {
        # Of less use where the tape swings for a facing or a waist alone.
        SWING: _swings(pattern) and not _swings_panels(pattern),
        DROPS: "bias" in parts,
        BEFORE: any(finding.level is not Level.NOTE for finding in pattern.findings),
        PARTS: bool(parts - _NEEDED - {"bias"}),
    }
    return [name for name, there in found.items() if there]


def _fits(pattern: Pattern, window: Box, way: _Way) -> bool:
    return len(_set(pattern, window, way).pages()) == 1


def _set(pattern: Pattern, window: Box, way: _Way) -> Setting:
    page = Setting(window=window, inset=0.0)
    _title(page, pattern, way)
    _pictures(page, pattern, way)
    _arcs(page, pattern, way)
    _uneven(page, pattern, way)
    _only_on_paper(page, pattern, way)
    _strips(page, pattern, way)
    _sewn(page, pattern, way)
    _how(page, pattern, way)
    _care(page, pattern, way)
    return page


def _title(page: Setting, pattern: Pattern, way: _Way) -> None:
    spec, publish = pattern.spec, pattern.spec.publish
    top = page.y
    side = set_code(page, imprint_of(spec)) if way.coded else 0.0
    width = page.width - side
    # What a card cannot do without goes before a large title too.
    size = style.HEADING if PICTURED in way.left_out else style.TITLE
    while size > 5.5 and fonts.width(spec.title, size, bold=True) > width:
        size -= 0.5
    page.paragraph(spec.title, size=size, bold=True, width=width, after=0.0)
    scale = say("half scale, 1 : 2") if spec.scale < 1 else ""
    parts = (made_for(spec), scale, edition_words(spec), publish.maker, publish.licence)
    facts = "  ·  ".join(part for part in (*parts, publish.page) if part)
    page.paragraph(facts, size=style.SMALL, width=width, after=0.4)
    page.paragraph(
        say(
            "Every measure to chalk this pattern on the cloth with a tape, a rule and a set square;"
            " no pieces are printed. “Sew” is a stitching line, “cut” a cutting line."
        ),
        size=style.SMALL,
        width=width,
        after=0.6,
    )
    page.y = min(page.y, top - side)


# --- pictures ------------------------------------------------------------------------------


def _panels(pattern: Pattern) -> list[Piece]:
    """Return the first panel of each layer that is no rectangle: those that are shown."""
    found: dict[str, Piece] = {}
    for piece in pattern.pieces:
        names = {edge.name for edge in piece.edges}
        if not piece.rectangle and {"waist", "hem"} <= names:
            found.setdefault(piece.cloth, piece)
    return list(found.values())


def _pictures(page: Setting, pattern: Pattern, way: _Way) -> None:
    panels = _panels(pattern)
    if not panels or not way.picture:
        return
    gap = 6.0
    wide = (page.width - gap * (len(panels) - 1)) / len(panels)
    most = way.picture * page.window.height
    sizes = [picture_size(piece, pattern.spec, wide, most) for piece in panels]
    captions = [fonts.wrapped(_caption(piece), style.NOTE, wide - 2) for piece in panels]
    high = max(deep for _, deep in sizes)
    lines = max(map(len, captions)) * style.NOTE * style.LEADING
    page.need(high + lines + 3)
    top = page.y
    for k, (piece, (broad, deep), caption) in enumerate(zip(panels, sizes, captions, strict=True)):
        left = page.left + k * (wide + gap)
        if way.drawn:
            drawing = picture(piece, pattern.spec, wide, most)
            page.put(drawing, left + (wide - broad) / 2, top - (high + deep) / 2)
        for row, words in enumerate(caption, start=1):
            y = top - high - row * style.NOTE * style.LEADING + 0.8
            page.line(words, left + 1, y, size=style.NOTE)
    page.y = top - high - lines - 1.5


_SINGLE = said_later("on single cloth")
_FOLDS = {
    FoldWay.CROSSWISE: said_later("on a crosswise fold, cut end laid to cut end"),
    FoldWay.LENGTHWISE: said_later("on a lengthwise fold, selvage laid to selvage"),
}


def _caption(piece: Piece) -> str:
    if _is_twice(piece):
        how = say(
            "half of it on single cloth: chalk it, then its mirror image beyond its middle line"
        )
    else:
        how = say(_FOLDS.get(piece.fold_way, _SINGLE))
    arcs = swung(piece)
    told = [f"{piece_words(piece.name)}, {how}"]
    if arcs is not None and arcs.outer < LONGEST_RADIUS:
        if arcs.angle > 0.69:
            told.append(say("the tape is held at the ringed cross"))
    elif measured(piece):
        told.append(say("lengths from the waist line to the hem line"))
    return clauses(told)


# --- what is chalked -----------------------------------------------------------------------


def _heading(page: Setting, words: str) -> None:
    page.need(10.0)
    page.y -= 1.6
    page.draw(straight(Point(page.left, page.y), Point(page.window.right, page.y)))
    page.y -= 4.6
    page.line(words, page.left, page.y, size=4.2, bold=True)
    page.y -= 1.4


def _sectors(pattern: Pattern) -> list[tuple[Piece, Swung]]:
    return [
        (piece, arcs)
        for piece in pattern.pieces
        for arcs in [swung(piece)]
        if arcs is not None and arcs.outer < LONGEST_RADIUS
    ]


def _angle(piece: Piece, arcs: Swung) -> str:
    drawn = math.degrees(arcs.angle)
    half, whole = (decimal(f"{angle:.4g}") for angle in (drawn, 2 * drawn))
    if not arcs.half:
        return f"{half}°"
    if _is_twice(piece):
        return say("{whole}°, as {half}° twice", whole=whole, half=half)
    return say("{whole}°, folded {half}°", whole=whole, half=half)


def _is_twice(piece: Piece) -> bool:
    """Tell whether a piece is a half that no fold of the cloth takes."""
    return piece.half and piece.fold_way is FoldWay.NONE


def _is_square(arcs: Swung) -> bool:
    """Tell whether a set square or one straight line draws the angle."""
    return _is_right(arcs.angle)


def _is_right(angle: float) -> bool:
    return any(abs(angle - k * math.pi / 2) < 1e-6 for k in (1, 2))


def _heads() -> tuple[str, ...]:
    return (
        "", _to_cut(), say("angle"), say("inner arc: cut"), say("inner: sew"),
        say("outer arc: sew"), say("outer: cut"), say("sides"), say("chord"),
    )  # fmt: skip


def _to_cut() -> str:
    """Return the head of a column that says how many are cut."""
    return say_as("how many", "cut")


def _arcs(page: Setting, pattern: Pattern, way: _Way) -> None:
    sectors = _sectors(pattern)
    if not sectors:
        return
    units = pattern.spec.units
    _heading(page, say("Arcs to swing"))
    rows = [_heads(), *(_arc_row(piece, arcs, units) for piece, arcs in sectors)]
    rows += _ruffle_row(pattern)
    _columns(page, rows, way.size)
    notes = [say("Sides: allowance outside each straight side; none at a fold or a middle line.")]
    if any(_is_twice(piece) for piece, _ in sectors):
        notes.append(
            say(
                "Twice: no fold takes it; chalk one half, then its mirror image beyond its middle"
                " line."
            )
        )
    if any(not arcs.inner for _, arcs in sectors):
        notes.append(say("Where there is no inner arc, the sides to sew meet in the centre."))
    if any(arcs.half and not _is_square(arcs) for _, arcs in sectors):
        notes.append(
            say(
                "Chord: straight across the outermost line to sew, from side to side as it is"
                " chalked, of a half from its fold or middle line; set it off with the tape to"
                " find the second side."
            )
        )
    elif any(not _is_square(arcs) for _, arcs in sectors):
        notes.append(
            say(
                "Chord: straight across the outermost line to sew, from side to side as it is"
                " chalked; set it off with the tape to find the second side."
            )
        )
    page.paragraph(" ".join(notes), size=max(way.size - 0.3, style.NOTE), after=0.4)


def _count(piece: Piece) -> str:
    """Return how often a piece is cut, of its own cloth and of others that line it."""
    return ", ".join([f"{piece.count}×", *_also(piece)])


def _also(piece: Piece) -> list[str]:
    return [
        say("and {count} from {cloth}", count=count, cloth=layer_words(cloth))
        for cloth, count in piece.also
    ]


def _arc_row(piece: Piece, arcs: Swung, units: Units) -> tuple[str, ...]:
    def radius(of: Mm) -> str:
        return radius_text(of, units) if of else "–"

    chord = length_text(arcs.chord, units)
    if arcs.half:
        chord = say("{length} of half", length=chord)
    return (
        piece_words(piece.name),
        _count(piece),
        _angle(piece, arcs),
        radius(arcs.inner_cut),
        # An edge that is only neatened is no stitching line.
        "–" if arcs.inner_raw else radius(arcs.inner),
        "–" if arcs.outer_raw else radius(arcs.outer),
        radius(arcs.outer_cut),
        length_text(arcs.side, units) if arcs.side else "–",
        "–" if _is_square(arcs) else chord,
    )


def _ruffle_row(pattern: Pattern) -> list[tuple[str, ...]]:
    """Return the line that the ruffle is sewn to, where it is an arc of the lining."""
    ruffle, lining = pattern.figures.ruffle, pattern.figures.lining
    if ruffle is None or ruffle.line_radius is None or lining is None:
        return []
    if not any(piece.cloth == "lining" for piece, _ in _sectors(pattern)):
        return []
    shown = radius_text(ruffle.line_radius, pattern.spec.units)
    return [(say("ruffle's line"), "", say("on lining"), "", "", shown, "", "", "")]


GAP: Mm = 3.2
"""Between two columns of a table."""


def _width(rows: Sequence[tuple[str, ...]], size: Mm) -> Mm:
    """Return how wide a table is set whose first row is its heads."""
    return math.fsum(_column_widths(rows, size, _used(rows))) - GAP


def _used(rows: Sequence[tuple[str, ...]]) -> list[int]:
    """Return the columns that hold anything below their heads."""
    return [k for k in range(len(rows[0])) if any(row[k] not in ("", "–") for row in rows[1:])]


def _column_widths(rows: Sequence[tuple[str, ...]], size: Mm, used: Sequence[int]) -> list[Mm]:
    return [
        max(fonts.width(row[k], size, bold=order == 0 or k == 0) for order, row in enumerate(rows))
        + GAP
        for k in used
    ]


def _columns(page: Setting, rows: Sequence[tuple[str, ...]], size: Mm) -> None:
    """Set a table in columns as wide as they need; or, on a narrow page, a line for each row."""
    while size > style.NOTE and _width(rows, size) > page.width:
        size = max(size - 0.1, style.NOTE)
    used = _used(rows)
    each = _column_widths(rows, size, used)
    if math.fsum(each) - GAP > page.width:
        for row in rows[1:]:
            if not row[0]:
                page.paragraph("".join(row), size=style.NOTE, after=0.4)
                continue
            told = [
                f"{head} {value}".strip()
                for head, value in zip(rows[0][1:], row[1:], strict=True)
                if value not in ("", "–")
            ]
            page.paragraph(headed(row[0], clauses(told)), size=style.NOTE, after=0.4)
        return
    stretch = min((page.width - math.fsum(each) + GAP) / max(len(used) - 1, 1), 4.0)
    # Where type is smallest for want of room, rows close up as far as lines of a paragraph.
    deep = size * (1.5 if size > style.NOTE else style.LEADING)
    for order, row in enumerate(rows):
        page.need(deep)
        page.y -= deep
        x = page.left
        for k, wide in zip(used, each, strict=True):
            if row[k]:
                bold = order == 0 or k == 0
                page.line(row[k], x, page.y + size * 0.4, size=size, bold=bold)
            x += wide + stretch
        if order == 0:
            page.draw(straight(Point(page.left, page.y), Point(page.window.right, page.y)))
            page.y -= 0.5
    page.y -= 0.8


def _uneven(page: Setting, pattern: Pattern, way: _Way) -> None:
    """Set tables of the lengths of panels that differ round the body, like places together."""
    groups: dict[tuple[str, ...], list[tuple[Piece, Sequence[LengthAt]]]] = {}
    units = pattern.spec.units
    for piece in pattern.pieces:
        if places := measured(piece):
            groups.setdefault(place_texts(places, units), []).append((piece, places))
    if not groups:
        return
    _heading(
        page,
        say("Lengths that differ, in cm, from the waist line to the hem line")
        if units is Units.CM
        else say("Lengths that differ, in inches, from the waist line to the hem line"),
    )
    ends: list[str] = []
    for group in groups.values():
        # Where a row has no room for both its sides, the last is told below.
        both = _uneven_rows(group, units)
        if _width(both, max(way.size - 0.7, style.NOTE)) <= page.width:
            _columns(page, both, way.size)
        else:
            _columns(page, [row[:-2] for row in both], way.size)
            ends += [_ends(piece, units) for piece, _ in group]
    said: dict[str, list[str]] = {}
    for piece in (piece for group in groups.values() for piece, _ in group):
        said.setdefault(_uneven_words(piece, units), []).append(piece_words(piece.name))
    for words, names in said.items():
        told = headed(", ".join(names), words)
        page.paragraph(told, size=max(way.size - 0.3, style.NOTE), after=0.2)
    pieces = [piece for group in groups.values() for piece, _ in group]
    for note in (*([clauses(ends) + "."] if ends else []), _set_off(pieces, units)):
        page.paragraph(note, size=max(way.size - 0.3, style.NOTE), after=0.4)


def _uneven_rows(
    group: Sequence[tuple[Piece, Sequence[LengthAt]]], units: Units
) -> list[tuple[str, ...]]:
    """Return the table of panels measured at like places, each with both its sides named."""
    places = group[0][1]
    heads = place_texts(places, units)
    rows = [
        (
            "",
            say("{place} is", place=heads[0]),
            *heads,
            say("{place} is", place=heads[-1]),
            say("across hem"),
        )
    ]
    turned = places[0].turn is not None
    if turned:
        rows.append(
            (say("along the waist"), "", *(_number(p.along, units) for p in places), "", "")
        )
    for piece, lengths in group:
        first, last = side_names(piece)
        told = (_number(place.length, units) for place in lengths)
        rows.append((piece_words(piece.name), first, *told, last, _across_hem(piece, units)))
        starts = [place.start for place in lengths]
        if turned and max(starts) - min(starts) > 0.01:
            radii = (_bare(radius_text(start, units)) for start in starts)
            rows.append((say("its waist radius"), "", *radii, "", ""))
    return rows


def _across_hem(piece: Piece, units: Units) -> str:
    """Return the straight line between the sides that finds the last; none for a set square's."""
    turn = measured(piece)[-1].turn
    if turn is None or _is_right(turn):
        return ""
    hem = piece.edges[1].path
    return length_text(distance(hem[0].start, hem[-1].end), units)


def _ends(piece: Piece, units: Units) -> str:
    """Return which sides a panel's first and last place are: "0° = centre back … 90° = …"."""
    first, last = side_names(piece)
    places = place_texts(measured(piece), units)
    words = f"{piece_words(piece.name)}: {places[0]} = {first} … {places[-1]} = {last}"
    if across := _across_hem(piece, units):
        return f"{words}, " + say("{length} straight across hem", length=across)
    return words


def _set_off(pieces: Sequence[Piece], units: Units) -> str:
    """Return how the places of panels are set off: which way round, and from where."""
    turned = {measured(piece)[0].turn is not None for piece in pieces}
    told = []
    if True in turned:
        told.append(
            say(
                "With the right side of the cloth up, angles turn against the clock about the"
                " centre, from the side at 0°; or set the places off as lengths along the waist"
                " line."
            )
        )
    if any(_across_hem(piece, units) for piece in pieces):
        told.append(say("Across hem: straight from side to side on the hem line."))
    if turned == {True, False}:
        told.append(
            say(
                "Where the sides hang side by side, places are lengths along the waist line from"
                " the side at 0, which is on your left with the waist away from you."
            )
        )
    elif False in turned:
        told.append(
            say(
                "With the right side of the cloth up, where the sides hang side by side, places"
                " are lengths along the waist line from the side at 0, which is on your left with"
                " the waist away from you."
            )
        )
    if any(piece.mirrored for piece in pieces):
        told.append(say("The second of a mirrored pair runs the other way round."))
    told.append(say("Measure from the waist line to the hem, mark, and join the marks by hand."))
    return " ".join(told)


def _number(length: Mm, units: Units) -> str:
    """Return a length without its unit, for a table that names it once."""
    return _bare(length_text(length, units))


def _bare(words: str) -> str:
    return words.rpartition("\u00a0")[0]


def _uneven_words(piece: Piece, units: Units) -> str:
    """Return how often a panel is cut, its one radius if it has one, and its allowances."""
    told = [say_counted("cut {count}", "cut {count}", piece.count)]
    if piece.mirrored:
        told.append(say("a mirrored pair"))
    told += _also(piece)
    if piece.half:
        twice = _is_twice(piece)
        told.append(
            say("half of it and its mirror image") if twice else say("half of it on a fold")
        )
    words = ", ".join(told)
    places = measured(piece)
    starts, ends = [p.start for p in places], [p.end for p in places]
    if places[0].turn is not None and max(starts) - min(starts) < 0.01:
        radius = radius_text(starts[0], units)
        words = clauses((words, say("waist radius {radius} to sew", radius=radius)))
    if places[0].turn is not None and max(ends) - min(ends) < 0.01:
        radius = radius_text(ends[0], units)
        words = clauses((words, say("hem radius {radius} to sew", radius=radius)))
    return f"{words}. {_outside(piece, units)}"


def _outside(piece: Piece, units: Units) -> str:
    sides, hem, waist = (length_text(piece.edges[k].allowance, units) for k in (0, 1, 3))
    return say(
        "Allowances outside: sides {sides}, hem {hem}, waist {waist}.",
        sides=sides,
        hem=hem,
        waist=waist,
    )


def _only_on_paper(page: Setting, pattern: Pattern, way: _Way) -> None:
    """Tell of pieces that no tape can draw, with their widths for checking where there are any."""
    units = pattern.spec.units
    flat, drawn, shaped = [], [], []
    for piece in pattern.pieces:
        arcs = swung(piece)
        if piece.rectangle or measured(piece) or (arcs and arcs.outer < LONGEST_RADIUS):
            continue
        found = widths(piece)
        if arcs:
            flat.append((piece, arcs))
        elif found is not None:
            shaped.append((piece, found))
        else:
            drawn.append(piece)
    _flat(page, flat, units, way)
    if not (drawn or shaped):
        return
    _heading(page, say("Other shapes"))
    if shaped:
        rows = [_width_row(piece, found, units) for piece, found in shaped]
        _columns(page, [_width_heads(), *rows], way.size)
    if shaped:
        page.paragraph(
            say(
                "The sides of {pieces} curve over the hip and cannot be drawn with a tape. Print"
                ' them: scope = "waist" under [print] takes a few pages.',
                pieces=listed([piece_words(piece.name) for piece, _ in shaped]),
            ),
            size=way.size,
            bold=True,
            after=0.5,
        )
    if drawn:
        page.paragraph(
            say(
                'No tape draws {pieces}: print it with scope = "whole" and --piece.',
                pieces=listed([piece_words(piece.name) for piece in drawn]),
            ),
            size=way.size,
            bold=True,
            after=0.5,
        )


def _flat(page: Setting, pieces: Sequence[tuple[Piece, Swung]], units: Units, way: _Way) -> None:
    """Set the curves of pieces whose radii are too long to swing, each beside a straight line."""
    if not pieces:
        return
    _heading(page, say("Curves too flat to swing"))
    rows = [
        _flat_heads(),
        *(row for piece, arcs in pieces for row in _flat_rows(piece, arcs, units)),
    ]
    _columns(page, rows, way.size)
    words = say(
        "Chalk the straight line of the upper edge; off it, square, set the rises in its middle and"
        " at a quarter from either end, towards the hem, and curve through the marks. From the"
        " curve's middle measure down to the next curve's; its straight line is parallel to the"
        " first, middle to middle. Allowances outside."
    )
    if any(piece.half for piece, _ in pieces):
        words += " " + say("Of a half, chalk from its middle: half of each.")
    page.paragraph(words, size=max(way.size - 0.3, style.NOTE), after=0.4)


def _flat_heads() -> tuple[str, ...]:
    return (
        "", _to_cut(), say("radius"), say("along the seam"), say("straight across"),
        say("rise: middle"), say("at a quarter"), say("down the middle"), say("allowance"),
    )  # fmt: skip


def _flat_rows(piece: Piece, arcs: Swung, units: Units) -> Iterator[tuple[str, ...]]:
    """Yield a row for the inner and one for the outer curve, and one for the sides."""
    curves = flat_curves(arcs)
    outside = (arcs.inner - arcs.inner_cut, arcs.outer_cut - arcs.outer)
    down = length_text(arcs.outer - arcs.inner, units)
    for k, (curve, allowance) in enumerate(zip(curves, outside, strict=True)):
        found = (curve.arc, curve.across, curve.middle, curve.quarter)
        yield (
            say("{piece}, upper edge", piece=piece_words(piece.name))
            if k == 0
            else say("lower edge"),
            _count(piece) if k == 0 else "",
            radius_text(curve.radius, units),
            *(length_text(length, units) for length in found),
            down if k == 0 else "",
            length_text(allowance, units) if allowance else "–",
        )
    side = length_text(arcs.side, units) if arcs.side else "–"
    yield (say("sides"), "", "", "", "", "", "", down, side)


def _width_heads() -> tuple[str, ...]:
    return (
        "", _to_cut(), say("straight across the waist"), say("the hem"), say("down the middle"),
        say("allowances: sides"), say("hem"), say("waist"),
    )  # fmt: skip


def _width_row(piece: Piece, found: tuple[Mm, Mm, Mm], units: Units) -> tuple[str, ...]:
    allowed = (piece.edges[k].allowance for k in (0, 1, 3))
    return (
        piece_words(piece.name),
        _count(piece),
        *(length_text(length, units) for length in found),
        *(length_text(width, units) if width else "–" for width in allowed),
    )


def _strips(page: Setting, pattern: Pattern, way: _Way) -> None:
    pieces = [piece for piece in pattern.pieces if piece.rectangle]
    if not pieces:
        return
    units = pattern.spec.units
    _heading(page, say("Strips and rectangles, as cut"))
    for named in (True, False):
        heads = (
            "", _to_cut(), say_as("side of a strip", "long"), say_as("side of a strip", "wide"),
            say_as("cloth", "from"), say("allowances included"),
        )  # fmt: skip
        rows: list[tuple[str, ...]] = [heads]
        for piece in pieces:
            rows.append(_strip_row(piece, units, named=named))
            # On a line below: beside it, the names of allowances would have no room.
            rows += [("", "", "", "", more, "") for more in _also(piece)]
        if _width(rows, max(way.size - 0.7, style.NOTE)) <= page.width:
            break
    _columns(page, rows, way.size)


def _strip_row(piece: Piece, units: Units, *, named: bool) -> tuple[str, ...]:
    box = cutting_box(piece)
    (ax, ay), (bx, by) = piece.grainline
    along = box.width if abs(bx - ax) > abs(by - ay) else box.height
    grain = say("{length} along the grain", length=length_text(along, units))
    if is_bias_strip(piece):
        grain = say("on the bias")
    # The column's head says already that they are included.
    included, _, _ = say("included: {edges}").partition("{edges}")
    allowed = allowance_words(piece, units).removeprefix(included)
    if not any(edge.allowance for edge in piece.edges):
        allowed = say("none")
    return (
        piece_words(piece.name),
        f"{piece.count}×",
        length_text(box.width, units),
        length_text(box.height, units),
        f"{layer_words(piece.cloth)}, {grain}",
        allowed if named else _allowed(piece, units),
    )


def _allowed(piece: Piece, units: Units) -> str:
    found = list(dict.fromkeys(edge.allowance for edge in piece.edges))
    if not any(found):
        return say("none")
    return listed([length_text(width, units) for width in found if width])


_NEEDED = frozenset({"ruffle", "opening", "skirt", "lining"})


def _sewing(pattern: Pattern) -> list[tuple[str, str, str]]:
    """Return the part, the name and the words of every measure that is no radius."""
    rows = []
    for one in measures_by_part(pattern):
        if one.part in ("skirt", "lining"):
            rows.append((one.part, one.name, _short(pattern, one.part)))
        elif one.part == "band" and pattern.figures.band is not None:
            continue  # it stands among the strips
        elif one.part == "wash":
            rows.append((one.part, say("wash"), one.words))
        elif one.part != "cloth":
            rows.append((one.part, one.name, one.words))
    return rows


def _sewn(page: Setting, pattern: Pattern, way: _Way) -> None:
    """Set the garment's measures that are no radius: the ruffle, the opening, band and hem."""
    rows = [
        (name, words)
        for part, name, words in _sewing(pattern)
        if part in _NEEDED or (DROPS if part == "bias" else PARTS) not in way.left_out
    ]
    _heading(page, say("Sewn"))
    widest = max(fonts.width(name, way.size, bold=True) for name, _ in rows)
    page.table(rows, first=max(20.0, widest + GAP), size=way.size)
    if BEFORE not in way.left_out:
        for finding in pattern.findings:
            if finding.level is not Level.NOTE:
                page.paragraph(
                    f"{finding.what} {finding.do}".strip(), size=way.size, bold=True, after=0.5
                )
    if way.left_out:
        page.paragraph(
            say(
                "Left out here for want of room: {blocks}. A larger paper may have it; all numbers"
                " are in the figures file and in hemsweep figures.",
                blocks=", ".join(say(block) for block in way.left_out),
            ),
            size=style.NOTE,
            after=0.4,
        )


def _short(pattern: Pattern, name: str) -> str:
    """Return a layer's girths in a line."""
    figures, units = pattern.figures, pattern.spec.units
    layer = figures.skirt if name == "skirt" else figures.lining
    assert layer is not None
    return say(
        "flat waist seam {length}, sewn to {waist}; sweep {sweep}",
        length=length_text(layer.waistline, units),
        waist=length_text(figures.waist.finished, units),
        sweep=length_text(layer.sweep, units),
    )


def _swings(pattern: Pattern) -> bool:
    """Tell whether a tape is swung for anything: for a sector, or for a waist or hem alone."""
    turned = any(p.turn is not None for piece in pattern.pieces for p in measured(piece)[:1])
    return turned or bool(_sectors(pattern))


def _swings_panels(pattern: Pattern) -> bool:
    """Tell whether a tape is swung for any of the panels shown."""
    return any(piece in _panels(pattern) for piece, _ in _sectors(pattern))


def _how(page: Setting, pattern: Pattern, way: _Way) -> None:
    if not _swings(pattern) or SWING in way.left_out:
        return
    _heading(page, say("How to swing an arc"))
    fullness = pattern.figures.skirt.fullness
    units = pattern.spec.units
    swing = (
        say(
            "2  Have the tape's end held on the centre, or pin it there. Swing the tape taut, chalk"
            " a dash every few centimetres at each radius to cut, and join the dashes."
        )
        if units is Units.CM
        else say(
            "2  Have the tape's end held on the centre, or pin it there. Swing the tape taut, chalk"
            " a dash every few inches at each radius to cut, and join the dashes."
        )
    )
    trim = say(
        "4  Mark the middle of each waist and hem. Cut the waist last and small, try, then trim."
    )
    if fullness is not None and units is Units.CM:
        trim += " " + say(
            "A millimetre of waist radius is {length} mm of this skirt's waist.",
            length=decimal(f"{math.tau * fullness:.1f}"),
        )
    elif fullness is not None:
        trim += " " + say(
            "⅛\u00a0in of waist radius is {length} of this skirt's waist.",
            length=length_text(math.tau * fullness * MM_PER_INCH / 8, units),
        )
    for words in (
        say(
            "1  Lay the cloth as it is drawn, fold or selvage straight, and weigh it down. Mark the"
            " centre on it, farther from each end than the longest radius."
        ),
        swing,
        say(
            "3  Draw the straight sides from the centre, by the fold, a set square or the chord,"
            " and their allowance outside."
        ),
        trim,
    ):
        page.paragraph(words, size=way.size, after=0.3)


def _care(page: Setting, pattern: Pattern, way: _Way) -> None:
    _heading(page, say("Take care"))
    page.paragraph(" ".join(cautions(pattern.spec)), size=style.NOTE, after=0.0)
