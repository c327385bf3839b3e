"""Laying an open cloth with a packing solver, in a process of its own.

Millimetres. Imports shapes and lays; the solver itself lives in ``solver_child.py``.
"""

import json
import math
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from drafting.cloth.in_rows import copies
from drafting.cloth.lays import Laid
from drafting.cloth.shapes import Shape
from drafting.geometry import flattened
from drafting.units import Mm

OUTSIDE: Mm = 0.5
"""The solver's polygons lie this far outside their arcs at most, and nowhere inside."""

SEED = 1
"""What the solver's chance starts from: another number would come to another plan."""

WORKERS = 3
"""Threads of one search, on any machine: with another number it would come to another plan."""

FAILURES = (110, 180)
"""Failures of the solver in all after which a search goes on only while it gains, and after which
it ends: they are what takes its time, three or four seconds for the hardest garments."""

GAINING = 40
"""A search that has shortened its plan by a hundredth over the last so many failures gains."""

SECONDS = 40.0
"""A solver that has not ended by then has failed. It tells nothing of how long it may take: a
plan never depends on the clock."""

MOST_SHAPES = 60
"""More shapes than this are laid without the solver: it would need minutes."""

NARROW: Mm = 4.0
"""What a shape must be narrower than the cloth for the solver to find a first place for it."""

_CHILD = Path(__file__).with_name("solver_child.py")


CANNOT_BE_RUN = "cannot be run"
TOOK_TOO_LONG = "took too long"


class SolverError(Exception):
    """The solver came to no plan; ``reason`` says why, in a word or two."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def suits(shapes: Sequence[Shape], width: Mm) -> bool:
    """Tell whether the solver can be asked: not too many shapes, none as wide as the cloth."""
    if sum(shape.count for shape in shapes) > MOST_SHAPES:
        return False
    return all(
        _tall(shape, extra, flipped) < width - NARROW
        for shape in shapes
        for extra in shape.turns
        for flipped in set(copies(shape))
    )


def _tall(shape: Shape, extra: float, flipped: bool) -> Mm:
    ys = [y for _, y in _polygon(shape, extra, flipped)]
    return max(ys) - min(ys)


def _polygon(shape: Shape, extra: float, flipped: bool) -> list[tuple[float, float]]:
    points = flattened(shape.lying(extra, flipped=flipped), outside=True, error=OUTSIDE)
    return [(p.x, p.y) for p in points[:-1]]


def solved(shapes: Sequence[Shape], width: Mm, *, stall: int) -> tuple[tuple[Laid, ...], Mm]:
    """Return every shape laid by the solver, and the length taken.

    Args:
        stall: so many reports of the solver without a shorter plan end the search.

    Raises:
        SolverError: it cannot be run, fails, or does not come to an end.
    """
    kinds: list[tuple[Shape, bool, list[int]]] = []
    for shape in shapes:
        images = copies(shape)
        for flipped in dict.fromkeys(images):
            wanted = [k for k, image in enumerate(images, start=1) if image is flipped]
            kinds.append((shape, flipped, wanted))
    task = {
        "width": width,
        "items": [
            {
                "shape": _polygon(shape, 0.0, flipped),
                "count": len(wanted),
                "turns": [math.degrees(extra) for extra in shape.turns],
            }
            for shape, flipped, wanted in kinds
        ],
        "workers": WORKERS,
        "stall": stall,
        "failures": FAILURES,
        "gaining": GAINING,
        "seconds": SECONDS,
        "seed": SEED,
    }
    plan = _run(task)
    return _laid(plan["placed"], kinds), float(plan["length"])


def _run(task: dict[str, Any]) -> dict[str, Any]:
    """Return the plan of one run.

    Raises:
        SolverError: there is none.
    """
    try:
        done = subprocess.run(
            [sys.executable, "-P", str(_CHILD)],  # None where Python is built into a program
            input=json.dumps(task),
            capture_output=True,
            text=True,
            timeout=SECONDS + 20,
            check=False,
        )
        plan = json.loads(done.stdout) if done.returncode == 0 else {"fault": "failed"}
    except (OSError, TypeError, ValueError, subprocess.SubprocessError) as error:
        raise SolverError(CANNOT_BE_RUN) from error
    if "placed" not in plan:
        raise SolverError(TOOK_TOO_LONG if plan.get("fault") == "time" else "failed")
    return dict(plan)


def _laid(
    placed: Sequence[Sequence[float]], kinds: Sequence[tuple[Shape, bool, list[int]]]
) -> tuple[Laid, ...]:
    left = [list(wanted) for _, _, wanted in kinds]
    found = []
    # Copies are numbered along the cloth, as a cutter meets them.
    for item, x, y, degrees in sorted(placed, key=lambda one: (one[0], one[1], one[2])):
        shape, flipped, _ = kinds[int(item)]
        extra = math.radians(degrees)
        near = min(shape.turns, key=lambda turn: abs(math.remainder(turn - extra, math.tau)))
        found.append(
            Laid(
                shape=shape,
                copy=left[int(item)].pop(0),
                x=x,
                y=y,
                turn=shape.turn(near, flipped=flipped),
                flipped=flipped,
            )
        )
    return tuple(found)
