"""`near_heat`: degrees, a place by its name, or the gap to a motor."""

from __future__ import annotations

import pytest
from yaml_cases import MINIMUM, loaded, refused

from fitwright.data.warm_places import warm_place, warm_places
from fitwright.spec.grammar.near_heat import PLACES


@pytest.mark.parametrize(
    ("value", "degrees", "said"),
    [
        ("60", 60.0, ""),
        ("140 F", 60.0, ""),
        ("-5", -5.0, ""),
        ("attic", 60.0, "50 to 65 C"),
        ("in the attic", 60.0, "summer"),
        ("Sunny Window", 55.0, "behind glass"),
        ("car", (165 - 32) / 1.8, "dashboard"),  # a parked car's dashboard, the study that the table names
        ("motor", 80.0, "measure yours"),
        ("near a motor", 80.0, "housing"),
        ("{motor: 30}", 60.0, "30 mm from a motor's housing"),
        ("{motor: 0}", 80.0, "touching"),
        ("{motor: 30, class: F}", 30 + 0.6 * (145 - 40 - 30), "class F"),
        ("{motor: 4 in}", 45.0, "from a motor"),
    ],
)
def test_what_may_be_written(value: str, degrees: float, said: str) -> None:
    spec = loaded(f"{MINIMUM}near_heat: {value}\n")
    assert spec.near_heat_c == pytest.approx(degrees, abs=0.2)
    assert said in spec.near_heat_said and bool(said) == bool(spec.near_heat_said)


@pytest.mark.parametrize(
    ("value", "key", "words"),
    [
        ("attik", "near_heat", "did you mean attic?"),
        ("hot", "near_heat", "60 C or 140 F"),
        ("60 bar", "near_heat", "60 C or 140 F"),
        ("500", "near_heat", "-40 C to 400 C"),
        ("{motor: near}", "near_heat.motor", "a length"),
        ("{motor: -3}", "near_heat.motor", "a length"),
        ("{gap: 30}", "near_heat.gap", "write motor"),
        ("{motor: 30, class: A}", "near_heat.class", "B | F | H"),
        ("[30, 40]", "near_heat", "temperature"),
    ],
)
def test_what_is_refused(value: str, key: str, words: str) -> None:
    problems = {problem.key: problem for problem in refused(f"{MINIMUM}near_heat: {value}\n")}
    assert key in problems and words in f"{problems[key].allowed} {problems[key].hint}", problems


def test_the_page_names_all_places() -> None:
    assert tuple(warm_places()) == PLACES
    assert [place.temperature_c for place in warm_places().values()] == sorted(
        place.temperature_c for place in warm_places().values()
    )
    for place in warm_places().values():
        assert place.low_c <= place.temperature_c <= place.high_c
        assert all(warm_place(word) is place for word in (place.name, *place.also))
