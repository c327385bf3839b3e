"""Pictures for a post: the garment, its pieces and its lay plans, as they stand in the files.

Each is one drawing, written as SVG and as PNG with the same words for those who cannot see it.
Millimetres. Imports the pictures of the booklet and of the lay.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from drafting.cloth.lays import Lay
from drafting.cloth.shopping import LAYERS
from drafting.geometry import Box
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.piece_names import cloth_words, piece_words
from drafting.units import Mm, length_text
from render.drawing import placed
from render.lay_picture import LayPicture, PictureError, lay_picture
from render.laying import Cloth
from render.pictures.picture import Picture
from render.pictures.pieces import pieces_picture
from render.pictures.sketch import front_and_back
from render.publish.cover import PIXELS, cover_picture
from render.publish.raster import png_bytes
from render.publish.titles import middle_of, size_words
from render.svg import drawing_svg

ACROSS = 1600
"""Dots across a picture: sharp on every screen, and small enough to send."""

MARGIN: Mm = 4.0
"""White round a picture, so that it stands clear of whatever is beside it."""

LAY_WIDE, LAY_HIGH = 128.0, 190.0
LAY_MOST = (420.0, 600.0)
"""Room for a lay plan, small so that its words are large on a phone; and for one too long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A picture as it is written.

    Attributes:
        picture: what is drawn, and its words.
        png, svg: names of its files.
        pixels: width and height of the PNG.
    """

    picture: Picture
    png: str
    svg: str
    pixels: tuple[int, int]


@in_its_language
def shots(pattern: Pattern, cloth: Cloth, name: str) -> tuple[Shot, ...]:
    """Return the pictures of a pack: cover, sketch, pieces, and a lay plan of each main cloth.

    Those of a graded pattern show its middle size.

    Args:
        cloth: lay plans of the middle size.
        name: what the names of the files begin with.
    """
    return tuple(_shot(picture, name) for picture in _pictures(pattern, cloth))


def _pictures(pattern: Pattern, cloth: Cloth) -> Iterator[Picture]:
    middle = middle_of(pattern)
    shown = say("Shown in size {size}.", size=size_words(pattern, middle))
    yield cover_picture(pattern)
    for picture in (front_and_back(middle), pieces_picture(middle)):
        if picture is not None:
            caption = f"{picture.caption} {shown}" if pattern.sizes else picture.caption
            yield _clear(replace(picture, caption=caption))
    for lay in cloth.lays:
        if lay.name in LAYERS and lay.laid:
            yield _clear(_lay(middle, lay, shown if pattern.sizes else ""))


def _clear(picture: Picture) -> Picture:
    """Return a picture with white round it."""
    return replace(picture, box=picture.box.grown(MARGIN))


def _lay(pattern: Pattern, lay: Lay, shown: str) -> Picture:
    drawn = _lay_drawn(pattern, lay)
    units = pattern.spec.units
    names = ", ".join(f"{piece_words(shape.name)} ({shape.count})" for shape in lay.shapes)
    told = say(
        "{length} of cloth with {width} between its selvages: {pieces}.",
        length=length_text(lay.length, units),
        width=length_text(lay.usable, units),
        pieces=names,
    )
    title = say("Lay plan of the {cloth}.", cloth=cloth_words(lay.name))
    return Picture(
        name=f"lay-{lay.name}",
        drawing=drawn.drawing,
        box=Box(left=0.0, bottom=0.0, right=drawn.width, top=drawn.height),
        caption=f"{title} {shown}".strip(),
        alt=f"{title} {told}",
    )


def _lay_drawn(pattern: Pattern, lay: Lay) -> LayPicture:
    try:
        return lay_picture(lay, pattern.spec, width=LAY_WIDE, height=LAY_HIGH)
    except PictureError:
        return lay_picture(lay, pattern.spec, width=LAY_MOST[0], height=LAY_MOST[1])


def _shot(picture: Picture, name: str) -> Shot:
    box = picture.box
    high = round(ACROSS * box.height / box.width)
    return Shot(
        picture=picture,
        png=f"{name}-picture-{picture.name}.png",
        svg=f"{name}-picture-{picture.name}.svg",
        pixels=PIXELS if picture.name == "cover" else (ACROSS, high),
    )


def picture_files(found: tuple[Shot, ...], title: str) -> Iterator[tuple[str, bytes]]:
    """Yield the name and the bytes of every picture's two files.

    Args:
        title: of the garment.
    """
    for shot in found:
        picture, box = shot.picture, shot.picture.box
        drawing = placed(picture.drawing, x=-box.left, y=-box.bottom)
        yield (
            shot.png,
            png_bytes(drawing, width=box.width, height=box.height, pixels=shot.pixels),
        )
        yield (
            shot.svg,
            drawing_svg(drawing, box.width, box.height, title=title, desc=picture.alt, ground=True),
        )


def told_of(found: tuple[Shot, ...]) -> list[dict[str, object]]:
    """Return what each picture is, for whoever uploads it: its files, its size, its words."""
    return [
        {
            "name": shot.picture.name,
            "png": shot.png,
            "svg": shot.svg,
            "width": shot.pixels[0],
            "height": shot.pixels[1],
            "alt": shot.picture.alt.replace("\u00a0", " "),
            "caption": shot.picture.caption.replace("\u00a0", " "),
        }
        for shot in found
    ]
