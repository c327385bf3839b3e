"""What the terminal shows: numbers under numbers, units under units, findings as sentences."""

import re
from collections.abc import Callable

import pytest

from drafting.findings import Finding, Level
from drafting.pattern import Pattern
from drafting.units import Units
from render.terminal import figures_table, findings_text, sizes_text


def test_the_table_is_aligned_on_its_units(pattern: Pattern) -> None:
    ends = set()
    rows = 0
    for line in figures_table(pattern).splitlines():
        if line.startswith("  "):
            held = re.fullmatch(r"  (\S.*?\S) {2,}(\S[^a-z]*?)( (?:cm|in|m|yd))?", line)
            assert held is not None, line
            ends.add(held.end(2))
            rows += 1
    assert rows > 8
    assert len(ends) == 1


def test_the_table_is_short_lines_of_plain_words(pattern: Pattern) -> None:
    table = figures_table(pattern)
    assert table.splitlines()[0] == pattern.spec.title
    for line in table.splitlines():
        assert len(line) <= 88
        assert line == line.rstrip()
        assert "\u00a0" not in line
        assert "\x1b" not in line
        assert "None" not in line


def number(table: str, name: str) -> str:
    found = re.search(rf"^  {name} {{2,}}(.+)$", table, re.MULTILINE)
    assert found is not None, name
    return found[1]


def test_the_chorus_skirt_shows_the_numbers_of_its_worked_example(
    pattern_of: Callable[..., Pattern],
) -> None:
    """(74 + 1.5) / 1.01 = 74.75 cm of waist seam; over a whole turn, a radius of 11.897."""
    table = figures_table(pattern_of("chorus-skirt"))
    assert number(table, "waist seam, flat") == "74.8 cm"
    # Rounded down, and said to be: a millimetre is six of waist.
    assert number(table, "waist radius, rounded down") == "11.85 cm"
    assert number(table, "hem radius, rounded down") == "73.85 cm"
    assert number(table, "sweep") == "464.3 cm"


def test_a_sheet_in_inches_is_answered_in_inches(pattern_of: Callable[..., Pattern]) -> None:
    table = figures_table(pattern_of("tea-dance-skirt"))
    assert " cm" not in table
    assert number(table, "length").endswith(" in")
    assert re.search(r"thread, about +[\d.]+ yd", table)


def test_a_finding_is_two_sentences_what_and_what_to_do() -> None:
    said = findings_text(
        (
            Finding(
                level=Level.CAUTION,
                code="hip",
                what="Your hip (101\u00a0cm) does not pass the opening: it lets 95.6 cm through."
                " This sentence goes on until it no longer fits into a line of the terminal.",
                do="Lengthen the zip to 22.5 cm.",
            ),
            Finding(level=Level.NOTE, code="size", what="The hip is read from P05.", do="Check."),
        )
    )
    first, second = said.split("\n\n")
    assert first.startswith("caution: Your hip (101 cm) does not pass")
    assert first.splitlines()[-1] == "         Lengthen the zip to 22.5 cm."
    assert all(len(line) <= 88 for line in said.splitlines())
    assert second == "note: The hip is read from P05.\n      Check."


@pytest.mark.parametrize("units", Units)
def test_the_size_table_stands_in_columns(units: Units) -> None:
    lines = sizes_text(units).splitlines()
    start = next(k for k, line in enumerate(lines) if line.startswith("size"))
    rows = [line for line in lines[start:] if re.match(r"size|[A-Z]\d\d", line)]
    assert len(rows) > 10
    assert len({len(line) for line in rows}) == 1
    waists = [int(found[1]) for row in rows[1:] if (found := re.match(r"P\d\d +(\d+)", row))]
    assert len(waists) == len(rows) - 1
    assert waists == sorted(waists)
    assert all(len(line) <= 88 for line in lines)
