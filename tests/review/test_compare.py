"""A comparison names what changed and why, and nothing else; the other way is every value of both graphs by hand."""

import dataclasses
import json
import math
from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.quantities import Faults
from macros.review import Review
from macros.review.compare import Comparison, Flipped, compare
from macros.review.sides import Side, side_of_plant, side_of_published
from macros.sheets.published import published
from tests.review.looking import TODAY, plant_named


def side(plant: Plant, name: str = "a side") -> Side:
    return side_of_plant(name, plant, Review(plant, TODAY, ()))


def changed(**inputs: str) -> tuple[Plant, Comparison]:
    farm = plant_named("farm")
    other = dataclasses.replace(
        farm, graph=farm.graph.with_inputs({key.replace("__", "."): each for key, each in inputs.items()})
    )
    return other, compare(side(farm), side(other))


def differs(old: object, new: object) -> bool:
    if isinstance(old, float) and isinstance(new, float):
        return old != new and not math.isclose(old, new, rel_tol=1e-12)
    return old != new


@pytest.mark.parametrize(
    ("path", "value"), [("stack.cells", "42"), ("banks.low.cylinders", "11"), ("stack.current", "118 A")]
)
def test_one_input_changes_exactly_those_descendants_that_differ_and_is_their_cause(path: str, value: str) -> None:
    farm = plant_named("farm").graph
    other, found = changed(**{path.replace(".", "__"): value})
    assert [each.name for each in found.inputs] == [path]
    below = farm.descendants([path])
    runs = {name for name in farm.figures if farm[name].kind == "run"}
    expected = {name for name in farm.figures if name not in runs and _told_apart(farm[name].si, other.graph[name].si)}
    assert {each.name for each in found.figures} == expected
    assert expected <= below
    assert set(found.equal) == below - expected - runs
    assert all(each.causes == (path,) for each in found.figures)


def _told_apart(old: object, new: object) -> bool:
    """Tables by their cells, all else by itself."""
    if hasattr(old, "data") and hasattr(new, "data"):
        return json.dumps(old.data()) != json.dumps(new.data())
    return differs(old, new)


def test_two_causes_are_told_apart() -> None:
    _, found = changed(stack__cells="42", banks__high__water_volume="40 L")
    causes = {each.name: each.causes for each in found.figures}
    assert causes["stack.voltage"] == ("stack.cells",)
    assert causes["banks.high.mass"] == ("banks.high.water_volume",)
    assert causes["banks.high.fill_time"] == ("banks.high.water_volume", "stack.cells")


def test_a_plant_differs_from_itself_in_nothing() -> None:
    _, found = changed()
    assert found.is_empty
    assert found.equal == ()


def test_a_change_too_small_to_show_is_shown_with_more_digits() -> None:
    _, found = changed(stack__cells="42")
    pressure = next(each for each in found.figures if each.name == "banks.low.settled_pressure")
    old, new = pressure.texts
    assert old != new


def test_the_share_of_a_change_is_that_of_the_old_value_and_of_no_temperature() -> None:
    _, found = changed(stack__cells="42", site__hottest="40 °C")
    shares = {each.name: each.share for each in (*found.inputs, *found.figures)}
    assert shares["stack.cells"] == pytest.approx(2 / 40)
    assert shares["site.hottest"] is None


def test_what_only_one_side_has_is_told_as_added_or_gone() -> None:
    bench, shed = side(plant_named("bench")), side(plant_named("shed"))
    found = compare(bench, shed)
    assert {each.name for each in found.figures if each.old is None} == shed.figures.keys() - bench.figures.keys()
    assert {each.name for each in found.figures if each.new is None} == bench.figures.keys() - shed.figures.keys()


def test_procedures_and_items_that_differ_are_named() -> None:
    farm = side(plant_named("farm"))
    procedures = json.loads(json.dumps(farm.procedures))
    procedures["normal_stop"]["steps"][1]["do"] = "Something else"
    procedures["own"] = procedures["normal_stop"]
    network = {name: each for name, each in farm.network.items() if name != "V1"}
    found = compare(farm, dataclasses.replace(farm, procedures=procedures, network=network))
    assert found.procedures == {"normal_stop": ("steps.2",), "own": ("added",)}
    assert found.drawing == ("V1",)


def test_a_rule_that_holds_no_more_is_worse_and_one_that_holds_again_is_not() -> None:
    farm = side(plant_named("farm"))
    before = dataclasses.replace(farm, findings={("a", "V1"): "passed", ("b", "V2"): "failed", ("c", "V3"): "passed"})
    after = dataclasses.replace(
        farm, findings={("a", "V1"): "failed", ("b", "V2"): "waived", ("c", "V3"): "passed", ("d", "V4"): "warned"}
    )
    found = compare(before, after)
    assert set(found.flipped) == {
        Flipped("a", "V1", "passed", "failed"), Flipped("b", "V2", "failed", "waived"), Flipped("d", "V4", None, "warned"),
    }  # fmt: skip
    assert {each.rule for each in found.worse} == {"a", "d"}


def test_published_figures_stand_for_the_plant_they_came_from(tmp_path: Path) -> None:
    farm = plant_named("farm")
    file = tmp_path / "figures.json"
    file.write_text(json.dumps(published(farm), ensure_ascii=False), "utf-8")
    same = compare(side_of_published(file), side(farm))
    assert (same.inputs, same.figures) == ((), ())
    assert same.flipped is same.procedures is same.drawing is None
    other, _ = changed(stack__cells="42")
    assert [each.name for each in compare(side_of_published(file), side(other)).inputs] == ["stack.cells"]


@pytest.mark.parametrize(
    "text", ["", "[]", "{}", '{"format": 2, "entries": {}, "figures": {}}', '{"format": 1, "entries": []}']
)
def test_a_file_that_no_build_wrote_is_refused_by_name(tmp_path: Path, text: str) -> None:
    file = tmp_path / "figures.json"
    file.write_text(text, "utf-8")
    with pytest.raises(Faults, match=r"figures\.json"):
        side_of_published(file)
