"""Whatever is told on paper, in pictures or in findings is said in the language of the sheet."""

import gettext
import re
from collections.abc import Collection, Iterator
from contextlib import contextmanager
from contextvars import copy_context
from dataclasses import replace
from pathlib import Path
from threading import Thread
from typing import ClassVar

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from drafting import language
from drafting.cautions import cautions
from drafting.chalked import short_side_names, side_names
from drafting.cloth.buying import sold_text
from drafting.cloth.laying import laid_plan, lay_plans
from drafting.cloth.shopping import shopping
from drafting.effort import Effort
from drafting.errors import SheetError
from drafting.findings import Finding
from drafting.language import Language, decimal, listed, say, say_as, say_counted, speaking, spoken
from drafting.measurements import NAMES, measure_words
from drafting.part_words import by_part, part_words
from drafting.pattern import Pattern, draft
from drafting.piece import Piece
from drafting.piece_names import cloth_in_full, cloth_words, piece_words
from drafting.printer import size_words
from drafting.sheet import load, read_sheet
from drafting.spec import Spec
from drafting.units import Units, length_text
from drafting.waist_part import waist_part
from tests.drafting.test_every_cut import specs
from tests.drawn import drawn
from tests.garments import chorus_skirt

EXAMPLES = sorted(Path("measurements_examples").glob("*.toml"))
UNSAID = re.compile(r"[^\W\d_]{3,}")
"""Three letters in a row are a word: units are shorter, and so are seams' numbers."""

BRACES = re.compile(r"{\w+}")

# What a sheet is written in stays as it is, in whatever is said of it.
KEYS = {*NAMES, "gores", "panels"}
OF_A_CLOTH = {
    "half-saves-paper",
    "corner-pieced",
    "may-shade",
    "opened-saves-cloth",
    "cloth-short",
}


class Pretended(gettext.NullTranslations):
    """A language of brackets: of an English sentence it keeps nothing but what is put into it."""

    def gettext(self, message: str) -> str:
        return f"⟦{''.join(BRACES.findall(message))}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


class Few(gettext.NullTranslations):
    """A few words of German."""

    _WORDS: ClassVar = {
        "fold": "Bruch",
        "{length} deep": "{length} tief",
        "{names} and {last}": "{names} und {last}",
        "{count} ring": "{count} Ring",
        "{count} rings": "{count} Ringe",
    }
    _MEANT: ClassVar = {("unit", "in"): "Zoll", ("measure", "waist"): "Taillenumfang"}

    def gettext(self, message: str) -> str:
        return self._WORDS.get(message, message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self._MEANT.get((context, message), message)


@contextmanager
def pretending(
    known: gettext.NullTranslations, of: tuple[Language, ...] = tuple(Language)
) -> Iterator[None]:
    """Have some languages say everything by one catalogue until the block ends."""
    plain = gettext.NullTranslations()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(language, "catalogue", lambda one: known if one in of else plain)
        yield


def check(told: str, where: str, keys: Collection[str] = ()) -> None:
    """Make sure that a text is said, all of it; one that is empty need not be."""
    if not told:
        return
    assert told.startswith("⟦"), f"{where}: {told}"
    left = {word for word in UNSAID.findall(told.replace("_", "")) if word not in keys}
    assert not left, f"{where}: {told} still has {left}"


def check_finding(one: Finding, spec: Spec) -> None:
    if one.code == "cannot-be-drawn":
        # Errors are English; what a finding makes of them begins in the sheet's language.
        assert one.what.startswith("⟦")
        return
    keys = {key.replace("_", "") for key in KEYS}
    if one.code in OF_A_CLOTH:
        keys |= {"skirt", "lining", "ruffle"}
    if one.code == "key-unused":
        keys |= {"band", "bandshape", "elastic", "facing", "braid", "hemfacing", "interfacing"}
    kinds = [getattr(spec.cloths, name).kind for name in ("skirt", "lining", "ruffle")]
    keys |= {word for kind in kinds for word in kind.split()}
    check(one.what, one.code, keys)
    check(one.do, one.code, keys)


def check_piece(piece: Piece) -> None:
    check(piece_words(piece.name), piece.name)
    for edge in piece.edges:
        check(edge.words, f"{piece.name}, {edge.name}")
        if UNSAID.search(edge.shorter):
            check(edge.shorter, f"{piece.name}, {edge.name}")
    for line in piece.inner_lines:
        check(line.words, f"{piece.name}, {line.kind}")
        if UNSAID.search(line.brief):
            check(line.brief, f"{piece.name}, {line.kind}")
    for words in [mark.words for mark in piece.notches] + [dot.words for dot in piece.dots]:
        check(words, f"mark on {piece.name}")
    for note in piece.notes:
        check(note, f"note on {piece.name}")


def check_pattern(pattern: Pattern) -> None:
    for one in pattern.findings:
        check_finding(one, pattern.spec)
    for piece in pattern.pieces:
        check_piece(piece)
        check_piece(waist_part(piece, pattern.spec.units))
        if len(piece.edges) == 4:
            for name in (*side_names(piece), *short_side_names(piece)):
                assert name.startswith("⟦") or piece.edges[1].name != "hem"
    for words in cautions(pattern.spec):
        check(words, "caution")


def check_cloth(pattern: Pattern) -> set[str]:
    """Check everything there is to buy for a pattern, and return the codes of its findings."""
    if not pattern.pieces:
        return set()
    lays = tuple(laid_plan(pattern, name, Effort.QUICK) for name in pattern.figures.cloth)
    bought = shopping(pattern, lays, widths=False)
    for one in bought.findings:
        check_finding(one, pattern.spec)
    for notion in bought.notions:
        check(notion.name, "notion")
        check(notion.why, notion.name)
    return {one.code for one in bought.findings}


# --- saying ----------------------------------------------------------------------------------


def test_english_is_said_as_it_is_written() -> None:
    assert say("fold") == "fold"
    assert say("{length} deep", length="3 cm") == "3 cm deep"
    assert say_as("unit", "in") == "in"
    assert say_counted("{count} ring", "{count} rings", 1) == "1 ring"
    assert say_counted("{count} ring", "{count} rings", 2) == "2 rings"


def test_another_language_says_it_in_its_own_words() -> None:
    with pretending(Few(), (Language.GERMAN,)), speaking("de"):
        assert say("fold") == "Bruch"
        assert say("{length} deep", length="3 cm") == "3 cm tief"
        assert say_as("unit", "in") == "Zoll"
        assert measure_words("waist") == "Taillenumfang"
        assert say_counted("{count} ring", "{count} rings", 3) == "3 Ringe"
        assert listed(["a", "b", "c"]) == "a, b und c"
        assert length_text(254, Units.INCH) == "10\u00a0Zoll"
        assert length_text(715, Units.CM) == "71,5\u00a0cm"
        assert sold_text(3300, Units.CM) == "3,3\u00a0m"
        assert sold_text(914.4, Units.INCH) == "1\u00a0yd"
    assert say("fold") == "fold"


def test_a_number_has_the_decimal_mark_of_the_language() -> None:
    assert decimal("1.5") == "1.5"
    with speaking(Language.FRENCH):
        assert decimal("1.5") == "1,5"
    with pretending(Few()), speaking("de"):
        assert size_words(0.994) == "0,60 %\u00a0small"


def test_the_language_before_is_spoken_again_even_after_a_fault() -> None:
    with speaking("de"):
        with pytest.raises(KeyError), speaking("fr"):
            assert spoken() is Language.FRENCH
            raise KeyError
        assert spoken() is Language.GERMAN
    assert spoken() is Language.ENGLISH
    with pytest.raises(ValueError), speaking("it"):
        pass


def test_a_thread_speaks_english_unless_it_is_given_the_context() -> None:
    heard: list[Language] = []
    with speaking("fr"):
        plain = Thread(target=lambda: heard.append(spoken()))
        context = copy_context()
        given_it = Thread(target=lambda: heard.append(context.run(spoken)))
        for thread in (plain, given_it):
            thread.start()
            thread.join()
    assert heard == [Language.ENGLISH, Language.FRENCH]


# --- names -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name",
    ["skirt panel", "skirt side left B", "skirt panel corner left", "lining back A corner",
     "ruffle tier 12", "hem facing side front right C", "waist binding"],
)  # fmt: skip
def test_a_piece_is_called_in_english_what_its_name_is(name: str) -> None:
    assert piece_words(name) == name


@pytest.mark.parametrize("name", ["skirt", "skirt tier", "skirt panel a", "cuff", "cuff A", ""])
def test_no_piece_is_called_what_none_is(name: str) -> None:
    with pytest.raises(KeyError):
        piece_words(name)


def test_cloths_parts_and_measures_have_names_in_every_language() -> None:
    assert cloth_words("skirt") == "skirt cloth" and cloth_words("interfacing") == "interfacing"
    assert cloth_in_full("interfacing") == "interfacing cloth"
    assert part_words("lining") == "the lining"
    assert {key: measure_words(key) for key in NAMES} == NAMES
    with pretending(Pretended()):
        for name in ("skirt", "lining", "ruffle", "interfacing", "binding"):
            assert {cloth_words(name), cloth_in_full(name), part_words(name)} == {"⟦⟧"}
    assert by_part("lining", skirt="one", lining="other") == "other"


# --- all that is told ------------------------------------------------------------------------


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_all_that_an_example_tells_is_said(path: Path) -> None:
    with pretending(Pretended()):
        pattern = draft(load(path))
        check_pattern(pattern)
        check_cloth(pattern)


@settings(
    max_examples=drawn(60),
    deadline=None,
    derandomize=True,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)
@given(specs())
def test_all_that_any_garment_tells_is_said_and_english_is_the_same_after(spec: Spec) -> None:
    before = draft(spec)
    with pretending(Pretended()):
        pretended = draft(spec)
        check_pattern(pretended)
    after = draft(spec)
    assert after == before
    assert pretended.figures == before.figures
    assert [one.code for one in pretended.findings] == [one.code for one in before.findings]
    for piece in before.pieces:
        assert piece_words(piece.name) == piece.name


def test_all_that_is_told_of_cloth_at_hand_is_said() -> None:
    drawn = chorus_skirt()
    codes: set[str] = set()
    with pretending(Pretended()):
        for fold, have in ((False, 1500.0), (True, 1500.0), (False, 9000.0)):
            cloth = replace(
                drawn.cloths.skirt, kind="velvet", fold=fold, have=have, repeat=1300.0, grams=900.0
            )
            spec = replace(drawn, cloths=replace(drawn.cloths, skirt=cloth))
            codes |= check_cloth(draft(spec))
    assert {"cloth-short", "cloth-enough", "may-shade", "heavy-skirt"} <= codes


def test_a_lay_made_in_another_thread_is_told_in_the_language_of_its_sheet() -> None:
    drawn = chorus_skirt()
    velvet = replace(drawn.cloths.skirt, kind="velvet", fold=True)
    spec = replace(drawn, cloths=replace(drawn.cloths, skirt=velvet))
    spec = replace(spec, publish=replace(spec.publish, language=Language.GERMAN))
    with pretending(Pretended(), (Language.GERMAN,)):
        lays = lay_plans(draft(spec), Effort.QUICK)
    found = [one for lay in lays for one in lay.findings]
    assert "may-shade" in [one.code for one in found]
    for one in found:
        check_finding(one, spec)


# --- sheets ----------------------------------------------------------------------------------

SHEET = """title = "Jupe"
[wearer]
waist = "{waist}"
hip = "96 cm"
[skirt]
band_shape = "straight"
[publish]
language = "{language}"
"""


def test_faults_of_a_sheet_are_english_in_every_language() -> None:
    with pytest.raises(SheetError) as caught:
        read_sheet(SHEET.format(waist="31.5 cm", language="fr"))
    told = str(caught.value)
    assert "can be from 45.0\u00a0cm to 180.0\u00a0cm" in told


def test_findings_of_a_sheet_are_said_in_its_language() -> None:
    with pretending(Pretended()):
        spec = read_sheet(SHEET.format(waist="51 cm", language="en"))
        child = read_sheet(
            SHEET.format(waist="44 cm", language="en")
            .replace("[skirt]", 'figure = "child"\n[skirt]')
            .replace("96", "70")
        )
    codes = {one.code for one in (*spec.findings, *child.findings)}
    assert {"measure-unusual", "measure-odd", "measure-estimated"} <= codes
    for one in (*spec.findings, *child.findings):
        check_finding(one, spec)
