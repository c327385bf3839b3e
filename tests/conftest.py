"""The one option that our tests add: rewriting golden files."""

import pytest


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
