"""The search index of a built site, read back by another way than the page's own script."""

import itertools
import json


def search_index(site, plant=""):
    """The object that the index of a plant, or of the handbook's own pages, hands to the search."""
    text = (site / "assets" / (f"find-{plant}.js" if plant else "find.js")).read_text(encoding="utf-8")
    return json.loads(text[text.index("push(") + 5 : text.rindex(");")])


def unpacked(packed):
    """The places of a word: their distances, to the base of 36, summed up."""
    return set(itertools.accumulate(int(step, 36) for step in packed.split()))
