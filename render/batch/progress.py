"""A progress bar on standard error. The only home of rich.

Rich writes its last bar even where standard error is no terminal, so it is not begun there.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from render.batch.writing import Advance


@contextmanager
def bar() -> Iterator[Advance]:
    """Yield what moves a bar, shown on a terminal only and wiped afterwards."""
    if not sys.stderr.isatty():
        yield lambda through, count: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TimeRemainingColumn

    columns = ("drafting", BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as shown:
        drafting = shown.add_task("drafting", total=None)
        yield lambda through, count: shown.update(drafting, completed=through, total=count)
