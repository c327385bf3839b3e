"""What a batch is asked for, and one row of it as it goes to a worker and comes back.

Everything here is small, plain and can be sent to another machine.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeAlias

from drafting.spec import PaperName
from render.output import Extra
from render.placement import Effort

Record: TypeAlias = dict[str, Any]
"""What is kept of one row, as JSON: where it stands, its faults, figures, pages and cloth."""

DONE, FAULTY = "done", "faulty"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What is asked for each wearer.

    Attributes:
        figures_only: only the numbers; no folder is written for a row.
    """

    papers: tuple[PaperName, ...] = ()
    effort: Effort = Effort.USUAL
    without: tuple[Extra, ...] = ()
    figures_only: bool = False

    def as_json(self) -> dict[str, Any]:
        """Return the wishes as plain values, to tell whether a row was asked for alike."""
        return {
            "papers": [paper.value for paper in self.papers],
            "effort": self.effort.value,
            "without": sorted(extra.value for extra in self.without),
            "figures_only": self.figures_only,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What all rows of a batch share.

    Attributes:
        sheet: the sheet's file name.
        title: the title of a sheet that has none.
        tables: of the sheet.
        into: the batch's folder, as a whole path.
        size_table: what stands in the sheet's own size table, for workers far from it.
    """

    sheet: str
    title: str
    tables: Mapping[str, Any]
    into: Path
    wishes: Wishes
    size_table: bytes | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One row to draft.

    Attributes:
        line: of the wearers' file.
        label: what the wearer is called on paper.
        folder: name of its folder within the batch's.
        key: the same for the same wearer, sheet and wishes, and for no others.
        stale: names of files that an earlier draft of this folder left.
        notes: what is to be said of the row besides.
    """

    line: int
    label: str
    folder: str
    key: str
    cells: Mapping[str, str]
    stale: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def record_of(task: Task, status: str) -> Record:
    """Return the beginning of a row's record."""
    return {
        "line": task.line,
        "label": task.label,
        "folder": task.folder,
        "status": status,
        "key": task.key,
        "notes": list(task.notes),
    }


def fault(column: str, what: str, allowed: str = "") -> dict[str, str]:
    """Return one fault of a row: its column, or none, what is wrong, what would do."""
    return {"column": column, "what": what, "do": allowed}
