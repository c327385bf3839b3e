"""The solver's own process: reads a lay to pack, writes where the shapes lie. Home of spyrrow.

Run by ``solver.py`` as a script, so that a solver that panics or hangs takes nothing with it.
Its results come one after the other in an order that a seed repeats; only when it stops by the
clock does that differ from run to run. So it is stopped by counting what it reports, and the
plan is the same on a fast machine and on a slow one.

Imports nothing of the project: the script starts in a tenth of a second.
"""

import json
import math
import os
import sys
import threading
import time
from typing import Any


def packed(task: dict[str, Any]) -> dict[str, Any]:
    """Return the best plan among the first results of the solver.

    Args:
        task: ``width`` of the strip, ``items`` (``shape``, ``count``, ``turns`` in degrees),
            ``seed``, ``workers``, ``stall`` (stop after so many reports without a better plan),
            ``failures`` (and after so many in all, the first number unless the last ``gaining``
            of them brought a hundredth), ``seconds`` (give up by then).
    """
    import spyrrow

    items = [
        spyrrow.Item(str(k), [tuple(p) for p in item["shape"]], item["count"], item["turns"])
        for k, item in enumerate(task["items"])
    ]
    strip = spyrrow.StripPackingInstance("lay", task["width"], items)
    # Never stopped by these: they lie beyond the time after which we give up.
    limit = int(task["seconds"]) + 60
    config = spyrrow.StripPackingConfig(
        total_computation_time=None,
        exploration_time=limit,
        compression_time=limit,
        num_workers=task["workers"],
        quadtree_depth=3,
        seed=task["seed"],
    )
    queue = spyrrow.ProgressQueue()
    ended: list[Any] = []

    def solve() -> None:
        ended.append(strip.solve(config, queue))

    worker = threading.Thread(target=solve, daemon=True)
    worker.start()
    best, in_a_row = None, 0
    widths: list[float] = []  # of the best plan at each failure
    until, parent = time.monotonic() + task["seconds"], os.getppid()
    while time.monotonic() < until and os.getppid() == parent:
        running = worker.is_alive()
        for kind, solution in queue.drain():
            if str(kind).rpartition(".")[2] in ("ExplFeas", "CmprFeas", "Final"):
                best, in_a_row = solution, 0
                continue
            in_a_row += 1
            widths.append(best.width if best is not None else math.inf)
            if in_a_row >= task["stall"] or _spent(widths, task["failures"], task["gaining"]):
                return _plain(best)
        if not running:
            return _plain(best)
        time.sleep(0.002)
    return {"fault": "time"}


def _spent(widths: list[float], failures: tuple[int, int], gaining: int) -> bool:
    """Tell whether a search has failed often enough, or gains hardly anything more."""
    few, many = failures
    idle = len(widths) >= few and widths[-1 - gaining] < widths[-1] * 1.01
    return idle or len(widths) >= many


def _plain(solution: Any) -> dict[str, Any]:
    if solution is None:
        return {"fault": "nothing"}
    return {
        "length": solution.width,
        "placed": [[int(one.id), *one.translation, one.rotation] for one in solution.placed_items],
    }


def main() -> None:
    """Read a task from standard input, write the plan to standard output, and be gone."""
    found = packed(json.load(sys.stdin))
    sys.stdout.write(json.dumps(found))
    sys.stdout.flush()
    # The solver's thread may still be at work; it is not waited for.
    os._exit(0)


if __name__ == "__main__":
    main()
