"""The cover: whatever a title and however many sizes, words keep their room and can be read."""

import itertools
from dataclasses import replace

import pytest

from drafting.pattern import Pattern
from render.drawing import Drawing
from render.pictures.ink import extent, text_box
from render.publish.cover import HIGH, LINE, WIDE, cover_picture
from render.publish.titles import endings
from tests.examples import pattern_of_example

DOTS_TO_MM = 1200 / 240


def titled(title: str, sizes: tuple[str, ...] = (), maker: str = "The Pier Workroom") -> Pattern:
    pattern = pattern_of_example("chorus-skirt")
    spec = replace(pattern.spec, title=title, publish=replace(pattern.spec.publish, maker=maker))
    named = tuple(
        replace(pattern, spec=replace(spec, wearer=replace(spec.wearer, size=name)))
        for name in sizes
    )
    return replace(pattern, spec=spec, sizes=named)


MANY = tuple(f"P{number:02}" for number in range(30))


@pytest.mark.parametrize(
    ("title", "sizes"),
    [
        ("Chorus skirt", ()),
        ("Chorus skirt", MANY[:8]),
        ("Ä", MANY[:4]),
        ("Wave petticoat", MANY),
        ("Chorusskirtforthewholeofthepiertheatre" * 2, MANY),
        ("The very long name of a skirt for the chorus of a theatre on a pier by the sea, 2", MANY),
    ],
)
def test_words_keep_their_room(title: str, sizes: tuple[str, ...]) -> None:
    picture = cover_picture(titled(title, sizes))
    boxes = [text_box(text) for text in picture.drawing.texts]
    assert len(boxes) >= 4
    told = [text.text for text in picture.drawing.texts]
    assert "The Pier Workroom" in told
    assert ("licence: CC BY-NC 4.0" in told) == (len(title) < 70)  # then there is no room for it
    for box in boxes:
        assert box.left >= 8 and box.right <= 0.57 * WIDE
        assert box.bottom >= 5 and box.top <= HIGH - 6
    for one, other in itertools.combinations(boxes, 2):
        apart = one.bottom > other.top or other.bottom > one.top
        assert apart or one.left > other.right or other.left > one.right
    # A third of the dots are left on a telephone: type of 10 of them is read.
    assert min(text.size for text in picture.drawing.texts) * DOTS_TO_MM * 0.3 >= 10
    assert picture.drawing.texts[0].bold and picture.drawing.texts[0].size > LINE
    assert title in picture.alt


@pytest.mark.parametrize(
    "name", ["leading-lady-skirt", "young-chorus-skirt", "wave-petticoat", "wardrobe-find"]
)
def test_the_sketch_stands_clear_of_the_words_and_the_rules(name: str) -> None:
    drawn = cover_picture(pattern_of_example(name)).drawing
    frame, rule, *sketch = drawn.strokes
    assert frame.pen.width < rule.pen.width
    box = extent(Drawing(strokes=tuple(one for one in sketch if one.pen != frame.pen)))
    assert box.left > 0.57 * WIDE and box.right < WIDE - 6
    assert box.bottom > 6 and box.top < HIGH - 8
    assert box.width > 0.3 * WIDE or box.height > 0.7 * HIGH


def test_the_maker_stands_out_and_without_one_nothing_does() -> None:
    def bold(maker: str) -> list[str]:
        return [t.text for t in cover_picture(titled("Skirt", (), maker)).drawing.texts if t.bold]

    assert bold("The Pier Workroom") == ["Skirt", "The Pier Workroom"]
    assert bold("") == ["Skirt"]


def test_files_of_sizes_have_names_of_their_own() -> None:
    assert endings(titled("Skirt")) == ("",)
    assert endings(titled("Skirt", ("P05", "p 05", "P-05", "../P06", "½"))) == (
        "-p05", "-p-05", "-p-05-2", "-p06", "-1-2",
    )  # fmt: skip
