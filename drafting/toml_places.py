"""The text of a spec sheet: its tables, where each key stands, and what cannot be read.

The only home of tomllib and tree-sitter. tomllib reads a sheet fast but knows no lines, and
tree-sitter knows the lines but is slow to load: so it is loaded for a faulty sheet only.
"""

import re
import tomllib
import unicodedata
from dataclasses import dataclass
from typing import Any

from drafting.errors import Fault, printable

Path = tuple[str, ...]

MOST_SLIPS = 20
_LONG_TEXT = 50_000
_DEEPEST = 20
_LONG_LINE = 300
_IMMENSE_LINE = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What could be read of a sheet.

    Attributes:
        tables: the keys and values, but for lines that could not be read.
        text: the text they were read from, line for line that of the sheet.
        slips: one fault for each line that could not be read.
    """

    tables: dict[str, Any]
    text: str
    slips: tuple[Fault, ...] = ()


def read_tables(text: str) -> Reading:
    """Return the tables of a sheet, with a slip for each line that is not TOML.

    A line that cannot be read is taken out, and reading goes on without it, so that one
    reading finds them all.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    lines = text.split("\n")
    if immense := [number for number, line in enumerate(lines) if len(line) > _IMMENSE_LINE]:
        # tomllib takes ever longer over such a line, so it is not shown one.
        return _read_without(lines, immense)
    try:
        return Reading(tables=tomllib.loads(text), text=text)
    except (ValueError, RecursionError) as error:
        return _read_around(lines, error)


def _read_without(lines: list[str], immense: list[int]) -> Reading:
    slips = tuple(
        Fault(what=f"This line has {len(lines[at])} characters.", allowed=_EXAMPLE, line=at + 1)
        for at in immense[:MOST_SLIPS]
    )
    for at in immense:
        lines = _without(lines, at)
    rest = read_tables("\n".join(lines))
    return Reading(tables=rest.tables, text=rest.text, slips=(*slips, *rest.slips))


def _read_around(lines: list[str], error: ValueError | RecursionError) -> Reading:
    long = sum(map(len, lines)) > _LONG_TEXT
    slips: list[Fault] = []
    while True:
        slip, lines = _slip(lines, error)
        slips.append(slip)
        if long or len(slips) == MOST_SLIPS or not slip.line:
            break
        text = "\n".join(lines)
        try:
            return Reading(tables=tomllib.loads(text), text=text, slips=tuple(slips))
        except (ValueError, RecursionError) as another:
            error = another
    return Reading(tables={}, text="", slips=tuple(slips))


# --- where the keys stand ------------------------------------------------------------------


def places(text: str) -> dict[Path, int]:
    """Return the line, from 1, on which each key and each table of a sheet first stands."""
    import tree_sitter
    import tree_sitter_toml

    language = tree_sitter.Language(tree_sitter_toml.language())
    tree = tree_sitter.Parser(language).parse(text.encode("utf-8", "replace"))
    found: dict[Path, int] = {}
    for node in tree.root_node.named_children:
        if node.type == "pair":
            _note_pair(node, (), found)
        elif node.type in ("table", "table_array_element"):
            table = _key(node.named_children[0])
            _note(table, node.start_point.row + 1, found)
            for child in node.named_children[1:]:
                if child.type == "pair":
                    _note_pair(child, table, found)
    return found


def _note_pair(pair: Any, table: Path, found: dict[Path, int]) -> None:
    path = table + _key(pair.named_children[0])
    _note(path, pair.start_point.row + 1, found)
    value = pair.named_children[-1]
    if value.type == "inline_table" and len(path) < _DEEPEST:
        for child in value.named_children:
            if child.type == "pair":
                _note_pair(child, path, found)


def _note(path: Path, line: int, found: dict[Path, int]) -> None:
    for length in range(1, min(len(path), _DEEPEST) + 1):
        found.setdefault(path[:length], line)


def _key(node: Any) -> Path:
    """Return the parts of a key; tomllib itself undoes its quotes."""
    text = node.text.decode("utf-8")
    if node.type == "bare_key":
        return (text,)
    parts: list[str] = []
    try:
        table = tomllib.loads(f"{text} = 0")
    except ValueError:
        return (text,)
    while isinstance(table, dict) and len(parts) < _DEEPEST:
        name, table = next(iter(table.items()))
        parts.append(name)
    return tuple(parts)


def line_of(path: Path, found: dict[Path, int]) -> int:
    """Return the line of a key, or of the innermost table that is there, or 0."""
    for length in range(len(path), 0, -1):
        if path[:length] in found:
            return found[path[:length]]
    return 0


# --- what a line that cannot be read was meant to be ---------------------------------------

_AT = re.compile(r"\(at line (\d+), column (\d+)\)")
_HEADER = re.compile(r"\s*\[|\s*[^\w\s#]?[\w.]+\]+\s*$")
_PAIR = re.compile(r"\s*(?P<key>[\w.\-]+|\"[^\"]*\"|'[^']*')\s*=\s*(?P<value>.*?)\s*$")
_PAIR_BEGUN = re.compile(r"\s*(?:[\w.\-]+|\"[^\"]*\"|'[^']*')\s*=")
_STRING_OR_COMMENT = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")
_CURLY = "“”„‟‘’‚‛«»‹›＂＇"
_BARE_LENGTH = re.compile(
    r"[\d.,/½¼¾⅛⅜⅝⅞\s]+(?:[a-zA-Z]{1,11}\.?|''|[\"″”'′’])?(?:\s*[\d./½¼¾⅛⅜⅝⅞\s]+[a-z\"″”']{1,6})?"
)
_EXAMPLE = 'A line holds a key, "=" and a value in quotes, such as waist = "74 cm".'


def _slip(lines: list[str], error: ValueError | RecursionError) -> tuple[Fault, list[str]]:
    """Return the fault for the first line that cannot be read, and the lines without it."""
    if isinstance(error, RecursionError):
        number = max(range(len(lines)), key=lambda at: lines[at].count("[") + lines[at].count("{"))
        what = "This line has brackets inside brackets, deeper than any sheet needs."
        return Fault(what=what, allowed=_EXAMPLE, line=number + 1), _without(lines, number)
    message = str(error)
    if not isinstance(error, tomllib.TOMLDecodeError):
        number = max(range(len(lines)), key=lambda at: len(lines[at]))
        what = "This line holds a number with more digits than can be read."
        return Fault(what=what, allowed=_EXAMPLE, line=number + 1), _without(lines, number)
    number = _blamed(lines, message)
    opener = _open_bracket(lines, number)
    if opener is not None and (_starts_anew(lines[number]) or number == len(lines) - 1):
        line = lines[opener]
        what = f"The bracket opened in {_text(line)} is never closed."
        allowed = 'Close the list on the same line, such as paper = ["a4"].'
        return Fault(what=what, allowed=allowed, line=opener + 1), _without(lines, opener)
    what, allowed = map(printable, _meant(lines, number, message))
    if opener is not None:
        what = f"{_text(lines[number])}, in the list begun on line {opener + 1}, cannot be read."
        allowed = "Put each word in quotes, with a comma between two."
    fault = Fault(
        what=what, allowed=allowed, given=printable(lines[number].strip()[:80]), line=number + 1
    )
    if opener is not None:
        # Inside a list that goes on over lines: the whole list goes, or its rest would puzzle.
        return fault, _without(lines, *range(opener, _list_end(lines, opener) + 1))
    return fault, _without(lines, number)


def _without(lines: list[str], *numbers: int) -> list[str]:
    """Return the lines with those blanked; a table keeps a header, so that its keys do."""
    kept = list(lines)
    for number in numbers:
        kept[number] = ""
        if _HEADER.match(lines[number]) and len(numbers) == 1:
            name = re.match(r"\W*([A-Za-z_]+(?:\.[A-Za-z_]+)*)", lines[number])
            again = (
                name is None
                or len(name[1]) > _LONG_LINE
                or any(_heads(line, name[1]) for line in lines[:number])
            )
            closed = re.fullmatch(r"\s*\[[^\[\]]*\]\s*", lines[number]) is not None
            kept[number] = f"[{name[1]}]" if name and not (again or closed) else f'["_{number}"]'
    return kept


def _heads(line: str, table: str) -> bool:
    return re.match(rf"\s*\[\s*{re.escape(table)}\s*\]", line[:_LONG_LINE]) is not None


def _blamed(lines: list[str], message: str) -> int:
    """Return the number, from 0, of the line that tomllib complains of."""
    at = _AT.search(message)
    number = int(at[1]) - 1 if at else len(lines) - 1
    if at and at[2] == "1" and message.startswith("Unescaped"):
        # A backslash at the end of a line takes the line's end with it.
        number -= 1
    while number and not lines[number].strip():
        number -= 1
    if message.startswith('Expected "\'"'):
        # A single quote that is never closed is missed only at the end of the sheet.
        number = next(
            (at for at, line in enumerate(lines) if "'" in _STRING_OR_COMMENT.sub("", line)), number
        )
    if message.startswith(("Cannot overwrite", "Cannot mutate")):
        # tomllib stops after the value, which may be some lines below its key.
        while number and not (_PAIR_BEGUN.match(lines[number]) or _HEADER.match(lines[number])):
            number -= 1
    if message.startswith("Unterminated string"):
        triple = [at for at, line in enumerate(lines) if line.count('"""') + line.count("'''") == 1]
        number = triple[-1] if triple else number
    return number


def _starts_anew(line: str) -> bool:
    return bool(_PAIR_BEGUN.match(line) or re.match(r"\s*\[+[\w.]+\]+\s*(#.*)?$", line))


def _open_bracket(lines: list[str], number: int) -> int | None:
    """Return the line that opened a list still open where line ``number`` begins, or None."""
    depth, opener = 0, 0
    for at, line in enumerate(lines[:number]):
        if not depth and not _PAIR_BEGUN.match(line):
            continue
        bare = _STRING_OR_COMMENT.sub("", line)
        before = depth
        depth = max(0, depth + sum(bare.count(c) for c in "[{") - sum(bare.count(c) for c in "]}"))
        if depth and not before:
            opener = at
    if not depth and number < len(lines):
        bare = _STRING_OR_COMMENT.sub("", lines[number])
        pair = _PAIR_BEGUN.match(bare)
        opens = bool(pair) and bare.count("[") > bare.count("]") and number == len(lines) - 1
        return number if opens else None
    return opener if depth else None


def _list_end(lines: list[str], opener: int) -> int:
    depth = 0
    for at in range(opener, len(lines)):
        bare = _STRING_OR_COMMENT.sub("", lines[at])
        depth += sum(bare.count(c) for c in "[{") - sum(bare.count(c) for c in "]}")
        if depth <= 0:
            return at
    return len(lines) - 1


def _meant(lines: list[str], number: int, message: str) -> tuple[str, str]:
    """Return what is wrong with a line, and what to write instead."""
    line = lines[number]
    hidden = [c for c in line if unicodedata.category(c) in ("Cc", "Cs") and c != "\t"]
    if hidden:
        return (
            f"{_text(line)} holds a character that cannot be seen (code {ord(hidden[0])}).",
            "Type the line again.",
        )
    if message.startswith("Cannot declare") or (
        message.startswith("Cannot overwrite") and _HEADER.match(line)
    ):
        return _table_again(lines, number)
    if message.startswith(("Cannot overwrite", "Cannot mutate")):
        return _key_again(lines, number)
    if _HEADER.match(line):
        name = re.sub(r"[^\w.]", "", line.split("#")[0])[:40]
        return (
            f"{_text(line)} is not the heading of a table.",
            f"Write its name between brackets, alone on the line: [{name or 'skirt'}].",
        )
    if len(line) > _LONG_LINE:
        # No line that a person writes is longer, and the patterns below are slow on such.
        return f"{_text(line)} cannot be read.", _EXAMPLE
    pair = _PAIR.match(line)
    if pair is None:
        return _no_equals(line)
    return _bad_value(line, pair["key"], pair["value"], message)


def _table_again(lines: list[str], number: int) -> tuple[str, str]:
    name = re.sub(r"[\s\[\]]", "", lines[number].split("#")[0])[:40]
    first = next((at for at, line in enumerate(lines[:number]) if _heads(line, name)), None)
    where = f" here and on line {first + 1}" if first is not None else ""
    return (
        f"The table [{name}] is begun twice:{where}." if where else f"[{name}] is begun twice.",
        f"Put all its keys under one [{name}].",
    )


def _key_again(lines: list[str], number: int) -> tuple[str, str]:
    pair = _PAIR.match(lines[number][:_LONG_LINE])
    key = pair["key"] if pair else _text(lines[number])
    for at in range(number - 1, -1, -1):
        if _HEADER.match(lines[at]):
            break
        other = _PAIR.match(lines[at][:_LONG_LINE])
        if other and other["key"] == key:
            return f"{key} is given twice: here and on line {at + 1}.", "Keep one of the two."
    return f"{key} is given twice.", "Keep one of the two."


def _no_equals(line: str) -> tuple[str, str]:
    colon = re.match(r"\s*[\"']?([\w.\-]+)[\"']?\s*(:=?|=>|->)?\s*(.*?),?\s*$", line)
    if colon is None or not colon[3] or line.lstrip().startswith("="):
        return f"{_text(line)} cannot be read.", _EXAMPLE
    value = _in_quotes(colon[3])
    if colon[2]:
        return (
            f'{_text(line)} has "{colon[2]}" where "=" belongs.',
            f"Write {colon[1]} = {value}",
        )
    return f'{_text(line)} has no "=".', f"Write {colon[1]} = {value}"


def _in_quotes(value: str) -> str:
    bare = value.split(" #")[0].strip().strip(_CURLY + "\"'").strip()
    if value.startswith(("[", "{")) or value in ("true", "false"):
        return value
    return f"'{bare}'" if '"' in bare else f'"{bare}"'


def _bad_value(line: str, key: str, value: str, message: str) -> tuple[str, str]:
    if not value or value.startswith("#"):
        return f'{_text(line)} has nothing after the "=".', f'Write {key} = "…", or take it out.'
    outside = _STRING_OR_COMMENT.sub("", value)
    if any(c in _CURLY for c in outside) and value[0] in _CURLY:
        return (
            f"{_text(line)} has curly quotes; a sheet needs straight ones.",
            f"Write {key} = {_in_quotes(value)}",
        )
    if "\\" in value and message.startswith(("Unescaped", "Invalid hex", "Escaped")):
        return (
            f"{_text(line)} holds a backslash, which a sheet reads as a sign of its own.",
            f"Put the text in single quotes: {key} = '…'.",
        )
    if value[0] in "\"'":
        return _bad_string(line, key, value)
    if value[0] == "[":
        return (
            f"{_text(line)} is not a list that can be read.",
            f'Put each word in quotes, with commas between: {key} = ["…", "…"].',
        )
    return _bad_bare(line, key, value)


def _bad_string(line: str, key: str, value: str) -> tuple[str, str]:
    quote = value[0]
    body = value.split(" #")[0].rstrip()
    inner = body[1:]
    inches = re.fullmatch(r"([\d\s./,½¼¾⅛⅜⅝⅞ft']*\d?[½¼¾⅛⅜⅝⅞\d])\s*(\"|'')[\"']?", inner)
    if quote == '"' and inches and inner.count('"'):
        return (
            f"{_text(line)} has an inch mark inside double quotes, which ends them too soon.",
            f'Write {key} = \'{inches[1].strip()}"\' or {key} = "{inches[1].strip()} in"',
        )
    if quote == "'" and inner.count("'") > 1:
        return (
            f"{_text(line)} has a single quote inside single quotes.",
            f'Write feet and inches in letters: {key} = "2 ft 3 in".',
        )
    if value.startswith(('"""', "'''")):
        return (
            f"{_text(line)} begins with three quotes, and the text is never closed.",
            f'One quote before and one after will do: {key} = "…".',
        )
    if quote == '"' and re.fullmatch(r'"[^"]*"(\s*[,;]\s*"[^"]*")+[,;]?', body):
        listed = ", ".join(re.findall(r'"[^"]*"', body))
        return f"{_text(line)} has several values.", f"Write {key} = [{listed}]"
    if quote not in inner:
        other = inner.rstrip("\"'" + _CURLY).strip()
        return f"{_text(line)} has no closing quote.", f"Write {key} = {quote}{other}{quote}"
    return (
        f"{_text(line)} has something left over after the closing quote.",
        f'Keep one value between two quotes: {key} = "…".',
    )


def _bad_bare(line: str, key: str, value: str) -> tuple[str, str]:
    body = value.split("#")[0].strip()
    if body.lower() in ("true", "false", "yes", "no", "on", "off"):
        word = "true" if body.lower() in ("true", "yes", "on") else "false"
        return f"{_text(line)} says yes or no in a way not known here.", f"Write {key} = {word}"
    if body.endswith(('"', "'")) and body.count(body[-1]) == 1 and not re.search(r"\d\s*\"$", body):
        return f"{_text(line)} has no opening quote.", f"Write {key} = {_in_quotes(body)}"
    if _BARE_LENGTH.fullmatch(body):
        return (
            f"{_text(line)} has no quotes round {body}.",
            f"Write {key} = {_in_inches(body)}",
        )
    if re.fullmatch(r"\d+-\d+-\d+", body):
        return f"{_text(line)} has no such day.", f"Write year, month, day: {key} = 2026-11-24"
    if not any(c in "\"'=[]{}" for c in body):
        return f"{_text(line)} has no quotes round {body}.", f"Write {key} = {_in_quotes(body)}"
    return f"{_text(line)} cannot be read.", _EXAMPLE


def _in_inches(body: str) -> str:
    return f"'{body}'" if '"' in body else f'"{body}"'


def _text(line: str) -> str:
    """Return a line of the sheet as it is told: trimmed, between quotes of its own."""
    text = line.strip()
    kept = text if len(text) <= 60 else text[:59] + "…"
    return f"“{printable(kept)}”"
