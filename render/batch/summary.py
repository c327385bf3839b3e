"""What is told of a batch: a line a row for a spreadsheet, the same as JSON, and what to buy.

Streamed from the journal in the order of the rows, so that none but one is in memory. Imports
the journal's records, the totals and how a CSV is written.
"""

import json
import os
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Any

from drafting.cloth import CLOTHS
from drafting.cloth.buying import PRICED_BY
from drafting.cloth.for_all import ForAll
from drafting.spreadsheet_cells import csv_line
from drafting.units import MM_PER_INCH, Mm, Units
from render.batch.model import DONE, Record

CSV, JSON, TO_BUY = "summary.csv", "summary.json", "to-buy.csv"

_LAYER = (
    "waistline", "waist_radius", "waist_radius_max", "hem_radius", "hem_radius_max", "sweep",
    "length_front", "length_side", "length_back", "length_left", "length_right",
)  # fmt: skip
FIGURES = (
    *(("skirt", name) for name in _LAYER),
    *(("lining", name) for name in _LAYER),
    *(("ruffle", name) for name in ("line_length", "flat_length", "strips")),
    *(("opening", name) for name in ("length", "zip")),
    *(("band", name) for name in ("cut_length", "cut_width")),
    *(("casing", name) for name in ("cut_length", "cut_width", "elastic")),
)
"""The figures that a row of the table tells; a draft's own file has all."""

COUNTS = frozenset({"strips"})

_SOLD = {Units.CM: ("m", 1), Units.INCH: ("yd", 3)}
"""What cloth is sold by, and the digits of it behind the point."""


@dataclass(slots=True, kw_only=True)
class Summary:
    """Counts and sums over the rows of a batch."""

    units: Units
    drafted: int = 0
    faulty: int = 0
    pages: Counter[str] = field(default_factory=Counter)
    for_all: ForAll = field(default_factory=ForAll)
    figures: set[tuple[str, str]] = field(default_factory=set)
    cloths: set[str] = field(default_factory=set)
    priced: bool = False

    def add(self, record: Record) -> None:
        """Add one row."""
        if record["status"] != DONE:
            self.faulty += 1
            return
        self.drafted += 1
        self.pages.update(record["pages"])
        self.for_all.add(record["cloth"], record["notions"])
        self.figures.update(
            (part, name) for part, held in record["figures"].items() for name in held
        )
        self.cloths.update(record["cloth"])
        self.priced |= any(one["cost"] is not None for one in record["cloth"].values())

    @property
    def estimated(self) -> bool:
        """Whether the cloth is the length of rows, not of lays."""
        return any(one.estimated for one in self.for_all.cloths.values())


def write_summary(
    folder: Path,
    records: Callable[[], Iterator[Record]],
    *,
    head: Mapping[str, Any],
    units: Units,
    delimiter: str,
    left: tuple[str, ...] = (),
) -> Summary:
    """Write the table of the rows, the same as JSON, and what to buy for all.

    Args:
        records: yields the rows' records, in their order, each time it is called.
        head: what leads the JSON: title and names.
        delimiter: between the cells of a CSV; the one that the wearers' file has.
        left: folders of earlier runs that this one has not drafted.

    Raises:
        OSError: a file cannot be written.
    """
    found = Summary(units=units)
    for record in records():
        found.add(record)
    with _whole(folder / CSV) as out:
        for line in _table(found, records, delimiter):
            out.write(line)
    with _whole(folder / JSON) as out:
        for text in _json(found, records, head, left):
            out.write(text)
    with _whole(folder / TO_BUY) as out:
        for line in _to_buy(found, delimiter):
            out.write(line)
    return found


@contextmanager
def _whole(path: Path) -> Iterator[IO[str]]:
    """Yield a text file that takes its name only once it is whole."""
    aside = path.with_name(f".hemsweep-{path.name}.part")
    try:
        # Spreadsheets tell UTF-8 by its mark alone; JSON must not have one.
        encoding = "utf-8-sig" if path.suffix == ".csv" else "utf-8"
        with aside.open("w", encoding=encoding, errors="replace", newline="") as out:
            yield out
            out.flush()
            os.fsync(out.fileno())
        aside.replace(path)
    finally:
        aside.unlink(missing_ok=True)


# --- the table -----------------------------------------------------------------------------


def _table(
    found: Summary, records: Callable[[], Iterator[Record]], delimiter: str
) -> Iterator[str]:
    figures = [each for each in FIGURES if each in found.figures]
    cloths = [name for name in CLOTHS if name in found.cloths]
    papers = sorted(found.pages)
    unit, sold = found.units.value, _SOLD[found.units][0]
    about = "_estimate" if found.estimated else ""
    yield csv_line(
        (
            "line", "label", "folder", "status", "faults", "notes", "cautions",
            *(f"{part}_{name}" + ("" if name in COUNTS else f"_{unit}") for part, name in figures),
            *(f"pages_{paper.replace('-', '_')}" for paper in papers),
            *(f"{name}_cloth_{sold}{about}" for name in cloths),
            *(("cost",) if found.priced else ()),
        ),
        delimiter,
    )  # fmt: skip
    for record in records():
        yield csv_line(_cells(record, found, figures, cloths, papers), delimiter)


def _cells(
    record: Record,
    found: Summary,
    figures: list[tuple[str, str]],
    cloths: list[str],
    papers: list[str],
) -> Iterator[str | float | None]:
    yield record["line"]
    yield record["label"]
    yield record["folder"]
    yield record["status"]
    yield " | ".join(fault_text(one) for one in record.get("faults", ()))
    yield " | ".join(record["notes"])
    yield " ".join(record.get("cautions", ()))
    for part, name in figures:
        value = record.get("figures", {}).get(part, {}).get(name)
        yield value if value is None or name in COUNTS else shown(value, found.units)
    for paper in papers:
        yield record.get("pages", {}).get(paper)
    for name in cloths:
        one = record.get("cloth", {}).get(name)
        yield None if one is None else sold(one["buy"], found.units)
    if found.priced:
        costs = [one["cost"] for one in record.get("cloth", {}).values() if one["cost"] is not None]
        yield round(sum(costs), 2) if costs else None


def fault_text(one: Mapping[str, str]) -> str:
    """Return a fault as one sentence after another, led by its column."""
    column = f"{one['column']}: " if one["column"] else ""
    return column + " ".join(part for part in (one["what"], one["do"]) if part)


def shown(length: Mm, units: Units) -> float:
    """Return a length in centimetres to a tenth of a millimetre, or in inches to a thousandth."""
    return round(length / 10, 2) if units is Units.CM else round(length / MM_PER_INCH, 3)


def sold(length: Mm, units: Units) -> float:
    """Return a length of cloth in metres or yards."""
    return round(length / PRICED_BY[units], _SOLD[units][1])


# --- JSON ----------------------------------------------------------------------------------


def _json(
    found: Summary,
    records: Callable[[], Iterator[Record]],
    head: Mapping[str, Any],
    left: tuple[str, ...],
) -> Iterator[str]:
    begin = {
        **head,
        "units": "mm",
        "rows": found.drafted + found.faulty,
        "drafted": found.drafted,
        "faulty": found.faulty,
    }
    yield json.dumps(begin, ensure_ascii=False)[:-1] + ', "wearers": [\n'
    for at, record in enumerate(records()):
        yield (",\n" if at else "") + json.dumps(_plain(record), ensure_ascii=False)
    end: dict[str, Any] = {"to_buy": to_buy_json(found), "pages": dict(sorted(found.pages.items()))}
    if left:
        end["left_of_earlier_runs"] = list(left)
    yield "\n], " + json.dumps(end, ensure_ascii=False, indent=1)[1:].lstrip() + "\n"


def _plain(record: Record) -> Record:
    """Return a record as it is told: files by name, nothing that only the journal needs."""
    plain = {key: value for key, value in record.items() if key != "key"}
    if "files" in plain:
        plain["files"] = [name for name, _ in plain["files"]]
    return plain


def to_buy_json(found: Summary) -> dict[str, Any]:
    """Return what to buy for all: cloths in mm, notions as they are measured, the cost."""
    units = found.units
    plain: dict[str, Any] = {
        "estimated": found.estimated,
        "cloth": [
            {
                "cloth": one.cloth,
                "kind": one.kind,
                "width": one.width,
                "garments": one.garments,
                "needed": round(one.needed, 3),
                "buy": round(one.buy(units), 3),
                **({} if one.have is None else {"at_hand": one.have}),
                **({} if (cost := one.cost(units)) is None else {"cost": round(cost, 2)}),
            }
            for one in found.for_all.cloths_in_order()
        ],
        "notions": [
            {
                "name": one.name,
                **({} if one.each is None else {"length_of_each": one.each}),
                "amount": round(one.amount, 3),
                "measured": one.measured,
                "about": one.about,
                "garments": one.garments,
            }
            for one in found.for_all.notions_in_order()
        ],
    }
    cost = found.for_all.cost(units)
    return plain if cost is None else {**plain, "cost": round(cost, 2)}


# --- what to buy ---------------------------------------------------------------------------


def _to_buy(found: Summary, delimiter: str) -> Iterator[str]:
    units = found.units
    length = units.value
    yield csv_line(
        ("what", "kind", f"width_or_length_{length}", "amount", "unit", "garments", "estimate",
         "cost"),
        delimiter,
    )  # fmt: skip
    for one in found.for_all.cloths_in_order():
        cost = one.cost(units)
        yield csv_line(
            (
                one.words, one.kind, shown(one.width, units),
                sold(one.buy(units), units), _SOLD[units][0], one.garments,
                "yes" if one.estimated else "no", None if cost is None else round(cost, 2),
            ),
            delimiter,
        )  # fmt: skip
    for notion in found.for_all.notions_in_order():
        amount, unit = notion_amount(notion.measured, notion.amount, units)
        each = None if notion.each is None else shown(notion.each, units)
        about = "yes" if notion.about else "no"
        yield csv_line(
            (notion.name, "", each, amount, unit, notion.garments, about, None), delimiter
        )


def notion_amount(measured: str, amount: float, units: Units) -> tuple[float, str]:
    """Return an amount as it is bought, and its unit: metres or yards, or a number."""
    if measured == "count":
        return round(amount), "pieces"
    length = amount * 1000 if measured == "metres" else amount
    return round(length / PRICED_BY[units], 1), _SOLD[units][0]
