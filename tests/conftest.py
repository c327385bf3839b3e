"""What all tests share: the option that rewrites golden files, and calm on a busy machine."""

from pathlib import Path

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


TOGETHER = {
    "examples run": (
        "end_to_end/test_command_line.py",
        "end_to_end/test_other_cuts.py",
        "end_to_end/test_sound_files.py",
        "end_to_end/test_true_size.py",
    ),
    "examples laid out": (
        "render/test_assembly_map.py",
        "render/test_correction.py",
        "render/test_joins.py",
        "render/test_placement.py",
        "render/test_proof.py",
        "render/test_ticket.py",
    ),
}
"""Files that read what is drawn once a process: one process runs them all, one after the other."""

_HERE = Path(__file__).parent
_GROUP_OF = {_HERE / file: group for group, files in TOGETHER.items() for file in files}


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Keep a file's tests in one process, and those of files that share what is costly."""
    if not config.pluginmanager.hasplugin("xdist"):
        return
    for item in items:
        group = _GROUP_OF.get(item.path, item.path.relative_to(_HERE).as_posix())
        item.add_marker(pytest.mark.xdist_group(group))
