"""What all tests share: the option that rewrites golden files, and calm on a busy machine."""

import gc
from typing import Any

import pytest
from hypothesis import settings

from tests.drawn import EXPLORING

# A landing should not hang on the luck of the draw: everybody tries the same bodies. With
# HEMSWEEP_EXPLORE=1 every run draws new ones, and people at their desks keep finding more.
settings.register_profile("same", derandomize=True, deadline=None)  # a busy machine is slow
if not EXPLORING:
    settings.load_profile("same")


def pytest_collection_finish() -> None:
    """Look for cycles less often, and never again in what thousands of tests brought along."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 50, 100)


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
        "mistakes/test_making_mistakes.py",
        "render/test_assembly_map.py",
        "render/test_correction.py",
        "render/test_joins.py",
        "render/test_parts.py",
        "render/test_placement.py",
        "render/test_proof.py",
        "render/test_ticket.py",
    ),
}
"""Files that read what is drawn once a process: one process runs them all, one after the other."""

_GROUP_OF = {f"tests/{file}": group for group, files in TOGETHER.items() for file in files}


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Keep a file's tests in one process, and those of files that share what is costly."""
    from xdist.scheduler import LoadFileScheduling  # type: ignore[import-untyped,unused-ignore]

    def group(nodeid: str) -> str:
        file = nodeid.split("::", 1)[0]
        return _GROUP_OF.get(file, file)

    scheduler = LoadFileScheduling(config, log)
    scheduler._split_scope = group
    return scheduler
