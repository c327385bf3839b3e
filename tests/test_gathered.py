"""Whatever is said can be gathered for translation: Babel reads the source and runs none of it."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
SAYING = {"say": 1, "said_later": 1, "say_counted": 2, "say_as": 2}
"""How many words in the beginning each of them is given."""


def calls(tree: ast.AST) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and name_of(node) in SAYING:
            yield node


def name_of(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else ""


def written_out(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def has_words(choice: ast.IfExp) -> bool:
    return written_out(choice.body) or written_out(choice.orelse)


def test_words_are_said_where_they_are_looked_for() -> None:
    faults, found = [], 0
    for folder in ("drafting", "render"):
        for path in sorted((ROOT / folder).rglob("*.py")):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            at = path.relative_to(ROOT).as_posix()
            for call in calls(tree):
                words = call.args[: SAYING[name_of(call)]]
                found += all(map(written_out, words))
                if any(isinstance(part, ast.JoinedStr | ast.BinOp) for part in words):
                    faults.append(f"{at}:{call.lineno}: said in parts")
                if any(isinstance(part, ast.IfExp) and has_words(part) for part in words):
                    faults.append(f"{at}:{call.lineno}: one of two is said, and neither gathered")
            for text in (node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)):
                for call in calls(text):
                    if written_out(call.args[0]):
                        faults.append(f"{at}:{call.lineno}: said in the braces of an f-string")
    assert found > 200
    assert faults == []
