"""Workings as JSON: millimetres, metres of thread and degrees, beside the words.

Imports the model.
"""

from typing import Any

from drafting.working.letters import meaning
from drafting.working.model import Working


def working_json(workings: tuple[Working, ...]) -> list[dict[str, Any]]:
    """Return the workings in the order in which they were worked out.

    ``key`` is the path of the figure in the same JSON; ``step`` marks what only leads to one.
    ``gives`` is what the expression comes to: the result, or what an equation must come to that
    was solved by trying.
    """
    return [_one(working) for working in workings]


def _one(working: Working) -> dict[str, Any]:
    return {
        "key": working.key,
        "title": working.title,
        "formula": working.formula,
        "expression": working.expression,
        "terms": [
            {
                "letter": term.letter,
                "meaning": meaning(term.letter),
                "counts": term.kind.value,
                "value": round(term.value, 9) + 0.0,
            }
            for term in working.terms
        ],
        "letters": working.letters,
        "numbers": working.numbers.replace("\u00a0", " "),
        "result": round(working.result, 9) + 0.0,
        "text": working.text.replace("\u00a0", " "),
        "gives": round(working.gives, 9) + 0.0,
        "solved": working.solved,
        "step": working.step,
        "law": working.law.value,
        **({"note": working.note.replace("\u00a0", " ")} if working.note else {}),
    }
