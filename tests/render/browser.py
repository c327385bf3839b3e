"""A browser to read a page with: the system's Chromium, led by Playwright, walked over by axe.

Both libraries are imported where they are used: whoever has neither skips what needs them.
"""

import importlib.util
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

COMMAND = shutil.which("chromium") or shutil.which("chromium-browser")

PATIENCE = 120_000
"""Milliseconds to wait for an answer on a busy machine."""


def missing() -> str:
    """Return why no page can be looked at, or nothing if one can."""
    if COMMAND is None:
        return "needs Chromium (on Debian: apt-get install chromium)"
    if importlib.util.find_spec("axe_playwright_python") is None:
        return "needs axe-playwright-python, of the extra 'test'"
    if importlib.util.find_spec("playwright") is None:
        return "needs playwright, of the extra 'test'"
    return ""


class Browser:
    """One browser with one page."""

    def __init__(self, page: "Page") -> None:
        self.page = page

    def shows(self, page: Path, *, wide: int, tall: int = 900) -> None:
        """Show a page in a window so many CSS pixels wide."""
        self.page.set_viewport_size({"width": wide, "height": tall})
        self.page.goto(page.as_uri(), wait_until="load")

    def asks(self, script: str) -> Any:
        """Return what a script comes to in the page."""
        return self.page.evaluate(script)

    def axe(self) -> dict[str, Any]:
        """Return what axe says of the page: what passes, and every fault."""
        from axe_playwright_python.sync_playwright import Axe

        # By default axe counts one element of each rule that passes; all are wanted here.
        return dict(Axe().run(self.page, options=None).response)

    def prints(self, *, wide: float, tall: float) -> bytes:
        """Return the page printed as PDF on paper so many inches wide and tall."""
        edge = "0.4in"
        return self.page.pdf(
            width=f"{wide}in",
            height=f"{tall}in",
            prefer_css_page_size=False,
            margin={"top": edge, "right": edge, "bottom": edge, "left": edge},
        )


@contextmanager
def browser() -> Iterator[Browser]:
    """Yield a browser, shut when the block ends."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        chromium = player.chromium.launch(
            executable_path=COMMAND, args=["--no-sandbox", "--disable-gpu"], timeout=PATIENCE
        )
        page = chromium.new_page()
        page.set_default_timeout(PATIENCE)
        try:
            yield Browser(page)
        finally:
            chromium.close()
