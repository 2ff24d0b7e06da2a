"""The dialect of Markdown that pages are written in: the extensions that the site and the tests convert them with."""

from typing import Any, Final

EXTENSIONS: Final[dict[str, dict[str, Any]]] = {
    "admonition": {},
    "attr_list": {},
    "def_list": {},
    "footnotes": {},
    "pymdownx.superfences": {},
    "pymdownx.tasklist": {},
    "sane_lists": {},
    "tables": {"use_align_attribute": True},
    "toc": {"permalink": "¶", "permalink_title": "", "toc_depth": "2-3"},
}
"""Name and configuration of each extension. Fences are found as `pymdownx.superfences` finds them."""
