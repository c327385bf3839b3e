"""Terms of a pattern: known licences lead to their deed, all else is the maker's own."""

from dataclasses import replace

import pytest

from drafting.language import speaking
from drafting.sheet import read_sheet
from drafting.spec import Spec
from render.publish.licence import licence, licence_page, terms

CC = "https://creativecommons.org/licenses"


@pytest.mark.parametrize(
    ("name", "deed"),
    [
        ("CC BY 4.0", f"{CC}/by/4.0/deed.en"),
        ("CC BY-SA 4.0", f"{CC}/by-sa/4.0/deed.en"),
        ("cc-by-nc-4.0", f"{CC}/by-nc/4.0/deed.en"),
        ("CC BY-NC-SA 3.0", f"{CC}/by-nc-sa/3.0/deed.en"),
        ("Creative Commons BY-ND 2.5", f"{CC}/by-nd/2.5/deed.en"),
        ("CC BY-NC-ND 4.0 International", f"{CC}/by-nc-nd/4.0/deed.en"),
        ("CC0 1.0", "https://creativecommons.org/publicdomain/zero/1.0/deed.en"),
        ("CC0", "https://creativecommons.org/publicdomain/zero/1.0/deed.en"),
        ("CC BY-NC", f"{CC}/"),
        # What is no licence of theirs is not taken for one.
        ("CC BY-SA-NC 4.0", ""),
        ("CC BY-ND-SA 4.0", ""),
        ("CC BY 9.0", ""),
        ("CC BY-NC 4.0, and for choirs", ""),
        ("Sew as you like", ""),
        ("", ""),
    ],
)
def test_a_known_name_leads_to_its_deed(name: str, deed: str) -> None:
    found = licence(name)
    assert (found.name, found.deed) == (name, deed)
    assert bool(found.means) == bool(deed)


def test_the_deed_is_in_the_language_of_the_sheet() -> None:
    with speaking("de"):
        assert licence("CC BY 4.0").deed.endswith("/deed.de")
        assert licence("CC0").deed.endswith("/deed.de")


def test_what_the_letters_stand_for_is_in_the_summary() -> None:
    for name in ("CC BY-NC 4.0", "CC BY-NC-SA 4.0", "CC BY-NC-ND 4.0"):
        assert "not commercial" in licence(name).means
    for name in ("CC BY 4.0", "CC BY-SA 4.0", "CC BY-ND 4.0", "CC0"):
        assert "any purpose" in licence(name).means
    for name in ("CC BY-SA 4.0", "CC BY-NC-SA 4.0"):
        assert "same licence" in licence(name).means
    for name in ("CC BY-ND 4.0", "CC BY-NC-ND 4.0"):
        assert "unchanged" in licence(name).means


def sheet(name: str) -> Spec:
    spec = read_sheet('title = "Usher"\n[wearer]\nsize = "P03"\n')
    return replace(spec, publish=replace(spec.publish, licence=name))


def test_a_summary_defers_to_the_deed() -> None:
    told = " ".join(terms(sheet("CC BY 4.0")))
    assert "no legal advice" in told
    assert "CC BY 4.0" in told


def test_own_words_are_repeated_and_nothing_added() -> None:
    told = " ".join(terms(sheet("For the pier's own choir, for ever")))
    assert "For the pier's own choir, for ever" in told
    assert "creativecommons" not in licence_page(sheet("For the pier")).decode()


def test_without_a_licence_readers_are_told_what_that_means() -> None:
    page = licence_page(sheet("")).decode()
    told = " ".join(page.split())
    assert page.startswith("Usher\n")
    for words in ("No licence is given", "no legal advice", "Ask the maker"):
        assert words in told
