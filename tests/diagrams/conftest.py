"""The real browser in which drawings are measured is the one that looks at the site."""

from tests.site.conftest import browser

__all__ = ["browser"]
