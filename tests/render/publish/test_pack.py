"""A pack for readers, written once: what is in it, that it is whole, and how it is looked at."""

import csv
import hashlib
import io
import json
import re
import shutil
import subprocess
import xml.etree.ElementTree as ElementTree
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from typer.testing import CliRunner

from cli import app
from drafting import draft
from drafting.effort import Effort
from drafting.errors import DraftingError
from drafting.findings import Level
from drafting.pattern import Pattern
from drafting.sheet import read_sheet
from drafting.spec import PaperName, Publish, Scope
from render.files import ExistsError
from render.publish.missing import missing as lacking
from render.publish.pack import Pack, for_readers, publish
from render.publish.papers import pack_papers, paper_use
from tests.render.browser import Browser, browser, missing
from tests.render.test_booklet_html import BROKEN

HOSTILE = "Usher <script>alert(1)</script> & *pins* | [x](y)"
SHEET = f"""
title = "{HOSTILE}"
units = "cm"
[wearer]
size = "P03"
[skirt]
fullness = "quarter"
length = "38 cm"
panels = 1
[cloth.skirt]
kind = "=cotton|lawn"
price = 9.5
have = "4 m"
[print]
measured = ["99.4 mm"]
[publish]
maker = "The Pier <Workroom>"
page = "https://example.org/skirts?a=1&b=2"
licence = "CC BY-SA 4.0"
edition = "../2"
date = "2026-11-24"
"""
NAME = "usher-script-alert-1-script-pins-x-y"
FOLDER = f"{NAME}-edition-2"
SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Written:
    """A pack that lies in a folder; another of the same sheet by the command, and what it said."""

    pattern: Pattern
    pack: Pack
    again: Path
    said: str

    def path(self, name: str) -> Path:
        return self.pack.folder / name

    def text(self, name: str) -> str:
        return self.path(name).read_text(encoding="utf-8-sig")


def held(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Written:
    pattern = draft(read_sheet(SHEET))
    pack = publish(pattern, tmp_path_factory.mktemp("one") / FOLDER, effort=Effort.QUICK)
    two = tmp_path_factory.mktemp("two")
    sheet, again = two / "usher.toml", two / FOLDER
    sheet.write_text(SHEET, encoding="utf-8")
    again.mkdir()
    (again / "shopping.txt").write_text("eggs", encoding="utf-8")
    result = CliRunner().invoke(app, ["publish", str(sheet), "--quick", "--out", str(again)])
    assert result.exit_code == 0, result.output
    return Written(pattern=pattern, pack=pack, again=again, said=result.output)


def test_everything_that_a_reader_needs_is_there(written: Written) -> None:
    assert set(held(written.pack.folder)) == {
        *(f"{NAME}-{paper}.pdf" for paper in ("a4", "letter", "a0", "projector")),
        f"{NAME}-booklet.pdf", f"{NAME}-booklet.html", f"{NAME}-lay.pdf",
        f"{NAME}-sizes.csv", f"{NAME}-cloth.csv", f"{NAME}-figures.json",
        *(
            f"{NAME}-picture-{name}.{ending}"
            for name in ("cover", "front-and-back", "pieces", "lay-skirt")
            for ending in ("png", "svg")
        ),
        "pictures.json", "post.md", "post.html", "licence.txt", "files.json", "SHA256SUMS",
        f"{FOLDER}.zip",
    }  # fmt: skip


def test_the_same_sheet_gives_the_same_bytes(written: Written) -> None:
    again = held(written.again)
    del again["shopping.txt"]
    assert held(written.pack.folder) == again


def test_the_zip_holds_the_folder_in_order_and_unpacks_into_one(written: Written) -> None:
    files = held(written.pack.folder)
    zipped = files.pop(f"{FOLDER}.zip")
    with zipfile.ZipFile(io.BytesIO(zipped)) as packed:
        assert packed.testzip() is None
        assert packed.namelist() == sorted(f"{FOLDER}/{name}" for name in files)
        for entry in packed.infolist():
            assert packed.read(entry) == files[entry.filename.removeprefix(f"{FOLDER}/")]
            assert entry.date_time == (1980, 1, 1, 0, 0, 0)
            assert entry.compress_type == zipfile.ZIP_DEFLATED
    assert written.pack.zip_sum == hashlib.sha256(zipped).hexdigest()


def test_every_file_is_listed_with_its_size_and_its_sum(written: Written) -> None:
    files = held(written.pack.folder)
    sums = dict(line.split("  ")[::-1] for line in files["SHA256SUMS"].decode().splitlines())
    assert set(sums) == set(files) - {"SHA256SUMS", f"{FOLDER}.zip"}
    assert all(hashlib.sha256(files[name]).hexdigest() == told for name, told in sums.items())
    listed = json.loads(files["files.json"])
    assert {one["name"] for one in listed["files"]} == set(sums) - {"files.json"}
    for one in listed["files"]:
        assert one["bytes"] == len(files[one["name"]])
        assert one["sha256"] == sums[one["name"]]


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="needs sha256sum")
def test_the_sums_are_read_by_the_program_for_them(written: Written, tmp_path: Path) -> None:
    def check(folder: Path) -> int:
        words = ["sha256sum", "--strict", "-c", "SHA256SUMS"]
        return subprocess.run(words, cwd=folder, capture_output=True, check=False).returncode

    assert check(written.pack.folder) == 0
    spoilt = tmp_path / "spoilt"
    shutil.copytree(written.pack.folder, spoilt)
    with (spoilt / "post.md").open("a", encoding="utf-8") as post:
        post.write(" ")
    assert check(spoilt) == 1


def test_what_is_printed_is_proofed_and_counted(written: Written) -> None:
    for file in written.pack.files:
        if file.path.suffix == ".pdf":
            assert file.pages == len(pypdf.PdfReader(file.path).pages)
            is_booklet = "-booklet" in file.path.name
            assert (file.proof is None) == is_booklet
            assert file.proof is None or not file.proof.faults
    assert written.pack.sizes == {
        file.path: file.path.stat().st_size for file in written.pack.files
    }


def test_what_is_the_makers_own_does_not_go_to_readers(written: Written) -> None:
    ready = for_readers(written.pattern)
    assert ready.spec.print.measured == ()
    assert ready.spec.cloths.skirt.have is None
    figures = json.loads(written.text(f"{NAME}-figures.json"))
    assert "cost" not in figures
    assert figures["cloth"]["skirt"]["asked"]["have"] is None
    assert all("correction" not in paper for paper in figures["paper"].values())
    assert "there is enough" not in written.text("post.md")


def test_lay_plans_come_with_what_to_buy(written: Written) -> None:
    pages = pypdf.PdfReader(written.path(f"{NAME}-lay.pdf")).pages
    told = " ".join(page.extract_text() for page in pages)
    assert "sewing thread" in told
    assert "zip" in told


# --- pictures ------------------------------------------------------------------------------


def test_pictures_are_as_large_as_is_told_and_have_words(written: Written) -> None:
    told = json.loads(written.text("pictures.json"))["pictures"]
    assert {one["name"] for one in told} == {"cover", "front-and-back", "pieces", "lay-skirt"}
    for one in told:
        with Image.open(written.path(one["png"])) as shown:
            assert shown.size == (one["width"], one["height"])
            greys = shown.convert("L").histogram()
            assert shown.convert("L").getpixel((0, 0)) == 255
        dots = one["width"] * one["height"]
        assert greys[255] > 0.7 * dots  # white ground
        assert 0.004 * dots < greys[0] < 0.2 * dots  # black ink
        assert one["width"] == (1200 if one["name"] == "cover" else 1600)
        assert len(one["alt"]) > 40
        drawn = ElementTree.fromstring(written.text(one["svg"]))
        assert one["alt"] == (drawn.findtext(f"{SVG}desc") or "").replace("\u00a0", " ")
        ground = drawn.find(f"{SVG}rect")
        assert ground is not None and ground.get("fill") == "white"
        wide, high = (float(number) for number in drawn.attrib["viewBox"].split()[2:])
        assert wide / high == pytest.approx(one["width"] / one["height"], rel=2e-3)
    (cover,) = (one for one in told if one["name"] == "cover")
    assert (cover["width"], cover["height"]) == (1200, 630)
    assert HOSTILE in cover["alt"]


def test_nothing_on_the_cover_runs_off_it_or_into_the_sketch(written: Written) -> None:
    with Image.open(written.path(f"{NAME}-picture-cover.png")) as shown:
        grey = shown.convert("L")
    # A white band all round, and one between the words and the sketch, below the heavy rule.
    assert grey.crop((0, 0, 1200, 16)).getextrema() == (255, 255)
    assert grey.crop((1185, 0, 1200, 630)).getextrema() == (255, 255)
    assert grey.crop((670, 40, 676, 600)).getextrema() == (255, 255)


# --- tables --------------------------------------------------------------------------------


def test_the_size_table_tells_what_the_draft_tells(written: Written) -> None:
    heads, row = csv.reader(io.StringIO(written.text(f"{NAME}-sizes.csv")))
    told = dict(zip(heads, row, strict=True))
    figures = written.pattern.figures
    assert told["size"] == "size P03"
    assert float(told["hem all round (cm)"]) * 10 == pytest.approx(figures.skirt.sweep, abs=0.5)
    assert float(told["waist of the body (cm)"]) * 10 == written.pattern.spec.wearer.waist
    assert figures.opening is not None
    assert float(told["zip (cm)"]) * 10 == figures.opening.zip


def test_no_cell_of_a_spreadsheet_is_reckoned(written: Written) -> None:
    rows = list(csv.reader(io.StringIO(written.text(f"{NAME}-cloth.csv"))))
    kinds = [row[2] for row in rows]
    assert "'=cotton|lawn" in kinds
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]
    skirt = next(row for row in rows if row[2] == "'=cotton|lawn")
    figures = json.loads(written.text(f"{NAME}-figures.json"))
    assert float(skirt[4]) * 1000 == figures["cloth"]["skirt"]["buy"]


# --- the post ------------------------------------------------------------------------------


def test_the_post_tells_every_paper_with_its_pages_and_both_units(written: Written) -> None:
    post = written.text("post.md")
    papers = {"a4": "A4", "letter": "US Letter", "a0": "A0", "projector": "projector"}
    for paper, title in papers.items():
        pages = len(pypdf.PdfReader(written.path(f"{NAME}-{paper}.pdf")).pages)
        assert re.search(rf"^\| {title} \| {pages} \|", post, re.MULTILINE), paper
        assert re.search(rf"^\| {NAME}-{paper}\.pdf \| {title}: ", post, re.MULTILINE), paper
    assert re.search(r"38\.0\u00a0cm \(15\u00a0in\)", post)
    for words in ("true size", "actual size", "100 mm", "Fire:", "no legal advice", "estimates"):
        assert words in post, words
    assert "(<https://creativecommons.org/licenses/by-sa/4.0/deed.en>)" in post


def test_signs_of_markdown_and_html_in_a_title_do_no_harm(written: Written) -> None:
    post = written.text("post.md")
    first = post.splitlines()[0]
    assert first == r"# Usher &lt;script&gt;alert(1)&lt;/script&gt; &amp; \*pins\* \| \[x\](y)"
    assert "<script" not in post
    page = written.text("post.html")
    assert "<script" not in page
    tree = ElementTree.fromstring(page.split("\n", 1)[1])
    assert ["".join(h.itertext()) for h in tree.iter("h1")] == [HOSTILE]
    assert {link.get("href") for link in tree.iter("a")} >= {
        "https://example.org/skirts?a=1&b=2",
        "https://creativecommons.org/licenses/by-sa/4.0/deed.en",
    }


def test_pictures_of_the_post_lie_beside_it_with_their_words(written: Written) -> None:
    told = {one["png"]: one for one in json.loads(written.text("pictures.json"))["pictures"]}
    tree = ElementTree.fromstring(written.text("post.html").split("\n", 1)[1])
    images = list(tree.iter("img"))
    assert {image.get("src") for image in images} == set(told)
    for image in images:
        one = told[image.get("src") or ""]
        assert (image.get("alt") or "").replace("\u00a0", " ") == one["alt"]
        assert (image.get("width"), image.get("height")) == (str(one["width"]), str(one["height"]))
    shown = re.findall(r"^!\[.+\]\(<(.+)>\)$", written.text("post.md"), re.MULTILINE)
    assert set(shown) == set(told)


def test_the_post_names_every_file_of_the_pack(written: Written) -> None:
    post = written.text("post.md")
    _, inside = post.split("## What is in the pack")
    for name in held(written.pack.folder):
        if not name.endswith(".zip") and ("picture-" not in name or "cover.png" in name):
            assert name in inside or name == "pictures.json", name


def test_the_terms_have_a_page_of_their_own(written: Written) -> None:
    page = written.text("licence.txt")
    for words in (HOSTILE, "The Pier <Workroom>", "edition ../2", "2026-11-24", "CC BY-SA 4.0"):
        assert words in page, words
    assert max(len(line) for line in page.splitlines()) <= 88


# --- in a browser --------------------------------------------------------------------------

in_a_browser = pytest.mark.skipif(bool(missing()), reason=missing())


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as one:
        yield one


@in_a_browser
@pytest.mark.parametrize("wide", [320, 1000])
def test_axe_finds_no_fault_in_the_post(chromium: Browser, written: Written, wide: int) -> None:
    chromium.shows(written.path("post.html"), wide=wide)
    told = chromium.axe()
    assert len(told["passes"]) > 20
    assert [(fault["id"], fault["nodes"][0]["html"]) for fault in told["violations"]] == []
    assert chromium.asks("document.scrollingElement.scrollWidth") <= wide
    # Addresses, and a title that is no words, may be broken; nothing else is.
    broken = [run for run in chromium.asks(BROKEN) if "://" not in run and "<" not in run]
    assert broken == []
    assert chromium.asks("[...document.images].every(i => i.complete && i.naturalWidth > 999)")


# --- writing -------------------------------------------------------------------------------


def test_a_pack_on_cards_is_for_printers_at_home(written: Written) -> None:
    spec = written.pattern.spec
    card = replace(spec, print=replace(spec.print, scope=Scope.CARD))
    assert pack_papers(card) == (PaperName.A4, PaperName.LETTER)
    assert paper_use(PaperName.A4, Scope.CARD) == "one page of figures, for tape and chalk"


def test_a_sheets_own_papers_are_added(written: Written) -> None:
    spec = written.pattern.spec
    wish = replace(spec.print, papers=(PaperName.LETTER, PaperName.A3))
    assert pack_papers(replace(spec, print=wish)) == (
        PaperName.A4, PaperName.LETTER, PaperName.A0, PaperName.PROJECTOR, PaperName.A3,
    )  # fmt: skip


def test_margins_that_leave_no_paper_are_told_before_anything_is_drawn(
    written: Written, tmp_path: Path
) -> None:
    spec = written.pattern.spec
    narrow = replace(spec, print=replace(spec.print, margin=60.0))
    with pytest.raises(DraftingError, match="margins of 60 mm"):
        publish(replace(written.pattern, spec=narrow), tmp_path / "pack")
    assert not (tmp_path / "pack").exists()


# --- the command ---------------------------------------------------------------------------


def test_the_command_lists_files_with_their_pages_and_sizes(written: Written) -> None:
    for file in written.pack.files:
        kilobytes = max(round(written.pack.sizes[file.path] / 1000), 1)
        pages = rf"{file.pages} pages? +" if file.pages else ""
        assert re.search(rf" {re.escape(file.path.name)} +{pages}{kilobytes} kB", written.said)
    assert f"SHA-256 of the zip: {written.pack.zip_sum}" in written.said


def test_what_else_lies_in_the_folder_is_told(written: Written) -> None:
    assert "neither in its zip nor in its lists: shopping.txt" in " ".join(written.said.split())
    assert (written.again / "shopping.txt").read_text(encoding="utf-8") == "eggs"


def test_files_that_are_there_are_told_before_any_work_is_done(written: Written) -> None:
    said: list[str] = []
    with pytest.raises(ExistsError):
        publish(written.pattern, written.pack.folder, progress=said.append)
    assert said == []


def test_the_command_writes_over_nothing_unasked(written: Written) -> None:
    before = held(written.again)
    sheet = written.again.parent / "usher.toml"
    result = CliRunner().invoke(app, ["publish", str(sheet), "--out", str(written.again)])
    assert result.exit_code == 4
    assert "exist already; give --force" in result.output
    assert held(written.again) == before


def test_what_a_reader_will_miss_is_told_to_the_maker(written: Written) -> None:
    assert list(lacking(written.pattern.spec)) == []
    bare = replace(written.pattern.spec, publish=Publish())
    found = list(lacking(bare))
    assert [one.code for one in found] == ["no-maker", "no-licence", "no-edition", "no-page"]
    assert all(one.level is Level.NOTE for one in found)


def test_a_last_edition_that_is_not_there_is_told_at_once(tmp_path: Path) -> None:
    sheet = tmp_path / "usher.toml"
    sheet.write_text(SHEET, encoding="utf-8")
    words = ["publish", str(sheet), "--out", str(tmp_path / "pack"), "--last"]
    for last in (tmp_path / "nowhere", sheet):
        result = CliRunner().invoke(app, [*words, str(last)])
        assert result.exit_code == 4
        assert last.name in result.output
    assert not (tmp_path / "pack").exists()
