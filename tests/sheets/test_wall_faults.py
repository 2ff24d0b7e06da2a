"""What keeps a sheet from being made, told with file, line, key and what to do."""

import dataclasses

import pytest

from macros.command.wall_guide import addresses_near, file_of, reasons_against, write_wall_guide
from macros.figures.plant import Plant
from macros.quantities import Faults, read
from macros.sheets.wall import gets_wall_guide, setting, wall_guide


def changed(plant, **blocks):
    """The plant with other blocks in its `wall.yml`."""
    wall = plant.description.wall.model_copy(update=blocks)
    return Plant(dataclasses.replace(plant.description, wall=wall), plant.network, plant.graph)


def block(plant, name, **keys):
    return {name: getattr(plant.description.wall, name).model_copy(update=keys)}


@pytest.fixture(scope="module")
def shed(plants):
    return plants["shed"]


def faults_of(plant, paper="a4"):
    with pytest.raises(Faults) as told:
        wall_guide(plant, paper)
    return [str(fault) for fault in told.value]


def test_what_does_not_fit_is_an_error_that_says_what_and_what_to_let_go(shed):
    told = faults_of(changed(shed, **block(shed, "lines", least=read("30", "count"))))
    assert len(told) == 1
    assert told[0].startswith("docs/designs/shed/wall.yml:")
    assert ': lines: on A4 "Written by hand" lacks ' in told[0]
    assert "papers.a4: 1" in told[0]
    assert "service, lines" in told[0]


def test_the_line_of_an_overflow_is_that_of_its_key(shed):
    lines = (shed.description.folder / "wall.yml").read_text("utf-8").split("\n")
    told = faults_of(changed(shed, **block(shed, "lines", least=read("30", "count"))))
    number = int(told[0].split(":")[1])
    assert lines[number - 1].startswith("lines:")


def test_it_says_so_where_nothing_of_lower_priority_is_left(shed):
    papers = shed.description.wall.papers.model_copy(update={"a4": 1})
    procedures = [each.model_copy(update={"priority": 1}) for each in shed.description.wall.procedures]
    told = faults_of(changed(shed, papers=papers, procedures=[*procedures, *procedures]))
    assert any("All that is on it has priority 1" in each for each in told)


def test_leaving_the_lowest_priority_out_makes_it_fit(shed):
    too_much = changed(shed, **block(shed, "lines", least=read("30", "count")))
    papers = shed.description.wall.papers.model_copy(update={"a4": 1})
    assert wall_guide(changed(too_much, papers=papers), "a4").startswith(b"%PDF")


def test_tags_that_find_no_room_ask_for_height(plants):
    bench = plants["bench"]
    told = faults_of(changed(bench, **block(bench, "drawing", height=read("20 mm", "length"))))
    assert "drawing.height: the tags of the schematic find no room" in told[0]


def test_names_that_lead_nowhere_are_told_all_at_once(shed):
    limits = shed.description.wall.limits
    rows = [
        limits.rows[0].model_copy(update={"figure": "buffer.cut_of"}),
        limits.rows[1].model_copy(update={"figure": "stack.technology"}),
        limits.rows[2].model_copy(update={"at": "PG77"}),
    ]
    wrong = changed(
        shed,
        limits=limits.model_copy(update={"rows": rows}),
        procedures=[shed.description.wall.procedures[0].model_copy(update={"name": "normal_begin"})],
    )
    told = "\n".join(faults_of(wrong))
    assert (
        "limits.rows.1.figure: this plant has no entry or figure buffer.cut_of. The nearest known is buffer.cut_out"
        in told
    )
    assert "limits.rows.2.figure: stack.technology is no number" in told
    assert "limits.rows.3.at: this plant has no item PG77" in told
    assert "procedures.1.name: this plant has no procedure normal_begin; it has purge_in" in told


def test_a_plant_that_says_nothing_gets_no_sheet_and_is_told_why(shed):
    silent = Plant(dataclasses.replace(shed.description, wall=None), shed.network, shed.graph)
    assert not gets_wall_guide(silent)
    with pytest.raises(Faults, match=r"there is no wall\.yml"):
        reasons_against(silent, "workshop")


def test_a_withdrawn_plant_gets_no_sheet(shed):
    plant = shed.description.plant.model_copy(update={"status": "withdrawn"})
    withdrawn = Plant(dataclasses.replace(shed.description, plant=plant), shed.network, shed.graph)
    assert not gets_wall_guide(withdrawn)
    assert reasons_against(withdrawn, "workshop") == ["the plant shed is withdrawn and gets no wall guide."]


def test_a_refused_plant_gets_no_sheet(shed, monkeypatch):
    monkeypatch.setattr(setting, "refused", lambda plant, **_: plant is shed)
    assert not gets_wall_guide(shed)


def test_a_block_that_is_left_out_drops_out(shed):
    bare = changed(shed, trips=None, gauges=None, service=None, lines=None, procedures=[])
    made = wall_guide(bare, "a4")
    assert made.startswith(b"%PDF")
    assert len(made) < len(wall_guide(shed, "a4"))


def test_the_command_writes_what_is_asked_for_and_names_it_after_what_it_is(shed, tmp_path):
    file = write_wall_guide(shed, "a4", "us", "", tmp_path / "sheets" / "shed.pdf")
    assert file.read_bytes() == wall_guide(shed, "a4", "us")
    assert str(file_of(shed, "a4", "us")) == "shed-wall-guide-a4-us.pdf"


def test_a_sheet_set_by_itself_names_what_the_handbook_around_its_plant_says(tmp_path):
    folder = tmp_path / "book/docs/designs/shed"
    folder.mkdir(parents=True)
    assert addresses_near(folder) == ("", "")
    (tmp_path / "mkdocs.yml").write_text("site_url: https://further.example/\n", "utf-8")
    assert addresses_near(folder) == ("https://further.example/shed/index.html", "")
    nearest = tmp_path / "book/mkdocs.yml"
    nearest.write_text("extra:\n  newer_at: https://lane.example/new/\n", "utf-8")
    assert addresses_near(folder) == ("", "https://lane.example/new/")
    nearest.write_text("extra: {newer_at: [\n", "utf-8")
    with pytest.raises(Faults, match=r"mkdocs\.yml:\d"):
        addresses_near(folder)
