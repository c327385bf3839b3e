"""The one way through the house, kept: who may import whom, and where each library lives."""

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent

HOMES = {
    "pint": {"drafting/units.py"},
    "gettext": {"drafting/language.py"},
    "pydantic": {
        "drafting/sheet_models.py",
        "drafting/sheet_values.py",
        "drafting/sheet_words.py",
        "drafting/sheet_texts.py",
    },
    "pydantic_core": {"drafting/sheet_values.py", "drafting/sheet_words.py"},
    "tomllib": {"drafting/toml_places.py"},
    "tree_sitter": {"drafting/toml_places.py"},
    "tree_sitter_toml": {"drafting/toml_places.py"},
    "reportlab": {
        "render/pdf.py",
        "render/fonts.py",
        "render/booklet/flowables.py",
        "render/booklet/leaves.py",
        "render/booklet/ruled.py",
        "render/booklet/story.py",
    },
    "fontpkg_fira_sans": {"render/fonts.py"},
    "pypdf": {"render/proof.py"},
    "segno": {"render/qr.py"},
    "svgwrite": {"render/svg.py"},
    "pypdfium2": {"render/publish/raster.py"},
    "PIL": {"render/publish/raster.py"},
    "joblib": {"render/batch/running.py", "render/publish/size_files.py"},
    "ezdxf": {"render/dxf.py"},
    "typer": {"cli.py"},
    "numpy": {"drafting/cloth/sliding.py"},
    "shapely": {"drafting/cloth/checking.py", "drafting/nests.py"},
    "spyrrow": {"drafting/cloth/solver_child.py"},
    "distributed": {"render/batch/cluster.py"},
    "rich": {"render/batch/progress.py"},
}

SLOW = (
    "pint", "pydantic", "reportlab", "pypdf", "svgwrite", "ezdxf", "numpy", "shapely", "spyrrow",
    "tree_sitter", "joblib", "distributed", "rich", "pypdfium2", "PIL", "segno",
)  # fmt: skip


def sources() -> tuple[Path, ...]:
    return (
        ROOT / "cli.py",
        *sorted((ROOT / "drafting").rglob("*.py")),
        *sorted((ROOT / "render").rglob("*.py")),
    )


@cache
def imported(source: Path) -> tuple[str, ...]:
    """Return every module that a file imports, wherever in the file it does so."""
    return tuple(_imported(source))


def _imported(source: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{source} imports by dots; name the package"
            assert node.module is not None
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def tops(source: Path) -> set[str]:
    return {name.split(".")[0] for name in imported(source)}


def shown(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_there_is_something_to_look_at() -> None:
    names = {shown(path) for path in sources()}
    assert {"cli.py", "drafting/pattern.py", "render/pdf.py"} <= names
    assert {home for homes in HOMES.values() for home in homes} <= names


def test_drafting_knows_neither_paper_nor_the_command_line() -> None:
    for source in sources():
        if shown(source).startswith("drafting/"):
            assert not tops(source) & {"render", "cli"}, shown(source)


def test_rendering_does_not_know_the_command_line() -> None:
    for source in sources():
        if shown(source).startswith("render/"):
            assert "cli" not in tops(source), shown(source)


def test_each_outside_library_stays_in_its_home() -> None:
    for source in sources():
        for library in tops(source) - {"drafting", "render", "cli"}:
            if library in HOMES:
                assert shown(source) in HOMES[library], f"{shown(source)} imports {library}"
            else:
                assert library in sys.stdlib_module_names, f"{shown(source)} imports {library}"


def test_every_library_is_still_used_in_each_of_its_homes() -> None:
    for library in HOMES:
        users = {shown(source) for source in sources() if library in tops(source)}
        assert users, f"nothing imports {library} any more"


@pytest.mark.parametrize(
    "module",
    [
        "drafting",
        "drafting.sheet",
        "drafting.pattern",
        "drafting.cloth.laying",
        "render",
        "render.pages",
        "render.output",
        "render.booklet.html",
        "render.booklet.pdf",
        "render.batch.writing",
        "render.publish.pack",
        "cli",
    ],
)
def test_a_command_pays_only_for_what_it_does(module: str) -> None:
    code = f"import sys, {module}; print(*(x for x in {SLOW!r} if x in sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == []


def test_no_name_says_nothing() -> None:
    for source in sources():
        assert source.stem not in {"utils", "util", "helpers", "common", "base", "misc"}


def test_no_star_imports() -> None:
    for source in sources():
        assert not any(name.endswith(".*") for name in imported(source)), shown(source)


def test_no_path_of_one_machine_is_written_down() -> None:
    machine = re.compile(r"/(?:home|Users|tmp|work|root)/\w|[A-Za-z]:\\\\")
    for source in sources():
        found = machine.search(source.read_text(encoding="utf-8"))
        assert found is None, f"{shown(source)}: {found}"


def test_both_packages_say_that_they_are_typed() -> None:
    for package in ("drafting", "render"):
        assert (ROOT / package / "py.typed").exists()
