"""Which folder is the last edition, and what another folder may hold."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from drafting.sheet import read_sheet
from drafting.spec import Spec
from render.publish.editions import last_edition
from render.publish.missing import unread
from render.publish.titles import in_natural_order, pack_name

FIGURES = {"title": "Usher", "skirt": {"sweep": 1000.0}}


def sheet(edition: str, title: str = "Usher") -> Spec:
    spec = read_sheet(f'title = "{title}"\n[wearer]\nsize = "P03"\n')
    return replace(spec, publish=replace(spec.publish, edition=edition))


def edition_in(folder: Path, name: str, text: str | bytes | None = None) -> Path:
    path = folder / name
    path.mkdir()
    told = json.dumps(FIGURES) if text is None else text
    data = told if isinstance(told, bytes) else told.encode()
    (path / "usher-figures.json").write_bytes(data)
    return path


@pytest.mark.parametrize(
    ("title", "edition", "name"),
    [
        ("Usher", "1", "usher-edition-1"),
        ("Usher", "", "usher-pack"),
        ("Usher", "../../etc/passwd", "usher-edition-etc-passwd"),
        ("Usher", "/", "usher-edition-skirt"),
        ("Usher", "2.1 (spring)", "usher-edition-2-1-spring"),
        ("../..", "1", "skirt-edition-1"),
        ("Usher", "α", "usher-edition-a8c66b25"),
        ("Usher", "skirt-2", "usher-edition-skirt-2"),
    ],
)
def test_a_pack_is_named_by_title_and_edition(title: str, edition: str, name: str) -> None:
    assert pack_name(sheet(edition, title)) == name


def test_editions_are_counted_as_people_count() -> None:
    told = ["10", "2", "1-5", "1", "1-10", "spring"]
    assert sorted(told, key=in_natural_order) == ["1", "1-5", "1-10", "2", "10", "spring"]


def test_the_last_edition_is_the_one_just_before(tmp_path: Path) -> None:
    for name in ("usher-edition-1", "usher-edition-2", "usher-edition-9", "usher-edition-11",
                 "usher-pack", "other-edition-9"):  # fmt: skip
        edition_in(tmp_path, name)
    (tmp_path / "usher-edition-9-5").write_text("a file", encoding="utf-8")
    found = last_edition(sheet("10"), tmp_path / "usher-edition-10", None)
    assert found is not None
    assert (found.folder, found.figures) == ("usher-edition-9", FIGURES)
    assert last_edition(sheet("1"), tmp_path / "usher-edition-1", None) is None
    assert last_edition(sheet(""), tmp_path / "usher-pack", None) is None


def test_the_pack_being_written_is_not_its_own_last_edition(tmp_path: Path) -> None:
    edition_in(tmp_path, "usher-edition-1")
    edition_in(tmp_path, "usher-edition-2")
    found = last_edition(sheet("3"), tmp_path / "usher-edition-2", None)
    assert found is not None and found.folder == "usher-edition-1"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("{", "no JSON"),
        (b"\xff\xfe", "no JSON"),
        ("[" * 100_000, ""),
        ("[1, 2]", "not a draft's"),
        ('{"sizes": 3}', "not a draft's"),
        ("null", "not a draft's"),
    ],
)
def test_what_cannot_be_read_as_figures_is_told(
    tmp_path: Path, text: str | bytes, fault: str
) -> None:
    folder = edition_in(tmp_path, "last", text)
    found = last_edition(sheet("2"), tmp_path / "new", folder)
    assert found is not None and found.figures is None
    (told,) = unread(found)
    assert fault in told.what and "last" in told.what


def test_a_folder_without_figures_or_with_several_is_told(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    found = last_edition(sheet("2"), tmp_path / "new", tmp_path / "empty")
    assert found is not None and "no figures" in found.fault
    for name in ("a-figures.json", "b-figures.json"):
        (tmp_path / "empty" / name).write_text(json.dumps(FIGURES), encoding="utf-8")
    found = last_edition(sheet("2"), tmp_path / "new", tmp_path / "empty")
    assert found is not None and found.figures is None
    (tmp_path / "empty" / "b-figures.json").unlink()
    found = last_edition(sheet("2"), tmp_path / "new", tmp_path / "empty")
    assert found is not None and found.figures == FIGURES


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        last_edition(sheet("2"), tmp_path / "new", tmp_path / "nowhere")
    with pytest.raises(NotADirectoryError):
        (tmp_path / "file").write_text("", encoding="utf-8")
        last_edition(sheet("2"), tmp_path / "new", tmp_path / "file")
