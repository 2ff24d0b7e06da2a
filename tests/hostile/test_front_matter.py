"""Front matter says five things and no more: no key of it reaches the generator, the theme or a name of ours."""

import pytest

from macros.pages.front_matter import split_source
from macros.pages.vocabulary import Vocabulary
from tests.hostile.watching import watched

FILE = "docs/guides/x.md"
KNOWN = Vocabulary(["stack.voltage"])

HOSTILE = [
    ("rendering by the macro plugin", "render_macros: true", "pages.front_unknown", 2),
    ("a template of the theme", "template: redirect.html", "pages.front_unknown", 2),
    ("a redirect", "title: a\nredirect: https://x.example", "pages.front_unknown", 3),
    ("a location", "location: https://x.example", "pages.front_unknown", 2),
    ("hidden parts", "hide: [navigation]", "pages.front_unknown", 2),
    ("left out of the search", "search: {exclude: true}", "pages.front_unknown", 2),
    ("a name of ours", "plant: mine", "pages.front_unknown", 2),
    ("a macro of ours", "fact: mine", "pages.front_unknown", 2),
    ("a helper of the language", "say: x", "pages.front_unknown", 2),
    ("a dunder", "__class__: x", "pages.front_unknown", 2),
    ("a status of the page", "status: approved", "pages.front_unknown", 2),
    ("a description", "description: x", "pages.front_unknown", 2),
    ("tags", "tags: [x]", "pages.front_unknown", 2),
    ("an icon", "icon: ../../x", "pages.front_unknown", 2),
    ("social cards", "social: {cards: true}", "pages.front_unknown", 2),
    ("a style sheet", "extra_css: [x.css]", "pages.front_unknown", 2),
    ("an object of the language", "title: !!python/object/apply:os.system [id]", "description.yaml.tag", 2),
    ("a name of the language", "a: 1\ntitle: !!python/name:os.system", "description.yaml.tag", 3),
    ("the environment", "title: !ENV HOME", "description.yaml.tag", 2),
    ("an anchor", "title: &a x", "description.yaml.anchor", 2),
    ("an alias", "title: *a", "description.yaml.alias", 2),
    ("a merge", "<<: {title: a}", "description.yaml.merge", 2),
    ("a key twice", "title: a\ntitle: b", "description.yaml.twice", 3),
    ("text turned round", "title: a\u202eb", "description.yaml.unseen", 2),
    ("text turned round behind a backslash", 'title: "a\\u202eb"', "description.yaml.unseen", 2),
    ("a token", "title: a\ue100b", "description.yaml.unseen", 2),
    ("an order that is none", "order: 1e9", "pages.front_wanted.order", 2),
    ("an order without end", "order: " + "9" * 400, "description.yaml.too_many_digits", 2),
    ("a group that is none", "group: <script>", "pages.front_group", 2),
    ("a title of two lines", "title: |\n  a\n  b", "pages.front_wanted.title", 2),
    ("a title that is a list", "title: [a]", "pages.front_wanted.title", 2),
    ("a need that is none", "needs: [__class__]", "pages.unknown_part", 2),
    ("depth", "title: " + "[" * 60 + "]" * 60, "description.yaml.too_deep", 2),
    ("no end", "title: [a", "description.yaml.bracket_left_open", 2),
]


@pytest.mark.parametrize(("name", "front", "code", "line"), HOSTILE, ids=[row[0] for row in HOSTILE])
def test_hostile_front_matter_is_refused(name, front, code, line):
    with watched():
        source = split_source(f"---\n{front}\n---\n# Page\n".encode(), FILE, (), KNOWN)
    found = [(one.code, one.line, one.file) for one in source.faults]
    assert (code, line, FILE) in found, (name, found)


@pytest.mark.parametrize(
    ("content", "code", "line"),
    [
        (b"---\ntitle: a\n", "pages.front_not_closed", 1),
        (b"---\ntitle: \xff\n---\n", "pages.not_utf8", 2),
        (b"# " + b"a" * 70_000, "pages.too_large", 0),
        (b"---\n" + b"a: {" * 10_000 + b"\n---\n", "description.yaml.too_deep", 2),
        (b"\x00\x01\x02---\n", "", 0),
    ],
)
def test_files_that_are_no_pages_are_refused(content, code, line):
    with watched():
        source = split_source(content, FILE, ("title",), KNOWN)
    assert [(one.code, one.line) for one in source.faults if one.code == code] == ([(code, line)] if code else [])
    assert source.faults
