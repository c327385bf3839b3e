"""A graded pattern published: one pattern for all sizes, and for each its own booklet and plans."""

import contextlib
import csv
import io
import json
import pickle
import re
from dataclasses import replace

import pypdf
import pytest

from drafting import draft
from drafting.effort import Effort
from drafting.figures import as_json
from drafting.pattern import Pattern
from drafting.sheet import read_sheet
from render.publish.pack import Pack, for_readers, publish
from render.publish.size_files import files_of

SHEET = """
title = "Usher's short skirt"
units = "in"
[skirt]
fullness = "quarter"
length = "15 in"
panels = 1
[publish]
maker = "The Pier Workroom"
licence = "Sew it, sell it, sing in it"
edition = "2"
sizes = ["P03", "P05", "P08"]
"""
NAME = "usher-s-short-skirt"


def in_sizes(edition: str, *sizes: str) -> Pattern:
    named = ", ".join(f'"{size}"' for size in sizes)
    text = SHEET.replace('edition = "2"', f'edition = "{edition}"')
    return draft(read_sheet(re.sub(r"sizes = \[.*\]", f"sizes = [{named}]", text)))


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> Pack:
    """Return edition 2 in two sizes, beside an edition 1 in others whose figures were doctored.

    It is written from the folder that holds both, without naming one.
    """
    folder = tmp_path_factory.mktemp("packs")
    pattern = in_sizes("2", "P03", "P05")
    p03, p05 = (as_json(size.figures, ()) for size in pattern.sizes)
    p05["skirt"]["sweep"] -= 25.4
    told = {"sizes": {"P05": p05, "P08": p03}, "paper": {"a4": {"pages": 99}}}
    last = folder / f"{NAME}-edition-1"
    last.mkdir()
    (last / f"{NAME}-figures.json").write_text(json.dumps(told), encoding="utf-8")
    with contextlib.chdir(folder):
        found = publish(pattern, effort=Effort.QUICK)
    return replace(found, folder=folder / found.folder)


def read(pack: Pack, name: str) -> str:
    return (pack.folder / name).read_text(encoding="utf-8-sig").replace("\u00a0", " ")


def test_each_size_has_its_own_booklet_plans_and_projector(pack: Pack) -> None:
    names = {file.path.name for file in pack.files}
    for paper in ("a4", "letter", "roll-36in"):  # shops that work in inches print from a roll
        assert f"{NAME}-{paper}.pdf" in names
    for size in ("p03", "p05"):
        for kind in ("booklet.pdf", "booklet.html", "lay.pdf", "projector.pdf"):
            assert f"{NAME}-{size}-{kind}" in names
    for size, other in (("P03", "P05"), ("P05", "P03")):
        pages = pypdf.PdfReader(pack.folder / f"{NAME}-{size.lower()}-booklet.pdf").pages
        told = pages[0].extract_text()
        assert size in told and other not in told


def test_the_tables_hold_every_size(pack: Pack) -> None:
    heads, *rows = csv.reader(io.StringIO(read(pack, f"{NAME}-sizes.csv")))
    assert [row[0] for row in rows] == ["P03", "P05"]
    figures = json.loads(read(pack, f"{NAME}-figures.json"))
    assert list(figures["sizes"]) == ["P03", "P05"]
    at = heads.index("hem all round (in)")
    for row in rows:
        sweep = figures["sizes"][row[0]]["skirt"]["sweep"]
        assert float(row[at]) * 25.4 == pytest.approx(sweep, abs=25.4 / 16 + 1e-6)
    needed = [told["cloth"]["skirt"]["needed"] for told in figures["sizes"].values()]
    assert needed[0] < needed[1]
    cloth = list(csv.reader(io.StringIO(read(pack, f"{NAME}-cloth.csv"))))
    bought = {row[0]: float(row[4]) for row in cloth if row[1] == "skirt cloth"}
    for size, yards in bought.items():
        assert yards * 914.4 == pytest.approx(figures["sizes"][size]["cloth"]["skirt"]["buy"])


def test_the_post_tells_of_all_sizes(pack: Pack) -> None:
    post = read(pack, "post.md")
    assert "in 2 sizes" in post
    assert re.search(r"^\| P03 \| 26 in \(66\.0 cm\)", post, re.MULTILINE)
    assert re.search(r"^\| P05 \| 29⅛ in \(74\.0 cm\)", post, re.MULTILINE)
    assert "Each size is a layer of the file" in post
    assert f"{NAME}-p03-projector.pdf … {NAME}-p05-projector.pdf" in post
    assert f"{NAME}-p03-booklet.pdf … {NAME}-p05-booklet.pdf" in post
    assert "Shown in size P03." in post  # the lower of two middle ones
    assert "Sew it, sell it, sing in it" in post
    assert "sizes: P03 and P05" in json.loads(read(pack, "pictures.json"))["pictures"][0]["alt"]


def test_readers_are_asked_to_measure_two_seams_in_their_size(pack: Pack) -> None:
    _, asked = read(pack, "post.md").split("## Tell the maker")
    pattern = in_sizes("2", "P03", "P05")
    heads, *rows = (
        [cell.strip() for cell in line.strip("|").split("|")]
        for line in asked.splitlines()
        if line.startswith("|") and "---" not in line
    )
    assert len(heads) == 3 and heads[2].startswith("skirt panel, waist")
    for row, size in zip(rows, pattern.sizes, strict=True):
        (panel,) = (piece for piece in size.pieces if piece.name == "skirt panel")
        waist = next(edge for edge in panel.edges if edge.name == "waist")
        assert row[0] == size.spec.wearer.size
        assert row[2].endswith(f"({waist.length / 10:.1f} cm)")


def test_what_changed_since_the_last_edition_is_told(pack: Pack) -> None:
    note = read(pack, "changes.md")
    assert f"Compared with the folder {NAME}-edition-1." in note
    assert "- new: P03\n- no longer there: P08\n" in note
    assert "## Size P05" in note and "## Size P03" not in note
    assert re.search(r"^\| sweep \| .* in \| .* in \| \+1 in \|$", note, re.MULTILINE)
    pages = json.loads(read(pack, f"{NAME}-figures.json"))["paper"]["a4"]["pages"]
    assert f"| a4 | 99 | {pages} |" in note
    assert "changes.md" in read(pack, "post.md")


def test_a_size_is_the_same_made_by_another_process(pack: Pack) -> None:
    # What is sent to another process, and what it sends back, is pickled on the way.
    size = for_readers(in_sizes("2", "P03", "P05")).sizes[0]
    made = pickle.loads(pickle.dumps(files_of(pickle.loads(pickle.dumps(size)), Effort.QUICK)))
    assert made.page == (pack.folder / f"{NAME}-p03-booklet.html").read_bytes()
    assert made.lay == (pack.folder / f"{NAME}-p03-lay.pdf").read_bytes()
    assert made.booklet == (pack.folder / f"{NAME}-p03-booklet.pdf").read_bytes()
