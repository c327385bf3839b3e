"""The sewing booklet as the command writes it, in each language, kept and refused."""

import json
import re
from pathlib import Path

import pypdfium2
import pytest
from typer.testing import CliRunner, Result

from cli import app

ROOT = Path(__file__).parents[2]
CHILD = ROOT / "measurements_examples" / "young-chorus-skirt.toml"
TWIRL = ROOT / "measurements_examples" / "twirl-skirt.toml"

DONE, FILE_WRONG = 0, 4


def hemsweep(*words: str | Path) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words])


def sheet_in(language: str, folder: Path, sheet: Path = CHILD) -> Path:
    text = sheet.read_text(encoding="utf-8")
    assert "[publish]" in text
    found = folder / "sheet.toml"
    found.write_text(
        text.replace("[publish]", f'[publish]\nlanguage = "{language}"'), encoding="utf-8"
    )
    return found


def words_of(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    read = " ".join(page.get_textpage().get_text_range() for page in document)
    return re.sub(r"\s+", " ", read)


def tree(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.mark.parametrize(
    ("language", "on_pages", "in_booklet", "number"),
    [
        ("de", "Fadenlauf", "Schritt für Schritt", "36,0\u00a0cm"),
        ("fr", "droit-fil", "pas à pas", "36,0\u00a0cm"),
    ],
)
def test_a_sheet_in_another_language_is_printed_in_it(
    language: str, on_pages: str, in_booklet: str, number: str, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    result = hemsweep("draft", sheet_in(language, tmp_path), "--quick", "--out", out)
    assert result.exit_code == DONE, result.output
    pages = words_of(out / "young-chorus-skirt-a4.pdf")
    booklet = words_of(out / "young-chorus-skirt-booklet.pdf").replace("\ufffe", "")
    html = (out / "young-chorus-skirt-booklet.html").read_text(encoding="utf-8")
    assert on_pages in pages
    assert in_booklet in booklet and in_booklet in html
    assert f'<html lang="{language}">' in html
    told = re.sub(r"<svg.*?</svg>|<style.*?</style>", "", html, flags=re.DOTALL)
    assert number in told and not re.search(r"\d\.\d+\u00a0(cm|mm|m)\b", told)
    # Names in the figures file are English in every language, and its numbers have a point.
    figures = json.loads((out / "young-chorus-skirt-figures.json").read_text(encoding="utf-8"))
    assert figures["paper"]["a4"]["pieces"][0]["piece"] == "skirt panel"


def test_a_booklet_of_another_language_is_not_kept_in_silence(tmp_path: Path) -> None:
    out = tmp_path / "out"
    quick = ("--quick", "--out", out)
    assert hemsweep("draft", sheet_in("en", tmp_path), *quick).exit_code == DONE
    before = tree(out)
    refused = hemsweep("draft", sheet_in("de", tmp_path), *quick, "--paper", "a3")
    assert refused.exit_code == FILE_WRONG
    assert "--force" in refused.output
    assert tree(out) == before
    assert hemsweep("draft", sheet_in("de", tmp_path), *quick, "--force").exit_code == DONE
    assert b'lang="de"' in tree(out)["young-chorus-skirt-booklet.html"]


def test_a_booklet_tells_of_the_plan_that_lies_beside_it(tmp_path: Path) -> None:
    """A plan is kept that was there already: the booklet shows that one and no other.

    The lay is searched for longer than the draft's would be, and comes out 56 mm shorter.
    """
    sheet = tmp_path / "twirl.toml"
    text = TWIRL.read_text(encoding="utf-8")
    assert 'units = "in"' in text
    sheet.write_text(text.replace('units = "in"', 'units = "cm"'), encoding="utf-8")
    out = tmp_path / "out"
    assert hemsweep("lay", sheet, "--out", out).exit_code == DONE
    plan = tree(out)["twirl-skirt-lay.pdf"]
    words = ("--quick", "--paper", "a3", "--out", out)
    assert hemsweep("draft", sheet, *words).exit_code == DONE
    after = tree(out)
    assert after["twirl-skirt-lay.pdf"] == plan
    figures = json.loads(after["twirl-skirt-figures.json"])
    long = figures["cloth"]["skirt"]["lay_length"] / 1000
    told = words_of(out / "twirl-skirt-booklet.pdf")
    assert f"{long:.2f} m of cloth" in told
    # Made anew it is another one: what was kept tells.
    anew = hemsweep("lay", sheet, "--quick", "--out", tmp_path / "anew")
    assert anew.exit_code == DONE
    (quick,) = (tmp_path / "anew").glob("*-figures.json")
    again = json.loads(quick.read_bytes())["cloth"]["skirt"]["lay_length"] / 1000
    assert f"{again:.2f}" != f"{long:.2f}"


def test_a_booklet_is_left_out_where_it_is_not_wanted(tmp_path: Path) -> None:
    words = ("--quick", "--without", "lay", "--out", tmp_path)
    assert hemsweep("draft", CHILD, *words, "--without", "booklet").exit_code == DONE
    assert not [name for name in tree(tmp_path) if "booklet" in name]
    # Asked for later, it joins the pages; drafted for one piece alone, there is none.
    assert hemsweep("draft", CHILD, *words, "--paper", "a3").exit_code == DONE
    assert {name for name in tree(tmp_path) if "booklet" in name} == {
        "young-chorus-skirt-booklet.pdf", "young-chorus-skirt-booklet.html",
    }  # fmt: skip
    alone = hemsweep("draft", CHILD, "--piece", "skirt panel", "--out", tmp_path / "alone")
    assert alone.exit_code == DONE
    assert not [name for name in tree(tmp_path / "alone") if "booklet" in name]
    document = pypdfium2.PdfDocument(tmp_path / "young-chorus-skirt-booklet.pdf")
    assert len(document) % 4 == 0
