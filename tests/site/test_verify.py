"""A site with one thing wrong is refused for that thing, and a site with nothing wrong is not."""

import json

import pytest

from macros.site.verify import PageFacts, faults_in, read_page

GOOD = """<!doctype html><html lang="en"><head><title>Stack</title></head><body>
<h2 id="top">Top</h2><p>6.63&nbsp;NL/min <code>{{ not_computed }}</code></p>
<a href="other.html#there">other</a> <a href="#top">top</a> <a href="https://example.org/">web</a>
<a href="shed/">folder</a><button popovertarget="top">x</button></body></html>
"""
OTHER = '<html><body><p id="there">there</p><a href="index.html">back</a></body></html>'
FOLDER = '<html><body><a href="../index.html#top">up</a></body></html>'


@pytest.fixture
def site(tmp_path):
    (tmp_path / "shed").mkdir()
    (tmp_path / "index.html").write_text(GOOD, encoding="utf-8")
    (tmp_path / "other.html").write_text(OTHER, encoding="utf-8")
    (tmp_path / "shed" / "index.html").write_text(FOLDER, encoding="utf-8")
    return tmp_path


def test_a_good_site_has_no_faults(site):
    assert list(faults_in(site)) == []


@pytest.mark.parametrize(
    ("before", "after", "line", "message"),
    [
        ("other.html#there", "missing.html", 3, "the link missing.html leads to nothing"),
        ("#there", "#nowhere", 3, "the link other.html#nowhere leads to a page without that anchor"),
        ("other.html#there", "../outside.html", 3, "the link ../outside.html leaves the site"),
        (
            "https://example.org/", "javascript:alert(1)", 3,
            "the link javascript:alert(1) leads neither to a page nor to the web",
        ),
        ("<p>6.63", '<p id="top">6.63', 2, "the id top stands twice on the page"),
        ("6.63&nbsp;NL/min", "{{ plant.x }}", 2, "'{{' is left in the text: an expression was not computed"),
        ("6.63&nbsp;NL/min", "NaN NL/min", 2, "'NaN' is left in the text: an expression was not computed"),
        ("6.63&nbsp;NL/min", "\ue000", 2, "'\\ue000' is left in the text: an expression was not computed"),
        (
            'popovertarget="top"', 'popovertarget="gone"', 4,
            "something on the page refers to the id gone, which is not there",
        ),
    ],
)  # fmt: skip
def test_one_thing_wrong_is_one_fault(site, before, after, line, message):
    text = GOOD.replace(before, after, 1)
    (site / "index.html").write_text(text, encoding="utf-8")
    faults = list(faults_in(site))
    assert (faults[0].file, faults[0].line, faults[0].message) == ("index.html", line, message)
    assert all(fault.message == message or "}}" in fault.message for fault in faults)


def test_links_from_the_root_of_the_server_are_refused_unless_they_are_the_site_itself(site):
    (site / "404.html").write_text(
        '<a href="/handbook/other.html">x</a><a href="/elsewhere/x.html">y</a>', encoding="utf-8"
    )
    faults = list(faults_in(site, base="/handbook/"))
    assert [fault.message.split(" starts")[0] for fault in faults] == ["the link /elsewhere/x.html"]


def test_code_and_scripts_may_hold_braces():
    page = read_page("<pre>{{ a }}</pre><script>const x = {{}};</script><p>fine</p>")
    assert page.remains.names == []


def test_alt_texts_are_looked_at_too():
    assert read_page('<img src="x.png" alt="{{ plant.x }}">').remains.names == ["{{"]


def test_what_is_kept_of_a_page_is_what_was_read_off_it():
    page = read_page(GOOD.replace("<p>6.63", '<p id="top">{{ 6.63'))
    assert page.ids.names == ["top", "top"]
    assert len(page.links.names) == 3
    assert len(page.remains.names) == 1
    assert PageFacts.from_data(json.loads(json.dumps(page.as_data()))) == page
    bare = read_page("<p>nothing</p>")
    assert PageFacts.from_data(json.loads(json.dumps(bare.as_data()))) == bare
