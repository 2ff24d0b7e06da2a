"""The site: the only floor that knows the site generator; `plugin` is the seam, the rest stands around it."""

from macros.site.plugin import HandbookPlugin

__all__ = ["HandbookPlugin"]
