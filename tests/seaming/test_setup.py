from __future__ import annotations

import itertools
from fractions import Fraction

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from seaming.twin import seeded
from tinwright.errors import SeamingError
from tinwright.seaming import SealerSetup, Slot, Spacer, find_stacks, reachable_stacks, set_up


def spacers(*kinds: tuple[str, int]) -> list[Spacer]:
    return [Spacer(size, Fraction(size), count) for size, count in kinds]


def sizes(stack) -> list[str]:
    return [spacer.name for spacer, number in stack.pieces for _ in range(number)]


BENCH = SealerSetup(
    chucks=("301", "307"),
    seat_height_in=Fraction(39, 8),
    spacers=(
        Spacer("thin spacer", Fraction(3, 16), 2),
        Spacer("thick spacer", Fraction(5, 16), 1),
        Spacer("extension", Fraction(139, 64), 1),
    ),
    slots=(Slot("1", ("301",)), Slot("2", ("307", "401"))),
)


def test_the_tall_can_takes_two_thin_spacers() -> None:
    found = set_up("301x408", BENCH)
    assert (found.chuck, found.slot, found.needed_in) == ("301", "1", Fraction(3, 8))
    assert sizes(found.stack.exact) == ["thin spacer", "thin spacer"]
    assert found.fits


def test_the_flat_can_takes_them_and_a_thick_one_and_the_extension() -> None:
    found = set_up("307x200.25", BENCH)
    assert (found.chuck, found.slot, found.needed_in) == ("307", "2", Fraction(183, 64))
    assert sizes(found.stack.exact) == ["extension", "thick spacer", "thin spacer", "thin spacer"]


def test_thickest_first_would_take_too_many() -> None:
    assert sizes(find_stacks(Fraction(6), spacers(("1", 3), ("3", 2), ("4", 2))).exact) == ["3", "3"]


def test_thickest_first_would_find_nothing() -> None:
    assert sizes(find_stacks(Fraction(10), spacers(("6", 1), ("5", 2))).exact) == ["5", "5"]


def test_of_equally_few_pieces_the_thickest_goes_first() -> None:
    found = find_stacks(Fraction(10), spacers(("5", 2), ("7", 1), ("3", 1), ("8", 1), ("2", 1)))
    assert sizes(found.exact) == ["8", "2"]


def test_where_none_fits_the_nearest_and_the_gap_are_given() -> None:
    found = find_stacks(Fraction(1, 4), spacers(("3/16", 2)))
    assert found.exact is None
    assert (found.below.height_in, found.gap_below_in) == (Fraction(3, 16), Fraction(1, 16))
    assert (found.above.height_in, found.gap_above_in) == (Fraction(3, 8), Fraction(1, 8))
    over = find_stacks(Fraction(2), spacers(("3/16", 2)))
    assert over.above is None
    assert over.gap_above_in is None


def test_nothing_is_rounded() -> None:
    metric = [Spacer("metric", Fraction(5, 127), 3)]
    assert find_stacks(Fraction(15, 127), metric).exact.count == 3
    assert find_stacks(Fraction(118, 1000), metric).exact is None


def test_a_can_as_tall_as_the_seat_needs_no_spacer() -> None:
    assert find_stacks(Fraction(0), []).exact.pieces == ()


def test_a_can_that_is_too_tall_is_told_so() -> None:
    found = set_up("307x512", BENCH)
    assert found.needed_in < 0
    assert found.stack.exact is found.stack.above is found.stack.below is None
    assert found.problems == ("The can is too tall: it does not go in even on the bare base.",)


def test_what_the_sealer_lacks_is_named() -> None:
    found = set_up("603x408", BENCH)
    assert found.chuck is None
    assert found.problems[:2] == ("This sealer has no 603 chuck.", "No roller slot of this sealer is for 603 cans.")
    assert set_up("301x410", BENCH).problems == ("No stack of this sealer's spacers is just as high as needed.",)
    assert not set_up("301x410", BENCH).fits


def test_a_sealer_without_slots_needs_none() -> None:
    assert set_up("301x408", SealerSetup(("301",), Fraction(9, 2))).fits


@pytest.mark.parametrize("spacer", [Spacer("flat", Fraction(0), 1), Spacer("owed", Fraction(1), -1)])
def test_impossible_spacers_are_refused(spacer: Spacer) -> None:
    with pytest.raises(SeamingError, match="expected a spacer"):
        find_stacks(Fraction(1), [spacer])


def test_too_many_heights_are_refused() -> None:
    odd = [Spacer(str(number), Fraction(1, number), 20) for number in (101, 103, 107, 109, 113)]
    with pytest.raises(SeamingError, match="at most 200000 heights"):
        find_stacks(Fraction(1), odd)


def test_every_reachable_height_equals_brute_force() -> None:
    rng = seeded(7)
    for _ in range(40):
        kinds = [
            Spacer(f"s{place}", Fraction(rng.randint(1, 40), 64), rng.randint(0, 3))
            for place in range(rng.randint(1, 4))
        ]
        best: dict[Fraction, tuple[int, list[Fraction]]] = {}
        for counts in itertools.product(*(range(kind.count + 1) for kind in kinds)):
            pieces = sorted(
                (kind.size_in for kind, count in zip(kinds, counts, strict=True) for _ in range(count)), reverse=True
            )
            key = (len(pieces), [-piece for piece in pieces])
            height = sum(pieces, Fraction(0))
            if height not in best or key < best[height]:
                best[height] = key
        found = reachable_stacks(kinds)
        assert list(found) == sorted(best)
        for height, stack in found.items():
            pieces = [spacer.size_in for spacer, number in stack.pieces for _ in range(number)]
            assert (len(pieces), [-piece for piece in pieces]) == best[height]


def test_fewest_pieces_equal_an_integer_programme() -> None:
    # scipy.optimize.milp (HiGHS) as oracle, sizes in 1/64 in
    units, counts = [4, 8, 16, 32, 48, 64, 96], [2, 2, 2, 1, 1, 2, 1]
    kinds = [Spacer(str(unit), Fraction(unit, 64), count) for unit, count in zip(units, counts, strict=True)]
    reachable = reachable_stacks(kinds)
    assert len(reachable) == 91
    assert sizes(reachable[Fraction(124, 64)]) == ["96", "16", "8", "4"]
    for target in range(4, 420, 20):
        solved = milp(
            np.ones(7),
            constraints=LinearConstraint(np.array([units]), target, target),
            bounds=Bounds(0, np.array(counts)),
            integrality=np.ones(7),
        )
        found = reachable.get(Fraction(target, 64))
        assert (found is not None) == solved.success
        if found is not None:
            assert found.count == round(solved.fun)
