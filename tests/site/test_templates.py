"""Everything that the frame of a page prints is escaped there, or is HTML that we made."""

import re
from pathlib import Path

OVERRIDES = Path(__file__).parents[2] / "macros/site/overrides"
PRINTED = re.compile(r"\{\{-?\s*(.*?)\s*-?\}\}", re.DOTALL)
OURS = (
    r"say\(.*\)", r"navigation", r"page\.content if page", r"one\.title", r"one\.url", r"entries\(.*\)", r"report\(.*\)",
    r"config\.copyright", r"'[^']*' if \w+ else '[^']*'", r".*\| url", r".*\| e", r"page\.canonical_url",
    r"plant\.digest", r"loop\.index", r"base_url", r"system",
)  # fmt: skip
"""Messages, HTML that `macros` made and escaped, addresses of the site itself, and what is escaped on the spot."""


ACTS = re.compile(
    r"\|\s*safe\b|\{%-?\s*autoescape|<script(?![^>]*\bsrc=)|javascript:|"
    r"\bon(?:click|load|error|mouse\w+|key\w+|focus|blur|input|change|submit|toggle)\s*="
)


def test_each_word_that_a_template_prints_is_escaped():
    found = [
        f"{path.relative_to(OVERRIDES)}: {printed}"
        for path in sorted(OVERRIDES.rglob("*.html"))
        for printed in PRINTED.findall(path.read_text("utf-8"))
        if not re.fullmatch("|".join(OURS), printed, re.DOTALL)
    ]
    assert found == []
    assert list(OVERRIDES.rglob("*.html"))


def test_no_template_turns_escaping_off_or_runs_anything():
    for path in sorted(OVERRIDES.rglob("*.html")):
        text = path.read_text("utf-8")
        assert not ACTS.search(text), path
