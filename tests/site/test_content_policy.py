"""The content policy of the site: it stands on every page, nothing of ours breaks it, and what a stranger brings in is stopped."""

import base64
import functools
import hashlib
import http.server
import re
import threading

import pytest

from macros.site.content_policy import policy_of, set_policies

META = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">')


def hashed(text):
    """As the standard writes a source by its hash (W3C, Content Security Policy Level 3, section 2.3.1)."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def test_what_stands_inline_is_allowed_by_its_hash_and_nothing_else():
    page = '<head></head><script>a()</script><script src="b.js"></script><script type="application/json">{}</script><p style="x:1">style="y:2"</p>'
    policy = dict(part.split(" ", 1) for part in policy_of(page).split("; "))
    assert policy["default-src"] == policy["base-uri"] == policy["form-action"] == "'none'"
    assert policy["script-src"] == f"'self' {hashed('a()')}"
    assert policy["style-src"] == f"'self' 'unsafe-hashes' {hashed('x:1')}"
    assert "unsafe-inline" not in policy_of(page)


def test_an_attribute_that_runs_is_a_fault_and_prose_about_one_is_none(tmp_path):
    (tmp_path / "a.html").write_text('<head>\n</head>\n<p onclick="x">', encoding="utf-8")
    (tmp_path / "b.html").write_text("<head></head><p>write onclick=x nowhere</p>", encoding="utf-8")
    found = list(set_policies(tmp_path))
    assert [(one.file, one.line, one.code) for one in found] == [("a.html", 3, "site.runs_inline")]


def test_every_page_has_its_policy_before_anything_that_loads(site):
    for path in site.rglob("*.html"):
        page = path.read_text(encoding="utf-8")
        found = META.search(page)
        assert found is not None, path
        assert not re.search(r"<(script|link|style|img)\b", page[: found.start()]), path
        assert "unsafe-inline" not in found[1] and "unsafe-eval" not in found[1] and "http" not in found[1]


@pytest.fixture(scope="module")
def served(site):
    """The site from a web server on this machine."""
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), _Quiet.of(site)) as server:
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()
        thread.join()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    @classmethod
    def of(cls, folder):
        return functools.partial(cls, directory=str(folder))

    def log_message(self, *_):
        """A test says nothing."""


PAGES = ("index.html", "shed/index.html", "shed/stack.html", "shed/drawing.html", "plants.html", "404.html")
WATCH = "addEventListener('securitypolicyviolation', e => (window.broken ??= []).push(e.violatedDirective + ' ' + e.blockedURI))"


@pytest.mark.browser
@pytest.mark.parametrize("how", ["file", "server"])
def test_no_page_breaks_its_policy_and_a_strangers_script_does_not_run(browser, site, served, how):
    page = browser.new_page()
    told = []
    page.on("console", lambda message: told.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: told.append(str(error)))
    page.add_init_script(WATCH)
    for name in PAGES:
        page.goto(f"{site.as_uri()}/{name}" if how == "file" else f"{served}/{name}")
        page.wait_for_load_state("load")
        assert page.evaluate("window.broken ?? []") == [], (how, name)
    assert [text for text in told if "Content Security Policy" in text or "Refused" in text] == []
    page.evaluate(
        """() => {
            document.body.insertAdjacentHTML('beforeend', '<img src=x onerror="window.ran = 1"><iframe srcdoc="<script>top.ran = 2</script>"></iframe>')
            const script = document.createElement('script'); script.textContent = 'window.ran = 3'; document.body.append(script)
            const other = document.createElement('script'); other.src = 'https://x.example/a.js'; document.body.append(other)
            const data = document.createElement('script'); data.src = 'data:text/javascript,window.ran=4'; document.body.append(data)
        }"""
    )
    page.wait_for_function("(window.broken ?? []).length >= 4")
    assert page.evaluate("window.ran") is None
    page.close()
