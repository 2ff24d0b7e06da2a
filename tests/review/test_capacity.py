"""The rules of capacity: each at its limit, without its value, and in a plant that breaks it."""

import pytest

from macros.calculations.facts import facts
from tests.review.changed import described, network
from tests.review.looking import Limit, found, plant_named

FARM = plant_named("farm").graph

# Entries and figures of the farm; 10 a, 5 min and 30 min are common practice, no source.
LIMITS = (
    Limit("buffer-outlives-its-cycles", "farm", "BV1", "buffer.cycle_life_time", facts()["buffer_life_shortest"].quantity.si, "above"),
    Limit("buffer-large-enough", "farm", "BV1", "buffer.fill_time", 300, "above"),
    Limit("day-fits-into-banks", "farm", "plant.daily_mass", "plant.daily_mass",
          FARM["banks.low.mass_to_fill"].si + FARM["banks.high.mass_to_fill"].si),
    Limit("bank-fills-within-the-year", "farm", "BK2", "banks.high.fill_time", 0.1 * FARM["demand.running_hours"].si),
    Limit("booster-keeps-up-with-stack", "farm", "BO1", "boosters.1.flow_mean", FARM["stack.hydrogen_flow"].si, "above"),
    Limit("transfer-leaves-its-source-enough", "farm", "transfers.1", "transfers.1.final_source_pressure",
          FARM["site.atmosphere"].si + (1 - 1e-6) * 28e5, "above"),
    Limit("use-reaches-its-pressure", "farm", "uses.2.supply.1", "uses.2.lowest_pressure",
          FARM["banks.low.fill_pressure"].si),
    Limit("vehicle-starts-below-banks", "farm", "uses.1.supply.1", "uses.1.start_pressure",
          FARM["banks.low.fill_pressure"].si),
    Limit("vehicle-filled-no-faster-than-cool", "farm", "VE1", "uses.1.fastest_fill_time",
          FARM["uses.1.shortest_fill_time"].si, "above"),
    Limit("vehicle-fill-time-within-reason", "farm", "VE1", "uses.1.shortest_fill_time", 1800),
    Limit("demand-met-through-the-year", "farm", "season.share_met", "season.share_met", 1.0, "above"),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


@pytest.mark.parametrize(("outcome", "verdict"), [("full", "passed"), ("stalled", "broken"), (None, "unknown")])
def test_a_bank_that_stalls_is_not_full(outcome: str | None, verdict: str) -> None:
    (finding,) = found("bank-fills-to-its-pressure", "shed", {"banks.store.fill_outcome": outcome})
    assert (finding.where, finding.verdict) == ("BK1", verdict)


STRAIGHT = "J30.branch > J46 > AV10 > NR9 > J42 > XF1 > V30 > J43 > J44 > J45 > BW1 > HO3 > QC1 > RP1 > VE1"
CUT_OFF = "RP1 > VE1"


@pytest.mark.parametrize(("chain", "verdict"), [(None, "passed"), (STRAIGHT, "broken"), (CUT_OFF, "unknown")])
def test_a_vehicle_is_filled_through_a_restrictor(chain: str | None, verdict: str) -> None:
    """Straight from the banks, and from nothing at all."""
    changed = network("farm", chains={"L21": chain} if chain else {})
    looked = found("vehicle-filling-restricted", "farm", network=changed)
    assert [(each.where, each.verdict) for each in looked] == [("VE1", verdict)]


def test_a_restrictor_without_its_bore_restricts_nothing() -> None:
    wide = network("farm", items={"NV2": {"bore": None}})
    assert [each.verdict for each in found("vehicle-filling-restricted", "farm", network=wide)] == ["broken"]


def test_without_banks_nothing_must_fit_into_them() -> None:
    assert found("day-fits-into-banks", "farm", described=described("farm", banks={})) == []
    assert found("demand-met-through-the-year", "bench") == []


def test_the_restrictor_of_the_farm_by_hand() -> None:
    """
    0.4 mm, 152.57 bar(a), -8 °C, choked: 1.2566e-7 m2 × 15.257e6 Pa × 0.685/√(4124 × 265.15) = 1.256e-3 kg/s of ideal gas
    (0.685 at a ratio of heat capacities of 1.405); real gas a little less; 0.9487 kg in 755 s or somewhat more.
    """
    assert FARM["uses.1.restricted_flow"].si * 2.016e-3 == pytest.approx(1.256e-3, rel=0.02)
    assert FARM["uses.1.fastest_fill_time"].si == pytest.approx(755, rel=0.02)


def test_a_wide_restrictor_fills_a_vehicle_too_hot() -> None:
    """Twice the bore fills four times as fast: in 3 min, and 8 are asked."""
    wide = FARM.with_inputs({"items.nv2.bore": "0.8 mm"})["uses.1.fastest_fill_time"].si
    assert wide == pytest.approx(FARM["uses.1.fastest_fill_time"].si / 4, rel=1e-6)
    looked = found("vehicle-filled-no-faster-than-cool", "farm", {"uses.1.fastest_fill_time": wide})
    assert [each.verdict for each in looked] == ["broken"]
