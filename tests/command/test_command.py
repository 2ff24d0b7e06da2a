"""The command line does what it says, and an invalid input costs nothing but a message."""

import json
import re
import shutil
from pathlib import Path

import pytest

from macros.command import main
from macros.description.loading import FILES

SHED = "docs/designs/shed"


def test_check_says_that_the_plant_is_valid(capsys):
    assert main(["check", "docs/designs/bench"]) == 0
    assert "the description is valid" in capsys.readouterr().out


def test_check_tells_that_the_proofs_pass(capsys):
    assert main(["check", SHED, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["failed"] == []


def test_check_tells_of_each_failed_proof_and_exits_with_1(tmp_path, capsys):
    """The let-down valve and the flush of the shed fall shut when the power is lost."""
    folder = tmp_path / "docs/designs/shed"
    shutil.copytree(SHED, folder)
    network = folder / "network.yml"
    text = network.read_text("utf-8")
    for tag in ("AV1", "AV6"):
        begin = text.index(f"  {tag}:")
        end = text.index("fail_position: open", begin)
        text = text[:end] + "fail_position: closed" + text[end + len("fail_position: open") :]
    network.write_text(text, "utf-8")
    assert main(["check", str(folder)]) == 1
    shown = capsys.readouterr().out
    assert re.search(r"procedures.yml:\d+: .*power.lost.*hydrogen crosses", shown)
    assert "proofs fail." in shown
    assert main(["check", str(folder), "--json"]) == 1
    failed = json.loads(capsys.readouterr().out)["failed"]
    assert {"stack_let_down"} <= {each["proof"] for each in failed}


def test_lineup_tells_each_step_with_positions_pressures_and_what_is_shut_off(capsys):
    assert main(["lineup", "shed", "change_desiccant"]) == 0
    shown = capsys.readouterr().out.replace("\u00a0", " ")
    assert "2. Shut and lock V1 and V2 before the column, V4 and V5 after it." in shown
    assert "   V5: open > closed" in shown
    assert re.search(r"bank +73\.4 bar\(g\)  isolated", shown)
    assert re.search(r"buffer +33\.9 bar\(g\)  fed", shown)  # the booster stands open to it
    assert re.search(r"column +8\.00 bar\(g\)  isolated, vented, inert, then 0 bar\(g\)", shown)
    assert "Every proof passes." in shown
    assert "{" not in shown


def test_lineup_as_data_has_every_step(capsys):
    assert main(["lineup", "shed", "change_desiccant", "--json"]) == 0
    data = json.loads(capsys.readouterr().out, parse_constant=pytest.fail)
    assert [step["step"] for step in data["steps"]] == list(range(len(data["steps"])))
    assert data["steps"][2]["changed"]["V1"] == {"from": "open", "to": "closed"}
    assert all(step["failed"] == [] for step in data["steps"])


def test_lineup_refuses_an_unknown_procedure_and_names_those_there_are(capsys):
    assert main(["lineup", "shed", "change_desicant"]) == 2
    assert "change_desiccant" in capsys.readouterr().err


def test_a_plant_may_be_named_without_its_folder(capsys):
    assert main(["check", "bench", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["faults"] == []


def test_figures_lists_every_figure_with_its_value(capsys):
    assert main(["figures", SHED]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert any(line.startswith("stack.hydrogen_normal_flow") and "NL/min" in line for line in lines)


def test_figures_as_data_carry_the_digest_and_no_nan(capsys):
    assert main(["figures", SHED, "--json"]) == 0
    text = capsys.readouterr().out
    data = json.loads(text, parse_constant=lambda constant: pytest.fail(f"{constant} in the figures"))
    assert len(data["digest"]) == 12
    assert data["figures"]["stack.hydrogen_normal_flow"]["si"] > 0


def test_explain_goes_down_to_the_description(capsys):
    assert main(["explain", SHED, "stack.hydrogen_normal_flow"]) == 0
    text = capsys.readouterr().out
    assert "docs/designs/shed/plant.yml:" in text
    assert "stack.cells" in text


def test_explain_refuses_an_unknown_figure(capsys):
    assert main(["explain", SHED, "stack.hydrogen"]) == 2
    assert "no entry or figure stack.hydrogen" in capsys.readouterr().err


def test_new_makes_a_plant_that_computes_and_never_writes_over_another(tmp_path, capsys):
    assert main(["new", "my_shed", "--handbook", str(tmp_path)]) == 0
    folder = tmp_path / "docs/designs/my_shed"
    assert {path.name for path in folder.iterdir()} == set(FILES)
    to_fill_in = [line for line in capsys.readouterr().out.splitlines() if line.startswith("To fill in: ")]
    assert len(to_fill_in) > 8
    for line in to_fill_in:
        file, number, said = line.removeprefix("To fill in: ").rsplit(":", 2)
        assert said in Path(file).read_text(encoding="utf-8").splitlines()[int(number) - 1]
    plant = folder / "plant.yml"
    text = plant.read_text(encoding="utf-8")
    plant.write_text(text.replace("# Yours: how long it runs in a year.\n", ""), encoding="utf-8")
    assert main(["check", str(folder)]) == 0
    left = [line for line in capsys.readouterr().out.splitlines() if line.startswith("To fill in: ")]
    assert len(left) == len(to_fill_in) - 1
    assert main(["review", str(folder)]) == 0, "nothing fails of what a builder begins with"
    assert main(["new", "my_shed", "--handbook", str(tmp_path)]) == 2
    assert "there already" in capsys.readouterr().err
    assert [path.name for path in folder.parent.iterdir()] == ["my_shed"]


def test_new_copies_a_plant_as_a_draft_without_what_is_true_of_that_plant_alone(tmp_path, capsys):
    """A builder begins from a plant that passes its review; nothing that was measured or signed there comes along."""
    source = tmp_path / "farm"
    shutil.copytree("docs/designs/farm", source)
    record = source / "record.yml"
    text = record.read_text(encoding="utf-8")
    begin = text.index("readings:")
    record.write_text(
        text[:begin]
        + "readings:\n  - {figure: x, value: 1}\n\n  # a remark\n- stray\nwaivers:\nsign_offs:\n- {by: y}\n",
        encoding="utf-8",
    )
    assert main(["new", "hill", "--like", str(source), "--handbook", str(tmp_path)]) == 0
    assert "gaswright review hill" in capsys.readouterr().out
    folder = tmp_path / "docs/designs/hill"
    assert {path.name for path in folder.iterdir()} == {*FILES, "year.csv"}
    plant = (folder / "plant.yml").read_text(encoding="utf-8")
    assert plant.count("\ntitle: Hill\n") == plant.count("\nstatus: draft\n") == 1
    kept = (folder / "record.yml").read_text(encoding="utf-8")
    assert kept.startswith(text[:begin])
    assert kept[begin:] == "readings: []\nwaivers: []\nsign_offs: []\n"
    for file in ("network.yml", "procedures.yml", "parts.yml", "wall.yml", "year.csv"):
        assert (folder / file).read_bytes() == (source / file).read_bytes()
    assert main(["check", str(folder)]) == 0


def test_new_says_so_where_there_is_no_plant_to_copy(tmp_path, capsys):
    (tmp_path / "empty").mkdir()
    assert main(["new", "hill", "--like", str(tmp_path / "empty"), "--handbook", str(tmp_path)]) == 2
    assert "no plant to copy" in capsys.readouterr().err
    assert not (tmp_path / "docs").exists()


@pytest.mark.parametrize("name", ["My shed", "../away", "1st", ""])
def test_new_refuses_what_is_no_name(tmp_path, capsys, name):
    assert main(["new", name, "--handbook", str(tmp_path)]) == 2
    assert "is named with small letters" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_an_invalid_plant_is_told_all_at_once(tmp_path, capsys):
    assert main(["new", "other", "--handbook", str(tmp_path)]) == 0
    plant = tmp_path / "docs/designs/other/plant.yml"
    text = plant.read_text(encoding="utf-8").replace("cells:", "cels:").replace("  coldest: ", "  coldest: x")
    plant.write_text(text, encoding="utf-8")
    assert main(["check", str(Path(plant).parent)]) == 2
    errors = capsys.readouterr().err
    assert "stack.cels" in errors
    assert "site.coldest" in errors
    assert "nothing was written" in errors


def test_lineup_tells_the_single_failures_that_raise_a_pressure(capsys):
    """The regulator of the uses failed open meets its relief at 1.0 × 1.15 = 1.15 bar(g)."""
    assert main(["lineup", "shed", "filling"]) == 0
    text = capsys.readouterr().out.replace("\u00a0", " ")
    assert "if PR1 fails open: uses to 1.15 bar(g), held by RV5. Lost: PR1 no longer holds the pressure down." in text
    assert "single failures as in the step before" in text
    assert "if V1 is shut by mistake" not in text
    assert main(["lineup", "shed", "filling", "--failures"]) == 0
    assert "if V1 is shut by mistake: nothing rises. Lost: the way through V1." in capsys.readouterr().out


def test_single_failures_stand_in_the_data_of_a_line_up(capsys):
    assert main(["lineup", "shed", "filling", "--json"]) == 0
    (first, *_) = json.loads(capsys.readouterr().out)["steps"]
    found = {(each["item"], each["failure"]): each for each in first["failures"]}
    assert found["PR1", "fails_open"]["holds"] == ["RV5"]
    assert found["PR1", "fails_open"]["rises"] == ["uses"]
    assert all(each["rises"] or each["failed"] for each in first["failures"])


def test_a_failed_proof_is_told_with_file_and_line(tmp_path, capsys):
    """One step shuts the outlet of the buffer before the high side is let down: a leaking booster then has no relief."""
    shutil.copytree(SHED, tmp_path / "shed")
    procedures = tmp_path / "shed/procedures.yml"
    lines = procedures.read_text(encoding="utf-8").splitlines(keepends=True)
    number = next(place for place, line in enumerate(lines) if "let buffer, booster and bank down together" in line)
    sets = next(place for place in range(number, number + 5) if lines[place].lstrip().startswith("sets:"))
    lines[sets] = lines[sets].replace("{AV2: open", "{V9: closed, AV2: open")
    procedures.write_text("".join(lines), encoding="utf-8")
    assert main(["check", str(tmp_path / "shed")]) == 1
    text = capsys.readouterr().out.replace("\u00a0", " ")
    place = f"{procedures.as_posix()}:{number + 1}: BO1 leaks back through its valves, purge_out, step 2: "
    assert f"{place}BO1: 73.4 bar(g) reaches BO1, which bears 60.0 bar(g)" in text
    assert "proofs fail." in text
