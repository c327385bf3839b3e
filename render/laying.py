"""Lay plans made while pages are being laid out: the solver works in a process of its own.

Imports the cloth of ``drafting``, lay_picture and svg.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from drafting.cloth.laying import lay_plans
from drafting.cloth.lays import Lay
from drafting.cloth.shopping import Shopping, shopping
from drafting.effort import Effort
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.piece_names import piece_words
from drafting.units import Mm, length_text
from render.lay_picture import lay_picture
from render.measures import layer_words
from render.svg import drawing_svg

PICTURE: tuple[Mm, Mm] = (420.0, 260.0)
"""The most room that a picture of one lay takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """Every lay of a pattern, and what to buy for it."""

    lays: tuple[Lay, ...]
    shopping: Shopping


class Laying:
    """Lays a pattern's cloths from the moment it is made; ``made`` waits for the plans."""

    def __init__(
        self, pattern: Pattern, effort: Effort, pool: ThreadPoolExecutor | None = None
    ) -> None:
        """Begin.

        Args:
            pool: threads that others lay in too; else one of its own.
        """
        own = pool or ThreadPoolExecutor(max_workers=1)
        self._found = own.submit(_cloth, pattern, effort)
        if pool is None:
            own.shutdown(wait=False)

    def made(self, progress: Callable[[str], None]) -> Cloth:
        """Return the plans and the shopping list."""
        progress("laying the cloth")
        return self._found.result()


@in_its_language
def _cloth(pattern: Pattern, effort: Effort) -> Cloth:
    lays = lay_plans(pattern, effort)
    return Cloth(lays=lays, shopping=shopping(pattern, lays))


def lay_svg(lay: Lay, pattern: Pattern) -> bytes:
    """Return the picture of a lay as the bytes of an SVG file.

    Raises:
        PictureError: nothing is laid.
    """
    return _svg(pattern, lay)


@in_its_language
def _svg(pattern: Pattern, lay: Lay) -> bytes:
    picture = lay_picture(lay, pattern.spec, width=PICTURE[0], height=PICTURE[1])
    units = pattern.spec.units
    names = ", ".join(f"{piece_words(shape.name)} ({shape.count})" for shape in lay.shapes)
    return drawing_svg(
        picture.drawing,
        picture.width,
        picture.height,
        title=say(
            "{title}: lay plan of the {layer} cloth, 1:{scale}",
            title=pattern.spec.title,
            layer=layer_words(lay.name),
            scale=picture.scale,
        ),
        desc=say(
            "{length} of cloth with {width} between its selvages: {pieces}.",
            length=length_text(lay.length, units),
            width=length_text(lay.usable, units),
            pieces=names,
        ),
    )
