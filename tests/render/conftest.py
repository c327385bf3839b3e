"""Every example, drafted and laid out on its own paper, once for all tests."""

import gettext
from collections.abc import Callable

import pytest

from drafting.language import Language
from drafting.pattern import Pattern
from drafting.spec import PaperName
from render.pages import Printed
from render.parts import Plane
from tests.examples import EXAMPLES, layout_of_example, pattern_of_example, plane_of_example


@pytest.fixture(scope="session")
def pattern_of() -> Callable[[str], Pattern]:
    """Return a function that gives an example's pattern by its stem."""
    return pattern_of_example


@pytest.fixture(scope="session")
def layout_of() -> Callable[..., Printed]:
    """Return a function that gives an example's layout on its own paper, or on another."""

    def find(name: str, paper: PaperName | None = None) -> Printed:
        # One word fewer is another key to what is kept.
        return layout_of_example(name, paper) if paper else layout_of_example(name)

    return find


@pytest.fixture(params=EXAMPLES)
def example(request: pytest.FixtureRequest) -> str:
    """One example's stem after the other."""
    name: str = request.param
    return name


@pytest.fixture
def pattern(example: str) -> Pattern:
    """One example's pattern after the other."""
    return pattern_of_example(example)


@pytest.fixture
def layout(example: str) -> Printed:
    """One example's layout on its own paper after the other."""
    return layout_of_example(example)


@pytest.fixture
def plane(example: str) -> Plane:
    """One example's pieces on one plane after the other."""
    return plane_of_example(example)


@pytest.fixture(scope="session")
def plane_of() -> Callable[[str], Plane]:
    """Return a function that gives an example's pieces on one plane by its stem."""
    return plane_of_example


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
