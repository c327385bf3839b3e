"""Markdown that shows a text as it is: no sign of it is taken for one of Markdown's own."""

import pytest

from render.booklet.model import Booklet, Bullets, Cautions, Paragraph, Section, Step, Steps, Table
from render.publish.markdown import markdown, plain


@pytest.mark.parametrize(
    ("words", "written"),
    [
        ("5 * 3 _is_ [15](x)", r"5 \* 3 \_is\_ \[15\](x)"),
        ("<b>&amp;</b>", "&lt;b&gt;&amp;amp;&lt;/b&gt;"),
        ("1. First", r"1\. First"),
        ("12) Twelfth", r"12\) Twelfth"),
        ("74.0 cm", "74.0 cm"),
        ("- 3 mm", r"\- 3 mm"),
        ("+ more", r"\+ more"),
        ("---", r"\---"),
        ("# 4 thread", r"\# 4 thread"),
        ("skirt | lining", r"skirt \| lining"),
        ("`rm`~~x~~\\", r"\`rm\`\~\~x\~\~\\"),
        ("two\nlines", "two lines"),
        ("bell\x07", "bell\ufffd"),
        ("> told", "&gt; told"),
    ],
)
def test_words_are_shown_as_they_are(words: str, written: str) -> None:
    assert plain(words) == written


def page(*blocks: object) -> str:
    section = Section(name="a", title="A", blocks=blocks)  # type: ignore[arg-type]
    booklet = Booklet(
        title="Skirt", subtitle="", facts=(), cover=None, language="en", author="", subject="",
        sections=(section,),
    )  # fmt: skip
    return markdown(booklet, {}).decode()


def test_a_table_keeps_its_columns_whatever_stands_in_its_cells() -> None:
    table = Table(
        caption="Sizes", heads=("size", "waist|hip"), rows=(("P|05", "74\n|"),), figures=(1,)
    )
    lines = page(table).splitlines()
    at = lines.index(r"| size | waist\|hip |")
    assert lines[at + 1 : at + 3] == ["| --- | ---: |", r"| P\|05 | 74 \| |"]
    assert lines[at - 1] == ""  # a table needs an empty line before it


def test_headings_lists_steps_and_links_are_markdowns_own() -> None:
    step = Step(name="s", title="Sew", do=("Sew it.",), check="It holds.")
    told = page(
        Paragraph(words="A [page]", address="https://example.org/a_b"),
        Bullets(items=("1. one", "two")),
        Cautions(title="Care", items=("Hot.",)),
        Steps(steps=(step,), start=3),
        Section(name="b", title="B", blocks=()),
    )
    assert told.startswith("# Skirt\n\n## A\n")
    assert r"[A \[page\]](<https://example.org/a_b>)" in told
    assert "- 1\\. one\n- two\n" in told
    assert "**Care**\n\n- Hot.\n" in told
    assert "### 3. Sew\n\nSew it.\n\n**Check** It holds.\n" in told
    assert "\n### B\n" in told
    assert "\n\n\n" not in told
