"""What a page says of itself, and the faults of it with their lines."""

import pytest

from macros.pages.front_matter import GROUPS, split_source
from macros.pages.vocabulary import Vocabulary
from macros.quantities import say

KNOWN = Vocabulary(["stack.cells", "procedures.*"])
GOOD = "title: The stack\npurpose: Know it.\ngroup: build\norder: 50\nneeds: [stack, procedures.normal_stop]\n"


def split(front: str, wanted: tuple[str, ...] = ()):
    return split_source(f"---\n{front}---\n# Page\n".encode(), "docs/guides/x.md", wanted, KNOWN)


def test_front_matter_is_read():
    source = split(GOOD, ("title", "purpose", "group", "order"))
    assert not source.faults
    assert (source.front.group, source.front.order) == ("build", 50)
    assert source.front.needs == ("stack", "procedures.normal_stop")
    assert (source.body, source.first_line) == ("# Page\n", 8)


@pytest.mark.parametrize(
    ("before", "after", "line", "message"),
    [
        ("group: build", "group: bild", 4, say("pages.front_group", found="bild", known=", ".join(GROUPS))),
        ("group: build", "group: [build]", 4, say("pages.front_wanted.group")),
        ("order: 50", "order: late", 5, say("pages.front_wanted.order")),
        ("group: build", "gruop: build", 4, say("pages.front_unknown", found="gruop", known="group")),
        ("stack,", "stak,", 6, say("pages.unknown_part", found="stak", nearest="stack")),
    ],
)
def test_a_fault_is_told_with_its_line(before, after, line, message):
    (fault,) = split(GOOD.replace(before, after), ("title", "purpose", "group", "order")).faults
    assert (fault.line, fault.message) == (line, message)


def test_what_is_missing_is_told():
    (fault,) = split(GOOD.replace("group: build\n", ""), ("group",)).faults
    assert fault.key == "group"


def test_every_group_has_a_name():
    assert len({say(f"pages.group.{group}") for group in GROUPS}) == len(GROUPS)
