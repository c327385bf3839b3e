"""All that pages print can be said in another language, and longer words find their room."""

import gettext
import itertools
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

import drafting
from drafting import language
from drafting.cautions import cautions
from drafting.geometry import Box
from drafting.language import Language, speaking
from drafting.pattern import Pattern
from drafting.printer import Measured
from drafting.spec import PaperName, Scope
from render.drawing import Drawing, Layer, Page, Text
from render.key import printed_key
from render.measures import measures
from render.pages import Printed, printed
from render.parts import laid_out
from render.placement import Effort
from render.setting import Setting
from tests.examples import EXAMPLES
from tests.render import test_ticket as ticket
from tests.render.cloth_shapes import apart

CHOSEN = ("chorus-skirt", "tea-dance-skirt", "wave-petticoat", "signal-skirt")
"""A skirt on its lining with a ruffle; one in inches; tiers; a faced hem."""

PAPERS = (PaperName.A4, PaperName.ROLL_914, PaperName.A0, PaperName.PROJECTOR)

ACCENTS = str.maketrans("aeiouyAEIOUY", "áéíóúýÁÉÍÓÚÝ")
IN_BRACES = re.compile(r"(\{[^}]*\})")


class _Pretended(gettext.NullTranslations):
    """A language that changes every sentence, so that one left out is found."""

    def said(self, words: str) -> str:
        """Return the words outside braces in this language."""
        raise NotImplementedError

    def gettext(self, message: str) -> str:
        parts = IN_BRACES.split(message)
        return "".join(part if k % 2 else self.said(part) for k, part in enumerate(parts))

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


class Accented(_Pretended):
    """English with an accent on every vowel."""

    def said(self, words: str) -> str:
        return words.translate(ACCENTS)


class Longer(_Pretended):
    """English with words 40 % longer, as German ones are."""

    def said(self, words: str) -> str:
        owed, made = 0.0, []
        for part in re.split(r"([A-Za-z]+)", words):
            owed += 0.4 * len(part) if part.isalpha() else 0.0
            more = int(owed) if part.isalpha() else 0
            owed -= more
            made.append(part + "ensumatlor"[:more])
        return "".join(made)


@pytest.fixture
def accented(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(language, "catalogue", lambda _: Accented())


@pytest.fixture
def longer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(language, "catalogue", lambda _: Longer())


def drafted(name: str, **wishes: object) -> Pattern:
    """Return an example drafted and printed in the language pretended."""
    spec = drafting.load(EXAMPLES[name])
    return drafting.draft(
        replace(
            spec,
            publish=replace(spec.publish, language=Language.FRENCH),
            print=replace(spec.print, **wishes),  # type: ignore[arg-type]
        )
    )


def laid(pattern: Pattern, paper: PaperName) -> Printed:
    return printed(pattern, paper, effort=Effort.QUICK)


# --- nothing is left in English ------------------------------------------------------------


def told_by_the_draft(pattern: Pattern) -> Iterator[str]:
    """Yield what pages repeat of the draft, longest first where one holds another."""
    with speaking(pattern.spec.publish.language):
        found = [words for one in pattern.findings for words in (one.what, one.do)]
        found += [*cautions(pattern.spec), *(seam.name for seam in pattern.seams)]
        found += [part for row in measures(pattern) for part in row]
    yield from sorted(filter(None, found), key=len, reverse=True)


def given_by_the_sheet(pattern: Pattern) -> set[str]:
    """Return the words that are printed as the sheet writes them."""
    spec, publish = pattern.spec, pattern.spec.publish
    cloths = (spec.cloths.skirt, spec.cloths.lining, spec.cloths.ruffle)
    texts = (spec.title, spec.wearer.label, spec.wearer.size, publish.maker, publish.licence,
             publish.page, publish.edition, *(cloth.kind for cloth in cloths))  # fmt: skip
    return {word for text in texts for word in letters(str(text or ""))}


def letters(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]+", text)


def left_in_english(words: str, pattern: Pattern) -> set[str]:
    for told in told_by_the_draft(pattern):
        words = words.replace(told, " ")
    kept = given_by_the_sheet(pattern)
    return {
        word for word in letters(words) if len(word) > 2 and word.isascii() and word not in kept
    }


def all_texts(page: Page) -> tuple[Text, ...]:
    return (*page.drawing.texts, *page.foot.texts)


# A paper has the same words of its own whatever the garment: the first is printed on all of them.
ON_PAPERS = {name: PAPERS[:1] if k else PAPERS for k, name in enumerate(CHOSEN)}


@pytest.mark.usefixtures("accented")
@pytest.mark.parametrize("name", CHOSEN)
def test_every_word_on_paper_is_said_in_the_language_of_its_sheet(name: str) -> None:
    pattern = drafted(name)
    for paper in ON_PAPERS[name]:
        document = laid(pattern, paper).document
        for page in document.pages:
            words = " ".join(text.text for text in all_texts(page))
            assert left_in_english(words, pattern) == set(), f"{paper}, page {page.label}"
            assert left_in_english(page.bookmark, pattern) == set()
            assert left_in_english(page.called, pattern) == set()
        assert left_in_english(f"{document.subject} {document.keywords}", pattern) == set()


@pytest.mark.usefixtures("accented")
@pytest.mark.parametrize("name", CHOSEN)
def test_every_word_on_one_plane_is_said_in_the_language_of_its_sheet(name: str) -> None:
    pattern = drafted(name)
    plane = laid_out(pattern)
    drawings = (plane.square, *(Drawing(texts=part.words) for part in plane.parts))
    for drawing in drawings:
        words = " ".join(text.text for text in drawing.texts)
        assert left_in_english(words, pattern) == set()


@pytest.mark.usefixtures("accented")
def test_a_waist_alone_is_said_in_the_language_of_its_sheet() -> None:
    pattern = drafted("chorus-skirt", scope=Scope.WAIST)
    for page in laid(pattern, PaperName.A4).document.pages:
        words = " ".join(text.text for text in all_texts(page))
        assert left_in_english(words, pattern) == set(), page.label


@pytest.mark.usefixtures("accented")
@pytest.mark.parametrize("across", [98.0, 99.0, 99.8])
def test_a_correction_is_said_in_the_language_of_its_sheet(across: float) -> None:
    ways = (Measured(measured=across), Measured(measured=100.2))
    pattern = drafted("young-chorus-skirt", measured=ways)
    page = laid(pattern, PaperName.A4).document.pages[0]
    words = " ".join(text.text for text in all_texts(page))
    assert left_in_english(words, pattern) == set()
    # A number has the language's own decimal mark, and its unit on its own line's end.
    assert f"{across:g}\u00a0mm".replace(".", ",") in words


# --- longer words find their room ----------------------------------------------------------


def looked_over(layout: Printed) -> None:
    """Make sure that words stand neither over other words nor outside their page."""
    ticket.test_no_words_are_printed_over_other_words(layout)
    ticket.test_the_ticket_and_the_marks_of_pages_stay_inside_the_window(layout)
    for page in layout.document.pages:
        for text in all_texts(page):
            # A piece's words are drawn on each page of a joined sheet that they touch.
            if text.layer is Layer.PAGE or not layout.sheets.joins:
                for x, y in ticket.inked_box(text):
                    assert 0.0 <= x <= page.width, f"{page.label}: {text.text}"
                    assert 0.0 <= y <= page.height, f"{page.label}: {text.text}"
            assert text.size >= 8 * 25.4 / 72 or text.text.isdigit(), text.text


@pytest.mark.usefixtures("longer")
@pytest.mark.parametrize("name", CHOSEN)
def test_longer_words_stay_on_their_page_and_off_each_other(name: str) -> None:
    pattern = drafted(name)
    for paper in PAPERS:
        looked_over(laid(pattern, paper))
    layout = laid(pattern, PaperName.A4)
    ticket.test_no_words_cross_a_cutting_line(layout)
    ticket.test_no_words_of_a_piece_cross_any_line_of_the_pattern(layout)
    ticket.test_every_word_of_a_piece_is_whole_on_one_page(layout)
    ticket.test_words_of_a_piece_stand_on_it(layout)
    ticket.test_words_of_the_ticket_are_not_struck_through(layout)


@pytest.mark.usefixtures("longer")
def test_a_keys_words_break_into_lines_where_its_columns_are_narrow() -> None:
    pattern = drafted("chorus-skirt")
    window = Box(left=0.0, bottom=0.0, right=110.0, top=200.0)
    page = Setting(window=window, inset=0.0)
    with speaking(Language.FRENCH):
        printed_key(page, pattern.pieces, (), overlapped=True)
    (drawing,) = page.pages()
    boxes = [(text.text, ticket.inked_box(text)) for text in drawing.texts]
    for words, box in boxes:
        assert all(x <= window.right for x, _ in box), words
    for (words, one), (_, other) in itertools.combinations(boxes, 2):
        assert apart(one, other) > -0.1, words
    assert not ticket.struck(drawing.texts, drawing.strokes)
