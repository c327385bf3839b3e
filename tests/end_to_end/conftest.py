"""Every example sheet, run once through the command line into a folder of its own."""

import json
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from cli import app
from tests.end_to_end.pdf_ink import Leaf, leaves

ROOT = Path(__file__).parent.parent.parent
EXAMPLES = tuple(sorted((ROOT / "measurements_examples").glob("*.toml")))
CHORUS = ROOT / "measurements_examples" / "chorus-skirt.toml"
CHILD = ROOT / "measurements_examples" / "young-chorus-skirt.toml"


@dataclass(frozen=True)
class Run:
    """One sheet, what the command said, and what it wrote."""

    path: Path
    sheet: dict[str, Any]
    said: str
    pdf: Path
    figures: dict[str, Any]

    @property
    def paper(self) -> dict[str, Any]:
        held: dict[str, Any]
        (held,) = self.figures["paper"].values()
        return held

    @cached_property
    def leaves(self) -> tuple[Leaf, ...]:
        return leaves(self.pdf)


def run_sheet(sheet: Path, out: Path) -> Run:
    result = CliRunner().invoke(
        app,
        [
            "draft",
            str(sheet),
            "--quick",
            "--without",
            "lay",
            "--without",
            "booklet",
            "--out",
            str(out),
        ],
    )
    assert result.exit_code == 0, result.output
    (pdf,) = out.glob("*.pdf")
    (figures,) = out.glob("*-figures.json")
    return Run(
        path=sheet,
        sheet=tomllib.loads(sheet.read_text(encoding="utf-8")),
        said=result.output,
        pdf=pdf,
        figures=json.loads(figures.read_text(encoding="utf-8")),
    )


@pytest.fixture(scope="session")
def run_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Run]:
    """Return a function that gives the run of an example by its stem, or of "butt joins"."""
    held: dict[str, Run] = {}

    def find(name: str) -> Run:
        if name not in held:
            folder = tmp_path_factory.mktemp("run")
            held[name] = run_sheet(_sheet(name, folder), folder / "out")
        return held[name]

    return find


def _sheet(name: str, folder: Path) -> Path:
    if name != "butt joins":
        return ROOT / "measurements_examples" / f"{name}.toml"
    text = CHORUS.read_text(encoding="utf-8")
    assert 'paper = ["a4"]' in text
    sheet = folder / "sheet.toml"
    changed = text.replace('paper = ["a4"]', 'paper = ["legal"]\noverlap = "0 cm"')
    sheet.write_text(changed, encoding="utf-8")
    return sheet


def _plain(sheet: Path) -> bool:
    """Tell whether all panels of a sheet are plain sectors of full size."""
    held = tomllib.loads(sheet.read_text(encoding="utf-8"))
    skirt = held.get("skirt", {})
    shaped = {"cut", "hem_above_floor", "drop", "flounce", "owned"}
    return held.get("scale", "full") == "full" and not shaped & set(skirt)


# Sheets whose panels the tests can work out by school geometry, and those with other shapes,
# which are held against the pieces that were drafted.
NAMES = tuple(path.stem for path in EXAMPLES if _plain(path))
OTHERS = tuple(path.stem for path in EXAMPLES if not _plain(path))


@pytest.fixture(params=[*NAMES, *OTHERS, "butt joins"])
def run(request: pytest.FixtureRequest, run_of: Callable[[str], Run]) -> Run:
    """One run after the other: every example, and one printed without overlap."""
    return run_of(request.param)


@pytest.fixture(params=[*NAMES, "butt joins"])
def plain(request: pytest.FixtureRequest, run_of: Callable[[str], Run]) -> Run:
    """One run after the other of those whose panels are plain sectors."""
    return run_of(request.param)


@pytest.fixture(params=OTHERS)
def other(request: pytest.FixtureRequest, run_of: Callable[[str], Run]) -> Run:
    """One run after the other of those with other shapes."""
    return run_of(request.param)
