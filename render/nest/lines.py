"""The lines of a nest on the plane: those that sizes share once, and each size's own.

Millimetres and radians. Imports the piece's lines, the placing and the nest's parts.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from drafting.geometry import Box, Path, path_length, stepped
from drafting.language import say
from drafting.piece import EdgeKind, Piece, grain_angle
from drafting.units import Mm
from render import style
from render.drawing import Anchor, Layer, Stroke, Text
from render.nest.names import Ground, Named, cut_out, without_gaps
from render.nest.pens import SHARED, inner_pen, size_pen
from render.nest.shared import Run, shared_runs
from render.piece_drawing import LineKind, PieceLine, own_lines
from render.placement import Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """The lines of some frames on the plane, with the names of sizes in them."""

    strokes: tuple[Stroke, ...]
    texts: tuple[Text, ...]


def nested(
    placements: Sequence[Placement],
    pieces: Mapping[str, Mapping[str, Piece]],
    sizes: Sequence[str],
    *,
    joins: Sequence[Box] = (),
    windows: Sequence[Box] = (),
) -> Nest:
    """Return the lines of nests on the plane.

    Args:
        placements: of the frames.
        pieces: of each frame by its name: its pieces by their sizes.
        sizes: all of them, smallest first; their places choose their pens.
        joins: boxes about the joins between pages, which names keep clear of.
        windows: what the pages show.
    """
    drawn = [
        line
        for placement in placements
        for line in _lines(placement, pieces[placement.piece.name], tuple(sizes))
    ]
    ground = Ground(
        lines=[segment for line in drawn for segment in line.run.path],
        cut=[segment for line in drawn if line.bold for segment in line.run.path],
        joins=joins,
        windows=windows,
    )
    # Names of cutting lines choose first; those of other lines stand where they leave room.
    found: dict[int, list[Named]] = {}
    for k in sorted(range(len(drawn)), key=lambda k: not drawn[k].bold):
        line = drawn[k]
        if line.words:
            found[k] = ground.names_along(
                line.run.path, line.words, bold=line.bold, always=line.bold
            )
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for k, line in enumerate(drawn):
        names = found.get(k, [])
        held = _belongs(line.run.sizes, sizes)
        strokes += [
            replace(line.stroke, path=path, phase=at, sizes=held)
            for path, at in without_gaps(line.run.path, names)
        ]
        grey = line.stroke.pen.grey
        texts += [replace(_text(one, bold=line.bold), sizes=held, grey=grey) for one in names]
    return Nest(strokes=tuple(strokes), texts=tuple(texts))


def _belongs(of: tuple[str, ...], sizes: Sequence[str]) -> tuple[str, ...]:
    """Return the sizes that a line belongs to; none where it belongs to all."""
    return () if len(of) == len(sizes) else of


def _text(named: Named, *, bold: bool) -> Text:
    return Text(
        text=named.words,
        at=stepped(named.at, named.angle - math.pi / 2, style.CAP_HEIGHT * named.size / 2),
        size=named.size,
        angle=named.angle,
        anchor=Anchor.MIDDLE,
        bold=bold,
        layer=Layer.TEXT,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A line of a nest: where it runs and for whom, how it is drawn, what is written in it."""

    run: Run
    stroke: Stroke
    words: tuple[str, ...] = ()
    bold: bool = False


def _lines(
    placement: Placement, pieces: Mapping[str, Piece], sizes: tuple[str, ...]
) -> Iterator[_Drawn]:
    """Yield every line of a nest on the plane, without its gaps."""
    by_kind: dict[tuple[LineKind, Stroke], dict[str, list[Path]]] = {}
    plain: dict[tuple[LineKind, Stroke], Stroke] = {}
    once = _told_once(pieces)
    for size, piece in pieces.items():
        for line in own_lines(piece):
            if line.kind in once and size != once[line.kind]:
                continue
            # Inner lines of one kind have one pen; a pen is what tells them apart.
            key = (line.kind, replace(line.stroke, path=()))
            path = placement.on_plane(_in_a_nest(line))
            by_kind.setdefault(key, {}).setdefault(size, []).append(path)
            plain[key] = line.stroke
    every = tuple(pieces)
    for key, paths in by_kind.items():
        kind = key[0]
        for run in shared_runs(paths):
            found = run if kind not in once else replace(run, sizes=every)
            yield _drawn(kind, found, plain[key], sizes)


NOTCH_LONG: Mm = 3.0
"""A notch's stroke in a nest, from its own cutting line inward: it must not reach the next one."""


def _in_a_nest(line: PieceLine) -> Path:
    """Return a line as it is drawn among those of other sizes."""
    path = line.stroke.path
    if line.kind is LineKind.NOTCH and len(path) == 1:
        begin = style.NOTCH_OUTSIDE
        return cut_out(path, begin, min(begin + NOTCH_LONG, path_length(path)))
    return path


ALIKE = math.radians(0.5)
"""Grainlines that differ by less are one: no one lays cloth so finely."""


def _told_once(pieces: Mapping[str, Piece]) -> dict[LineKind, str]:
    """Return the kinds of lines that one size's serve for all, and whose: the smallest's.

    A grainline tells a direction; the bracket of a fold tells which edge, if all have one there.
    """
    first, *others = pieces.values()
    smallest = next(iter(pieces))
    once = {}
    turned = (grain_angle(one) - grain_angle(first) for one in others)
    if all(abs(math.remainder(by, math.pi)) < ALIKE for by in turned):
        once[LineKind.GRAIN] = smallest
    folds = {
        size: [edge.path for edge in piece.edges if edge.kind is EdgeKind.FOLD]
        for size, piece in pieces.items()
    }
    if any(len(run.sizes) == len(pieces) for run in shared_runs(folds)):
        once[LineKind.FOLD] = smallest
    return once


def _drawn(kind: LineKind, run: Run, stroke: Stroke, sizes: tuple[str, ...]) -> _Drawn:
    own = len(run.sizes) == 1
    if kind is LineKind.CUTTING:
        pen = size_pen(sizes.index(run.sizes[0])) if own else SHARED
        return _Drawn(
            run=run, stroke=replace(stroke, pen=pen), words=_words(run.sizes, sizes), bold=True
        )
    if kind is LineKind.STITCHING:
        pen = size_pen(sizes.index(run.sizes[0]), kind) if own else stroke.pen
        words = run.sizes if own else ()
        return _Drawn(run=run, stroke=replace(stroke, pen=pen), words=words)
    if own and kind is LineKind.INNER:
        return _Drawn(run=run, stroke=replace(stroke, pen=inner_pen(stroke.pen)), words=run.sizes)
    return _Drawn(run=run, stroke=stroke)


def _words(of: tuple[str, ...], sizes: tuple[str, ...]) -> tuple[str, ...]:
    """Return what is written into a cutting line: whose it is, the longest wording first."""
    if len(of) == 1:
        return of
    if len(of) == len(sizes):
        return (say("all sizes"),)
    first = sizes.index(of[0])
    if of == sizes[first : first + len(of)]:
        return (f"{of[0]}–{of[-1]}",)
    return (" ".join(of),)
