"""One row drafted and written, in whatever process or machine it is run. Never raises.

Imports drafting and the writing of a draft.
"""

from pathlib import Path
from typing import Any

from drafting.cloth.for_all import (
    cloth_record,
    notion_records,
    notions_in_english,
    purchases_in_rows,
)
from drafting.errors import DraftingError, SheetError, printable
from drafting.figures import as_json
from drafting.findings import Finding, Level, stops
from drafting.pattern import Pattern, draft
from drafting.sheet import spec_from_tables
from drafting.spec import Spec
from drafting.wearer_rows import column_faults, with_wearer
from render.batch.model import DONE, FAULTY, Job, Record, Task, fault, record_of
from render.files import safe_name
from render.output import Output, write_draft

_NUMBERS = ("skirt", "lining", "ruffle", "opening", "band", "casing")
"""Parts whose figures are kept; a draft's own file has them all."""

LONGEST_TOLD = 300


def drafted_row(task: Task, job: Job) -> Record:
    """Return what came of one row; its files, if any are wanted, are written by then.

    Whatever goes wrong with a row is its own fault in the record, and stops no other.
    """
    try:
        return _drafted(task, job)
    except SheetError as error:
        return _faulty(task, [fault(*each) for each in column_faults(error)])
    except DraftingError as error:
        return _faulty(task, [fault("", line) for line in error.lines])
    except OSError as error:
        place = f"{Path(error.filename).name}: " if isinstance(error.filename, str) else ""
        return _faulty(task, [fault("", f"{place}{error.strerror or error}")])
    except Exception as error:
        told = printable(f"{type(error).__name__}: {error}")[:LONGEST_TOLD]
        what = f"The draft broke off with {told}"
        return _faulty(task, [fault("", what, "This is a fault of hemsweep, not of the row.")])


def _faulty(task: Task, faults: list[dict[str, str]]) -> Record:
    return {**record_of(task, FAULTY), "faults": faults}


def _drafted(task: Task, job: Job) -> Record:
    if not {"waist", "size"} & set(task.cells):
        what = "The row gives neither a waist nor a size."
        return _faulty(task, [fault("waist", what, "Fill in one of the two.")])
    pattern = draft(_spec(task, job))
    if stopped := stops(pattern.findings):
        return _faulty(task, [fault("", one.what, one.do) for one in stopped])
    output = None if job.wishes.figures_only else _written(pattern, task, job)
    if output is not None and (found := _proof_faults(output)):
        return _faulty(task, found)
    findings = pattern.findings if output is None else output.findings
    return {
        **record_of(task, DONE),
        "cautions": _cautions(findings),
        "figures": _figures(pattern),
        "pages": {} if output is None else _pages(output, pattern.spec.title),
        **_to_buy(pattern, output),
        "files": [] if output is None else _files(output),
    }


def _spec(task: Task, job: Job) -> Spec:
    tables = with_wearer(job.tables, task.cells)
    if not task.cells.get("label"):
        tables["wearer"]["label"] = task.label
    return spec_from_tables(
        tables, name=job.sheet, title_if_none=job.title, beside=lambda _: job.size_table or b""
    )


def _written(pattern: Pattern, task: Task, job: Job) -> Output:
    """Write a row's folder, after what an earlier draft left in it is taken away."""
    folder = job.into / task.folder
    # Figures of the same draft on other papers would be added to, and these are to be alone.
    figures = f"{safe_name(pattern.spec.title)}-figures.json"
    for name in (figures, *task.stale):
        if Path(name).name == name:
            (folder / name).unlink(missing_ok=True)
    return write_draft(
        pattern,
        folder,
        papers=job.wishes.papers,
        without=job.wishes.without,
        effort=job.wishes.effort,
        force=True,
    )


def _proof_faults(output: Output) -> list[dict[str, str]]:
    return [
        fault("", f"{written.path.name}: {told}")
        for written in output.files
        if written.proof is not None
        for told in written.proof.faults
    ]


def _cautions(findings: tuple[Finding, ...]) -> list[str]:
    codes = (finding.code for finding in findings if finding.level is Level.CAUTION)
    return list(dict.fromkeys(codes))


def _figures(pattern: Pattern) -> dict[str, Any]:
    """Return the plain numbers of each part, in mm and degrees."""
    all_of_them = as_json(pattern.figures, ())
    return {
        part: {
            name: value
            for name, value in all_of_them[part].items()
            if isinstance(value, int | float)
        }
        for part in _NUMBERS
        if part in all_of_them
    }


def _pages(output: Output, title: str) -> dict[str, int]:
    """Return the pages of each PDF by its paper, or by ``lay`` or ``booklet``."""
    begin = f"{safe_name(title)}-"
    return {
        written.path.stem.removeprefix(begin): written.pages
        for written in output.files
        if written.path.suffix == ".pdf"
    }


def _to_buy(pattern: Pattern, output: Output | None) -> dict[str, Any]:
    cloth = None if output is None else output.cloth
    bought = purchases_in_rows(pattern) if cloth is None else cloth.shopping.purchases
    return {
        "cloth": cloth_record(bought, estimated=cloth is None),
        "notions": notion_records(notions_in_english(pattern)),
    }


def _files(output: Output) -> list[list[Any]]:
    """Return each file's name and its size, by which a later run knows that it is there."""
    return [[one.path.name, one.path.stat().st_size] for one in output.files]
