"""A batch from end to end: checked, drafted row by row, told of in a summary.

Imports the other modules of the package; the command line and Python call the same function.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

from drafting.sheet import beside, load_text
from drafting.spec import PaperName
from drafting.wearer_rows import tables_for_rows, units_of
from render.batch.journal import Journal, files_there
from render.batch.model import DONE, FAULTY, Job, Record, Wishes, fault
from render.batch.rows import Rows, looked_through
from render.batch.running import Crew, crew
from render.batch.summary import Summary, fault_text, write_summary
from render.output import Extra
from render.placement import Effort

Advance: TypeAlias = Callable[[int, int], None]
"""Is told how many rows are through, and how many there are."""

MOST_TOLD = 50
"""Faulty rows that are told one by one; the summary has them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchOutput:
    """What came of a batch.

    Attributes:
        kept: rows of those drafted that an earlier run had done.
        faults: a line for each fault of the first faulty rows.
        untold: how many faulty rows have no line there.
        left: folders of earlier runs that this one has not drafted.
        summary: counts and what to buy for all.
    """

    folder: Path
    rows: int
    drafted: int
    faulty: int
    kept: int
    faults: tuple[str, ...]
    untold: int
    left: tuple[str, ...]
    summary: Summary


def _silent(_: int, __: int) -> None:
    """Say nothing."""


def write_batch(
    wearers: Path,
    sheet: Path,
    folder: Path,
    *,
    papers: tuple[PaperName, ...] = (),
    effort: Effort = Effort.USUAL,
    without: tuple[Extra, ...] = (),
    figures_only: bool = False,
    processes: int | None = None,
    cluster: str | None = None,
    force: bool = False,
    advance: Advance = _silent,
) -> BatchOutput:
    """Draft a sheet for every row of a table of wearers, and write what came of all.

    A row at fault is told of and stops no other. Rows that an earlier run has done, unchanged
    and with all their files there, are not drafted again. The same rows, sheet and wishes give
    the same bytes, however many processes there are and however often it was stopped.

    Args:
        wearers: a CSV; its columns are the keys of ``[wearer]``.
        folder: where; each row gets a folder in it.
        papers: papers to print on instead of the sheet's.
        without: what is left out of the rows' folders.
        figures_only: only the numbers, in the summary; no folder for a row.
        processes: how many draft side by side; None is one for each core.
        cluster: address of a dask scheduler, whose workers draft instead.
        force: write into a folder that holds other files, and draft every row anew.
        advance: is told how far it is.

    Raises:
        SpreadsheetError, SheetError: no row could be drafted.
        ClusterError: the cluster cannot be had.
        TakenError, OSError: the folder is not this batch's, or cannot be written.
    """
    wishes = Wishes(papers=papers, effort=effort, without=without, figures_only=figures_only)
    header, count = looked_through(wearers)
    text = load_text(sheet)
    tables = tables_for_rows(text, name=sheet.name, beside=beside(sheet))
    own = tables.get("size_table")
    job = Job(
        sheet=sheet.name,
        title=sheet.stem,
        tables=tables,
        into=folder.absolute(),
        wishes=wishes,
        size_table=beside(sheet)(own.strip()) if isinstance(own, str) else None,
    )
    with (
        crew(processes=processes, cluster=cluster) as run,
        Journal(job.into, _batch(wearers, sheet, wishes), force=force) as journal,
    ):
        rows = Rows(wearers, _all_read(text, job), wishes, journal)
        advance(0, count)
        for through in _through(rows, journal, job, run):
            advance(through, count)
        advance(count, count)
        left = _left(journal)
        summary = write_summary(
            job.into,
            journal.records,
            head={
                "title": str(tables.get("title", sheet.stem)),
                "sheet": sheet.name,
                "wearers_file": wearers.name,
                "asked": wishes.as_json(),
            },
            units=units_of(tables),
            delimiter=header.delimiter,
            left=left,
        )
        faults, told = _told(journal, wearers.name)
        _swept(job.into, journal)
        journal.settle(left)
    return BatchOutput(
        folder=folder,
        rows=count,
        drafted=summary.drafted,
        faulty=summary.faulty,
        kept=rows.kept,
        faults=faults,
        untold=summary.faulty - told,
        left=left,
        summary=summary,
    )


def _batch(wearers: Path, sheet: Path, wishes: Wishes) -> dict[str, str]:
    """Return what tells this batch from another: an edited table or sheet is still the same."""
    writes = "figures only" if wishes.figures_only else "a draft for each row"
    return {"wearers": wearers.name, "sheet": sheet.name, "writes": writes}


def _through(rows: Rows, journal: Journal, job: Job, run: Crew) -> Iterator[int]:
    """Draft the rows, keep each record as it comes, and yield how many rows are through."""
    for drafted, (number, record) in enumerate(run(rows.tasks(), job), start=1):
        journal.keep(number, _seen_here(record, job))
        yield drafted + rows.passed


def _seen_here(record: Record, job: Job) -> Record:
    """Return a record, at fault if its files cannot be seen: a cluster may write elsewhere."""
    if record["status"] != DONE or files_there(job.into, record):
        return record
    what = "Its files were written, but not where this machine sees them."
    allowed = "Give --out a folder that all machines of the cluster share."
    plain = {key: record[key] for key in ("line", "label", "folder", "status", "key", "notes")}
    return {**plain, "status": FAULTY, "faults": [fault("", what, allowed)]}


def _all_read(text: str, job: Job) -> str:
    """Return all that a row is drafted from but its cells: the sheet, and its own size table."""
    return text if job.size_table is None else f"{text}\n{job.size_table.hex()}"


def _left(journal: Journal) -> tuple[str, ...]:
    """Return folders of earlier runs, still there, that no row of this one has written."""
    if not journal.earlier:
        return ()
    now = {record["folder"] for record in journal.records() if record["status"] == DONE}
    return tuple(sorted(name for name in journal.earlier - now if (journal.folder / name).is_dir()))


def _told(journal: Journal, wearers: str) -> tuple[tuple[str, ...], int]:
    """Return a line for each fault of the first faulty rows, and how many rows those are."""
    lines: list[str] = []
    rows = 0
    for record in journal.records():
        if record["status"] == DONE:
            continue
        if rows == MOST_TOLD:
            break
        rows += 1
        place = f"{wearers}, line {record['line']}"
        lines += [
            f"{place}, {fault_text(one)}" if one["column"] else f"{place}: {fault_text(one)}"
            for one in record["faults"]
        ]
    return tuple(lines), rows


def _swept(folder: Path, journal: Journal) -> None:
    """Take away what a draft that was stopped in the middle left aside."""
    _sweep(folder)
    for record in journal.records():
        if record["status"] == DONE and record["files"]:
            _sweep(folder / record["folder"])


def _sweep(folder: Path) -> None:
    for ending in ("part", "old"):
        for aside in folder.glob(f".hemsweep-*.{ending}"):
            aside.unlink(missing_ok=True)
