"""What came back of each row, kept as it comes, so that a stopped batch can go on.

A file of JSON lines in the batch's folder. Imports the standard library and the model. Kept in
memory are two numbers a row; the records stay in the file.
"""

import json
import os
from array import array
from collections.abc import Iterator, Mapping
from itertools import chain
from pathlib import Path
from threading import Lock
from typing import IO, Any, Self

from render.batch.model import DONE, Record

NAME = ".hemsweep-batch.jsonl"
EDITION = 1

_NOWHERE = -1


class TakenError(OSError):
    """A folder is not this batch's, or another batch is being written into it."""

    def __init__(self, folder: Path, why: str) -> None:
        super().__init__(f"{folder}: {why}")
        self.folder = folder


class Journal:
    """The records of one batch: those of an earlier run, and those of this one.

    Open it with ``with``: its file is locked against a second batch meanwhile.
    """

    def __init__(self, folder: Path, batch: Mapping[str, Any], *, force: bool) -> None:
        """Open the journal of a folder, which is made if it is not there.

        Args:
            batch: what tells this batch from others: names of its files, and what it writes.
            force: take the folder whatever is in it, and forget what an earlier run did.

        Raises:
            TakenError: the folder holds something else, or another batch's files.
            OSError: it cannot be written.
        """
        self.folder = folder
        self._head = {"hemsweep batch": EDITION, **batch}
        path = folder / NAME
        # Any other folder may hold what somebody still wants.
        if folder.exists() and not folder.is_dir():
            raise NotADirectoryError(20, "a file stands where a folder should be", str(folder))
        if not force and not path.exists() and folder.is_dir() and any(folder.iterdir()):
            raise TakenError(
                folder,
                "the folder is not empty, and no batch of hemsweep; name another, or give --force",
            )
        folder.mkdir(parents=True, exist_ok=True)
        self._file: IO[bytes] = path.open("a+b")
        self._guard = Lock()
        self._at: array[int] = array("q")
        self._by_key: dict[str, int] = {}
        self._by_folder: dict[str, int] = {}
        self.earlier: set[str] = set()
        try:
            self._locked()
            self._read_earlier(force=force)
        except BaseException:
            self._file.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()

    def _locked(self) -> None:
        try:
            _lock(self._file)
        except OSError:
            why = "another batch is being written into it; wait for it, or name another folder"
            raise TakenError(self.folder, why) from None

    def _read_earlier(self, *, force: bool) -> None:
        """Read what an earlier run left; a last line that was torn off is dropped."""
        self._file.seek(0)
        first = self._file.readline()
        head = _parsed(first) if first.endswith(b"\n") else None
        if head is None or force:
            self._file.truncate(0)
            self._append(self._head)
            return
        if head != self._head:
            of = ", ".join(str(value) for key, value in head.items() if key != "hemsweep batch")
            why = f"it holds another batch ({of}); name another folder, or give --force"
            raise TakenError(self.folder, why)
        while True:
            at = self._file.tell()
            line = self._file.readline()
            if not line.endswith(b"\n"):
                self._file.truncate(at)
                return
            record = _parsed(line)
            if record is None:
                continue
            if name := record.get("left"):
                self.earlier.add(name)
                self._by_folder[name] = at
            elif record.get("status") == DONE:
                self._by_key[record["key"]] = at
                self._by_folder[record["folder"]] = at
                if record["files"]:
                    self.earlier.add(record["folder"])

    def done(self, key: str) -> Record | None:
        """Return the record of an earlier run for the same row, if its files are all there."""
        record = self._read(self._by_key.get(key, _NOWHERE))
        return record if record is not None and files_there(self.folder, record) else None

    def stale(self, folder: str) -> tuple[str, ...]:
        """Return names of the files that an earlier run wrote for a row of that folder."""
        return tuple(name for name, _ in self._files(folder))

    def _files(self, folder: str) -> list[list[Any]]:
        record = self._read(self._by_folder.get(folder, _NOWHERE))
        files: list[list[Any]] = [] if record is None else record["files"]
        return files

    def expect(self) -> int:
        """Make room for one more row, and return its number."""
        with self._guard:
            self._at.append(_NOWHERE)
            return len(self._at) - 1

    def keep(self, number: int, record: Record) -> None:
        """Write down what came of a row; it outlives this process from here on."""
        with self._guard:
            self._at[number] = self._append(record)

    def keep_again(self, number: int, before: Record, now: Record) -> None:
        """Keep what an earlier run found of a row, which may stand on another line now."""
        if now != before:
            self.keep(number, now)
            return
        with self._guard:
            self._at[number] = self._by_key[before["key"]]

    def records(self) -> Iterator[Record]:
        """Yield every row's record, in the order of the rows."""
        for at in self._at:
            record = self._read(at)
            if record is not None:
                yield record

    def settle(self, left: tuple[str, ...]) -> None:
        """Write the journal anew, and close it: rows in their order, folders of earlier runs."""
        behind = ({"left": name, "files": self._files(name)} for name in left)
        aside = self.folder / f"{NAME}.part"
        with aside.open("wb") as out:
            for record in chain((self._head,), self.records(), behind):
                out.write(_line(record))
            out.flush()
            os.fsync(out.fileno())
        self._file.close()  # Windows replaces no file that is open
        aside.replace(self.folder / NAME)

    def _append(self, record: Record) -> int:
        self._file.seek(0, os.SEEK_END)
        at = self._file.tell()
        self._file.write(_line(record))
        self._file.flush()
        return at

    def _read(self, at: int) -> Record | None:
        if at == _NOWHERE:
            return None
        with self._guard:
            self._file.seek(at)
            return _parsed(self._file.readline())


def files_there(folder: Path, record: Record) -> bool:
    """Return whether every file of a record is there, and as long as it was."""
    for name, size in record["files"]:
        try:
            if (folder / record["folder"] / name).stat().st_size != size:
                return False
        except OSError:
            return False
    return True


def _line(record: Record) -> bytes:
    return json.dumps(record, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _parsed(line: bytes) -> Record | None:
    try:
        record = json.loads(line)
    except ValueError:
        return None
    return record if isinstance(record, dict) else None


def _lock(file: IO[bytes]) -> None:
    """Lock a file until it is closed, or its process ends however it ends.

    Raises:
        OSError: another process has locked it.
    """
    try:
        import fcntl
    except ImportError:
        _lock_on_windows(file)
        return
    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _lock_on_windows(file: IO[bytes]) -> None:
    import importlib

    locking: Any = importlib.import_module("msvcrt")
    # Far beyond the end, so that the journal itself can still be read.
    file.seek(1 << 40)
    locking.locking(file.fileno(), locking.LK_NBLCK, 1)
