"""A handbook's configuration is data too: the generator's own reader would run what stands in it."""

import pytest

from macros.site.configuration import configuration_faults, edition_line
from tests.hostile.watching import ROOT, watched

OURS = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
END = OURS.count("\n") + 1

HOSTILE = [
    ("an object that runs", 'x: !!python/object/apply:os.system ["id"]', "description.yaml.tag", END),
    ("a function", "x: !!python/name:os.system", "description.yaml.tag", END),
    ("a secret of the environment", "site_author: !ENV TOKEN", "description.yaml.tag", END),
    ("a path of the machine", "x: !relative $config_dir", "description.yaml.tag", END),
    ("hooks", "hooks: [x.py]", "site.setting", END),
    ("another configuration", "INHERIT: ../x.yml", "site.setting", END),
    ("other documents", "docs_dir: /etc", "site.setting", END),
    ("another place for the site", "site_dir: /tmp/x", "site.setting", END),
    ("a script of theirs", "extra_javascript: [https://x.example/a.js]", "site.setting", END),
    ("a style sheet of theirs", "extra_css: [https://x.example/a.css]", "site.setting", END),
    ("templates", "extra_templates: [x.html]", "site.setting", END),
    ("extensions of Markdown", "markdown_extensions: [pymdownx.snippets, md_in_html]", "site.setting", END),
    ("a server of theirs", "dev_addr: 0.0.0.0:80", "site.setting", END),
    ("folders that are watched", "watch: [/]", "site.setting", END),
    ("a repository", "repo_url: javascript:alert(1)", "site.setting", END),
    ("an address that runs", "site_url: javascript:alert(1)", "site.setting_value", END),
    ("an address with a quote", "site_url: 'https://x.example/\" onload=\"x'", "site.setting_value", END),
]
CHANGED = [
    ("a name with a tag", "site_name: Marram Lane hydrogen handbook", "site_name: <script>x</script>"),
    ("rights with a tag", "copyright: Texts", "copyright: <img src=x onerror=y> Texts"),
    ("a module of theirs", "macros.site.registered", "os"),
    ("rendering by the macro plugin", "render_by_default: false", "render_by_default: true"),
    ("an option that includes files", "render_by_default: false", "render_by_default: false\n      include_yaml: [/etc/passwd]"),
    ("another plugin", "  - gaswright", "  - gaswright\n  - search"),
    ("another theme", "name: material", "name: readthedocs"),
    ("templates of theirs", "font: false", "font: false\n  custom_dir: overrides"),
    ("a font of another host", "font: false", "font: {text: Roboto}"),
    ("links unchecked", "not_found: warn", "not_found: ignore"),
    ("not strict", "strict: true", "strict: false"),
    ("a generator that tells", "generator: false", "analytics: {provider: google, property: x}"),
]  # fmt: skip


@pytest.fixture
def handbook(tmp_path):
    (tmp_path / "docs").mkdir()
    return tmp_path


def faults(handbook, text):
    (handbook / "mkdocs.yml").write_text(text, encoding="utf-8")
    with watched(handbook):
        return configuration_faults(handbook)


@pytest.mark.parametrize(("name", "line", "code", "at"), HOSTILE, ids=[row[0] for row in HOSTILE])
def test_a_hostile_setting_is_refused(handbook, name, line, code, at):
    assert (code, at) in [(one.code, one.line) for one in faults(handbook, f"{OURS}{line}\n")], name


@pytest.mark.parametrize(("name", "old", "new"), CHANGED, ids=[row[0] for row in CHANGED])
def test_a_changed_setting_is_refused(handbook, name, old, new):
    assert old in OURS
    found = faults(handbook, OURS.replace(old, new, 1))
    assert {one.code for one in found} & {"site.setting", "site.setting_value"}, name
    assert all(one.line for one in found)


@pytest.mark.parametrize("name", ["main.py", "main", "hooks.py", "overrides"])
def test_what_the_generator_would_run_beside_it_is_refused(handbook, name):
    (handbook / name).mkdir() if "." not in name else (handbook / name).write_text("import os", encoding="utf-8")
    assert [(one.code, one.file) for one in faults(handbook, OURS)] == [("site.would_run", name)]


def test_a_configuration_is_not_read_through_a_link(handbook):
    (handbook / "secret").write_text("password: hunter", encoding="utf-8")
    (handbook / "mkdocs.yml").symlink_to(handbook / "secret")
    assert [one.code for one in configuration_faults(handbook)] == ["site.no_configuration"]


def test_our_own_and_one_of_a_group_pass(handbook):
    assert faults(handbook, OURS) == []
    theirs = OURS.replace("Marram Lane hydrogen handbook", "Gas in the Fens, second try")
    theirs += "site_url: https://example.org/handbook/\n"
    theirs = theirs.replace("marram-lane.example", "fens.example").replace("2026.11", "2027.1.2")
    assert faults(handbook, theirs) == []


def test_each_page_says_its_edition_and_where_a_newer_one_may_be():
    assert edition_line({}, "0.1.0") == "Made with Gaswright 0.1.0."
    line = edition_line({"edition": "2026.11", "newer_at": "https://example.org/handbook/"}, "0.1.0")
    assert "2026.11" in line and "https://example.org/handbook/" in line and "0.1.0" in line
