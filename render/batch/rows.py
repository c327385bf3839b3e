"""From the wearers' file to tasks: which rows are to be drafted, and which are done already.

Imports the reading of tables. The file is read twice: once to see that all of it is text and to
count it, once to draft it.
"""

import hashlib
import json
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from drafting.errors import Fault, SpreadsheetError
from drafting.spreadsheet import Row, read
from drafting.spreadsheet_header import Header
from drafting.spreadsheet_lines import text_lines
from drafting.wearer_rows import COLUMNS, MEASURES
from render.batch.folder_names import FolderNames
from render.batch.journal import Journal
from render.batch.model import FAULTY, Task, Wishes, fault, record_of

REPEATED = "The label is that of an earlier row too; the folder has the line behind it."


def wearer_rows(path: Path) -> Iterator[Row]:
    """Yield the rows of a wearers' file.

    Raises:
        SpreadsheetError: it is no table of wearers.
        OSError: it cannot be read.
    """
    with path.open("rb") as stream:
        lines = text_lines(stream, name=path.name)
        _, rows = read(lines, known=COLUMNS, measures=MEASURES, name=path.name)
        yield from rows


def looked_through(path: Path) -> tuple[Header, int]:
    """Return the header of a wearers' file, and how many rows it has, all of it read once.

    Raises:
        SpreadsheetError: it is no table of wearers, or has no row, or neither waist nor size.
        OSError: it cannot be read.
    """
    if path.exists() and not path.is_file() and not path.is_dir():
        raise OSError(29, "it must be a file, for it is read twice", str(path))
    with path.open("rb") as stream:
        lines = text_lines(stream, name=path.name)
        header, rows = read(lines, known=COLUMNS, measures=MEASURES, name=path.name)
        count = sum(1 for _ in rows)
    if not {"waist", "size"} & set(header.names):
        what = "There is neither a column waist nor a column size."
        fault = Fault(what=what, allowed="Each wearer needs one of them.", line=header.line)
        raise SpreadsheetError(path.name, (fault,))
    if not count:
        what = "There are no wearers below the first line."
        raise SpreadsheetError(path.name, (Fault(what=what, allowed="Write one in each row."),))
    return header, count


class Rows:
    """Turns rows into tasks; those that need no draft go into the journal at once.

    Attributes:
        kept: how many were done by an earlier run.
        passed: how many needed no draft: those, and the rows at fault.
    """

    def __init__(self, path: Path, sheet_text: str, wishes: Wishes, journal: Journal) -> None:
        self._path, self._journal = path, journal
        self._of_all = json.dumps([edition(), sheet_text, wishes.as_json()])
        self._names = FolderNames()
        self._figures_only = wishes.figures_only
        self.kept = self.passed = 0

    def tasks(self) -> Iterator[tuple[int, Task]]:
        """Yield what is to be drafted, each with its number in the journal."""
        for row in wearer_rows(self._path):
            number = self._journal.expect()
            task = self._task(row)
            if row.faults:
                told = [fault(one.key, one.what, one.allowed) for one in row.faults]
                self._journal.keep(number, {**record_of(task, FAULTY), "faults": told})
                self.passed += 1
            elif (before := self._journal.done(task.key)) is not None:
                self.kept += 1
                self.passed += 1
                now = {**before, **record_of(task, before["status"])}
                self._journal.keep_again(number, before, now)
            else:
                yield number, task

    def _task(self, row: Row) -> Task:
        given = row.cells.get("label", "")
        folder, repeated = ("", False)
        if not self._figures_only:
            folder, repeated = self._names.of(given, row.line)
        label = given or f"Row {row.line}"
        return Task(
            line=row.line,
            label=label,
            folder=folder,
            key=self._key(row, label, folder),
            cells=dict(row.cells),
            stale=self._journal.stale(folder) if folder else (),
            notes=(REPEATED,) if repeated else (),
        )

    def _key(self, row: Row, label: str, folder: str) -> str:
        told = json.dumps([self._of_all, sorted(row.cells.items()), label, folder])
        return hashlib.sha256(told.encode("utf-8", "surrogatepass")).hexdigest()[:32]


def edition() -> str:
    """Return which edition of hemsweep drafts; a newer one drafts every row anew."""
    try:
        return version("hemsweep")
    except PackageNotFoundError:
        return ""
