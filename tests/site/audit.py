"""
What takes too long for every change, for `make audit`: each page of a built site, as HTML, as XML and before axe-core.

Run as `python -m tests.site.audit SITE`; exit status 1 where anything is found.
"""

from __future__ import annotations

import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.conftest import CHROMIUM, QUIET

from .reading import violations
from .well_formed import faults_of

LOOKS = [("light", 1280), ("dark", 360), ("dark", 1280), ("light", 360)]


def audit(site: Path) -> int:
    """How many faults the pages of a site have; each is printed."""
    pages = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    found = 0

    def tell(address: str, where: str, faults: list[str]) -> None:
        nonlocal found
        found += len(faults)
        for fault in faults:
            print(f"{address} [{where}]: {fault}", flush=True)

    for address in pages:
        tell(address, "html", faults_of((site / address).read_text(encoding="utf-8")))
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        for scheme, width in LOOKS:
            tab = chromium.new_page(viewport={"width": width, "height": 800}, color_scheme=scheme)
            for address in pages:
                if address.endswith("/whole.html"):
                    continue  # takes an hour by itself, and its chapters are looked at one by one
                tab.goto((site / address).resolve().as_uri())
                tell(address, f"{scheme} {width}", violations(tab))
                if tab.evaluate("document.scrollingElement.scrollWidth > window.innerWidth"):
                    tell(address, f"{scheme} {width}", ["the page itself scrolls sideways"])
            tab.close()
        chromium.close()
    print(f"{len(pages)} pages, {found} faults")
    return found


if __name__ == "__main__":
    sys.exit(1 if audit(Path(sys.argv[1])) else 0)
