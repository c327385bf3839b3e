"""Reads lines and words out of a DXF file, pair by pair, with the standard library alone.

Knows nothing of how the file was written: a DXF is a list of group codes and values (DXF
reference, release 12). Whatever entity it does not know makes it fail.
"""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, field

PACE = 1.0
"""Arcs are walked in straight runs of about this length."""

Spot = tuple[float, float]
Pair = tuple[int, str]


@dataclass(frozen=True, slots=True)
class Line:
    """One polyline: its points with arcs walked, and the greatest bulge it holds."""

    layer: str
    points: tuple[Spot, ...]
    closed: bool
    steepest: float
    line_type: str


@dataclass(frozen=True, slots=True)
class Words:
    layer: str
    text: str
    begin: Spot
    end: Spot
    height: float
    angle: float


@dataclass(frozen=True, slots=True)
class Insert:
    block: str
    at: Spot
    degrees: float


@dataclass(slots=True)
class Block:
    name: str
    lines: list[Line] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)

    def on(self, layer: str) -> list[Line]:
        return [line for line in self.lines if line.layer == layer]


@dataclass(slots=True)
class Sheet:
    comments: list[str]
    header: dict[str, list[Pair]]
    layers: list[str]
    dashes: dict[str, list[float]]
    blocks: dict[str, Block]
    inserts: list[Insert]


def read(data: bytes) -> Sheet:
    """Return what a file holds; names of blocks that a program keeps for itself are left out."""
    rows = data.decode("ascii").split("\r\n")
    assert rows.pop() == ""
    pairs = [(int(code), value) for code, value in zip(rows[::2], rows[1::2], strict=True)]
    sheet = Sheet([value for code, value in pairs if code == 999], {}, [], {}, {}, [])
    pairs = [pair for pair in pairs if pair[0] != 999]
    assert pairs[-1] == (0, "EOF")
    for name, section in _sections(pairs[:-1]):
        if name == "HEADER":
            sheet.header = _header(section)
        elif name == "TABLES":
            for entity in _entities(section):
                if entity[0] == (0, "LAYER"):
                    sheet.layers.append(_one(entity, 2))
                elif entity[0] == (0, "LTYPE"):
                    sheet.dashes[_one(entity, 2)] = [float(v) for c, v in entity if c == 49]
        elif name == "BLOCKS":
            _read_blocks(sheet, section)
        else:
            assert name == "ENTITIES"
            for entity in _entities(section):
                assert entity[0] == (0, "INSERT"), "something lies outside of every block"
                at, turn = _spot(entity, 10), float(_one(entity, 50, "0"))
                assert not {41, 42, 43} & {code for code, _ in entity}, "a block is scaled"
                sheet.inserts.append(Insert(_one(entity, 2), at, turn))
    return sheet


def _sections(pairs: list[Pair]) -> Iterator[tuple[str, list[Pair]]]:
    held: list[Pair] = []
    for pair in pairs:
        if pair == (0, "ENDSEC"):
            assert held[0] == (0, "SECTION")
            yield held[1][1], held[2:]
            held = []
        else:
            held.append(pair)
    assert not held


def _header(pairs: list[Pair]) -> dict[str, list[Pair]]:
    found: dict[str, list[Pair]] = {}
    for code, value in pairs:
        if code == 9:
            found[value] = []
        else:
            found[list(found)[-1]].append((code, value))
    return found


def _entities(pairs: list[Pair]) -> Iterator[list[Pair]]:
    entity: list[Pair] = []
    for pair in pairs:
        if pair[0] == 0 and entity:
            yield entity
            entity = []
        entity.append(pair)
    if entity:
        yield entity


def _one(entity: list[Pair], code: int, default: str | None = None) -> str:
    found = [value for held, value in entity if held == code]
    if not found and default is not None:
        return default
    return found[0]


def _spot(entity: list[Pair], code: int) -> Spot:
    return float(_one(entity, code)), float(_one(entity, code + 10))


def _read_blocks(sheet: Sheet, section: list[Pair]) -> None:
    block = Block("")
    entities = _entities(section)
    for entity in entities:
        kind = entity[0][1]
        if kind == "BLOCK":
            block = Block(_one(entity, 2))
            assert _spot(entity, 10) == (0, 0)
        elif kind == "ENDBLK":
            if not block.name.startswith("$"):
                assert block.name not in sheet.blocks
                sheet.blocks[block.name] = block
        elif kind == "TEXT":
            block.words.append(_words(entity))
        else:
            assert kind == "POLYLINE", kind
            vertices = list(itertools.takewhile(lambda e: e[0] != (0, "SEQEND"), entities))
            block.lines.append(_line(entity, vertices))


def _words(entity: list[Pair]) -> Words:
    assert _one(entity, 72) == "5", "set between two ends"
    return Words(
        layer=_one(entity, 8),
        text=_one(entity, 1),
        begin=_spot(entity, 10),
        end=_spot(entity, 11),
        height=float(_one(entity, 40)),
        angle=float(_one(entity, 50, "0")),
    )


def _line(entity: list[Pair], vertices: list[list[Pair]]) -> Line:
    closed = bool(int(_one(entity, 70)) & 1)
    held = [(_spot(v, 10), float(_one(v, 42, "0"))) for v in vertices]
    assert all(v[0] == (0, "VERTEX") for v in vertices)
    points = [held[0][0]]
    for (one, bulge), (other, _) in itertools.pairwise([*held, held[0]] if closed else held):
        points += _walk(one, other, bulge)
    return Line(
        layer=_one(entity, 8),
        points=tuple(points),
        closed=closed,
        steepest=max(abs(bulge) for _, bulge in held),
        line_type=_one(entity, 6, "BYLAYER"),
    )


def _walk(one: Spot, other: Spot, bulge: float) -> list[Spot]:
    """Return points from one vertex to the next; a bulge is the tangent of a quarter sweep."""
    assert abs(bulge) <= 1.000001, "more than half a turn"
    if bulge == 0:
        return [other]
    sweep = 4 * math.atan(bulge)
    chord = math.dist(one, other)
    radius = chord / 2 / math.sin(abs(sweep) / 2)
    # The centre lies on the chord's middle line, to the left for a turn against the clock.
    off = chord / 2 / math.tan(sweep / 2)
    ux, uy = (other[0] - one[0]) / chord, (other[1] - one[1]) / chord
    cx = (one[0] + other[0]) / 2 - uy * off
    cy = (one[1] + other[1]) / 2 + ux * off
    begin = math.atan2(one[1] - cy, one[0] - cx)
    steps = max(math.ceil(radius * abs(sweep) / PACE), 8)
    angles = [begin + sweep * k / steps for k in range(1, steps + 1)]
    return [(cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in angles]
