"""How often room for words is looked at: a measure of time that is alike on every machine."""

from collections.abc import Sequence

import pytest

from drafting.geometry import Point
from render.room import Room


def looks(monkeypatch: pytest.MonkeyPatch) -> list[None]:
    """Return a list that grows by one whenever a place is looked at whole."""
    found: list[None] = []
    is_free = Room.is_free

    def counted(room: Room, corners: Sequence[Point]) -> bool:
        found.append(None)
        return is_free(room, corners)

    monkeypatch.setattr(Room, "is_free", counted)
    return found
