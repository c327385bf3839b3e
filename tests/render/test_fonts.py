"""The typeface: which letters it has, how wide they are set, and what stands in for the rest."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from render import fonts
from tests.render.typeface import advances

FILES = {False: "FiraSans-Regular.ttf", True: "FiraSans-SemiBold.ttf"}


@pytest.mark.parametrize(
    "words",
    [
        "Zoë's tea-dance skirt, naïve façade, Łódź, Ålesund, Ærø, straße",
        "Φούστα της Ζωής, μέση 74 εκ.",
        "Юбка для хора, талия 74 см, подол",
        "24 3/8 in, ½ ¼ ¾, 90°, 3 × 4, “quoted”, 12–15, 5 €",
    ],
)
@pytest.mark.parametrize("bold", [False, True])
def test_latin_greek_and_cyrillic_are_printed_as_they_are(words: str, bold: bool) -> None:
    assert fonts.printable(words) == words
    assert fonts.lacking(words) == ()
    assert all(ord(letter) in advances(FILES[bold]) for letter in words)


def test_what_stands_in_for_a_letter_is_itself_in_the_type() -> None:
    for file in FILES.values():
        assert ord(fonts.REPLACEMENT) in advances(file)


def test_a_letter_that_the_type_lacks_is_replaced_where_it_stood_and_named() -> None:
    assert fonts.printable("a💃b漢💃") == "a◊b◊◊"
    assert fonts.lacking("a💃b漢💃") == ("💃", "漢")


def test_control_characters_are_never_set() -> None:
    assert fonts.printable("a\x07b\x1bc\x7f") == "a◊b◊c◊"


def test_a_letter_and_its_accent_are_one() -> None:
    assert fonts.printable("Zoe\u0308") == "Zoë"
    assert fonts.lacking("Zoe\u0308") == ()


def test_thin_spaces_become_plain_ones_and_no_letter_is_lost() -> None:
    assert fonts.printable("62\u2009cm\u202fx") == "62\u00a0cm\u00a0x"
    assert fonts.lacking("62\u2009cm") == ()


@given(st.text(st.sampled_from("abcdefgXYZ 0123456789×½°ЖЩφψäß·–"), max_size=40), st.booleans())
def test_a_line_is_as_wide_as_its_letters(words: str, bold: bool) -> None:
    wanted = 3.5 * sum(advances(FILES[bold])[ord(letter)] for letter in words)
    # The PDF holds advances to the thousandth of the type's height.
    assert fonts.width(words, 3.5, bold=bold) == pytest.approx(wanted, abs=3.5e-3 * 40)


@given(
    st.lists(st.text("abcmwi", min_size=1, max_size=12), min_size=1, max_size=30),
    st.floats(40, 120),
)
def test_a_paragraph_keeps_its_words_and_its_width(words: list[str], most: float) -> None:
    lines = fonts.wrapped(" ".join(words), 3.5, most)
    assert " ".join(lines) == " ".join(words)
    for line in lines:
        assert fonts.width(line, 3.5) <= most
    for line, after in pairwise(lines):
        assert fonts.width(f"{line} {after.split(' ')[0]}", 3.5) > most


@given(st.text("abc mwi", min_size=1, max_size=60), st.floats(10, 60))
def test_a_shortened_line_fits_and_says_that_it_was_cut(words: str, most: float) -> None:
    short = fonts.shortened(words, 3.5, most)
    assert fonts.width(short, 3.5) <= most
    if fonts.width(words, 3.5) <= most:
        assert short == words
    else:
        assert short.endswith("…")
        assert words.startswith(short[:-1])


@given(st.text("abcmwi", min_size=30, max_size=200), st.floats(20, 60))
def test_a_word_longer_than_the_line_is_broken_and_loses_nothing(word: str, most: float) -> None:
    lines = fonts.wrapped(f"see {word} there", 3.5, most)
    assert "".join(lines).replace(" ", "") == f"see{word}there"
    assert all(fonts.width(line, 3.5) <= most for line in lines)
