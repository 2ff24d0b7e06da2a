"""What a person meets: a real browser on the built pages, from file, phone to desktop, light and dark, print."""

import pytest

pytestmark = pytest.mark.browser

PHONE, DESKTOP = (360, 740), (1280, 900)
PAGES = [
    "index.html",
    "shed/index.html",
    "shed/stack.html",
    "shed/gas_treatment.html",
    "shed/workings.html",
    "shed/inputs.html",
]


@pytest.fixture
def open_page(browser, site):
    contexts = []

    def open_(address, size=DESKTOP, **options):
        context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **options)
        contexts.append(context)
        page = context.new_page()
        page.problems = []
        page.on("pageerror", lambda error: page.problems.append(str(error)))
        page.on("request", lambda request: page.problems.append(request.url) if _foreign(request.url) else None)
        page.goto((site / address).as_uri())
        return page

    yield open_
    for context in contexts:
        context.close()


def _foreign(url):
    return not url.startswith(("file:", "data:", "blob:"))


def test_a_click_opens_the_working_and_escape_closes_it(open_page):
    page = open_page("shed/stack.html")
    figure = page.locator('.gw-figure[data-figure="stack.hydrogen_normal_flow"]').first
    working = page.locator(f"#{figure.get_attribute('popovertarget')}")
    assert not working.is_visible()
    figure.click()
    assert working.is_visible()
    assert working.locator("math").count() >= 1
    assert "stack.cells" in working.inner_html() or "Cells in series" in working.inner_text()
    page.keyboard.press("Escape")
    assert not working.is_visible()


def test_hovering_opens_the_working_and_leaving_closes_it(open_page):
    page = open_page("shed/stack.html")
    figure = page.locator('.gw-figure[data-figure="stack.current_density"]').first
    working = page.locator(f"#{figure.get_attribute('popovertarget')}")
    figure.hover()
    assert working.is_visible()
    page.mouse.move(1, 1)
    working.wait_for(state="hidden")


def test_the_keyboard_reaches_a_working(open_page):
    page = open_page("shed/stack.html")
    page.locator(".md-content h1").first.click()
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('.gw-figure')"):
            break
    assert page.locator(".gw-working:popover-open").count() == 1


def test_a_tap_opens_the_working_within_the_screen(open_page):
    page = open_page("shed/stack.html", PHONE, has_touch=True, is_mobile=True)
    figure = page.locator('.gw-figure[data-figure="stack.hydrogen_normal_flow"]').first
    figure.tap()
    box = page.locator(".gw-working:popover-open").bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= PHONE[0]
    assert box["y"] >= 0


@pytest.mark.parametrize("address", PAGES)
@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_no_page_is_wider_than_its_screen_or_asks_anyone_else(open_page, address, size):
    page = open_page(address, size)
    assert page.evaluate("document.scrollingElement.scrollWidth") <= size[0]
    assert page.problems == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_and_figures_stand_out_from_their_ground(open_page, scheme):
    page = open_page("shed/stack.html", color_scheme=scheme)
    contrast = page.evaluate(
        """() => {
          const luminance = (colour) => {
            const [r, g, b] = colour.match(/[\\d.]+/g).map(Number).map((v) => {
              v /= 255; return v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; });
            return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
          const ground = luminance(getComputedStyle(document.body).backgroundColor);
          return [...document.querySelectorAll('.md-content p, .gw-figure, .md-content a:not(.headerlink)')]
            .filter((element) => element.checkVisibility()
              && !element.closest('.admonition, table, .gw-working, .gw-banner'))
            .map((element) => { const ink = luminance(getComputedStyle(element).color);
              return (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05); });
        }"""
    )
    assert contrast
    assert min(contrast) >= 4.5


def test_dark_is_dark(open_page):
    grounds = [
        open_page("shed/stack.html", color_scheme=scheme).evaluate("getComputedStyle(document.body).backgroundColor")
        for scheme in ("light", "dark")
    ]
    assert grounds[0] != grounds[1]


def test_paper_carries_the_workings_as_notes(open_page):
    page = open_page("shed/stack.html")
    page.emulate_media(media="print")
    assert page.locator(".gw-working").first.is_visible()


def test_the_schematic_is_whole_and_its_labels_do_not_overlap(open_page):
    page = open_page("shed/drawing.html")
    overlaps = page.evaluate(
        """() => {
          const boxes = [...document.querySelectorAll('svg.gw-schematic text')]
            .map((text) => [text.textContent, text.getBoundingClientRect()]);
          const found = [];
          boxes.forEach(([a, p], i) => boxes.slice(i + 1).forEach(([b, q]) => {
            if (Math.min(p.right, q.right) - Math.max(p.left, q.left) > 1
                && Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top) > 1.5)
              found.push([a, b]); }));
          return found;
        }"""
    )
    assert overlaps == []
    tags = page.locator("svg.gw-schematic [data-tag]").evaluate_all("items => items.map((item) => item.dataset.tag)")
    assert len(tags) == len(set(tags)) > 20
