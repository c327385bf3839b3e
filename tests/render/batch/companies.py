"""Small batches for the tests: a sheet, rows, and what came of them as bytes."""

from pathlib import Path
from typing import Any

from render.batch.journal import NAME
from render.batch.writing import BatchOutput, write_batch
from render.output import Extra
from render.placement import Effort

SHEET = """
title = "Chorus skirt"
units = "cm"
[skirt]
fullness = "half"
length = 55
[cloth.skirt]
kind = "cotton sateen"
width = 150
price = 10
[print]
scope = "card"
"""

ROWS = """label;waist;hip
Chorus, tall;74,5;101
Chorus, small;=1+1;90

Chorus, tall;70;96
../../stairs;68,5;
;7;
Swing;72;98
"""


def company(folder: Path, rows: str = ROWS, sheet: str = SHEET) -> tuple[Path, Path]:
    """Write a table of wearers and a sheet into a folder, and return both."""
    folder.mkdir(parents=True, exist_ok=True)
    wearers, toml = folder / "chorus.csv", folder / "chorus-skirt.toml"
    wearers.write_text(rows, encoding="utf-8")
    toml.write_text(sheet, encoding="utf-8")
    return wearers, toml


def pages(folder: Path, out: Path, rows: str = ROWS, **more: Any) -> BatchOutput:
    """Draft pages alone, in this process."""
    asked: dict[str, Any] = {"processes": 1, "without": tuple(Extra), "effort": Effort.QUICK}
    return write_batch(*company(folder, rows), out, **{**asked, **more})


def figures(folder: Path, out: Path, rows: str = ROWS, **more: Any) -> BatchOutput:
    """Draft the numbers alone, in this process."""
    sheet = more.pop("sheet", SHEET)
    wishes = {"processes": 1, "figures_only": True, **more}
    return write_batch(*company(folder, rows, sheet), out, **wishes)


def files(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder, the hidden ones too, by its name within it."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def journal_lines(out: Path) -> list[bytes]:
    """Return the lines of a batch's journal."""
    return (out / NAME).read_bytes().splitlines(keepends=True)
