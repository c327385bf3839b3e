"""The text for a web log as a page: its pictures lie beside it as files, and nothing runs in it.

Imports the writer of the booklet's page.
"""

from collections.abc import Iterator, Mapping
from html import escape

from drafting.language import speaking
from render.booklet import model
from render.booklet.html import PageWriter
from render.booklet.words import clean
from render.pictures.picture import Picture
from render.publish.pictures import Shot

_FITTED = "figure img { display: block; width: 100%; height: auto; }"


def web_page(post: model.Booklet, shots: Mapping[str, Shot]) -> bytes:
    """Return a text as the bytes of an HTML file; the same text gives the same bytes.

    Args:
        shots: the pictures that lie beside the page, by their names.
    """
    with speaking(post.language):
        lines = _Writer(post, shots).page()
        page = "\n".join(line.replace("</style>", f"{_FITTED}\n</style>") for line in lines)
        return page.encode() + b"\n"


class _Writer(PageWriter):
    """Writes pictures as what they are: files beside the page, seen whole when they are chosen."""

    def __init__(self, post: model.Booklet, shots: Mapping[str, Shot]) -> None:
        super().__init__(post)
        self.shots = shots

    def picture(self, picture: Picture) -> Iterator[str]:
        shot = self.shots[picture.name]
        file, alt = escape(shot.png), escape(clean(picture.alt))
        wide, high = shot.pixels
        yield "<figure>"
        yield f'<a href="{file}">'
        yield f'<img src="{file}" width="{wide}" height="{high}" alt="{alt}" />'
        yield "</a>"
        if picture.caption:
            yield f"<figcaption>{escape(clean(picture.caption))}</figcaption>"
        yield "</figure>"
