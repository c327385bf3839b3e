"""The last edition of a pack: where it lies, and what its figures tell.

What lies in another folder may be anything: it is read as such, and nothing is taken for granted.
Imports the names of packs.
"""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from drafting.language import said_later
from drafting.spec import Spec
from render.files import safe_name
from render.publish.titles import edition_ending, in_natural_order, pack_name

MOST_BYTES = 50_000_000
"""No figures are longer; a file that is, is not ours."""

_FIGURES = "-figures.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class LastEdition:
    """Another edition as it was found.

    Attributes:
        folder: its name, without the folders above it.
        figures: what it tells, or None where it cannot be read as figures.
        fault: why not, not said yet; else "".
    """

    folder: str
    figures: dict[str, Any] | None
    fault: str = ""


def last_edition(spec: Spec, folder: Path, given: Path | None) -> LastEdition | None:
    """Return the edition before this one, or None where there is none.

    Args:
        folder: where this edition is written; the others are looked for beside it.
        given: the folder of the last edition, if it was told.

    Raises:
        NotADirectoryError, FileNotFoundError: the folder that was told is none.
    """
    if given is not None:
        if not given.exists():
            raise FileNotFoundError(2, "there is no such folder", str(given))
        if not given.is_dir():
            raise NotADirectoryError(20, "it is a file, and a folder is wanted", str(given))
        return _read(given, spec)
    before = _before(spec, folder)
    return None if before is None else _read(before, spec)


def _before(spec: Spec, folder: Path) -> Path | None:
    """Return the folder beside this one whose edition sorts just before it."""
    if not spec.publish.edition:
        return None
    start = f"{safe_name(spec.title)}-edition-"
    ours = in_natural_order(edition_ending(spec.publish).removeprefix("-edition-"))
    found = []
    try:
        beside = sorted(folder.absolute().parent.iterdir())
    except OSError:
        return None
    for path in beside:
        name = path.name.removeprefix(start)
        is_other = path.name != pack_name(spec) and path.absolute() != folder.absolute()
        if name == path.name or not is_other:
            continue
        order = in_natural_order(name)
        if order < ours and path.is_dir():
            found.append((order, path))
    return max(found)[1] if found else None


def _read(folder: Path, spec: Spec) -> LastEdition:
    name = folder.absolute().name
    try:
        path = _figures_in(folder, spec)
        if path is None:
            return _unread(name, said_later("it holds no figures"))
        if path.stat().st_size > MOST_BYTES:
            return _unread(name, said_later("its figures are too long"))
        told = json.loads(path.read_text(encoding="utf-8"))
    except RecursionError:
        return _unread(name, said_later("its figures are nested too deep"))
    except OSError:
        return _unread(name, said_later("it cannot be read"))
    except ValueError:
        return _unread(name, said_later("its figures are no JSON"))
    if not isinstance(told, dict) or not ("skirt" in told or isinstance(told.get("sizes"), dict)):
        return _unread(name, said_later("its figures are not a draft's"))
    return LastEdition(folder=name, figures=told)


def _unread(folder: str, fault: str) -> LastEdition:
    return LastEdition(folder=folder, figures=None, fault=fault)


def _figures_in(folder: Path, spec: Spec) -> Path | None:
    """Return the file of figures: that of the title, or the only one there is."""
    named = folder / f"{safe_name(spec.title)}{_FIGURES}"
    if named.is_file():
        return named
    every = sorted(path for path in folder.glob(f"*{_FIGURES}") if path.is_file())
    return every[0] if len(every) == 1 else None
