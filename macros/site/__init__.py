"""The site: the only floor that knows the site generator. `plugin` is the seam; `build`, `verify` and `serve` stand around it."""

from macros.site.plugin import HandbookPlugin

__all__ = ["HandbookPlugin"]
