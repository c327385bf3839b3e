"""Rows drafted side by side: in processes of this machine, or by the workers of a cluster.

The only home of joblib. The same code runs on both; records come back as they are ready.
"""

import os
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from threading import Thread
from typing import TypeAlias

from render.batch.cluster import connected
from render.batch.model import Job, Record, Task
from render.batch.task import drafted_row

Numbered: TypeAlias = tuple[int, Record]
Crew: TypeAlias = Callable[[Iterable[tuple[int, Task]], Job], Iterator[Numbered]]
"""Drafts numbered tasks, and yields each one's number and record, whichever is ready first."""


@contextmanager
def crew(*, processes: int | None = None, cluster: str | None = None) -> Iterator[Crew]:
    """Yield what drafts the rows.

    Args:
        processes: how many; None is as many as there are cores.
        cluster: address of a scheduler, to use its workers instead.

    Raises:
        ClusterError: the cluster cannot be had.
    """
    if cluster is None:
        many = -1 if processes is None else processes
        yield lambda tasks, job: _drafted_rows(tasks, job, many, leader=os.getpid())
        return
    from joblib import parallel_config

    with connected(cluster) as client, parallel_config(backend="dask", client=client):
        yield lambda tasks, job: _drafted_rows(tasks, job, -1, leader=None)


def _drafted_rows(
    tasks: Iterable[tuple[int, Task]], job: Job, processes: int, *, leader: int | None
) -> Iterator[Numbered]:
    """Yield the records, whichever is ready first.

    Args:
        leader: this process, where those that draft are its children.

    Raises:
        OSError: a process was ended from outside.
    """
    from joblib import Parallel, delayed
    from joblib.externals.loky.process_executor import BrokenProcessPool

    run = Parallel(n_jobs=processes, return_as="generator_unordered")
    try:
        yield from run(delayed(_numbered)(number, task, job, leader) for number, task in tasks)
    except BrokenProcessPool:
        raise OSError(
            "a process that drafted was ended from outside, perhaps for want of memory; run the"
            " same command again with fewer --processes, and it goes on from here"
        ) from None


def _numbered(number: int, task: Task, job: Job, leader: int | None) -> Numbered:
    if leader not in (None, os.getpid()):
        _end_with(leader)
    return number, drafted_row(task, job)


@cache
def _end_with(leader: int | None) -> None:
    """Let this process end when the one that leads it has been killed.

    It would else wait for minutes for another row, and finish one that nobody waits for.
    """

    def look() -> None:
        # An orphan is adopted: its parent is another one from then on. Not so on Windows.
        while os.getppid() == leader:
            time.sleep(1.0)
        os._exit(1)

    if os.getppid() == leader:
        Thread(target=look, daemon=True).start()
