"""How French sets its marks where parts of a sentence are put together."""

import re

import pytest

from drafting.effort import Effort
from drafting.language import Language, clauses, headed, speaking
from drafting.pattern import Pattern, draft
from drafting.piece_names import kind_words
from drafting.sheet import read_sheet
from drafting.spec import PaperName, RuffleCloth
from render.booklet.compose import booklet
from render.booklet.html import booklet_html
from render.lay_pages import lay_document
from render.laying import Laying
from render.pages import printed
from render.terminal import findings_text
from tests.examples import EXAMPLES
from tests.render.test_card import as_card

CLOSE = re.compile(r"(?<![\s\u00a0])[;:](?=\s|$)")
"""A semicolon or a colon that stands close behind its word, as in English."""


def in_french(name: str) -> Pattern:
    # Some findings are said as the sheet is read.
    text = EXAMPLES[name].read_text(encoding="utf-8")
    return draft(read_sheet(text.replace("[publish]", '[publish]\nlanguage = "fr"')))


@pytest.mark.parametrize("name", ["chorus-skirt"])
def test_french_sets_a_space_before_colons_and_semicolons(name: str) -> None:
    pattern = in_french(name)
    cloth = Laying(pattern, Effort.QUICK).made(lambda _: None)
    documents = (
        printed(pattern, PaperName.A4).document,
        printed(draft(as_card(pattern.spec)), PaperName.A4).document,
        lay_document(pattern, cloth.lays, cloth.shopping),
    )
    texts = [
        text.text
        for document in documents
        for page in document.pages
        for text in page.drawing.texts
    ]
    assert sum(";" in text for text in texts) > 10
    with speaking(Language.FRENCH):
        texts += findings_text(pattern.findings).splitlines()
    texts += [document.subject for document in documents]
    assert [text for text in texts if CLOSE.search(text)] == []


def test_english_sets_none() -> None:
    assert clauses(("cut 2", "sides 1.5 cm")) == "cut 2; sides 1.5 cm"
    assert headed("waist", "74 cm") == "waist: 74 cm"


def test_what_was_not_measured_stands_within_a_french_sentence() -> None:
    (found,) = (f for f in in_french("bandstand-skirt").findings if f.code == "measure-estimated")
    assert found.what.startswith("Mesures non prises\u00a0: taille-genou")


@pytest.mark.parametrize("cloth", RuffleCloth)
def test_a_ruffles_cloth_is_said_and_another_stays_as_it_was_written(cloth: RuffleCloth) -> None:
    with speaking(Language.FRENCH):
        assert kind_words(cloth.value) != cloth.value
        assert kind_words("satin-backed crepe") == "satin-backed crepe"
    assert kind_words(cloth.value) == cloth.value


def test_the_cut_list_tells_the_ruffles_cloth_in_french() -> None:
    pattern = in_french("chorus-skirt")
    cloth = Laying(pattern, Effort.QUICK).made(lambda _: None)
    page = booklet_html(booklet(pattern, cloth)).decode()
    assert "tulle raide" in page
    assert "stiff net" not in page
