"""What a copy shop needs to see on a large sheet: a strip at its foot, check lines, cut marks.

Black lines and plain type alone: a laser plotter breaks grey up into dots. Millimetres in the
page's frame. Imports geometry, style and fonts.
"""

import math
from collections.abc import Sequence

from drafting.geometry import Box, Path, Point, straight
from drafting.language import say
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Drawing, Layer, Stroke, Text, placed
from render.imprint import Imprint
from render.qr import LEAST_MODULE, MODULE, code_drawing

FOOT: Mm = 36.0
"""Height of the strip."""

METRE: Mm = 1000.0
DECIMETRE: Mm = 100.0
RULE_WIDE: Mm = 15.0
"""Room that a check line takes with its ticks and its words."""

_ENDS: Mm = 1.0
"""The ends of a check line keep clear of the rim by this."""

_TITLE: Mm = 8.0
_WORDS: Mm = 5.0
_CORNER: Mm = 6.0


def check_length(room: Mm) -> Mm:
    """Return the length of a check line: a metre, or the most whole decimetres that fit."""
    whole = math.floor((room - 2 * _ENDS) / DECIMETRE + 1e-9) * DECIMETRE
    return min(whole, METRE)


def check_line(long: Mm) -> Drawing:
    """Return a level check line with a tick each decimetre, its box's lower left at the origin."""
    left, base = _ENDS, 2.0
    strokes = [_stroke(straight(Point(left, base), Point(left + long, base)))]
    texts = []
    for k in range(round(long / DECIMETRE) + 1):
        at = left + k * DECIMETRE
        tall = 5.0 if k * DECIMETRE in (0, long) else 3.5
        strokes.append(_stroke(straight(Point(at, base), Point(at, base + tall))))
        if 0 < k * DECIMETRE < long:
            texts.append(
                _text(f"{at - left:.0f}", at, base + 4.4, style.NOTE, anchor=Anchor.MIDDLE)
            )
    length = f"{long:.0f}"
    words = (
        say("Check line: {length} mm from end to end; a tick each 100 mm.", length=length)
        if long == METRE
        else say(
            "Check line: {length} mm from end to end, the most whole decimetres that fit here; a"
            " tick each 100 mm.",
            length=length,
        )
    )
    words = fonts.shortened(words, style.SMALL, long - 4)
    texts.append(_text(words, left + 2, base + 8.6, style.SMALL))
    return Drawing(strokes=tuple(strokes), texts=tuple(texts))


def foot_strip(
    page: Mm,
    margin: Mm,
    title: str,
    facts: Sequence[str],
    orders: Sequence[str],
    imprint: Imprint | None = None,
) -> Drawing:
    """Return the strip for a page of that width, from its lower margin up.

    Args:
        facts: what the sheet is, set in one line after the other as they fit.
        orders: how to print it, set bold.
        imprint: stands behind the orders, its code at the right of the strip.
    """
    left, wide = margin + 2.0, page - 2 * margin - 4.0
    top = margin + FOOT
    rule = _stroke(straight(Point(left, top), Point(left + wide, top)))
    code, side = _code(imprint)
    code = placed(code, x=left + wide - side, y=top - _UNDER_RULE - side)
    wide -= side
    named = fonts.shortened(title, _TITLE, wide * 0.6, bold=True)
    texts = [_text(named, left, top - 9.0, _TITLE, bold=True)]
    after = left + fonts.width(named, _TITLE, bold=True) + 8.0
    texts.append(_fitted(facts, after, top - 9.0, left + wide - after, bold=False))
    ordered = _fitted(orders, left, top - 17.5, wide, bold=True)
    texts.append(ordered)
    if imprint is not None and _not_said(imprint, facts):
        after = left + fonts.width(ordered.text, ordered.size, bold=True) + 8.0
        texts.append(
            _fitted(_not_said(imprint, facts), after, top - 17.5, left + wide - after, bold=False)
        )
    long = check_length(page - 2 * margin)
    line = placed(check_line(long), x=page / 2 - long / 2 - _ENDS, y=margin + 1.0)
    return Drawing(strokes=(rule, *line.strokes, *code.strokes), texts=(*texts, *line.texts))


def _not_said(imprint: Imprint, facts: Sequence[str]) -> list[str]:
    """Return of the imprint what the strip does not tell already."""
    _, *told = imprint.parts
    return [words for words in told if words not in facts]


_UNDER_RULE: Mm = 0.5
_CODE_ROOM: Mm = FOOT - _UNDER_RULE - 11.0
"""Height of the strip over the check line's ticks and their numbers."""


def _code(imprint: Imprint | None) -> tuple[Drawing, Mm]:
    """Return the code as large as the strip takes it, and its side; none if that is too small."""
    if imprint is None or imprint.code is None:
        return Drawing(), 0.0
    module = min(MODULE, _CODE_ROOM / imprint.code.side)
    if module < LEAST_MODULE:
        return Drawing(), 0.0
    return code_drawing(imprint.code, module), imprint.code.size(module)


def _fitted(parts: Sequence[str], x: Mm, y: Mm, room: Mm, *, bold: bool) -> Text:
    """Return words in one line, smaller where they would be too long, at last cut short."""
    words = "  ·  ".join(parts)
    size = min(_WORDS, max(style.NOTE, _WORDS * room / fonts.width(words, _WORDS, bold=bold)))
    if fonts.width(words, size, bold=bold) > room:
        words = fonts.shortened(words, size, room, bold=bold)
    return _text(words, x, y, size, bold=bold)


def cut_marks(area: Box) -> Drawing:
    """Return an angle at each corner of the drawn area, to trim a sheet by."""
    paths: list[Path] = []
    for x, along in ((area.left, 1), (area.right, -1)):
        for y, up in ((area.bottom, 1), (area.top, -1)):
            paths.append(straight(Point(x, y), Point(x + along * _CORNER, y)))
            paths.append(straight(Point(x, y), Point(x, y + up * _CORNER)))
    return Drawing(strokes=tuple(_stroke(path) for path in paths))


def _stroke(path: Path) -> Stroke:
    return Stroke(path=path, pen=style.MARK, layer=Layer.PAGE)


def _text(
    words: str, x: Mm, y: Mm, size: Mm, *, bold: bool = False, anchor: Anchor = Anchor.START
) -> Text:
    return Text(text=words, at=Point(x, y), size=size, bold=bold, anchor=anchor, layer=Layer.PAGE)
