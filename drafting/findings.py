"""What a good cutter would say over your shoulder. Imports nothing of the project."""

from dataclasses import dataclass
from enum import StrEnum


class Level(StrEnum):
    """How much a finding weighs; a ``stop`` writes no pattern."""

    NOTE = "note"
    CAUTION = "caution"
    STOP = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One remark on a draft.

    Attributes:
        level: note, caution or stop.
        code: short hyphenated name that stays the same from edition to edition.
        what: one plain sentence that says what is so, with the numbers.
        do: one plain sentence that says what to do.
    """

    level: Level
    code: str
    what: str
    do: str


_WEIGHT = {Level.STOP: 0, Level.CAUTION: 1, Level.NOTE: 2}


def by_weight(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings with stops first, then cautions, then notes, each in their order."""
    return tuple(sorted(findings, key=lambda finding: _WEIGHT[finding.level]))


def stops(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings that forbid writing a pattern."""
    return tuple(finding for finding in findings if finding.level is Level.STOP)


def note(code: str, what: str, do: str) -> Finding:
    """Return a note."""
    return Finding(level=Level.NOTE, code=code, what=what, do=do)


def caution(code: str, what: str, do: str) -> Finding:
    """Return a caution."""
    return Finding(level=Level.CAUTION, code=code, what=what, do=do)


def stop(code: str, what: str, do: str) -> Finding:
    """Return a stop, which forbids writing a pattern."""
    return Finding(level=Level.STOP, code=code, what=what, do=do)
