"""How long to search for a better answer. Imports nothing of the project."""

from enum import StrEnum


class Effort(StrEnum):
    """How long to search, for fewer pages or for less cloth."""

    QUICK = "quick"
    USUAL = "usual"
    THOROUGH = "thorough"
