"""What is argued to make no difference still stands where it is said to."""

from __future__ import annotations

from tests.mutation.argued import Argument, read_argued
from tests.mutation.passing import ROOT
from tests.mutation.places import places_in


def test_every_change_argued_can_still_be_made() -> None:
    arguments = read_argued().arguments
    places = {
        path: list(places_in(path, (ROOT / path).read_text(encoding="utf-8")))
        for path in {one.path for one in arguments}
    }
    for one in arguments:
        assert one.why
        assert one.within
        of_it = [place for place in places[one.path] if one.is_of(place)]
        assert len({place.line for place in of_it}) == 1, f"{one.path}: {one.within}: {of_it}"


def test_a_bound_a_sign_and_a_number_are_broken() -> None:
    source = "def low(x, y):\n    return x < 3 and not (\n        y + 1\n    )\n"
    assert [place.broken(source).split("return ")[1] for place in places_in("low.py", source)] == [
        "(x < 3 or not y + 1)\n",
        "(x <= 3) and not (\n        y + 1\n    )\n",
        "x < 3 and (y + 1)\n",
        "x < (4) and not (\n        y + 1\n    )\n",
        "x < 3 and not (\n        (y - 1)\n    )\n",
        "x < 3 and not (\n        y + (2)\n    )\n",
    ]


def test_what_makes_samples_for_tests_is_left_whole() -> None:
    source = "def _sample(random):\n    return random.randrange(1, 9) + 1\n\n\nMOST = 9\n"
    assert [place.broken(source)[-10:] for place in places_in("low.py", source)] == ["ST = (10)\n"]


def test_an_argument_without_a_change_is_of_every_number_on_its_line_and_nothing_else() -> None:
    source = "def low(x):\n    away = [0.5, -1e-7, x + 12]\n    return 12\n"
    argument = Argument("low.py", within="away = [", why="it only tunes")
    of_it = [place.before for place in places_in("low.py", source) if argument.is_of(place)]
    assert sorted(of_it) == ["0.5", "12", "1e-7"]


def test_an_argument_about_a_bound_is_of_all_comparisons_there_that_take_or_leave_it() -> None:
    source = "def low(x, y):\n    return x < 1e-9 and (2 * y >= 1 or x == y) and x is not None\n"
    argument = Argument("low.py", within="x < 1e-9", why="dust", bound=True)
    of_it = [place.before for place in places_in("low.py", source) if argument.is_of(place)]
    assert sorted(of_it) == ["2 * y >= 1", "x < 1e-9"]
