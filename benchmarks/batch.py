"""What a batch takes: time, memory, and whether it ends the same however it is run.

    PYTHONPATH=. python benchmarks/batch.py written     500 wearers, 25 at fault
    PYTHONPATH=. python benchmarks/batch.py speed [N]   two processes against one, on N rows
    PYTHONPATH=. python benchmarks/batch.py memory      of the parent, as rows grow
    PYTHONPATH=. python benchmarks/batch.py cluster     a local dask cluster, byte for byte
    PYTHONPATH=. python benchmarks/batch.py killed      killed and run again, byte for byte
    PYTHONPATH=. python benchmarks/batch.py one         seconds and bytes of one draft on one core

Wearers are made up by counting, so that every run drafts the same ones.
"""

import contextlib
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from drafting.sheet import load_text
from drafting.wearer_rows import tables_for_rows
from render.batch.journal import NAME
from render.batch.model import Job, Task, Wishes
from render.batch.task import drafted_row
from render.batch.writing import write_batch
from render.output import Extra
from render.placement import Effort

SHEET = Path(__file__).parent.parent / "measurements_examples" / "chorus-skirt.toml"
PAGES: dict[str, Any] = {"without": tuple(Extra), "effort": Effort.QUICK}

FAULTY = ("=1+1", "7", "@waist", "seventy", "700", "#REF!", "-70", "70 furlongs")
"""Waists that cannot be drafted, by turns."""


def rows(count: int, faulty: int = 0) -> Iterator[str]:
    """Yield the lines of a table, its faulty rows spread evenly."""
    yield "label;waist;hip;height"
    every = count // faulty if faulty else count + 1
    for at in range(count):
        waist = 58 + at * 7 % 50 + (at % 10) / 10
        told = f"{waist:.1f}".replace(".", ",")
        if faulty and at % every == every - 1:
            told = FAULTY[at // every % len(FAULTY)]
        yield f"Chorus {at};{told};{waist + 24 + at % 4:.1f};{158 + at % 25}"


def table(folder: Path, count: int, faulty: int = 0) -> Path:
    """Write a table of wearers, and return its path."""
    path = folder / "chorus.csv"
    with path.open("w", encoding="utf-8") as out:
        out.writelines(f"{line}\n" for line in rows(count, faulty))
    return path


@contextlib.contextmanager
def scratch() -> Iterator[Path]:
    """Yield a folder that is gone afterwards."""
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


def files(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder by its name within it."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def written() -> None:
    """500 wearers, 25 of them at fault: 475 folders, 25 explanations."""
    with scratch() as at:
        began = time.perf_counter()
        done = write_batch(table(at, 500, 25), SHEET, at / "out", **PAGES)
        took = time.perf_counter() - began
        folders = sum(path.is_dir() for path in (at / "out").iterdir())
        told = json.loads((at / "out" / "summary.json").read_text(encoding="utf-8"))
        explained = sum(bool(one.get("faults")) for one in told["wearers"])
        print(f"{done.rows} rows: {folders} folders, {explained} explained, {took:.0f} s")
        for line in done.faults[:8]:
            print(f"  {line}")


def speed(count: int = 60) -> None:
    """Two processes against one, by turns, start-up and all; the best of three each.

    Only an idle machine can tell: told with each is what cores worked for others meanwhile,
    where the system says so.
    """
    took: dict[int, list[float]] = {1: [], 2: []}
    for _ in range(3):
        for processes, times in took.items():
            wall, cores, others = _timed(count, processes)
            times.append(wall)
            told = f"{processes}: {wall:.1f} s, {cores:.1f} s of cores, {others:.1f} s for others"
            print(told, flush=True)
    best = {processes: min(times) for processes, times in took.items()}
    print(f"{count} rows, two processes against one: {best[1] / best[2]:.2f} times")


def _timed(count: int, processes: int) -> tuple[float, float, float]:
    """Return seconds by the clock, of cores, and of cores at others' work, for one batch."""
    import resource

    with scratch() as at:
        words = [sys.executable, __file__, "into", str(table(at, count)), str(at / "out")]
        before, all_before = resource.getrusage(resource.RUSAGE_CHILDREN), _busy()
        began = time.perf_counter()
        subprocess.run([*words, str(processes)], check=True)
        wall, all_after = time.perf_counter() - began, _busy()
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
    cores = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, cores, max(all_after - all_before - cores, 0.0)


def _busy() -> float:
    """Return how many seconds the machine's cores have worked in all; 0 where that is unknown."""
    told = Path("/proc/stat")
    if not told.exists():
        return 0.0
    times = [int(word) for word in told.read_text().split("\n", 1)[0].split()[1:]]
    idle = times[3] + times[4]
    return (sum(times[:8]) - idle) / os.sysconf("SC_CLK_TCK")


def memory() -> None:
    """Most memory of the parent, children not counted, in a process of its own for each run."""
    for what, counts in (("figures", (100, 10_000)), ("pages", (20, 200))):
        most = {}
        for count in counts:
            words = [sys.executable, __file__, "parent", what, str(count)]
            told = subprocess.run(words, capture_output=True, text=True, check=True).stdout
            most[count] = float(told)
            print(f"{what}, {count} rows: {most[count]:.1f} MB", flush=True)
        print(f"{what}: {most[counts[1]] - most[counts[0]]:+.1f} MB")


def parent(what: str, count: int) -> None:
    """Run one batch on two processes, and print the most memory that this one held, in MB."""
    import resource

    wishes = {"figures_only": True} if what == "figures" else PAGES
    with scratch() as at:
        write_batch(table(at, count), SHEET, at / "out", processes=2, **wishes)
    kib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(kib / (1e6 if sys.platform == "darwin" else 1e3))


def cluster(count: int = 40) -> None:
    """A local cluster of two workers against two processes, byte for byte."""
    import distributed

    with scratch() as at:
        wearers = table(at, count, 4)
        began = time.perf_counter()
        write_batch(wearers, SHEET, at / "here", processes=2, **PAGES)
        here = time.perf_counter() - began
        with distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None
        ) as local:
            began = time.perf_counter()
            write_batch(wearers, SHEET, at / "there", cluster=local.scheduler_address, **PAGES)
            there = time.perf_counter() - began
        same = files(at / "here") == files(at / "there")
        print(f"{count} rows: here {here:.1f} s, cluster {there:.1f} s, same bytes: {same}")
    if not same:
        raise SystemExit(1)


def killed(count: int = 30) -> None:
    """Killed three times over and run again: the same files as run in one go."""
    with scratch() as at:
        wearers = table(at, count, 3)
        write_batch(wearers, SHEET, at / "whole", processes=2, **PAGES)
        out = at / "killed"
        words = [sys.executable, __file__, "into", str(wearers), str(out), "2"]
        for kept in (4, 12, 22):
            run = subprocess.Popen(words, stdout=subprocess.DEVNULL)
            while run.poll() is None and _records(out) < kept:
                time.sleep(0.02)
            run.kill()
            run.wait()
            print(f"killed with {_records(out)} records in the journal")
        done = write_batch(wearers, SHEET, out, processes=2, **PAGES)
        same = files(at / "whole") == files(out)
        print(f"{done.kept} of {done.drafted} kept, same bytes: {same}")
    if not same:
        raise SystemExit(1)


def _records(out: Path) -> int:
    journal = out / NAME
    return max(journal.read_bytes().count(b"\n") - 1, 0) if journal.exists() else 0


def into(wearers: str, out: str, processes: str) -> None:
    """Draft a table into a folder, in a process that may be killed meanwhile."""
    write_batch(Path(wearers), SHEET, Path(out), processes=int(processes), **PAGES)


def one(count: int = 12) -> None:
    """Seconds of one core and bytes on disk for one draft, the median of some, once warm."""
    tables = tables_for_rows(load_text(SHEET))
    ways = {
        "figures": Wishes(figures_only=True),
        "pages, quick": Wishes(**PAGES),
        "pages": Wishes(without=tuple(Extra)),
        "all": Wishes(),
    }
    for name, wishes in ways.items():
        with scratch() as at:
            job = Job(sheet="chorus", title="chorus", tables=tables, into=at, wishes=wishes)
            took = [_seconds(number, job) for number in range(count + 1)][1:]
            held = sum(path.stat().st_size for path in at.rglob("*") if path.is_file())
        each = held / (count + 1) / 1e6
        wall, cores = (statistics.median(times) for times in zip(*took, strict=True))
        print(f"{name}: {wall:.3f} s, {cores:.3f} s of cores, {each:.2f} MB on disk", flush=True)


def _seconds(number: int, job: Job) -> tuple[float, float]:
    """Return how long one draft takes, and for how long cores work on it, children included."""
    cells = {"waist": f"{60 + number * 3} cm", "label": "Chorus"}
    task = Task(line=number, label="Chorus", folder=f"c{number}", key="", cells=cells)
    began, before = time.perf_counter(), os.times()
    record = drafted_row(task, job)
    took, after = time.perf_counter() - began, os.times()
    assert record["status"] == "done", record
    return took, sum(after[:4]) - sum(before[:4])


def main() -> None:
    """Run what is named."""
    names = {"written": written, "speed": speed, "memory": memory, "cluster": cluster,
             "killed": killed, "one": one}  # fmt: skip
    words = sys.argv[1:]
    if words[:1] == ["parent"]:
        parent(words[1], int(words[2]))
    elif words[:1] == ["into"]:
        into(*words[1:])
    elif len(words) == 1 and words[0] in names:
        names[words[0]]()
    elif len(words) == 2 and words[0] == "speed" and words[1].isdigit():
        speed(int(words[1]))
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main()
