"""A draft for each row: written, explained, taken up again, and the same bytes every time."""

import csv
import io
import json
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

import drafting
from drafting.errors import SheetError, SpreadsheetError
from drafting.pattern import Pattern
from drafting.spec import PaperName, Spec
from render.batch.journal import NAME, Journal, TakenError
from render.batch.task import drafted_row
from render.batch.writing import write_batch
from render.placement import Effort
from tests.render.batch.companies import (
    ROWS,
    SHEET,
    company,
    figures,
    files,
    journal_lines,
    pages,
)


@pytest.fixture(scope="module")
def drafted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small chorus, drafted once."""
    at = tmp_path_factory.mktemp("chorus")
    pages(at, at / "out")
    return at / "out"


def table(out: Path) -> list[dict[str, str]]:
    text = (out / "summary.csv").read_text(encoding="utf-8-sig")
    return list(csv.DictReader(io.StringIO(text), delimiter=";"))


def summary(out: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((out / "summary.json").read_text(encoding="utf-8"))
    return found


def test_every_sound_row_gets_its_folder_and_no_other_does(drafted: Path) -> None:
    folders = sorted(path.name for path in drafted.iterdir() if path.is_dir())
    assert folders == ["chorus-tall", "chorus-tall-row-5", "stairs", "swing"]
    for name in folders:
        assert sorted(path.name for path in (drafted / name).iterdir()) == [
            "chorus-skirt-a4.pdf", "chorus-skirt-figures.json",
        ]  # fmt: skip
    assert not (drafted.parent.parent / "stairs").exists()


def test_each_row_is_told_with_its_line_and_each_fault_with_its_column(drafted: Path) -> None:
    rows = table(drafted)
    assert [(row["line"], row["status"]) for row in rows] == [
        ("2", "done"), ("3", "faulty"), ("5", "done"), ("6", "done"), ("7", "faulty"),
        ("8", "done"),
    ]  # fmt: skip
    assert rows[1]["faults"].startswith('waist: waist is "=1+1", which is a formula')
    assert rows[4]["label"] == "Row 7"
    assert rows[4]["faults"].startswith("waist: waist is 7")
    assert "earlier row" in rows[2]["notes"]


def test_a_row_is_drafted_as_its_wearer_would_be_alone(drafted: Path) -> None:
    wearer = '[wearer]\nlabel = "Swing"\nwaist = "72 cm"\nhip = "98 cm"\n'
    alone = drafting.draft(drafting.read_sheet(SHEET + wearer)).figures
    (told,) = (row for row in summary(drafted)["wearers"] if row["label"] == "Swing")
    assert told["figures"]["skirt"]["waist_radius"] == pytest.approx(
        alone.skirt.waist_radius, abs=0.001
    )
    swing = next(row for row in table(drafted) if row["label"] == "Swing")
    sweep = float(swing["skirt_sweep_cm"].replace(",", "."))
    assert sweep == pytest.approx(alone.skirt.sweep / 10, abs=0.006)
    held = json.loads((drafted / "swing" / "chorus-skirt-figures.json").read_text())
    assert int(swing["pages_a4"]) == held["paper"]["a4"]["pages"]


def test_what_to_buy_is_the_rows_sum_and_said_to_be_an_estimate(drafted: Path) -> None:
    told = summary(drafted)
    skirt = next(one for one in told["to_buy"]["cloth"] if one["cloth"] == "skirt")
    needed = sum(row["cloth"]["skirt"]["needed"] for row in told["wearers"] if "cloth" in row)
    assert skirt["needed"] == pytest.approx(needed, abs=0.01)
    assert needed <= skirt["buy"] < needed + 100
    assert skirt["cost"] == pytest.approx(skirt["buy"] / 1000 * 10)
    assert told["to_buy"]["estimated"]
    assert "skirt_cloth_m_estimate" in table(drafted)[0]
    bought = (drafted / "to-buy.csv").read_text(encoding="utf-8-sig").splitlines()
    assert bought[1].startswith("skirt cloth;cotton sateen;150,0;")
    zips = [one for one in told["to_buy"]["notions"] if one["name"] == "zip"]
    assert sum(one["amount"] for one in zips) == 4


def test_two_processes_give_the_same_bytes_as_one(drafted: Path, tmp_path: Path) -> None:
    pages(tmp_path, tmp_path / "out", processes=2)
    assert files(tmp_path / "out") == files(drafted)


def test_rows_done_and_unchanged_are_not_drafted_twice(drafted: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert pages(tmp_path, out).kept == 0
    before = {path: path.stat().st_mtime_ns for path in out.rglob("*.pdf")}
    (out / "swing" / "chorus-skirt-a4.pdf").unlink()
    again = pages(tmp_path, out)
    assert again.kept == 3
    changed = {path for path in out.rglob("*.pdf") if before[path] != path.stat().st_mtime_ns}
    assert changed == {out / "swing" / "chorus-skirt-a4.pdf"}
    assert files(out) == files(drafted)


def test_a_batch_cut_off_in_the_middle_ends_with_the_same_files(
    drafted: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    pages(tmp_path, out)
    lines = journal_lines(out)
    # As a kill leaves it: one row told, the next torn off, files half made, no summary.
    (out / NAME).write_bytes(lines[0] + lines[1] + lines[3][:40])
    (out / "swing" / "chorus-skirt-a4.pdf").write_bytes(b"%PDF")
    (out / "stairs" / ".hemsweep-abc.part").write_bytes(b"half")
    (out / ".hemsweep-abc.part").write_bytes(b"half")
    (out / "summary.csv").unlink()
    assert pages(tmp_path, out).kept == 1
    assert files(out) == files(drafted)


def test_a_row_that_moved_down_is_kept_and_told_on_its_new_line(tmp_path: Path) -> None:
    out = tmp_path / "out"
    figures(tmp_path, out, "label;waist\nSwing;72\n")
    done = figures(tmp_path, out, "label;waist\nDeck;70\n\nSwing;72\n")
    assert (done.drafted, done.kept) == (2, 1)
    assert [(one["line"], one["label"]) for one in summary(out)["wearers"]] == [
        (2, "Deck"), (4, "Swing"),
    ]  # fmt: skip


def test_a_record_behind_a_torn_one_is_found_again(tmp_path: Path) -> None:
    batch = {"wearers": "chorus.csv"}
    record = {"folder": "swing", "status": "done", "key": "k", "files": []}
    with Journal(tmp_path, batch, force=False):
        pass
    with (tmp_path / NAME).open("ab") as torn:
        torn.write(b'{"line":2,"fold')
    with Journal(tmp_path, batch, force=False) as journal:
        assert journal.done("k") is None
        journal.keep(journal.expect(), record)
    with Journal(tmp_path, batch, force=False) as journal:
        assert journal.done("k") == record


def test_a_changed_row_and_other_papers_leave_nothing_stale(tmp_path: Path) -> None:
    out = tmp_path / "out"
    rows = "label;waist\nSwing;72\nDeck;70\n"
    pages(tmp_path, out, rows)
    changed = rows.replace("72", "73")
    assert pages(tmp_path, out, changed).kept == 1
    assert pages(tmp_path, out, changed, papers=(PaperName.A3,)).kept == 0
    pages(tmp_path / "anew", tmp_path / "anew" / "out", changed, papers=(PaperName.A3,))
    assert files(out) == files(tmp_path / "anew" / "out")
    assert not list(out.rglob("*-a4.pdf"))


def test_folders_that_no_row_has_any_more_are_named_and_kept(tmp_path: Path) -> None:
    out = tmp_path / "out"
    pages(tmp_path, out, "label;waist\nSwing;72\nDeck;70\n")
    for _ in range(2):
        done = pages(tmp_path, out, "label;waist\nSwing;72\n")
        assert done.left == ("deck",)
        assert done.kept == 1
    assert (out / "deck" / "chorus-skirt-a4.pdf").exists()
    assert summary(out)["left_of_earlier_runs"] == ["deck"]
    # Should the row come back for another paper, its folder is made up of that alone.
    pages(tmp_path, out, "label;waist\nDeck;70\n", papers=(PaperName.A3,))
    assert sorted(path.name for path in (out / "deck").iterdir()) == [
        "chorus-skirt-a3.pdf", "chorus-skirt-figures.json",
    ]  # fmt: skip


def test_a_folder_with_other_things_in_it_is_left_alone(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "letters.txt").write_text("mine")
    with pytest.raises(TakenError, match="no batch of hemsweep"):
        figures(tmp_path, out)
    assert files(out) == {"letters.txt": b"mine"}
    figures(tmp_path, out, force=True)
    assert (out / "letters.txt").read_text() == "mine"


def test_two_batches_do_not_share_a_folder(tmp_path: Path) -> None:
    out = tmp_path / "out"
    figures(tmp_path, out)
    wearers, sheet = company(tmp_path)
    other = wearers.rename(tmp_path / "orchestra.csv")
    before = files(out)
    with pytest.raises(TakenError, match=r"another batch \(chorus.csv, chorus-skirt"):
        write_batch(other, sheet, out, figures_only=True, processes=1)
    assert files(out) == before


def test_two_batches_at_once_do_not_write_into_one_folder(tmp_path: Path) -> None:
    with Journal(tmp_path / "out", {"wearers": "chorus.csv"}, force=False):
        with pytest.raises(TakenError, match="another batch is being written"):
            figures(tmp_path, tmp_path / "out")
        with pytest.raises(TakenError, match="another batch is being written"):
            figures(tmp_path, tmp_path / "out", force=True)
    figures(tmp_path, tmp_path / "out", force=True)


def test_a_row_that_breaks_the_draft_stops_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks(spec: Spec) -> Pattern:
        if spec.wearer.label == "Deck":
            raise ZeroDivisionError("a fault\nof ours")
        return drafting.draft(spec)

    monkeypatch.setattr("render.batch.task.draft", breaks)
    done = figures(tmp_path, tmp_path / "out", "label;waist\nDeck;72\nSwing;70\n")
    assert (done.drafted, done.faulty) == (1, 1)
    assert "chorus.csv, line 2: The draft broke off with ZeroDivisionError" in done.faults[0]
    monkeypatch.undo()
    assert figures(tmp_path, tmp_path / "out", "label;waist\nDeck;72\nSwing;70\n").faulty == 0


def test_a_finding_that_stops_a_draft_is_the_rows_fault(tmp_path: Path) -> None:
    # A fifth of a circle, 30 cm long, is narrower than a hip for most of its length.
    sheet = SHEET.replace('"half"', "0.2").replace("length = 55", "length = 30")
    rows = "label;waist;hip;accept\nDeck;72;90;\nSwing;72;74;hip\n"
    done = figures(tmp_path, tmp_path / "out", rows, sheet=sheet)
    assert (done.drafted, done.faulty) == (1, 1)
    assert done.faults[0].startswith("chorus.csv, line 2: For the hip to pass")


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        ("", "The file is empty"),
        ("label;waist\n\n;;\n", "no wearers below the first line"),
        ("label;hip\nA;90\n", "neither a column waist nor a column size"),
        ("waist" + ";waist" * 1_000_000, "longer than 20000"),
        ("label;waits\nA;70\n", 'Did you mean "waist"'),
    ],
)
def test_a_table_of_no_wearers_writes_nothing(tmp_path: Path, rows: str, why: str) -> None:
    with pytest.raises(SpreadsheetError, match=why):
        figures(tmp_path, tmp_path / "out", rows)
    assert not (tmp_path / "out").exists()


def test_letters_that_cannot_be_read_are_found_before_any_row_is_drafted(tmp_path: Path) -> None:
    wearers, sheet = company(tmp_path)
    wearers.write_bytes(ROWS.encode() + "Bühne;70\n".encode("cp1252"))
    with pytest.raises(SpreadsheetError, match=r"chorus.csv, line 9: .* not UTF-8"):
        write_batch(wearers, sheet, tmp_path / "out", figures_only=True, processes=1)
    assert not (tmp_path / "out").exists()


def test_a_sheet_at_fault_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(SheetError, match="dubble"):
        figures(tmp_path, tmp_path / "out", sheet=SHEET.replace('"half"', '"dubble"'))
    assert not (tmp_path / "out").exists()


def test_texts_cannot_become_formulas_in_the_summary(tmp_path: Path) -> None:
    figures(tmp_path, tmp_path / "out", 'label,size\n"=HYPERLINK(""x"")",P05\n@swing,=P05\n')
    text = (tmp_path / "out" / "summary.csv").read_text(encoding="utf-8-sig")
    cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
    assert '\'=HYPERLINK("x")' in cells


def test_commas_in_mean_points_out(tmp_path: Path) -> None:
    figures(tmp_path, tmp_path / "out", "label,size\nSwing,P05\n")
    text = (tmp_path / "out" / "summary.csv").read_text(encoding="utf-8-sig")
    row = next(csv.DictReader(io.StringIO(text)))
    assert float(row["skirt_waist_radius_cm"]) > 20


def test_records_stay_in_the_file_and_memory_with_it(tmp_path: Path) -> None:
    import tracemalloc

    def most(count: int) -> int:
        rows = "label;waist\n" + "".join(f"W{n};7\n" for n in range(count))
        tracemalloc.start()
        figures(tmp_path / str(count), tmp_path / str(count) / "out", rows)
        found = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return found

    most(5)
    # A record of a faulty row is some 300 bytes long; no row may keep one.
    assert most(220) - most(20) < 200 * 150


def test_a_killed_batch_goes_on_where_it_was(drafted: Path, tmp_path: Path) -> None:
    wearers, sheet = company(tmp_path)
    out = tmp_path / "out"
    code = (
        "import sys; from pathlib import Path; from render.batch.writing import write_batch;"
        "from render.output import Extra; from render.placement import Effort;"
        "write_batch(*map(Path, sys.argv[1:]), without=tuple(Extra), effort=Effort.QUICK,"
        " processes=1)"
    )
    run = subprocess.Popen([sys.executable, "-c", code, str(wearers), str(sheet), str(out)])
    until = time.monotonic() + 60
    while time.monotonic() < until and not ((out / NAME).exists() and len(journal_lines(out)) >= 3):
        time.sleep(0.01)
    run.kill()
    run.wait()
    assert not (out / "summary.json").exists()
    done = pages(tmp_path, out)
    assert 1 <= done.kept < 4
    assert files(out) == files(drafted)


def test_no_row_ever_raises() -> None:
    from render.batch.model import Job, Task, Wishes

    job = Job(
        sheet="s", title="s", tables={}, into=Path(), wishes=Wishes(figures_only=True,
        effort=Effort.QUICK),
    )  # fmt: skip
    task = Task(line=2, label="x", folder="", key="k", cells={"waist": "70 cm", "label": "x" * 999})
    assert drafted_row(task, job)["status"] == "faulty"
    empty = Task(line=2, label="x", folder="", key="k", cells={})
    assert drafted_row(empty, job)["faults"][0]["column"] == "waist"
