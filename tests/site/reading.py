"""What axe-core finds on a page, and what a person who listens is told of what has the focus."""

from __future__ import annotations

from importlib import resources

SPOKEN = """
() => {
  const one = document.activeElement;
  const by = one.getAttribute('aria-labelledby');
  const named = one.getAttribute('aria-label')
    || (by && by.split(' ').map((id) => document.getElementById(id).textContent).join(' '))
    || (one.labels && one.labels[0] && one.labels[0].textContent) || one.textContent || '';
  return [one.localName, one.getAttribute('role') || '', named.replace(/\\s+/g, ' ').trim(), one.className.baseVal ?? one.className];
}
"""

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")

RUN = """
async ([rules, left]) => {
  const only = rules.length ? rules : %r;
  const found = await axe.run({ exclude: left }, { runOnly: only, resultTypes: ['violations'], preload: false });
  return found.violations.map((one) => `${one.id} (${one.nodes.length}): ${one.nodes[0].html.slice(0, 160)}`);
}
""" % list(RULES)  # noqa: UP031 (braces of the script)

OF_LOOKS = ("color-contrast", "target-size", "scrollable-region-focusable", "link-in-text-block")
"""Rules whose answer depends on colours and width; what the others see is the same on every screen."""


THIN = """
() => {
  const same = ['tbody > tr:nth-child(n+6)', 'tbody:nth-of-type(n+4)', '.gw-step:nth-child(n+3)', '.gw-workings > :nth-child(n+4)',
    '.gw-nav li:nth-child(n+5)', '.gw-toc li:nth-child(n+5)', 'svg a:nth-of-type(n+4)', 'svg g:not(:has(a)):not(a g)', 'svg text',
    '.md-typeset > h2:nth-of-type(n+7) ~ *', '.gw-finding:nth-of-type(n+5)', 'math mrow',
    '.md-typeset > .gw-scroll:nth-of-type(n+13)'];
  document.querySelectorAll(same.join(', ')).forEach((one) => one.remove());
}
"""
"""Takes out of a page what is made by the same code as its neighbours: axe-core takes as long as the page is large."""


def thin(page):
    """A page with few of each kind of thing; the audit of the whole site looks at all of them."""
    page.evaluate(THIN)


def axe_script() -> str:
    """The library, from its package."""
    return (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")


def violations(page, rules=(), left=()):
    """
    What axe-core has against a page: rules of WCAG 2.2 A and AA and its own best practices.

    Parameters
    ----------
    page : playwright page
    rules : sequence of str
        Only these, in place of all.
    left : sequence of str
        Selectors of what is left out.
    """
    if not page.evaluate("typeof window.axe === 'object'"):
        page.evaluate(axe_script())
    return page.evaluate(RUN, [list(rules), list(left)])


def spoken(page):
    """Element, role, accessible name and classes of what has the focus."""
    return page.evaluate(SPOKEN)
