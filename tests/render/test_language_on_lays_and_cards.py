"""Cards, lay plans and tables in a language that nobody speaks: all is said, and all has room."""

import gettext
import itertools
import math
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from typer.testing import CliRunner

import drafting.language
from cli import app
from drafting.effort import Effort
from drafting.language import Language, speaking
from drafting.pattern import Pattern, draft
from drafting.sheet import load
from drafting.spec import PaperName, Spec
from render.drawing import Document, Page
from render.lay_pages import lay_document
from render.lay_terminal import WIDTH as LAY_WIDTH
from render.lay_terminal import cloth_table, lay_table
from render.laying import Cloth, Laying, lay_svg
from render.measures import measures
from render.pages import printed
from render.terminal import figures_table, findings_text
from tests.render.cloth_shapes import apart
from tests.render.test_card import as_card, assert_legible, uneven_over_gores, widest
from tests.render.test_ticket import inked_box, walked

EXAMPLES = Path(__file__).resolve().parents[2] / "measurements_examples"
NAMES = ("chorus-skirt", "tea-dance-skirt", "character-skirt", "wave-petticoat")
"""A skirt with lining and ruffle; inches and gores; panels that differ; tiers and a casing."""

ACCENTS = str.maketrans("aeiounAEIOUN", "áéíóúñÁÉÍÓÚÑ")
BRACES = re.compile(r"(\{\w+\})")


class Pretend(gettext.NullTranslations):
    """A language whose vowels have accents, and whose words may be longer than English ones."""

    def __init__(self, longer: float) -> None:
        super().__init__()
        self.longer = longer

    def of(self, words: str) -> str:
        """Return a message in it; what stands in braces is left as it is."""
        return "".join(
            part if BRACES.fullmatch(part) else re.sub(r"[^\W\d_]+", self.word, part)
            for part in BRACES.split(words)
        )

    def word(self, found: re.Match[str]) -> str:
        """Return a word with accents, longer by its own beginning."""
        word = found[0]
        return (word + word[: math.ceil(self.longer * len(word))].lower()).translate(ACCENTS)

    def gettext(self, message: str) -> str:
        return self.of(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.of(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self.of(message)


def speak(monkeypatch: pytest.MonkeyPatch, *, longer: float) -> None:
    catalogue = Pretend(longer)
    monkeypatch.setattr(drafting.language, "catalogue", lambda _language: catalogue)


def spec_of(name: str) -> Spec:
    spec = load(EXAMPLES / f"{name}.toml")
    return replace(spec, publish=replace(spec.publish, language=Language.GERMAN))


@cache
def laid_in(name: str, longer: float) -> tuple[Pattern, Cloth]:
    """Return an example drafted and laid while ``Pretend(longer)`` is spoken."""
    catalogue = drafting.language.catalogue(Language.GERMAN)
    assert isinstance(catalogue, Pretend) and catalogue.longer == longer
    pattern = draft(spec_of(name))
    return pattern, Laying(pattern, Effort.QUICK).made(lambda _: None)


def own_words(spec: Spec) -> set[str]:
    """Return words that people wrote into a sheet, and names of sizes: they stay as they are."""
    cloths, publish = spec.cloths, spec.publish
    written = (
        spec.title, spec.wearer.label, spec.wearer.size or "", publish.maker, publish.licence,
        publish.edition, publish.date, publish.page, cloths.skirt.kind, cloths.lining.kind,
        cloths.ruffle.kind, cloths.interfacing.kind, cloths.binding.kind,
    )  # fmt: skip
    return set(re.findall(r"[^\W\d_]+", " ".join(written)))


def unsaid(texts: Iterator[str], spec: Spec) -> list[str]:
    """Return texts with a plain word of three letters or more that has a letter to be changed."""
    own = own_words(spec)
    return [
        text
        for text in texts
        if any(
            word.isascii() and len(word) > 2 and set(word) & set("aeiounAEIOUN") and word not in own
            for word in re.findall(r"[^\W\d_]+", text)
        )
    ]


def texts_of(pages: tuple[Page, ...]) -> Iterator[str]:
    for page in pages:
        yield from (text.text for text in page.drawing.texts)


def assert_nothing_meets(page: Page) -> None:
    """Check that no words of a page lie over others, and that nothing leaves its window."""
    window = page.window
    boxes = [(text, inked_box(text)) for text in page.drawing.texts if text.text.strip()]
    for (one, box), (other, other_box) in itertools.combinations(boxes, 2):
        assert apart(box, other_box) > -0.1, f"{page.label}: {one.text!r}, {other.text!r}"
    for text, box in boxes:
        for x, y in box:
            assert window.left - 0.01 <= x <= window.right + 0.01, text.text
            assert window.bottom - 0.01 <= y <= window.top + 0.01, text.text
    for x, y in (spot for stroke in page.drawing.strokes for spot in walked(stroke)):
        assert window.left - 0.01 <= x <= window.right + 0.01, page.label
        assert window.bottom - 0.01 <= y <= window.top + 0.01, page.label


@pytest.mark.parametrize("name", NAMES)
def test_a_card_leaves_nothing_unsaid(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    speak(monkeypatch, longer=0.0)
    spec = as_card(spec_of(name))
    pages = printed(draft(spec), PaperName.A4).document.pages
    assert unsaid(texts_of(pages), spec) == []


@cache
def plans_in(name: str, longer: float) -> Document:
    """Return the pages of an example's lay plans while ``Pretend(longer)`` is spoken."""
    pattern, cloth = laid_in(name, longer)
    return lay_document(pattern, cloth.lays, cloth.shopping)


@pytest.mark.parametrize("name", NAMES)
def test_lay_plans_leave_nothing_unsaid(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    speak(monkeypatch, longer=0.4)
    pattern, cloth = laid_in(name, 0.4)
    document = plans_in(name, 0.4)
    assert unsaid(texts_of(document.pages), pattern.spec) == []
    told = [document.title, document.subject, document.keywords]
    told += [words for page in document.pages for words in (page.label, page.bookmark)]
    drawn = [lay_svg(lay, pattern).decode() for lay in cloth.lays if lay.laid]
    told += [words for svg in drawn for words in re.findall(r">([^<>]+)</(?:title|desc|text)", svg)]
    assert unsaid(iter(told), pattern.spec) == []


@pytest.mark.parametrize("name", NAMES)
def test_the_terminal_leaves_nothing_unsaid(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    speak(monkeypatch, longer=0.0)
    pattern, cloth = laid_in(name, 0.0)
    told = [
        figures_table(pattern),
        lay_table(pattern, cloth.lays, cloth.shopping),
        cloth_table(pattern, cloth.lays, cloth.shopping),
    ]
    with speaking(pattern.spec.publish.language):
        told.append(findings_text((*pattern.findings, *cloth.shopping.findings)))
        told += [words for row in measures(pattern) for words in row]
    lines = (line for text in told for line in text.splitlines())
    assert unsaid(lines, pattern.spec) == []


@pytest.mark.parametrize("paper", [PaperName.A4, PaperName.LETTER])
@pytest.mark.parametrize("name", NAMES)
def test_long_words_have_room_on_a_card(
    monkeypatch: pytest.MonkeyPatch, name: str, paper: PaperName
) -> None:
    speak(monkeypatch, longer=0.4)
    assert_legible(printed(draft(as_card(spec_of(name))), paper))


@pytest.mark.parametrize(("spec", "longer"), [(uneven_over_gores(), 0.4), (widest(), 0.25)])
def test_a_card_of_many_parts_has_room_for_long_words(
    monkeypatch: pytest.MonkeyPatch, spec: Spec, longer: float
) -> None:
    # A garment with everything at once is full in English: more than a quarter is refused.
    speak(monkeypatch, longer=longer)
    german = replace(spec, publish=replace(spec.publish, language=Language.GERMAN))
    assert_legible(printed(draft(as_card(german)), PaperName.A4))


@pytest.mark.parametrize("name", NAMES)
def test_long_words_have_room_on_lay_plans(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    speak(monkeypatch, longer=0.4)
    for page in plans_in(name, 0.4).pages:
        assert_nothing_meets(page)


@pytest.mark.parametrize("name", NAMES)
def test_long_words_leave_the_terminals_columns_under_each_other(
    monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    speak(monkeypatch, longer=0.4)
    pattern, cloth = laid_in(name, 0.4)
    # Numbers of one part end under each other, two spaces or one before their unit.
    ends = {
        found.end(1)
        for line in figures_table(pattern).splitlines()
        if (found := re.match(r"  .*?\S {2,}(\S*[\d⅛¼⅜½⅝¾⅞])(?: \w+)?$", line))
    }
    assert len(ends) == 1
    table = lay_table(pattern, cloth.lays, cloth.shopping).splitlines()
    assert max(map(len, table)) <= LAY_WIDTH
    first = next(k for k, line in enumerate(table) if line.startswith("  "))
    rows = table[first : first + 1 + len(cloth.lays)]
    assert len({len(row) for row in rows}) == 1


def test_the_command_tells_findings_in_the_language_of_the_sheet(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    plain, pretend = gettext.NullTranslations(), Pretend(0.0)
    monkeypatch.setattr(
        drafting.language,
        "catalogue",
        lambda language: pretend if language is Language.GERMAN else plain,
    )
    monkeypatch.setattr(drafting, "load", lambda _path: spec_of("chorus-skirt"))
    told = CliRunner().invoke(app, ["figures", "german.toml"])
    assert told.exit_code == 0, told.output
    assert re.search(r"^(ñóté|cáútíóñ): ", told.stdout, re.MULTILINE)
    assert "wáíst séám, flát" in told.stdout
    out = tmp_path / "out"
    laid = CliRunner().invoke(app, ["lay", "german.toml", "--quick", "--out", str(out)])
    assert laid.exit_code == 0, laid.output
    assert re.search(r"^(ñóté|cáútíóñ): ", laid.stdout, re.MULTILINE)
    assert "tó láy" in laid.stdout
