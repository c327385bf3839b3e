"""The search behind placing: pieces are taken off a plan and put back where they open few pages.

Everything is a set of cells or of pages, as in stands. Millimetres and radians. Imports raster
and stands.
"""

import math
import random
import sys
from collections.abc import Sequence
from dataclasses import dataclass

from render.raster import Raster
from render.stands import (
    SAMPLES,
    Cells,
    Stand,
    Turned,
    page_counts,
    page_shadows,
    pages_across,
    stands,
)

SHARE = 60
"""Stands tried, out of all those kept, each time a piece is put back."""

HEAT = 0.5
"""Extra pages that a plan may have at first and still be gone on with, one time in e."""

NUDGED = 0.3
"""How often a piece is put back near where it was, not anywhere."""

NEAR = 6
"""Cells it may move at most then, either way; beside that, it may turn by one step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A stand put on the plane, its first page ``along`` and ``level`` pages from the corner."""

    stand: Stand
    along: int
    level: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Labour:
    """How hard to search: turns of a full circle, stands kept a piece, and looks at places."""

    turns: int
    stands: int
    looks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Spots by the number of the piece, and what they take together."""

    spots: dict[int, Spot]
    body: int = 0
    sample: int = 0
    pages: int = 0
    full: int = 0
    columns: int = 0
    height: int = 0

    @property
    def score(self) -> tuple[int, int, int]:
        """Fewest pages are best, then the least plane to lay out, then the lowest."""
        return self.pages.bit_count(), self.columns * self.height, self.height


def laid(spots: dict[int, Spot], cells: Cells) -> Plan:
    """Return the plan of some spots, moved so that its lowest, leftmost page is at 0, 0."""
    if not spots:
        return Plan(spots={})
    left = min(spot.along for spot in spots.values())
    low = min(spot.level for spot in spots.values())
    moved = {
        k: Spot(stand=s.stand, along=s.along - left, level=s.level - low) for k, s in spots.items()
    }
    body = sample = pages = full = columns = height = 0
    for spot in moved.values():
        stand, along, level = spot.stand, spot.along, spot.level
        aside = along * cells.x + stand.column
        body |= stand.body << ((level * cells.y + stand.row) * cells.stride + aside)
        sample |= stand.sample << (level * SAMPLES * cells.stride + aside)
        pages |= stand.pages << (level * cells.line + along)
        full |= stand.full << (level * cells.line + along)
        columns = max(columns, along + stand.across)
        height = max(height, level + stand.up)
    return Plan(
        spots=moved,
        body=body,
        sample=sample,
        pages=pages,
        full=full,
        columns=columns,
        height=height,
    )


class Search:
    """A search over one set of pieces; it counts the places it has looked at."""

    def __init__(self, pieces: Sequence[Turned], labour: Labour) -> None:
        """Take the pieces, and find the ways that each may stand."""
        self.pieces = pieces
        self.cells = pieces[0].cells
        self.turns = [math.tau * k / labour.turns for k in range(labour.turns)]
        self.ways = [stands(piece, self.turns, labour.stands) for piece in pieces]
        self.looked = 0
        self.chance = random.Random(1)

    def filled(self, plan: Plan, order: Sequence[int], share: int = 0) -> Plan:
        """Return a plan with more pieces, each where it opens the fewest new pages."""
        for index in order:
            ways: Sequence[Stand] = self.ways[index]
            if share and len(ways) > share:
                ways = sorted(self.chance.sample(ways, share), key=lambda s: s.count)
            spot = self._best(plan, ways)
            plan = laid({**plan.spots, index: spot}, self.cells)
        return plan

    def _best(self, plan: Plan, ways: Sequence[Stand]) -> Spot:
        best: Spot | None = None
        least = (sys.maxsize, 0, 0, 0)
        cells, line = self.cells, self.cells.line
        limit = max(cells.most, plan.columns)
        open_pages = (plan.pages & ~plan.full).bit_count()
        up, across = max(s.up for s in ways), max(s.across for s in ways)
        taken = plan.pages << (up * line + across)
        full = plan.full << (up * line + across)
        free = ~taken
        moves: dict[tuple[int, int], list[tuple[int, int, int]]] = {}
        for stand in ways:
            if stand.count - open_pages > least[0]:
                break
            reach = stand.up, stand.across
            if reach not in moves:
                first = max(-stand.across, plan.columns - limit) if plan.spots else 0
                last = max(0, min(plan.columns, limit - stand.across))
                moves[reach] = [
                    ((level + up) * line + along + across, level, along)
                    for level in range(-stand.up if plan.spots else 0, plan.height + 1)
                    for along in range(first, last + 1)
                ]
            self.looked += len(moves[reach])
            pages, whole = stand.pages, stand.full
            for new, level, along in [
                ((pages << by & free).bit_count(), level, along)
                for by, level, along in moves[reach]
                if not (pages << by & full or whole << by & taken)
            ]:
                if new > least[0]:
                    continue
                wide = max(plan.columns, along + stand.across) - min(0, along)
                high = max(plan.height, level + stand.up) - min(0, level)
                key = (new, wide * high, high, level + along)
                if key < least and not self._clashes(plan, stand, level, along):
                    best, least = Spot(stand=stand, along=along, level=level), key
        assert best is not None  # above everything placed so far there is always room
        return best

    def _clashes(self, plan: Plan, stand: Stand, level: int, along: int) -> bool:
        cells = self.cells
        aside = along * cells.x + stand.column
        shift = level * SAMPLES * cells.stride + aside
        if (plan.sample >> shift if shift >= 0 else plan.sample << -shift) & stand.sample:
            return True
        shift = (level * cells.y + stand.row) * cells.stride + aside
        return bool((plan.body >> shift if shift >= 0 else plan.body << -shift) & stand.body)

    def improved(self, plan: Plan, looks: int) -> Plan:
        """Return a plan no worse: pieces are taken off and put back until looks run out.

        A plan with more pages is gone on with now and then, less and less often: simulated
        annealing, Kirkpatrick, Gelatt and Vecchi, Science 220 (1983).
        """
        chance = self.chance
        best = now = plan
        while self.looked < looks:
            tried = self._changed(now)
            heat = HEAT * (1 - min(self.looked / looks, 0.999))
            worse = tried.score[0] - now.score[0]
            if tried.score <= now.score or chance.random() < math.exp(-max(worse, 0) / heat):
                now = tried
            if now.score < best.score:
                if now.score[0] < best.score[0]:
                    now = self.shifted(now)
                best = now
        return best

    def _changed(self, plan: Plan) -> Plan:
        chance = self.chance
        names = sorted(plan.spots)
        nudged = chance.random() < NUDGED
        gone = chance.sample(names, 1 if nudged else min(len(names), chance.randint(1, 3)))
        thinned = laid({k: s for k, s in plan.spots.items() if k not in gone}, self.cells)
        if not nudged:
            return self.filled(thinned, gone, SHARE)
        (index,) = gone
        ways = self._near(index, plan.spots[index].stand)
        spot = self._best(thinned, ways)
        return laid({**thinned.spots, index: spot}, self.cells)

    def _near(self, index: int, stand: Stand) -> list[Stand]:
        chance, cells = self.chance, self.cells
        step = math.tau / len(self.turns)
        made = [stand]
        which = round(stand.turned.turn / step)
        for _ in range(SHARE // 2):
            turn = self.turns[(which + chance.choice((-1, 0, 0, 1))) % len(self.turns)]
            row = (stand.row + chance.randint(-NEAR, NEAR)) % cells.y
            column = (stand.column + chance.randint(-NEAR, NEAR)) % cells.x
            made.append(self.pieces[index].stand(turn, row, column))
        most = max(cells.most, stand.across)
        return sorted((one for one in made if one.across <= most), key=lambda one: one.count)

    def shifted(self, plan: Plan) -> Plan:
        """Return a plan no worse: the same layout, shifted as one against the pages."""
        cells = self.cells
        at = {
            k: (s.level * cells.y + s.stand.row, s.along * cells.x + s.stand.column)
            for k, s in plan.spots.items()
        }
        low, left = min(row for row, _ in at.values()), min(column for _, column in at.values())
        rows = [0] * max(
            row - low + len(plan.spots[k].stand.turned.rows) for k, (row, _) in at.items()
        )
        for k, (row, column) in at.items():
            for r, held in enumerate(plan.spots[k].stand.turned.rows, start=row - low):
                rows[r] |= held << (column - left)
        columns = max(row.bit_length() for row in rows)
        whole = Raster(turn=0.0, rows=tuple(rows), columns=columns, left=0.0, bottom=0.0)
        least = plan.pages.bit_count()
        to: tuple[int, int] | None = None
        for row, counts in enumerate(page_counts(page_shadows(whole, cells)[0], cells)):
            for column, count in enumerate(counts):
                if count < least and pages_across(column, columns, cells) <= cells.most:
                    least, to = count, (row, column)
        if to is None:
            return plan
        spots: dict[int, Spot] = {}
        for k, (row, column) in at.items():
            level, row = divmod(row - low + to[0], cells.y)
            along, column = divmod(column - left + to[1], cells.x)
            stand = self.pieces[k].stand(plan.spots[k].stand.turned.turn, row, column)
            spots[k] = Spot(stand=stand, along=along, level=level)
        return min(plan, laid(spots, cells), key=lambda one: one.score)
