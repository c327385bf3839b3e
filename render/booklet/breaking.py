"""Where pages end: all the ways of breaking them weighed, the best of them taken.

A page costs something, more the emptier it is; so does each break that a reader would trip over,
and a picture that lies away from its step. What costs least in all is found from the front to the
back, as lines are broken in good typesetting. Any unit of length. Imports nothing.

Source: D. E. Knuth, M. F. Plass, "Breaking Paragraphs into Lines", Software 11 (1981); the same
sum is made here over pages, with pictures that float.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

KEEP = 1e4
"""Cost of a break where none may be; it is paid only where there is no other way."""

FAR, TURNED = 60.0, 1.2
"""Costs of a picture that cannot be seen from any of its step's words, the leaf being turned; and
of one that cannot be seen from the step's title."""

LEAST = 0.94
"""A picture is set no smaller than this where there is another way: its type is 7.5 points then."""

LAST_RESORT = 0.7

SPARSE = 0.45
"""Pages less full than this are not weighed where there are fuller ones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Atom:
    """What is never divided: a line or more of words, a row of a table, a heading.

    Attributes:
        height: without the white space around it.
        before, after: white space; between two atoms stands the larger of theirs.
        shrinks: how much of the height is a picture, which may be made smaller.
        cost: of a break after it.
        starts: whether it is the first of its paragraph or table.
        again: height of heads that are printed again where a page begins with it.
    """

    height: float
    before: float = 0.0
    after: float = 0.0
    shrinks: float = 0.0
    cost: float = 0.0
    starts: bool = True
    again: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Floating:
    """A picture of a step, which need not stand where it is first told of.

    Attributes:
        height, shrinks, before, after: as an atom's.
        head, home, end: atoms before which the step begins, the picture best stands, and the
            next step begins.
    """

    height: float
    shrinks: float
    before: float
    after: float
    head: int
    home: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """One page: atoms from ``start`` to ``stop``, the pictures among them.

    Attributes:
        pictures: number of each and the atom it stands before, in their order.
        scale: of the pictures, 1 for as they are.
    """

    start: int
    stop: int
    pictures: tuple[tuple[int, int], ...] = ()
    scale: float = 1.0


@dataclass(frozen=True, slots=True)
class _Way:
    """The best way to a state: its cost, the state before it, the page between."""

    cost: float
    before: tuple[int, int, int] | None = None
    leaf: Leaf | None = None


def leaves(
    atoms: Sequence[Atom], pictures: Sequence[Floating], *, tall: float, first: int = 1
) -> tuple[Leaf, ...]:
    """Return the pages, the best of all ways.

    Args:
        pictures: in the order of their homes.
        tall: height of a page.
        first: number of the first page; an even one and the next lie open together.
    """
    if not atoms:
        return ()
    pages = _Pages(atoms, pictures, tall)
    ways: dict[tuple[int, int, int], _Way] = {(0, 0, first % 2): _Way(0.0)}
    count, drawn = len(atoms), len(pictures)
    for start in range(count + 1):
        for set_before in range(drawn + 1):
            for odd in (0, 1):
                state = (start, set_before, odd)
                if (way := ways.get(state)) is None or (start, set_before) == (count, drawn):
                    continue
                for leaf, cost in pages.from_here(start, set_before, odd):
                    after = (leaf.stop, set_before + len(leaf.pictures), 1 - odd)
                    known = ways.get(after)
                    if known is None or way.cost + cost < known.cost - 1e-9:
                        ways[after] = _Way(way.cost + cost, state, leaf)
    ends = [(count, drawn, odd) for odd in (0, 1) if (count, drawn, odd) in ways]
    return _traced(ways, min(ends, key=lambda state: ways[state].cost))


def _traced(
    ways: dict[tuple[int, int, int], _Way], state: tuple[int, int, int]
) -> tuple[Leaf, ...]:
    found = []
    way = ways[state]
    while way.leaf is not None and way.before is not None:
        found.append(way.leaf)
        way = ways[way.before]
    return tuple(reversed(found))


class _Pages:
    """Every page that may begin somewhere, with its cost."""

    def __init__(self, atoms: Sequence[Atom], pictures: Sequence[Floating], tall: float) -> None:
        self.atoms, self.pictures, self.tall = atoms, pictures, tall
        gaps = [0.0, *(max(a.after, b.before) for a, b in pairwise(atoms)), 0]
        self.gaps = gaps
        self.sums = list(accumulate((g + a.height for g, a in zip(gaps, atoms, strict=False)),
                                    initial=0.0))  # fmt: skip
        self.shrinks = list(accumulate((a.shrinks for a in atoms), initial=0.0))
        self.held = list(accumulate((a.cost < KEEP for a in atoms), initial=0))
        """How many breaks before an atom are allowed ones."""

    def from_here(self, start: int, done: int, odd: int) -> list[tuple[Leaf, float]]:
        """Return pages from an atom on, so many pictures being set already.

        From the fullest to the emptiest; where there are full ones, empty ones are left out.
        """
        found: list[tuple[Leaf, float]] = []
        last = self._last(start)
        stops = range(last, start - 1, -1)
        for stops_here in (
            [k for k in stops if k == start or self._breaks(k)],
            [k for k in stops if not self._breaks(k)],
        ):
            for stop in stops_here:
                if found and self._words(start, stop) < SPARSE * self.tall:
                    room = sum(p.height for p in self.pictures[done:] if p.head < stop)
                    if self._words(start, stop) + room < SPARSE * self.tall:
                        break
                found += self._with_pictures(start, stop, done, odd)
            if found:
                break
        return found

    def _with_pictures(
        self, start: int, stop: int, done: int, odd: int
    ) -> list[tuple[Leaf, float]]:
        """Return a page with as many pictures as it may have, from none on."""
        found = []
        for many in range(done, len(self.pictures) + 1):
            if many > done and self.pictures[many - 1].head >= stop and stop < len(self.atoms):
                break
            if stop > start or many > done:
                page = self._page(start, stop, done, many, odd)
                if page is not None:
                    found.append(page)
                elif many > done:
                    break
        return found

    def _last(self, start: int) -> int:
        """Return the last atom that a page may end before, and at least one."""
        stop = start
        while stop < len(self.atoms):
            if stop > start and (
                self._words(start, stop + 1) - self._shrink(start, stop + 1) > self.tall
            ):
                # A smaller picture is the last resort of a chain that may not be broken.
                if self.held[stop] != self.held[start] or not self.shrinks[stop + 1]:
                    break
                if self._words(start, stop + 1) > self.tall / LAST_RESORT:
                    break
            stop += 1
        return stop

    def _breaks(self, stop: int) -> bool:
        """Tell whether a page may end before an atom."""
        return stop == len(self.atoms) or (stop > 0 and self.atoms[stop - 1].cost < KEEP)

    def _words(self, start: int, stop: int) -> float:
        """Return how tall atoms are, set one under the other."""
        if stop == start:
            return 0.0
        return self.sums[stop] - self.sums[start] - self.gaps[start] + self.atoms[start].again

    def _shrink(self, start: int, stop: int) -> float:
        return (1 - LEAST) * (self.shrinks[stop] - self.shrinks[start])

    def _page(
        self, start: int, stop: int, done: int, many: int, odd: int
    ) -> tuple[Leaf, float] | None:
        """Return the page and its cost, or nothing if it does not fit."""
        places = self._places(start, stop, done, many)
        if places is None:
            return None
        height = self._words(start, stop)
        shrinks = self.shrinks[stop] - self.shrinks[start]
        for number, at in places:
            picture = self.pictures[number]
            height += self._added(picture, at, start, stop)
            shrinks += picture.shrinks
        scale = 1.0
        if height > self.tall:
            scale = 1 - (height - self.tall) / shrinks if shrinks else 0.0
        # A chain that may not be broken at all has no other way than a smaller picture.
        chained = stop > start and not places and self.held[stop - 1] == self.held[start]
        cost = 0.3 * (1 - scale)
        if scale < LEAST and not (chained and scale >= LAST_RESORT):
            if stop > start + 1 or many > done + (stop == start):
                return None
            cost, scale = KEEP, max(scale, LAST_RESORT)
        cost += self._cost(start, stop, height, places, odd) + self._waiting(start, stop, many, odd)
        return Leaf(start=start, stop=stop, pictures=places, scale=scale), cost

    def _added(self, picture: Floating, at: int, start: int, stop: int) -> float:
        """Return how much room a picture takes before an atom of a page."""
        above = max(self.atoms[at - 1].after, picture.before) if at > start else 0.0
        below = max(picture.after, self.atoms[at].before) if at < stop else 0.0
        return picture.height + above + below - (self.gaps[at] if start < at < stop else 0.0)

    def _places(
        self, start: int, stop: int, done: int, many: int
    ) -> tuple[tuple[int, int], ...] | None:
        """Return where the page's pictures stand, or nothing if there is no place for them."""
        found = []
        at = start
        for number in range(done, many):
            picture = self.pictures[number]
            if start < picture.home <= stop:
                at = max(at, picture.home)
            elif picture.home <= start:
                while at <= stop and not self._between(at):
                    at += 1
                if at > stop:
                    return None
            else:
                least, at = max(at, picture.head + 1), stop
                while at >= least and not self._between(at):
                    at -= 1
                if at < least:
                    return None
            found.append((number, at))
        return tuple(found)

    def _between(self, at: int) -> bool:
        """Tell whether something may stand before an atom: nothing is torn apart there."""
        if at in (0, len(self.atoms)):
            return True
        return self.atoms[at].starts and self.atoms[at - 1].cost < KEEP

    def _cost(
        self, start: int, stop: int, height: float, places: tuple[tuple[int, int], ...], odd: int
    ) -> float:
        """Return what a page costs: itself, its emptiness, its last break, its pictures."""
        cost = 1.0
        if stop < len(self.atoms):
            empty = max(0.0, 1 - height / self.tall)
            cost += 3 * empty**2 + (2 + 10 * (empty - 1 / 3) if empty > 1 / 3 else 0.0)
            if stop > 0:
                cost += self.atoms[stop - 1].cost
        for number, at in places:
            picture = self.pictures[number]
            if picture.home <= start and start > 0:  # from the page before
                cost += 0.15 if odd else TURNED if picture.end > start else FAR
            elif at != picture.home:
                cost += 0.1
            elif picture.head < start:
                cost += 0.05 if odd else TURNED
        return cost

    def _waiting(self, start: int, stop: int, many: int, odd: int) -> float:
        """Return the cost of pictures that are left for the next page."""
        cost = 0.0
        while many < len(self.pictures) and self.pictures[many].home <= stop:
            picture = self.pictures[many]
            if picture.home <= start < stop:  # it has waited over a whole page already
                cost += FAR
            elif picture.head < start and not odd:  # the title is overleaf
                cost += TURNED
            many += 1
        return cost
