"""Putting files in place: whole or not at all, and never over another by accident.

Imports the standard library alone.
"""

import os
import re
import shutil
import tempfile
import unicodedata
import zlib
from collections.abc import Collection, Mapping
from pathlib import Path

LONGEST_NAME = 60

_RESERVED = {"con", "prn", "aux", "nul"} | {
    f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)
}
"""Names that Windows keeps for devices, whatever follows their first point."""

SPELT = {"ß": "ss", "ø": "o", "đ": "d", "ł": "l", "æ": "ae", "œ": "oe", "þ": "th", "ð": "d"}
"""Small letters that do not come apart into one of ASCII and an accent."""


class ExistsError(OSError):
    """A file is there already and may not be written over."""

    def __init__(self, paths: tuple[Path, ...]) -> None:
        self.paths = paths
        names = ", ".join(str(path) for path in paths)
        verb, them = ("exists", "it") if len(paths) == 1 else ("exist", "them")
        super().__init__(f"{names} {verb} already; give --force to write over {them}")


def safe_name(title: str) -> str:
    """Return a title reduced to letters, figures and hyphens: "chorus-skirt".

    Accents are dropped; a title with no such letter left becomes "skirt", with a short number
    of its own if it has letters of another script.
    """
    lowered = "".join(SPELT.get(c, c) for c in title.lower())
    # "½" comes apart into 1, a fraction slash and 2; the slash must not vanish into "12".
    apart = unicodedata.normalize("NFKD", lowered).replace("\u2044", "-")
    plain = apart.encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_NAME].strip("-")
    if not name:
        letters = "".join(c for c in unicodedata.normalize("NFC", lowered) if c.isalnum())
        return f"skirt-{zlib.crc32(letters.encode()):08x}" if letters else "skirt"
    return f"{name}-skirt" if name in _RESERVED else name


def check_free(paths: tuple[Path, ...], *, force: bool) -> None:
    """Make sure that none of the files exists, or that all may be written over.

    Raises:
        ExistsError: some exist and ``force`` is off.
        IsADirectoryError: a folder stands where a file should go.
    """
    for path in paths:
        if path.is_dir():
            raise IsADirectoryError(21, "there is a folder of that name", str(path))
    taken = tuple(path for path in paths if path.exists() or path.is_symlink())
    if taken and not force:
        raise ExistsError(taken)


def write_all(files: Mapping[Path, bytes], *, force: bool, growing: Collection[Path] = ()) -> None:
    """Write every file whole, or none: all to temporary names first, then put in place.

    Args:
        force: write over files that exist.
        growing: files that may be there already, for nothing in them is lost.

    Raises:
        ExistsError: a file exists and ``force`` is off.
        OSError: a file cannot be written; what this call had written is taken away again, and
            what it had written over is put back.
    """
    check_free(tuple(path for path in files if path not in growing), force=force)
    waiting: dict[Path, Path] = {}
    kept: dict[Path, Path] = {}
    new: list[Path] = []
    made: list[Path] = []
    try:
        for target in files:
            made += _folders(target.parent)
        for target, data in files.items():
            waiting[target] = _write_aside(target, data)
        for target in files:
            if (force or target in growing) and target.exists():
                kept[target] = _keep(target)
        for target, aside in waiting.items():
            _put(aside, target, force=force or target in growing, new=new)
    except BaseException:
        for path in new:
            path.unlink(missing_ok=True)
        for target, old in kept.items():
            old.replace(target)
        for folder in reversed(made):
            try:
                for aside in waiting.values():
                    if aside.parent == folder:
                        aside.unlink(missing_ok=True)
                folder.rmdir()
            except OSError:
                pass
        raise
    finally:
        for aside in (*waiting.values(), *kept.values()):
            aside.unlink(missing_ok=True)


def _keep(target: Path) -> Path:
    """Return a second name, or where a file system has none a copy, of a file to be replaced."""
    handle, name = tempfile.mkstemp(prefix=".hemsweep-", suffix=".old", dir=target.parent)
    os.close(handle)
    old = Path(name)
    try:
        old.unlink()
        os.link(target, old)
    except OSError:
        shutil.copy2(target, old)
    return old


def _folders(folder: Path) -> list[Path]:
    """Make a folder and those above it; return the ones that were not there."""
    missing = []
    while not folder.exists():
        missing.append(folder)
        folder = folder.parent
    if not folder.is_dir():
        raise NotADirectoryError(20, "a file stands where a folder should be", str(folder))
    for path in reversed(missing):
        path.mkdir()
    return missing[::-1]


def _write_aside(target: Path, data: bytes) -> Path:
    try:
        return _written_aside(target, data)
    except OSError as error:
        # The person asked for the target: a temporary name, or none, would tell them nothing.
        raise OSError(error.errno, error.strerror, str(target)) from error


def _written_aside(target: Path, data: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=".hemsweep-", suffix=".part", dir=target.parent)
    aside = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        mask = os.umask(0)
        os.umask(mask)
        aside.chmod(0o666 & ~mask)  # mkstemp gives 600, which nobody else could read
    except BaseException:
        aside.unlink(missing_ok=True)
        raise
    return aside


def _put(aside: Path, target: Path, *, force: bool, new: list[Path]) -> None:
    if force:
        was_there = target.exists()
        aside.replace(target)
        if not was_there:
            new.append(target)
        return
    try:
        os.link(aside, target)
    except FileExistsError:
        raise ExistsError((target,)) from None
    except OSError:
        # Some file systems have no links; the gap between check and move is small there.
        if target.exists():
            raise ExistsError((target,)) from None
        aside.replace(target)
    new.append(target)
