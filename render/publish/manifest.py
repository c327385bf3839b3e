"""What a pack holds: every file with its size and its SHA-256, and the zip of all of them.

A list cannot hold its own sum, nor a zip that of the zip it lies in: ``SHA256SUMS`` leaves out
itself and the zip, ``files.json`` leaves out both lists and the zip, and the zip's own sum is told
when it is made. Imports the standard library.
"""

import hashlib
import io
import json
import zipfile
from collections.abc import Mapping

LIST, SUMS = "files.json", "SHA256SUMS"

_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""Every file in the zip bears the first date that a zip can: the same pack, the same bytes."""

_UNIX, _READABLE = 3, 0o100644 << 16


def sum_of(data: bytes) -> str:
    """Return the SHA-256 of bytes, as 64 figures and letters."""
    return hashlib.sha256(data).hexdigest()


def with_lists(files: Mapping[str, bytes], title: str, edition: str) -> dict[str, bytes]:
    """Return the files with both lists of them, in the order of their names."""
    listed = {
        "title": title,
        "edition": edition,
        "files": [
            {"name": name, "bytes": len(files[name]), "sha256": sum_of(files[name])}
            for name in sorted(files)
        ],
        "not_listed": [LIST, SUMS, "the zip of the folder"],
    }
    told = {**files, LIST: (json.dumps(listed, indent=2, ensure_ascii=False) + "\n").encode()}
    sums = "".join(f"{sum_of(told[name])}  {name}\n" for name in sorted(told))
    told[SUMS] = sums.encode()
    return {name: told[name] for name in sorted(told)}


def zip_bytes(files: Mapping[str, bytes], folder: str) -> bytes:
    """Return the files as a zip that unpacks into one folder.

    Args:
        folder: what that folder is called.
    """
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", compression=zipfile.ZIP_DEFLATED, compresslevel=9) as packed:
        for name in sorted(files):
            entry = zipfile.ZipInfo(f"{folder}/{name}", date_time=_FIRST_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = _UNIX
            entry.external_attr = _READABLE
            packed.writestr(entry, files[name], compresslevel=9)
    return out.getvalue()


def bytes_words(count: int) -> str:
    """Return a size as people read it: "812 kB", "1.4 MB"."""
    if count < 1_000_000:
        return f"{max(round(count / 1000), 1)} kB"
    return f"{count / 1_000_000:.1f} MB"
