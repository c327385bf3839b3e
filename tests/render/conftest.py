"""Every example, drafted and laid out on its own paper, once for all tests."""

import gettext
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

import drafting
from drafting.language import Language
from drafting.pattern import Pattern
from drafting.spec import PaperName
from render.pages import Printed, printed
from render.parts import Plane, laid_out
from render.placement import Effort

EXAMPLES = {
    path.stem: path
    for path in sorted((Path(__file__).parent.parent.parent / "measurements_examples").iterdir())
}


@cache
def _pattern(name: str) -> Pattern:
    return drafting.draft(drafting.load(EXAMPLES[name]))


@cache
def _layout(name: str, paper: PaperName | None) -> Printed:
    pattern = _pattern(name)
    # How few pages there are is the placement's own concern; what is drawn on them is tested here.
    return printed(pattern, paper or pattern.spec.print.papers[0], effort=Effort.QUICK)


@cache
def _plane(name: str) -> Plane:
    return laid_out(_pattern(name))


@pytest.fixture(scope="session")
def pattern_of() -> Callable[[str], Pattern]:
    """Return a function that gives an example's pattern by its stem."""
    return _pattern


@pytest.fixture(scope="session")
def layout_of() -> Callable[..., Printed]:
    """Return a function that gives an example's layout on its own paper, or on another."""

    def find(name: str, paper: PaperName | None = None) -> Printed:
        return _layout(name, paper)

    return find


@pytest.fixture(params=EXAMPLES)
def example(request: pytest.FixtureRequest) -> str:
    """One example's stem after the other."""
    name: str = request.param
    return name


@pytest.fixture
def pattern(example: str) -> Pattern:
    """One example's pattern after the other."""
    return _pattern(example)


@pytest.fixture
def layout(example: str) -> Printed:
    """One example's layout on its own paper after the other."""
    return _layout(example, None)


@pytest.fixture
def plane(example: str) -> Plane:
    """One example's pieces on one plane after the other."""
    return _plane(example)


@pytest.fixture(scope="session")
def plane_of() -> Callable[[str], Plane]:
    """Return a function that gives an example's pieces on one plane by its stem."""
    return _plane


class Marked(gettext.NullTranslations):
    """A catalogue that puts its language before whatever it is asked for."""

    def __init__(self, language: Language) -> None:
        super().__init__()
        self.language = language

    def gettext(self, message: str) -> str:
        """Return the words marked."""
        return f"{self.language.value}:{message}"


@pytest.fixture
def marked(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every sentence that is looked up in a catalogue is marked with the language meant."""
    monkeypatch.setattr("drafting.language.catalogue", Marked)
