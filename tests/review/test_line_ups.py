"""The rules of line-ups: each fires where its proof failed and nowhere else; a plant that is broken is found as such."""

import shutil
from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.network.proofs import PROOFS, Failed
from macros.quantities import say
from macros.review import RULES
from macros.review.line_ups import causes, procedures, states
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of
from tests.review.looking import DESIGNS, TODAY, found, plant_named

OF_LINE_UPS = {
    "nothing-above-its-rating": "within_ratings",
    "no-way-round-non-return-valve": "non_return_valves_hold",
    "no-vessel-overfilled-by-another": "stores_stand_apart",
    "hydrogen-meets-no-oxygen-or-air": "media_stay_apart",
    "no-relief-shut-off": "reliefs_serve",
    "no-shut-outlet": "outlets_open",
    "stop-ends-let-down-or-swept": "stack_let_down",
    "drives-agree-with-valves": "drives_agree",
    "no-warm-water-shut-in": "no_water_shut_in",
    "opened-only-isolated-vented-inert": "opened_safely",
}
OF_STEPS = {
    "steps-do-what-they-say": "steps_do_what_they_say",
    "no-pressure-forgotten": "no_pressure_forgotten",
    "procedure-ends-as-it-says": "ends_as_it_says",
}
PLACES = {
    "state running": (say("network.in_state", state="running"), 0),
    "procedure normal_stop": ("normal_stop", 3),
    "procedure normal_start": (say("network.power_lost_in", name="normal_start"), 6),
    "trip gas_in_room": (say("network.tripped_in", cause="gas_in_room", state="filling"), 0),
}


def failing(proof: str, words: str, step: int = 0) -> tuple[tuple[str, int, Failed], ...]:
    return ((words, step, Failed(proof, "V1", "something is wrong at V1.")),)


def test_every_proof_of_a_line_up_has_its_rule() -> None:
    assert {proof.__name__ for proof in PROOFS} == set(OF_LINE_UPS.values())


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("rule", OF_LINE_UPS)
def test_the_rule_fires_where_its_proof_failed_and_nowhere_else(rule: str, place: str) -> None:
    words, step = PLACES[place]
    looks = found(rule, "shed", failed=failing(OF_LINE_UPS[rule], words, step))
    broken = [each for each in looks if not each.holds]
    assert [each.where for each in broken] == [place]
    assert "something is wrong at V1." in broken[0].message.workshop
    assert str(step or "") in broken[0].message.workshop


@pytest.mark.parametrize("rule", OF_STEPS)
def test_the_rule_of_steps_fires_in_its_procedure(rule: str) -> None:
    looks = found(rule, "shed", failed=failing(OF_STEPS[rule], "normal_stop", 2))
    assert [each.where for each in looks if not each.holds] == ["procedure normal_stop"]


@pytest.mark.parametrize("rule", [*OF_LINE_UPS, *OF_STEPS])
def test_the_rule_is_not_moved_by_another_proof(rule: str) -> None:
    other = "within_ratings" if OF_LINE_UPS.get(rule) != "within_ratings" else "stack_let_down"
    looks = found(rule, "shed", failed=failing(other, "normal_stop", 2))
    assert looks and all(each.holds for each in looks)


def test_a_single_failure_is_told_of_its_place() -> None:
    (look,) = found("single-failures-held", "shed", failed=failing("within_ratings", "NR1 leaks back in cold"))
    assert (look.where, look.verdict) == ("NR1 leaks back in cold", "broken")
    assert [each.verdict for each in found("single-failures-held", "shed", failed=())] == ["passed"]


def test_a_failure_of_a_line_up_is_no_single_failure() -> None:
    for words, step in PLACES.values():
        looks = found("single-failures-held", "shed", failed=failing("within_ratings", words, step))
        assert [each.verdict for each in looks] == ["passed"]


def test_every_state_procedure_and_cause_is_looked_at() -> None:
    shed = Reviewed(plant_named("shed"), TODAY, failed=())
    places = [*states(shed), *procedures(shed), *causes(shed)]
    assert [each.where for each in found("no-relief-shut-off", "shed", failed=())] == places
    assert {
        "state filling",
        "procedure filling",
        "procedure emergency_stop",
        "trip emergency_stop",
        "trip water_lost",
    } <= set(places)


def test_line_ups_that_cannot_be_proved_are_unknown(monkeypatch: pytest.MonkeyPatch) -> None:
    def cannot(_: Plant) -> None:
        raise LookupError("no pressures")

    monkeypatch.setattr("macros.review.reviewed.failed_at", cannot)
    assert [each.verdict for each in found("nothing-above-its-rating", "bench")] == ["unknown"]


def test_a_plant_is_refused_by_what_its_proofs_find(tmp_path: Path) -> None:
    """The bench with its let-down valve failing shut, and left shut by its trips: the stack stands under pressure."""
    folder = tmp_path / "bench"
    shutil.copytree(DESIGNS / "bench", folder)
    plant = (folder / "plant.yml").read_text("utf-8")
    assert plant.count("    opens: [AV1]\n") > 10
    (folder / "plant.yml").write_text(plant.replace("    opens: [AV1]\n", "    opens: []\n"), "utf-8")
    looks = findings_of(RULES["stop-ends-let-down-or-swept"], Reviewed(Plant.load(folder), TODAY))
    broken = {each.where for each in looks if not each.holds}
    assert {"trip hydrogen_in_oxygen", "trip emergency_stop", "trip fan_lost"} <= broken
