"""A garment in several sizes: divided alike, its findings told once, its pieces in one frame.

Millimetres. Imports the spec, the figures and the piece; shapely for the outline round a nest,
which is loaded where it is drawn.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, replace
from functools import lru_cache
from itertools import pairwise

from drafting.figures import Figures
from drafting.findings import Finding
from drafting.geometry import MEETING, Line, Path, Point, distance, flattened
from drafting.language import listed, say
from drafting.piece import Edge, EdgeKind, FoldWay, Piece, cutting_line, shifted
from drafting.spec import Cloth, Cloths, Spec
from drafting.units import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """One size of a graded garment, drafted by itself."""

    spec: Spec
    figures: Figures
    pieces: tuple[Piece, ...]

    @property
    def panels(self) -> tuple[int, int]:
        """How many panels the skirt has, and the lining."""
        lining = self.figures.lining
        return self.figures.skirt.panels, 0 if lining is None else lining.panels


def divided_alike(drafts: Sequence[Sized]) -> tuple[Spec, ...]:
    """Return the specs of a graded garment, changed so that every size comes in the same pieces.

    Where one size needs more panels for its cloth than another, all are cut in that many, and no
    corner is pieced on in some sizes alone. Specs that need no change are returned themselves.
    """
    specs = tuple(one.spec for one in drafts)
    if len({tuple(piece.name for piece in one.pieces) for one in drafts}) > 1:
        bare = tuple(replace(spec, cloths=_without_piecing(spec.cloths)) for spec in specs)
        if bare != specs:
            return bare
    if len({one.panels for one in drafts}) == 1:
        return specs
    skirt = max(one.panels[0] for one in drafts)
    lining = max(one.panels[1] for one in drafts)
    return tuple(
        replace(
            spec,
            skirt=replace(spec.skirt, panels=skirt),
            lining=replace(spec.lining, panels=lining) if spec.lining else None,
        )
        for spec in specs
    )


def _without_piecing(cloths: Cloths) -> Cloths:
    whole = {}
    for field in fields(cloths):
        cloth: Cloth = getattr(cloths, field.name)
        whole[field.name] = replace(cloth, piecing=False)
    return Cloths(**whole)


def of_every_size(
    found: Sequence[tuple[str, tuple[Finding, ...]]], own: tuple[Finding, ...]
) -> tuple[Finding, ...]:
    """Return the findings of a graded garment, each told once, with the sizes that it holds for.

    Args:
        found: the name of each size with its findings; those of one code are told with the
            numbers of the largest size that has it.
        own: the findings of the sheet itself.
    """
    told: dict[str, tuple[list[str], Finding]] = {}
    for size, findings in found:
        for one in findings:
            sizes, _ = told.get(one.code, ([], one))
            told[one.code] = ([*sizes, *([] if size in sizes else [size])], one)
    every = len(found)
    codes = {one.code for one in own} & told.keys()
    return (
        *(one for one in own if one.code not in codes),
        *(
            one if len(sizes) == every and _same(found, one) else _sized(one, sizes, every)
            for sizes, one in told.values()
        ),
    )


def _same(found: Iterable[tuple[str, tuple[Finding, ...]]], one: Finding) -> bool:
    return all(one in findings for _, findings in found)


def _sized(one: Finding, sizes: list[str], every: int) -> Finding:
    """Return a finding that says for which sizes it holds, and whose numbers it tells."""
    if len(sizes) == 1:
        return replace(one, what=say("Size {size}: {what}", size=sizes[0], what=one.what))
    if len(sizes) == every:
        what = say(
            "In every size, here with the numbers of {size}: {what}", size=sizes[-1], what=one.what
        )
        return replace(one, what=what)
    what = say(
        "Sizes {sizes}, here with the numbers of {size}: {what}",
        sizes=listed(sizes),
        size=sizes[-1],
        what=one.what,
    )
    return replace(one, what=what)


# --- frames --------------------------------------------------------------------------------


def frames(sizes: Sequence[tuple[Piece, ...]]) -> tuple[Piece, ...]:
    """Return a frame for each piece of a graded garment, in the order of the cut list.

    A frame bears the piece's name and the largest size's facts. Its outline, all of it raw, goes
    round the cutting lines of every size as they lie in the piece's own frame, so that whatever
    finds room for it on paper finds room for them all.
    """
    found: dict[str, list[Piece]] = {}
    for pieces in reversed(sizes):  # the largest size's order, then what smaller ones add
        for piece in pieces:
            found.setdefault(piece.name, []).append(piece)
    return tuple(framed(alike[::-1]) for alike in found.values())


MOSTLY = 0.5
"""Pieces of which a common part as large as this share of the smallest lies together are nested."""


@lru_cache(maxsize=256)
def nestled(alike: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return one piece in several sizes as they lie in their nest, the smallest first.

    Mostly that is as they are drafted, about one centre. A narrow ring, such as a facing's, would
    lie beside its neighbours there: such pieces begin at one corner instead.
    """
    from shapely import Polygon, intersection_all

    corners = [piece.edges[0].path[0].start for piece in alike]
    home = corners[-1]
    ways = (
        alike,
        tuple(
            shifted(piece, x=home.x - corner.x, y=home.y - corner.y)
            for piece, corner in zip(alike, corners, strict=True)
        ),
    )
    common = []
    for way in ways:
        shapes = [
            Polygon([(p.x, p.y) for p in flattened(cutting_line(piece))]).buffer(0) for piece in way
        ]
        common.append(intersection_all(shapes).area / min(shape.area for shape in shapes))
        if common[0] >= MOSTLY:
            return alike
    return ways[1] if common[1] > common[0] else alike


def framed(drafted: Sequence[Piece]) -> Piece:
    """Return the frame of one piece in several sizes, the smallest first."""
    alike = nestled(tuple(drafted))
    first = alike[-1]
    outline = Edge(name="outline", path=_round(alike), allowance=0.0, kind=EdgeKind.RAW)
    return Piece(
        name=first.name,
        edges=(outline,),
        grainline=first.grainline,
        cloth=first.cloth,
        count=first.count,
        mirrored=first.mirrored,
        half=first.half,
        fold_way=first.fold_way if len({one.fold_way for one in alike}) == 1 else FoldWay.NONE,
        also=first.also,
        rectangle=first.rectangle,
        notes=tuple(note for note in first.notes if all(note in one.notes for one in alike)),
    )


HAIR: Mm = 0.01
"""So much wider than its pieces a frame is: far less than a line is."""


def _round(alike: Sequence[Piece]) -> Path:
    """Return the outline round the cutting lines of some pieces, counter-clockwise."""
    from shapely import Polygon, union_all
    from shapely.geometry.polygon import orient

    lines = [cutting_line(piece) for piece in alike]
    if all(line == lines[0] for line in lines):
        return lines[0]
    shapes = [
        Polygon([(point.x, point.y) for point in flattened(line, outside=True)]) for line in lines
    ]
    # Lines of two sizes that nearly lie on each other leave slivers; a hair's width closes them.
    whole = union_all([shape.buffer(HAIR) for shape in shapes])
    if whole.geom_type != "Polygon":
        whole = whole.convex_hull
    ring = [Point(x, y) for x, y in orient(Polygon(whole.exterior)).exterior.coords]
    # A side shorter than the least that meets would have no length once it is moved.
    kept = [b for a, b in pairwise(ring) if distance(a, b) > MEETING]
    return tuple(Line(start=a, end=b) for a, b in zip((kept[-1], *kept), kept, strict=False))


def common_ground(alike: Sequence[Piece]) -> tuple[Point, ...]:
    """Return the polygon inside the cutting lines of all of some pieces, for words of them all."""
    from shapely import Polygon, intersection_all

    lines = [flattened(cutting_line(piece)) for piece in alike]
    if all(line == lines[0] for line in lines):
        return lines[0]
    shapes = [Polygon([(point.x, point.y) for point in line]).buffer(0) for line in lines]
    common = intersection_all(shapes)
    largest = max(getattr(common, "geoms", [common]), key=lambda part: float(part.area))
    if largest.geom_type != "Polygon" or largest.is_empty:
        return lines[-1]
    return tuple(Point(x, y) for x, y in largest.exterior.coords[:-1])
