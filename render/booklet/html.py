"""The sewing booklet as one page for a browser: everything in it, no scripts, nothing fetched.

Well-formed XML as well as HTML, so that any reader of either can check it. Imports the
booklet's values and the SVG of its pictures.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from html import escape

from drafting.geometry import Box
from drafting.language import say, speaking
from drafting.units import Mm
from render import fonts
from render.booklet import model
from render.booklet.page_style import STYLE
from render.booklet.words import Place, clean, foot_words, places, time_words
from render.drawing import Anchor
from render.pictures.picture import Picture
from render.svg import svg_of_page

PHONE = 75.0
"""Pictures wider than this (mm) can be moved sideways on a phone, so that their words stay
legible there."""

LEGIBLE = 7 * 25.4 / 96
"""Least height of type (mm) to which a picture is made smaller on a phone: 7 CSS pixels."""

WRAPPED, CROWDED = 2, 6
"""A table of more columns is told row by row on a phone; of still more, on a tablet too."""

TYPE, BETWEEN = 15.2, 12.2
"""Height of a table's type, and white space beside each cell, in CSS pixels."""

ON_A_PHONE, ON_A_TABLET, ON_A_DESK = 290.0, 520.0, 660.0
"""Room for a table, in CSS pixels: what needs more is told row by row there."""

WORD = 0.45 * ON_A_PHONE
"""A word as wide as this may be broken in a table: it has no room beside another on a phone."""


def booklet_html(booklet: model.Booklet) -> bytes:
    """Return the booklet as the bytes of an HTML file; the same booklet gives the same bytes."""
    with speaking(booklet.language):
        return "\n".join(PageWriter(booklet).page()).encode() + b"\n"


def _text(words: str) -> str:
    """Return words as text of the page; a range such as 70–80 stays on one line."""
    return escape(re.sub(r"(?<=\d)–(?=\d)", "–\u2060", clean(words)))


def _heading(level: int, words: str, ident: str = "") -> str:
    tag = f"h{min(level, 6)}"
    named = f' id="{ident}"' if ident else ""
    return f"<{tag}{named}>{_text(words)}</{tag}>"


def _linked(paragraph: model.Paragraph) -> str:
    """Return a paragraph's words, leading to its address if it has one."""
    said = _text(paragraph.words)
    return f'<a href="{escape(paragraph.address)}">{said}</a>' if paragraph.address else said


class PageWriter:
    """Writes the page line by line, taking places in the order they were listed.

    A page whose pictures lie beside it as files has a writer of its own, with another ``picture``.
    """

    def __init__(self, booklet: model.Booklet) -> None:
        self.booklet = booklet
        self.places = places(booklet)
        self.next = iter(self.places)

    def page(self) -> Iterator[str]:
        booklet = self.booklet
        title = _text(booklet.title or say("Sewing booklet"))
        yield "<!DOCTYPE html>"
        yield f'<html lang="{escape(booklet.language)}">'
        yield "<head>"
        yield '<meta charset="utf-8" />'
        yield '<meta name="viewport" content="width=device-width, initial-scale=1" />'
        yield f"<title>{title}</title>"
        yield f'<meta name="author" content="{_text(booklet.author)}" />'
        yield f'<meta name="description" content="{_text(booklet.subject)}" />'
        yield f"<style>{STYLE}</style>"
        yield "</head>"
        yield "<body>"
        yield "<header>"
        yield f"<h1>{title}</h1>"
        if booklet.subtitle:
            yield f'<p class="subtitle">{_text(booklet.subtitle)}</p>'
        if booklet.facts:
            yield '<ul class="facts">'
            yield from (f"<li>{_text(fact)}</li>" for fact in booklet.facts)
            yield "</ul>"
        if booklet.cover is not None:
            yield from self.picture(booklet.cover)
        yield "</header>"
        if self.places:
            yield from self.contents()
        yield "<main>"
        for section in booklet.sections:
            yield from self.section(section, 2)
        yield "</main>"
        yield from self.footer()
        yield "</body>"
        yield "</html>"

    def footer(self) -> Iterator[str]:
        booklet = self.booklet
        words, terms = foot_words(booklet), [_text(words) for words in booklet.terms]
        if booklet.page:
            address = _text(booklet.page)
            terms.append(f'<a href="{escape(clean(booklet.page))}">{address}</a>')
        if not words and not terms:
            return
        told = [row for row in (_text(words), " · ".join(terms)) if row]
        code = ""
        if booklet.code is not None:
            picture = booklet.code
            code = svg_of_page(picture.drawing, picture.box, clean(picture.alt), classes="small")
        yield f"<footer><p>{'<br />'.join(told)}</p>{code}</footer>"

    def contents(self) -> Iterator[str]:
        title = say("Contents")
        yield '<nav aria-labelledby="contents">'
        yield f'<h2 id="contents">{_text(title)}</h2>'
        yield "".join(_listed(self.places))
        yield "</nav>"

    def section(self, section: model.Section, level: int) -> Iterator[str]:
        place = next(self.next)
        look = ' class="part"' if level == 2 else ""
        yield f'<section{look} aria-labelledby="{place.key}">'
        yield _heading(level, section.title, place.key)
        for block in section.blocks:
            yield from self.block(block, level + 1)
        yield "</section>"

    def block(self, block: model.Block, level: int) -> Iterator[str]:
        match block:
            case model.Section():
                yield from self.section(block, level)
            case model.Paragraph():
                yield f"<p>{_linked(block)}</p>"
            case model.Bullets():
                yield from self.bullets(block.items)
            case model.Table():
                yield from self.table(block)
            case model.Steps():
                start = f' start="{block.start}"' if block.start != 1 else ""
                yield f'<ol class="steps"{start}>'
                for step in block.steps:
                    yield from self.step(step, level)
                yield "</ol>"
            case model.Cautions():
                yield from self.care(block.title, block.items)
            case Picture():
                yield from self.picture(block)

    def bullets(self, items: tuple[str, ...]) -> Iterator[str]:
        if items:
            yield "<ul>"
            yield from (f"<li>{_text(item)}</li>" for item in items)
            yield "</ul>"

    def step(self, step: model.Step, level: int) -> Iterator[str]:
        place = next(self.next)
        yield "<li>"
        yield _heading(level, step.title, place.key)
        if words := time_words(step):
            yield f'<p class="time">{_text(words)}</p>'
        yield from (f"<p>{_text(words)}</p>" for words in step.do)
        if step.cautions:
            yield from self.care(say("Care"), step.cautions)
        for picture in step.pictures:
            yield from self.picture(picture)
        if step.check:
            word = _text(say("Check"))
            yield f'<p class="check"><strong>{word}</strong>\u2002{_text(step.check)}</p>'
        yield "</li>"

    def care(self, title: str, items: tuple[str, ...]) -> Iterator[str]:
        # A note, not a complementary part: those stand beside the main part, never inside it.
        label = _text(title)
        yield f'<aside class="care" role="note" aria-label="{label}">'
        yield f"<p><strong>{label}</strong></p>"
        yield from self.bullets(items)
        yield "</aside>"

    def table(self, table: model.Table) -> Iterator[str]:
        # Told row by row, a table is one no longer to some readers unless its roles are named.
        longest = _longest_words(table)
        need = sum(longest) + BETWEEN * len(longest)
        crowd = len(table.heads) > CROWDED or need > ON_A_TABLET
        many = len(table.heads) > WRAPPED or need > ON_A_PHONE
        tight = need > ON_A_DESK or max(longest, default=0.0) > WORD
        names = ("crowd" if crowd else "many" if many else "", "tight" if tight else "")
        look = f' class="{" ".join(filter(None, names))}"' if any(names) else ""

        def role(name: str) -> str:
            return f' role="{name}"' if many else ""

        def side(column: int) -> str:
            return ' class="figures"' if column in table.figures else ""

        yield f"<table{look}{role('table')}>"
        if table.caption:
            yield f"<caption>{_text(table.caption)}</caption>"
        heads = [_text(head) for head in table.heads]
        yield f"<thead{role('rowgroup')}><tr{role('row')}>"
        for k, head in enumerate(heads):
            if head:
                yield f'<th scope="col"{role("columnheader")}{side(k)}>{head}</th>'
            else:
                yield f"<td{role('cell')}></td>"
        yield "</tr></thead>"
        yield f"<tbody{role('rowgroup')}>"
        for first, *rest in table.rows:
            yield f"<tr{role('row')}>"
            yield f'<th scope="row"{role("rowheader")}{side(0)}>{_text(first)}</th>'
            for k, words in enumerate(rest, 1):
                head = f' data-head="{heads[k]}"' if many else ""
                yield f"<td{role('cell')}{side(k)}{head}>{_text(words)}</td>"
            yield "</tr>"
        yield "</tbody></table>"

    def picture(self, picture: Picture) -> Iterator[str]:
        box = _with_words(picture)
        wide = box.width > PHONE
        look = "large" if wide else "small"
        drawn = svg_of_page(picture.drawing, box, clean(picture.alt), classes=look)
        yield "<figure>"
        if wide:
            label = _text(picture.caption or picture.alt)
            least = f"--least: {_least_wide(picture, box):.1f}mm"
            yield f'<div class="across" style="{least}" role="group" tabindex="0"'
            yield f' aria-label="{label}">'
            yield drawn
            yield "</div>"
        else:
            yield drawn
        if picture.caption:
            yield f"<figcaption>{_text(picture.caption)}</figcaption>"
        yield "</figure>"


def _longest_words(table: model.Table) -> list[float]:
    """Return the width of each column's longest word, in CSS pixels."""
    return [
        max(fonts.width(word, TYPE, bold=True) for words in column for word in words.split(" "))
        for column in zip(table.heads, *table.rows, strict=True)
    ]


def _with_words(picture: Picture) -> Box:
    """Return what is shown of a picture, grown for words that reach beyond its lines.

    A page of paper has room beside a picture for them; the window cuts them off.
    """
    box = picture.box
    for text in picture.drawing.texts:
        wide = fonts.width(text.text, text.size, bold=text.bold)
        if text.angle == 0:
            left = text.at.x - _BEFORE[text.anchor] * wide
            box = replace(box, left=min(box.left, left), right=max(box.right, left + wide))
    return box


_BEFORE = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}
"""How much of a text lies to the left of its place."""


def _least_wide(picture: Picture, box: Box) -> Mm:
    """Return the least width of a picture whose type is legible still; it is made no larger."""
    smallest = min((text.size for text in picture.drawing.texts), default=math.inf)
    return box.width * min(1.0, LEGIBLE / smallest)


def _listed(listed: tuple[Place, ...]) -> Iterator[str]:
    """Yield places as a list of links, those deeper in lists of their own."""
    depth = -1
    for place in listed:
        if place.depth > depth:
            yield "<ol>" * (place.depth - depth)
        else:
            yield "</li>" + "</ol></li>" * (depth - place.depth)
        depth = place.depth
        number = f'<span class="number">{place.number}</span> ' if place.number else ""
        look = ' class="numbered"' if number else ""
        yield f'<li><a{look} href="#{place.key}">{number}{escape(place.words)}</a>'
    yield "</li></ol>" * (depth + 1)
