"""Pages made up of atoms 10 tall on pages of 100: what may be checked by counting."""

from dataclasses import replace

from render.booklet.breaking import KEEP, Atom, Floating, Leaf, leaves

LINE = Atom(height=10.0)


def floating(height: float, head: int, home: int, end: int) -> Floating:
    return Floating(
        height=height, shrinks=height, before=0.0, after=0.0, head=head, home=home, end=end
    )


def test_nothing_takes_no_page() -> None:
    assert leaves((), (), tall=100) == ()


def test_lines_fill_pages() -> None:
    assert leaves((LINE,) * 25, (), tall=100) == (
        Leaf(start=0, stop=10),
        Leaf(start=10, stop=20),
        Leaf(start=20, stop=25),
    )


def test_white_space_is_the_larger_of_two_and_none_at_the_head() -> None:
    loose = replace(LINE, before=10.0, after=5.0)
    # 10 + 4 * (10 + 10) = 90; a sixth would make it 110.
    assert [leaf.stop for leaf in leaves((loose,) * 8, (), tall=100)] == [5, 8]


def test_what_is_kept_together_moves_on_together() -> None:
    atoms = (*(LINE,) * 8, *(replace(LINE, cost=KEEP),) * 2, *(LINE,) * 3)
    assert [leaf.stop for leaf in leaves(atoms, (), tall=100)] == [8, 13]


def test_heads_printed_again_take_their_room() -> None:
    rows = (LINE, *(replace(LINE, again=30.0, starts=False),) * 19)
    assert [leaf.stop for leaf in leaves(rows, (), tall=100)] == [10, 17, 20]


def test_a_picture_stands_at_home_where_it_fits() -> None:
    (leaf,) = leaves((LINE,) * 6, (floating(40, 0, 3, 4),), tall=100)
    assert leaf == Leaf(start=0, stop=6, pictures=((0, 3),))


def test_words_flow_up_before_a_picture_that_does_not_fit_on_a_left_hand_page() -> None:
    atoms = (LINE,) * 18
    first, second = leaves(atoms, (floating(80, 9, 10, 11),), tall=130, first=2)
    assert first == Leaf(start=0, stop=13)
    assert second == Leaf(start=13, stop=18, pictures=((0, 13),))


def test_a_picture_is_not_left_for_the_page_overleaf() -> None:
    found = leaves((LINE,) * 18, (floating(80, 9, 10, 11),), tall=130, first=3)
    pages = {number: 3 + k for k, leaf in enumerate(found) for number, _ in leaf.pictures}
    words = next(3 + k for k, leaf in enumerate(found) if leaf.stop > 9)
    assert pages[0] // 2 == words // 2


def test_a_picture_is_made_a_little_smaller_to_fit() -> None:
    (leaf,) = leaves((LINE,) * 6, (floating(42, 0, 3, 4),), tall=100)
    assert 0.94 < leaf.scale < 40 / 42 + 1e-9
    assert leaves((LINE,) * 6, (floating(50, 0, 3, 4),), tall=100)[0].scale == 1


def test_every_atom_and_picture_is_set_once_even_where_nothing_fits() -> None:
    atoms = tuple(replace(LINE, height=20.0 * k, cost=KEEP if k % 2 else 0.0) for k in range(1, 9))
    pictures = tuple(floating(90, 0, 2, 3) for _ in range(3))
    found = leaves(atoms, pictures, tall=100)
    assert [k for leaf in found for k in range(leaf.start, leaf.stop)] == list(range(8))
    assert [number for leaf in found for number, _ in leaf.pictures] == [0, 1, 2]
