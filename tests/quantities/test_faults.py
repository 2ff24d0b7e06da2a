"""Faults: one line each, in the order of files and lines, ready for JSON."""

import json

import pytest

from macros.quantities import Fault, Faults, say

PLANT = "docs/designs/shed/plant.yml"
CUT_OUT = Fault(PLANT, 14, "buffer.cut_out", '"26 bar" does not say gauge or absolute; write 26 bar(g) or 26 bar(a).')
CELLS = Fault(PLANT, 9, "stack.cells", '"x" does not begin with a number; wanted is a count, a plain number.')
PARTS = Fault("docs/designs/shed/parts.yml", 0, "", "there is no such file.")


def test_a_fault_is_one_line():
    assert str(CUT_OUT) == (
        'docs/designs/shed/plant.yml:14: buffer.cut_out: "26 bar" does not say gauge or absolute; '
        "write 26 bar(g) or 26 bar(a)."
    )


def test_what_is_not_known_of_the_place_is_left_out():
    assert str(PARTS) == "docs/designs/shed/parts.yml: there is no such file."


def test_all_are_listed_by_file_and_line():
    faults = Faults([CUT_OUT, CELLS, PARTS])
    assert list(faults) == [PARTS, CELLS, CUT_OUT]
    assert len(faults) == 3
    assert str(faults) == f"{PARTS}\n{CELLS}\n{CUT_OUT}"


def test_line_numbers_sort_as_numbers():
    assert [fault.line for fault in Faults(Fault(PLANT, line, "k", "m") for line in (10, 9, 100))] == [9, 10, 100]


def test_they_are_raised_together():
    with pytest.raises(Faults) as raised:
        raise Faults([CUT_OUT, CELLS])
    assert raised.value.faults == (CELLS, CUT_OUT)


def test_they_are_ready_for_json():
    assert json.loads(json.dumps(Faults([CUT_OUT]).as_data())) == [
        {"file": PLANT, "line": 14, "key": "buffer.cut_out", "message": CUT_OUT.message}
    ]


def test_a_fault_knows_the_key_of_its_message_however_it_travelled():
    found = say("pages.in_expression", source="{{ x }}", reason=str(ValueError(say("pages.backslash"))))
    fault = Fault("x.md", 3, "", found)
    assert fault.code == "pages.backslash"
    (told,) = Faults([fault]).as_data()
    assert (told["code"], told["message"]) == ("pages.backslash", found)
    assert Fault("x.md", 3, "", "words of somebody else").code == ""


def test_no_fault_is_no_error():
    with pytest.raises(ValueError, match="without a fault"):
        Faults([])
