"""What all tests share: the option that rewrites golden files, and calm on a busy machine."""

import pytest
from hypothesis import settings

from tests.drawn import EXPLORING

# A landing should not hang on the luck of the draw: everybody tries the same bodies. With
# HEMSWEEP_EXPLORE=1 every run draws new ones, and people at their desks keep finding more.
settings.register_profile("same", derandomize=True, deadline=None)  # a busy machine is slow
if not EXPLORING:
    settings.load_profile("same")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="rewrite the golden files that differ, and skip: a rewrite is never a pass",
    )


@pytest.fixture
def update_golden(request: pytest.FixtureRequest) -> bool:
    """Whether golden files are to be rewritten."""
    return bool(request.config.getoption("--update-golden"))
