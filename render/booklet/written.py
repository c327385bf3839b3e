"""The booklet's two files beside a draft's others: which are wanted, and their bytes.

Imports the booklet and its two back ends, which are loaded when one is written.
"""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Self

from drafting.pattern import Pattern
from render.laying import Cloth


@dataclass(frozen=True, slots=True)
class Books:
    """The booklet of a draft, as a PDF and as a page for a browser.

    Attributes:
        into: the folder; ``name`` is what the files of the draft begin with.
        wanted: whether it is written at all.
    """

    into: Path
    name: str
    wanted: bool

    @property
    def files(self) -> tuple[Path, ...]:
        """Return the paths that are written."""
        if not self.wanted:
            return ()
        return tuple(self.into / f"{self.name}-booklet.{ending}" for ending in ("pdf", "html"))

    def kept(self, language: str) -> Self:
        """Return the same, nothing wanted if both files of this very draft are there already.

        Args:
            language: of the sheet; a booklet in another is not kept, for it is not what is asked.
        """
        if not all(path.exists() for path in self.files):
            return self
        page = self.into / f"{self.name}-booklet.html"
        is_same = self.wanted and f'lang="{language}"'.encode() in page.read_bytes()[:200]
        return replace(self, wanted=self.wanted and not is_same)

    def written(self, pattern: Pattern, cloth: Cloth | None) -> dict[Path, bytes]:
        """Return the bytes of each file.

        Args:
            cloth: lay plans and what to buy, or None where no lay is made.
        """
        from render.booklet.compose import booklet
        from render.booklet.html import booklet_html
        from render.booklet.pdf import booklet_pdf

        composed = booklet(pattern, cloth, working=pattern.spec.publish.working)
        pdf, html = self.files
        return {pdf: booklet_pdf(composed), html: booklet_html(composed)}
