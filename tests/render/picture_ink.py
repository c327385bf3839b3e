"""What a picture shows, told from its strokes and texts alone: boxes, crossings, numbers."""

import dataclasses
import re
from collections.abc import Iterator
from enum import Enum
from typing import Any

from shapely.geometry import LineString, Polygon, box

from drafting.geometry import flattened
from drafting.units import Units, length_text
from render.drawing import Anchor, Drawing, Stroke, Text
from render.fonts import width

LENGTH = re.compile(r"[\d.,]*[\d⅛¼⅜½⅝¾⅞](?=\u00a0(?:cm|in))")


def line_of(stroke: Stroke) -> LineString:
    """Return where a stroke runs."""
    return LineString([(p.x, p.y) for p in flattened(stroke.path, error=0.01)])


def room_of(text: Text, *, less: float = 0.0) -> Polygon:
    """Return what a run of text covers: from just under its baseline to its capitals' height.

    Letters of this typeface reach 0.74 of the height of the type up and 0.22 down.
    """
    long = width(text.text, text.size, bold=text.bold)
    left = text.at.x - {Anchor.START: 0.0, Anchor.MIDDLE: long / 2, Anchor.END: long}[text.anchor]
    assert text.angle == 0
    return box(
        left + less,
        text.at.y - 0.2 * text.size + less,
        left + long - less,
        text.at.y + 0.72 * text.size - less,
    )


def overlapping(drawing: Drawing) -> list[tuple[str, str]]:
    """Return words that stand on each other, and words that a line runs through."""
    rooms = [(text.text, room_of(text, less=0.15)) for text in drawing.texts]
    found = [
        (one, other)
        for k, (one, room) in enumerate(rooms)
        for other, there in rooms[k + 1 :]
        if room.intersects(there)
    ]
    lines = [line_of(stroke).buffer(stroke.pen.width / 2) for stroke in drawing.strokes]
    return found + [
        (words, "a line") for words, room in rooms for line in lines if room.intersects(line)
    ]


def lengths_in(text: str) -> set[str]:
    """Return every number with a unit of length in a text."""
    return set(LENGTH.findall(text))


def held(value: Any) -> Iterator[float]:
    """Yield every number that a draft holds, however deep."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        for field in dataclasses.fields(value):
            yield from held(getattr(value, field.name))
    elif isinstance(value, dict):
        for one in value.values():
            yield from held(one)
    elif isinstance(value, tuple | list):
        for one in value:
            yield from held(one)
    elif isinstance(value, int | float) and not isinstance(value, bool | Enum):
        yield float(value)


def spoken_lengths(numbers: Iterator[float], units: Units) -> set[str]:
    """Return numbers as lengths are written, without their unit."""
    return {found for one in numbers for found in lengths_in(length_text(one, units))}
