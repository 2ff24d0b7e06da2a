"""Every reader and every screen: WCAG by axe-core, by keyboard alone, by listening, from a file, and light."""

from __future__ import annotations

import functools
import gzip
import http.server
import re
import threading
import xml.etree.ElementTree as ET
import zipfile

import html5lib
import pytest

from macros.site.verify import read_page

from .found import search_index, unpacked
from .reading import OF_LOOKS, spoken, thin, violations
from .well_formed import faults_of, read_strictly, torn_drawings

KINDS = (
    "index.html", "plants.html", "choices.html", "glossary.html", "symbols.html", "facts.html", "sources.html",
    "verification.html", "format.html", "bench/index.html", "bench/drawing.html", "bench/faults.html",
    "bench/logbook.html", "bench/procedures.html", "bench/trip-matrix.html", "bench/review.html", "bench/record.html",
    "bench/parts.html", "bench/inputs.html", "bench/workings.html", "bench/workings_water.html",
)  # fmt: skip
"""One page of each kind, of the smallest plant."""

OTHERS = ("shed/index.html", "farm/index.html")

PHONE, DESK = {"width": 360, "height": 740}, {"width": 1280, "height": 900}


@pytest.fixture(scope="module")
def tab(browser):
    """One page of the browser for all looks at pages, each of which loads its own."""
    context = browser.new_context(viewport=DESK)
    yield context.new_page()
    context.close()


@pytest.fixture(scope="module")
def server(site):
    """The site on a server of this machine."""
    handler = functools.partial(_Quiet, directory=str(site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as serving:
        threading.Thread(target=serving.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{serving.server_address[1]}/"
        serving.shutdown()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_):
        pass


def _bench_procedure(site):
    return (
        min((site / "bench").glob("procedure-*.html"), key=lambda path: path.stat().st_size)
        .relative_to(site)
        .as_posix()
    )


# ---- WCAG ------------------------------------------------------------------------------------------------------------


@pytest.mark.browser
def test_axe_finds_nothing_on_any_kind_of_page(site, tab) -> None:
    """axe-core, rules of WCAG 2.2 A and AA and its best practices; `make audit` does the same with every page."""
    found = {}
    tab.emulate_media(color_scheme="light")
    tab.set_viewport_size(DESK)
    for address in (*KINDS, _bench_procedure(site), *OTHERS):
        tab.goto((site / address).as_uri())
        thin(tab)
        found[address, "light"] = violations(tab)
    tab.emulate_media(color_scheme="dark")
    tab.set_viewport_size(PHONE)
    for address in (*KINDS, _bench_procedure(site)):
        tab.goto((site / address).as_uri())
        thin(tab)
        found[address, "dark"] = violations(tab, OF_LOOKS)
    assert {place: faults for place, faults in found.items() if faults} == {}


@pytest.mark.browser
def test_axe_finds_nothing_in_what_opens(site, tab) -> None:
    """A working, the search with what it found, and on a phone the contents and the list of headings."""
    tab.emulate_media(color_scheme="dark")
    tab.set_viewport_size(PHONE)
    tab.goto((site / "bench/stack.html").as_uri())
    left = ("svg *", ".md-content__inner > :not(.gw-workings)")
    for opens, opened in (
        (".gw-nav-open", ".gw-nav"),
        (".gw-toc-open", ".gw-toc"),
        (".gw-figure", ".gw-working:popover-open"),
    ):
        tab.locator(opens).first.click()
        assert tab.locator(opened).first.is_visible()
        assert violations(tab, left=left) == []
        tab.keyboard.press("Escape")
    _ask(tab, "valve")
    assert violations(tab, left=left) == []


# ---- well-formed -------------------------------------------------------------------------------------------------------


def test_drawings_and_formulas_are_xml(site) -> None:
    """Of each kind of page; that every page is HTML to the letter is held in `test_handbook`, where all are parsed."""
    for address in (*KINDS, _bench_procedure(site)):
        assert [*torn_drawings((site / address).read_text("utf-8"))] == [], address


@pytest.mark.parametrize("address", [one for one in KINDS if one.startswith("bench")])
def test_every_drawing_has_a_title_and_a_text_and_every_formula_is_spoken(site, address) -> None:
    page = (site / address).read_text(encoding="utf-8")
    for drawn in re.findall(r"<svg\b.*?</svg>", page, re.DOTALL):
        head = drawn[: drawn.index(">")]
        if 'aria-hidden="true"' not in head:
            named = re.search(r'aria-labelledby="([^"]+)"', head)
            assert named or 'aria-label="' in head, head
            for one in named[1].split() if named else ():
                told = re.search(rf'<(title|desc) id="{re.escape(one)}">([^<]+)</\1>', drawn)
                assert told and told[2].strip(), one
    for formula in re.findall(r'<math display="block"[^>]*>', page):
        assert re.search(r'aria-label="[^"]{3,}"', formula), formula


def test_whatever_the_search_finds_is_there(site, plants) -> None:
    for name in ("", min(plants)):
        index, ids = search_index(site, name), {}
        assert len(index["places"]) > 100
        for page, anchor, title, _ in index["places"]:
            address = index["pages"][page][0]
            if address not in ids:
                ids[address] = read_page((site / address).read_text(encoding="utf-8")).ids.names
            assert not anchor or anchor in ids[address], (address, anchor)
            assert title, (address, anchor)
        most = len(index["places"])
        assert all(max(unpacked(packed)) < most for packed in index["words"].values())


def test_a_slip_in_html_or_in_a_drawing_is_found() -> None:
    page = "<!doctype html><html lang=en><title>x</title><body>{}</body></html>"
    assert faults_of(page.format("<p>fine</p><svg><path d='M0 0'/></svg>")) == []
    for slip in ("<p><div></div></p>", "<a href='x' href='y'>z</a>", "<svg><g></svg>", "<table><p>x</p></table>"):
        assert faults_of(page.format(slip)) != [], slip


SLIPS = (
    "<div><p>x</div></p>", "<div>", "</div>", "<a href='x' href='y'>z</a>", '<a href="x" href="y">z</a>', '<a HREF="x" href="y">z</a>',
    "<svg><g></svg>", "<table><p>x</p></table>", '<p class="a"id="b">x</p>', '<p class="a&b;">x</p>', '<p title="a\0">x</p>',
    '<p a=b c d="">x</p>', "<div/>", '</p class="x">', "</p/>", "<P ID=X>y</P>", '<p\n class="x"\n\tid="y" >z</p >', "<p  a>", "<1>", "<>",
    '<svg viewBox="0 0 1 1" xlink:href="#x"><use/><foreignObject><p>x</p></foreignObject></svg>', '<math><mi mathvariant="normal">x</mi></math>',
    "<script>if (1 < 2) '</p>'</script><style>a>b{}</style><textarea><p></textarea>", '<p title="un', "<p", "x & y &amp; &copy &nope;",
)  # fmt: skip


def test_pages_are_read_as_html5lib_reads_them(site) -> None:
    """Only sooner: the same tree and the same errors at the same lines, for pages and for slips."""
    page = "<!doctype html>\n<html lang=en><title>x</title>\n<body>{}\n</body></html>"
    pages = [(site / f"bench/{name}.html").read_text("utf-8") for name in ("stack", "purge_out", "workings_water")]
    for text in (*pages, *map(page.format, SLIPS)):
        (tree, errors), (other, wanted) = read_strictly(text), read_strictly(text, by=html5lib.HTMLParser)
        assert errors == wanted
        assert ET.tostring(tree) == ET.tostring(other)


# ---- offline, and light ---------------------------------------------------------------------------------------------------


def _watched(tab, own):
    """Addresses asked for that are not the site's own, and what went wrong."""
    wrong = []
    tab.on("request", lambda request: None if request.url.startswith((own, "data:")) else wrong.append(request.url))
    tab.on("pageerror", lambda error: wrong.append(str(error)))
    tab.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
    return wrong


@pytest.mark.browser
@pytest.mark.parametrize("way", ["file", "http"])
def test_no_other_host_is_asked_and_nothing_goes_wrong(site, server, browser, way) -> None:
    own = site.as_uri() + "/" if way == "file" else server
    context = browser.new_context(viewport=DESK)
    tab = context.new_page()
    wrong = _watched(tab, own)
    for address in ("index.html", "plants.html", "symbols.html", "shed/index.html", "shed/workings.html"):
        tab.goto(own + address)
    tab.goto(own + "shed/stack.html")
    tab.locator('.gw-figure[data-figure="stack.hydrogen_normal_flow"]').first.click()
    assert tab.locator(".gw-working:popover-open math").count() >= 1
    tab.keyboard.press("Escape")
    _ask(tab, "desiccant")
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/shed/change_desiccant.html")
    context.close()
    assert wrong == []


@pytest.mark.browser
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_a_guide_with_a_schematic_is_light_and_holds_still(site, server, browser, size) -> None:
    """
    At most 250 kB compressed, 80 kB of them our own styles, scripts and letters; no layout shift.

    The search index comes only when the search opens and is counted apart. Layout shift as the browser's own
    PerformanceObserver reports it; a score below 0.1 counts as good (web vitals, from memory), we ask for a hundredth.
    """
    context = browser.new_context(viewport=size)
    tab = context.new_page()
    asked = []
    tab.on("response", lambda response: asked.append(response.url))
    tab.goto(server + "shed/gas_treatment.html", wait_until="networkidle")
    shift = tab.evaluate(
        """() => new Promise((resolve) => { let sum = 0;
          new PerformanceObserver((list) => list.getEntries().forEach((one) => { sum += one.value; }))
            .observe({ type: 'layout-shift', buffered: true });
          setTimeout(() => resolve(sum), 150); })"""
    )
    drawn = tab.locator("svg.gw-schematic").count()
    context.close()
    sizes = {
        url.removeprefix(server): len(gzip.compress((site / url.removeprefix(server)).read_bytes())) for url in asked
    }
    own = sum(size for name, size in sizes.items() if name.startswith("assets/") and "stylesheets" not in name)
    assert drawn
    assert not any("find" in name for name in sizes)
    assert sum(sizes.values()) < 250_000, sizes
    assert own < 80_000, sizes
    assert shift < 0.01


def test_the_index_of_a_plant_is_small(site, plants) -> None:
    """Stated apart from the page: what a reader loads when the search opens."""
    for name in ("", *plants):
        file = site / "assets" / (f"find-{name}.js" if name else "find.js")
        assert len(gzip.compress(file.read_bytes())) < 120_000, file.name


def test_a_packed_site_has_the_same_bytes_every_time_and_all_that_a_page_asks_for(site, tmp_path) -> None:
    from macros.site.offline import pack

    part = tmp_path / "site"
    (part / "assets").mkdir(parents=True)
    for name in ("index.html", "glossary.html", "404.html", "sitemap.xml", "assets/frame.css", "assets/find.js"):
        (part / name).write_bytes((site / name).read_bytes())
    pack(part, tmp_path / "one/stick.zip")
    for name in ("glossary.html", "assets/find.js", "index.html"):
        (part / name).write_bytes((part / name).read_bytes())  # another time, another order
    pack(part, tmp_path / "two/stick.zip")
    assert (tmp_path / "one/stick.zip").read_bytes() == (tmp_path / "two/stick.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one/stick.zip") as packed:
        assert packed.testzip() is None
        assert packed.namelist() == [
            f"stick/{name}" for name in ("assets/find.js", "assets/frame.css", "glossary.html", "index.html")
        ]
    assert [path.name for path in (tmp_path / "two").iterdir()] == ["stick.zip"]


# ---- by keyboard alone, by listening ----------------------------------------------------------------------------------------


def _ask(tab, text):
    """Open the search and type, by keyboard; returns what the status says."""
    tab.locator(".gw-search-open").focus()
    tab.keyboard.press("Enter")
    assert spoken(tab)[2] == "Tag, figure, symptom, symbol or word"
    tab.keyboard.type(text)
    tab.locator(".gw-search-count", has_text=re.compile(r"\w")).wait_for()
    tab.wait_for_timeout(150)
    return tab.locator(".gw-search-count").inner_text()


def _tab_to(tab, wanted, most=400):
    """Press Tab until what is wanted is announced; the names heard on the way."""
    heard = []
    for _ in range(most):
        tab.keyboard.press("Tab")
        heard.append(spoken(tab)[2])
        if re.fullmatch(wanted, heard[-1]):
            return heard
    pytest.fail(f"{wanted!r} is not reached; heard {heard}")


@pytest.mark.browser
def test_a_desiccant_change_is_followed_to_its_end_by_keyboard_and_by_ear(site, plants, browser) -> None:
    """The walk that docs/reading.md tells; each name is the one that assistive technology is given."""
    context = browser.new_context(viewport=DESK)
    tab = context.new_page()
    tab.goto((site / "index.html").as_uri())
    assert _tab_to(tab, "To the text") == ["To the text"], "the first thing that is heard"
    tab.keyboard.press("Enter")
    _tab_to(tab, "list of plants", 12)
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/plants.html")
    _tab_to(tab, re.escape(plants["shed"].title))
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/shed/index.html")

    _tab_to(tab, "Search", 8)
    tab.keyboard.press("Enter")
    tab.keyboard.type("changing desicant")  # a slip of the finger is forgiven
    tab.locator(".gw-search-count", has_text="places found").wait_for()
    tab.wait_for_timeout(150)
    tab.keyboard.press("ArrowDown")
    assert spoken(tab)[2].startswith("Changing the desiccant")
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/shed/change_desiccant.html")

    # A number, its working, and back to the number.
    _tab_to(tab, r"0\.52 kg")
    tab.keyboard.press("Enter")
    element, role, name, _ = spoken(tab)
    assert (element, role) == ("div", "dialog")
    assert "water" in name.lower()
    tab.keyboard.press("Escape")
    assert spoken(tab)[2] == "0.52 kg"
    assert tab.locator(".gw-working:popover-open").count() == 0

    # The steps: told in order with their numbers, each with its tags, its drawing as a text.
    steps = plants["shed"].description.procedures.procedures["change_desiccant"].steps
    told = tab.locator("ol.gw-steps").aria_snapshot()
    places = [told.index(f"Step {number}:") for number in range(1, len(steps) + 1)]
    assert places == sorted(places)
    assert len(re.findall(r"'(?:img|group) \"Change the desiccant: after step \d+", told)) == len(steps)
    heard = _tab_to(tab, "After step 1\\. Scroll it sideways\\.")
    for number in range(2, len(steps) + 1):
        heard += _tab_to(tab, f"After step {number}\\. Scroll it sideways\\.")
    changed = {tag for step in steps for tag in (*step.opens, *step.closes)}
    assert changed
    for tag in changed:
        assert tag in heard or any(name.startswith(f"{tag},") for name in heard), tag

    # A tag leads to its row, and back.
    valve = tab.locator(".gw-step a.gw-tag", has_text="V7").first
    valve.focus()
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/drawing.html#item-v7")
    assert tab.locator("tr:target").is_visible()
    tab.go_back()

    # To the end: every check is ticked.
    tab.locator("ol.gw-steps").wait_for()
    tab.locator(".task-list-item input").first.focus()
    boxes = tab.locator(".task-list-item input")
    for number in range(boxes.count()):
        element, _, name, _ = spoken(tab)
        assert element == "input"
        assert name == tab.locator(f"#task-{number + 1}").inner_text()
        tab.keyboard.press("Space")
        tab.keyboard.press("Tab")
    assert all(box.is_checked() for box in boxes.all())
    assert boxes.count() >= 6
    context.close()


@pytest.mark.browser
def test_motion_is_left_out_for_those_who_ask(site, tab) -> None:
    tab.emulate_media(reduced_motion="reduce")
    tab.goto((site / "bench/stack.html").as_uri())
    moving = tab.evaluate(
        """[...document.querySelectorAll('*')].filter((one) => { const style = getComputedStyle(one);
             return style.transitionDuration.split(',').some((time) => parseFloat(time) > 0)
               || style.animationName !== 'none'; }).map((one) => one.className)"""
    )
    tab.emulate_media(reduced_motion="no-preference")
    assert moving == []


@pytest.mark.browser
def test_what_scrolls_is_reached_and_named(site, tab) -> None:
    tab.set_viewport_size(PHONE)
    for address in ("bench/faults.html", "bench/drawing.html", "bench/parts.html"):
        tab.goto((site / address).as_uri())
        unreachable = tab.evaluate(
            """[...document.querySelectorAll('main *')].filter((one) => one.scrollWidth > one.clientWidth + 1
                 && ['auto', 'scroll'].includes(getComputedStyle(one).overflowX)
                 && !(one.tabIndex === 0 && one.getAttribute('role') === 'region' && one.getAttribute('aria-label')))
                 .map((one) => one.outerHTML.slice(0, 120))"""
        )
        assert unreachable == [], address


@pytest.mark.browser
def test_tab_reaches_whatever_can_be_pressed(site, tab) -> None:
    """All but the sign beside a heading, whose place the list of headings leads to."""
    tab.set_viewport_size(DESK)
    for address in ("bench/stack.html", "bench/drawing.html", "bench/faults.html", "plants.html"):
        tab.goto((site / address).as_uri())
        left_out = tab.evaluate(
            """[...document.querySelectorAll('a[href], button, input, select, summary')]
                 .filter((one) => one.checkVisibility() && one.tabIndex < 0 && !one.matches('.headerlink'))
                 .map((one) => one.outerHTML.slice(0, 120))"""
        )
        assert left_out == [], address


@pytest.mark.browser
@pytest.mark.parametrize(
    ("asked", "place"),
    [
        ("V3", "shed/drawing.html#item-v3"),
        ("all cells high", "shed/faults.html#stack-row-1"),
        ("hydrogen made, net", "shed/workings_stack.html#w-stack-hydrogen_normal_flow"),
        ("stack.hydrogen_normal_flow", "shed/workings_stack.html#w-stack-hydrogen_normal_flow"),
        ("relief valve symbol", "symbols.html"),
        ("back pressure", "glossary.html#t-back-pressure"),
        ("emergncy stop", "shed/emergency_stop.html"),
        ("conductivty climbs over weeks", "shed/faults.html#water-row-1"),
    ],
)
def test_the_search_leads_to_the_place(site, tab, asked, place) -> None:
    tab.goto((site / "shed/index.html").as_uri())
    told = _ask(tab, asked)
    assert re.fullmatch(r"\d+ places? found\.", told), told
    links = tab.locator(".gw-search-found a").evaluate_all("links => links.slice(0, 3).map((link) => link.href)")
    assert (site / place.partition("#")[0]).as_uri() + "".join(place.partition("#")[1:]) in links, links


@pytest.mark.browser
def test_a_figure_is_found_by_its_symbol(site, plants, tab) -> None:
    value = plants["shed"].graph["stack.current_density"]
    tab.goto((site / "shed/index.html").as_uri())
    _ask(tab, value.symbol)
    links = tab.locator(".gw-search-found a").evaluate_all("links => links.map((link) => link.hash)")
    assert "#w-stack-current_density" in links[:5]


@pytest.mark.browser
def test_what_is_not_there_is_said_not_to_be_there(site, tab) -> None:
    tab.goto((site / "shed/index.html").as_uri())
    assert _ask(tab, "zzqqxx") == "Nothing found."


def test_every_box_to_tick_on_any_page_can_be_ticked_and_has_a_name(site):
    boxes = 0
    for path in site.rglob("*.html"):
        for box in re.findall(r'<input type="checkbox"[^>]*>', path.read_text("utf-8")):
            boxes += 1
            assert "disabled" not in box, path
            assert "aria-label" in box, path
    assert boxes > 500
