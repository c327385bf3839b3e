"""Files are put in place whole or not at all, and nothing that was there is lost."""

import errno
import os
import re
import stat
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from render.files import ExistsError, check_free, safe_name, write_all


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): b"" if path.is_dir() else path.read_bytes()
        for path in folder.rglob("*")
    }


def three(folder: Path) -> dict[Path, bytes]:
    return {
        folder / "skirt-a4.pdf": b"pages",
        folder / "skirt-a3.pdf": b"larger pages",
        folder / "skirt-figures.json": b"{}",
    }


def test_every_file_is_written_whole(tmp_path: Path) -> None:
    write_all(three(tmp_path / "chorus" / "act one"), force=False)
    assert {name: data for name, data in tree(tmp_path).items() if data} == {
        "chorus/act one/skirt-a4.pdf": b"pages",
        "chorus/act one/skirt-a3.pdf": b"larger pages",
        "chorus/act one/skirt-figures.json": b"{}",
    }


def failing(name: str, on: int, error: OSError) -> Any:
    """Return a stand-in for one of the system's calls that fails the ``on``-th time."""
    real, calls = getattr(os, name), [0]

    def call(*words: Any, **named: Any) -> Any:
        calls[0] += 1
        if calls[0] == on:
            raise error
        return real(*words, **named)

    return call


FULL = OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize("on", [1, 2, 3])
@pytest.mark.parametrize("there", [False, True])
def test_a_disk_that_fills_up_leaves_everything_as_it_was(
    on: int, there: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "patterns"
    if there:
        folder.mkdir()
        (folder / "notes.txt").write_bytes(b"hem: 62")
    before = tree(tmp_path)
    monkeypatch.setattr(os, "fsync", failing("fsync", on, FULL))
    with pytest.raises(OSError, match="No space left") as caught:
        write_all(three(folder), force=False)
    assert caught.value.errno == errno.ENOSPC
    assert Path(str(caught.value.filename)) in three(folder)
    assert tree(tmp_path) == before


@pytest.mark.parametrize("on", [1, 2, 3])
def test_a_fault_while_files_are_put_in_place_takes_back_those_already_there(
    on: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "link", failing("link", on, KeyboardInterrupt()))  # type: ignore[arg-type]
    with pytest.raises(KeyboardInterrupt):
        write_all(three(tmp_path / "patterns"), force=False)
    assert tree(tmp_path) == {}


def test_a_file_that_appears_meanwhile_is_not_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = three(tmp_path)
    second = list(files)[1]
    real = os.link

    def slow(source: Path, target: Path) -> None:
        if target == second:
            second.write_bytes(b"somebody else's")
        real(source, target)

    monkeypatch.setattr(os, "link", slow)
    with pytest.raises(ExistsError):
        write_all(files, force=False)
    assert tree(tmp_path) == {second.name: b"somebody else's"}


def test_a_disk_without_links_still_gets_its_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", refuse)
    write_all(three(tmp_path), force=False)
    assert set(tree(tmp_path)) == {path.name for path in three(tmp_path)}


def test_nothing_is_written_over_unless_that_was_asked(tmp_path: Path) -> None:
    old = tmp_path / "skirt-a3.pdf"
    old.write_bytes(b"last season's")
    with pytest.raises(ExistsError, match=r"skirt-a3\.pdf exists already.*--force") as caught:
        write_all(three(tmp_path), force=False)
    assert caught.value.paths == (old,)
    assert tree(tmp_path) == {old.name: b"last season's"}
    write_all(three(tmp_path), force=True)
    assert old.read_bytes() == b"larger pages"
    assert len(tree(tmp_path)) == 3


def test_a_disk_that_fills_up_while_writing_over_loses_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = {path: b"last season's " + data for path, data in three(tmp_path).items()}
    write_all(old, force=False)
    before = tree(tmp_path)
    monkeypatch.setattr(os, "fsync", failing("fsync", 3, FULL))
    with pytest.raises(OSError, match="No space left"):
        write_all(three(tmp_path), force=True)
    assert tree(tmp_path) == before


@pytest.mark.parametrize("links", [True, False])
@pytest.mark.parametrize("on", [1, 2, 3])
def test_a_fault_while_files_are_written_over_puts_the_old_ones_back(
    on: int, links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = list(three(tmp_path).items())[:2]
    write_all({path: b"last season's " + data for path, data in held}, force=False)
    before = tree(tmp_path)
    real, calls = Path.replace, 0

    def failing_replace(source: Path, target: Path) -> Path:
        nonlocal calls
        calls += 1
        if calls == on:
            raise KeyboardInterrupt
        return real(source, target)

    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(Path, "replace", failing_replace)
    if not links:
        monkeypatch.setattr(os, "link", refuse)
    with pytest.raises(KeyboardInterrupt):
        write_all(three(tmp_path), force=True)
    assert tree(tmp_path) == before


def test_a_folder_is_never_written_over(tmp_path: Path) -> None:
    (tmp_path / "skirt-a4.pdf").mkdir()
    for force in (False, True):
        with pytest.raises(IsADirectoryError):
            check_free(tuple(three(tmp_path)), force=force)


def test_a_link_to_nowhere_counts_as_a_file(tmp_path: Path) -> None:
    (tmp_path / "skirt-a4.pdf").symlink_to(tmp_path / "gone")
    with pytest.raises(ExistsError):
        write_all(three(tmp_path), force=False)


def test_a_file_where_a_folder_should_be_is_named(tmp_path: Path) -> None:
    (tmp_path / "patterns").write_bytes(b"a file")
    with pytest.raises(OSError, match="patterns"):
        write_all(three(tmp_path / "patterns" / "act one"), force=False)
    assert tree(tmp_path) == {"patterns": b"a file"}


def test_others_may_read_what_the_umask_lets_them(tmp_path: Path) -> None:
    before = os.umask(0o022)
    try:
        write_all(three(tmp_path), force=False)
    finally:
        os.umask(before)
    for path in three(tmp_path):
        assert stat.S_IMODE(path.stat().st_mode) == 0o644


# --- names ---------------------------------------------------------------------------------

DEVICES = {"con", "prn", "aux", "nul", *(f"{p}{n}" for p in ("com", "lpt") for n in range(1, 10))}


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Chorus skirt", "chorus-skirt"),
        ("Leading lady's skirt", "leading-lady-s-skirt"),
        ("Zoë's Überrock, Größe 40", "zoe-s-uberrock-grosse-40"),
        ("Łódź Ærø", "lodz-aero"),
        ("../etc", "etc"),
        ("/etc/passwd", "etc-passwd"),
        ("C:\\skirts\\a.pdf", "c-skirts-a-pdf"),
        ("..", "skirt"),
        ("💃", "skirt"),
        ("", "skirt"),
        ("-rf *", "rf"),
        ("Act\x00one\ntwo", "act-one-two"),
    ],
)
def test_a_title_becomes_a_plain_name(title: str, name: str) -> None:
    assert safe_name(title) == name


def test_titles_in_other_scripts_have_names_of_their_own() -> None:
    names = [safe_name(title) for title in ("Юбка", "Юбка хора", "スカート")]
    assert len(set(names)) == 3
    assert all(re.fullmatch(r"skirt-[0-9a-f]{8}", name) for name in names)
    # Composed or not, it is the same title.
    assert safe_name("スカ\u30fcト と\u3099") == safe_name("スカ\u30fcト ど")


@pytest.mark.parametrize("device", sorted(DEVICES))
def test_a_name_that_windows_keeps_for_a_device_is_not_used(device: str) -> None:
    for title in (device, device.upper(), f" {device}. ", f"{device}!"):
        assert safe_name(title) not in DEVICES


def test_a_title_of_300_letters_becomes_a_name_that_every_disk_takes() -> None:
    assert safe_name("A" * 300) == "a" * 60
    assert not safe_name("chorus and " * 30).endswith("-")


@given(st.text(max_size=120))
def test_whatever_the_title_the_name_is_safe(title: str) -> None:
    name = safe_name(title)
    assert re.fullmatch(r"[a-z0-9]([a-z0-9-]*[a-z0-9])?", name)
    assert len(name) <= 70
    assert name not in DEVICES
