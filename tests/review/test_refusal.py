"""The plants of the handbook pass; a proof or a rule that fails refuses a plant, each told once."""

import datetime

import pytest

from macros.review.refusal import day_of_review, failed_proofs, refusal, refused, untold_proofs
from tests.pages.kept_record import refused_bench
from tests.review.looking import TODAY, plant_named


@pytest.mark.parametrize("name", ["bench", "shed", "farm"])
def test_the_published_plants_pass(name):
    plant = plant_named(name)
    assert plant.status == "published"
    assert refusal(plant, TODAY) == ()
    assert not refused(plant, TODAY)


def test_a_failed_rule_and_a_failed_proof_refuse_and_each_is_told_once(tmp_path):
    plant = refused_bench(tmp_path)
    reasons = refusal(plant, TODAY)
    assert refused(plant, TODAY)
    assert "hydrogen-in-oxygen-limits-as-usual" in {reason.name for reason in reasons}
    assert failed_proofs(plant)
    told = [reason.message.workshop for reason in reasons]
    for _, failed in failed_proofs(plant):
        assert any(failed.message.rstrip(".") in text for text in told)
    assert all(text not in {reason.message.workshop for reason in reasons if reason not in untold_proofs(plant, TODAY)}
               for text in (reason.message.workshop for reason in untold_proofs(plant, TODAY)))  # fmt: skip


def test_the_day_is_that_of_the_epoch_where_a_build_is_made_again(monkeypatch):
    """1767225600 s after 1970 is 2026-01-01, by hand: 56 years of 365 days and 14 leap days."""
    assert (56 * 365 + 14) * 86400 == 1767225600
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")
    assert day_of_review() == datetime.date(2026, 1, 1)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    assert day_of_review() == datetime.datetime.now(datetime.UTC).date()
