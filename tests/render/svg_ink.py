"""Reads lines and words out of an SVG file with the standard library alone.

Knows nothing of how the file was written. Millimetres; y is turned upwards again, so that a
file is held against a draft as it is. Whatever it does not know makes it fail.
"""

import math
import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import dataclass

NAMES = "{http://www.w3.org/2000/svg}"
PACE = 1.0
"""Arcs are walked in straight runs of about this length."""

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """One path: its points, whether it is closed, its pen."""

    points: tuple[Spot, ...]
    closed: bool
    width: float
    dash: tuple[float, ...]
    arcs: int


@dataclass(frozen=True, slots=True)
class Words:
    text: str
    at: Spot
    size: float
    angle: float


@dataclass(frozen=True, slots=True)
class Group:
    """A piece or the test square: lines and words by the name of their layer."""

    ident: str
    title: str
    lines: dict[str, tuple[Line, ...]]
    words: dict[str, tuple[Words, ...]]


@dataclass(frozen=True, slots=True)
class Sheet:
    width: float
    height: float
    title: str
    idents: tuple[str, ...]
    groups: tuple[Group, ...]


def read(data: bytes) -> Sheet:
    """Return what a file holds."""
    root = ElementTree.fromstring(data)
    assert root.tag == f"{NAMES}svg"
    left, top, width, height = (float(n) for n in root.attrib["viewBox"].split())
    assert (left, top) == (0, 0)
    # A unit is a millimetre if the picture is as wide in millimetres as in units.
    assert root.attrib["width"] == f"{root.attrib['viewBox'].split()[2]}mm"
    assert root.attrib["height"] == f"{root.attrib['viewBox'].split()[3]}mm"
    return Sheet(
        width=width,
        height=height,
        title=_title(root),
        idents=tuple(e.attrib["id"] for e in root.iter() if "id" in e.attrib),
        groups=tuple(_group(group, height) for group in root.findall(f"{NAMES}g")),
    )


def _title(element: ElementTree.Element) -> str:
    first = element[0]
    assert first.tag == f"{NAMES}title"
    return first.text or ""


def _group(group: ElementTree.Element, height: float) -> Group:
    lines, words = {}, {}
    assert "transform" not in group.attrib
    for layer in group.findall(f"{NAMES}g"):
        assert "transform" not in layer.attrib
        name = _title(layer)
        assert name not in lines
        lines[name] = tuple(_line(p, height) for p in layer.findall(f"{NAMES}path"))
        words[name] = tuple(_words(t, height) for t in layer.findall(f"{NAMES}text"))
        assert len(layer) == 1 + len(lines[name]) + len(words[name])
    return Group(ident=group.attrib["id"], title=_title(group), lines=lines, words=words)


def _words(text: ElementTree.Element, height: float) -> Words:
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    angle = 0.0
    if "transform" in text.attrib:
        found = re.fullmatch(r"rotate\((\S+) (\S+) (\S+)\)", text.attrib["transform"])
        assert found is not None
        assert (float(found[2]), float(found[3])) == (x, y)
        angle = -float(found[1])
    size = float(text.attrib["font-size"])
    return Words(text=text.text or "", at=(x, height - y), size=size, angle=angle)


def _line(path: ElementTree.Element, height: float) -> Line:
    assert path.attrib["fill"] == "none"
    assert path.attrib["stroke"] == "black"
    assert "transform" not in path.attrib
    points: list[Spot] = []
    closed, arcs = False, 0
    for command, numbers in _commands(path.attrib["d"]):
        assert not closed
        if command == "M":
            assert not points
            points.append((numbers[0], numbers[1]))
        elif command == "L":
            points.append((numbers[0], numbers[1]))
        elif command == "A":
            arcs += 1
            points += _arc(points[-1], numbers)
        else:
            closed = True
            points.append(points[0])
    dash = path.attrib.get("stroke-dasharray", "")
    return Line(
        points=tuple((x, height - y) for x, y in points),
        closed=closed,
        width=float(path.attrib["stroke-width"]),
        dash=tuple(float(n) for n in dash.split(",")) if dash else (),
        arcs=arcs,
    )


def _commands(d: str) -> Iterator[tuple[str, list[float]]]:
    counts = {"M": 2, "L": 2, "A": 7, "Z": 0}
    for command, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", d):
        numbers = [float(n) for n in rest.split()]
        assert len(numbers) == counts[command], command
        yield command, numbers


def _arc(start: Spot, numbers: list[float]) -> list[Spot]:
    """Return points along an arc of the file's own frame. Source: SVG 1.1, F.6.5."""
    rx, ry, rotation, large, sweep, x, y = numbers
    assert rx == ry
    assert rotation == 0
    half_x, half_y = (start[0] - x) / 2, (start[1] - y) / 2
    square = rx * rx / (half_x**2 + half_y**2) - 1
    assert square > -1e-9, "the ends lie further apart than the circle is wide"
    factor = math.sqrt(max(square, 0)) * (-1 if large == sweep else 1)
    cx = factor * half_y + (start[0] + x) / 2
    cy = -factor * half_x + (start[1] + y) / 2
    begin = math.atan2(start[1] - cy, start[0] - cx)
    turn = math.atan2(y - cy, x - cx) - begin
    if sweep:
        turn %= math.tau
    else:
        turn = -(-turn % math.tau)
    steps = max(math.ceil(abs(turn) * rx / PACE), 8)
    angles = [begin + turn * k / steps for k in range(1, steps + 1)]
    return [(cx + rx * math.cos(a), cy + rx * math.sin(a)) for a in angles]
