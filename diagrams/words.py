"""
The words that a drawing itself brings. All else on it is handed in.

A handbook in another language hands in its own words for the same keys.
"""

from __future__ import annotations

from collections.abc import Mapping

WORDS: Mapping[str, str] = {
    "isolated": "isolated",
    "vented": "vented",
    "inert": "inert",
    "medium.hydrogen": "hydrogen",
    "medium.wet_hydrogen": "wet hydrogen",
    "medium.oxygen": "oxygen",
    "medium.water": "water",
    "medium.air": "air",
    "medium.nitrogen": "nitrogen",
    "medium.electric": "current",
    "live": "live path",
    "open": "open",
    "closed": "closed",
    "crossing": "lines cross",
    "joining": "lines join",
    "cut": "goes on to or comes from the items named, not drawn here",
    "moved": "moved in this step",
}

LETTERS: Mapping[str, str] = {
    "hydrogen": "H₂",
    "wet_hydrogen": "H₂ wet",
    "oxygen": "O₂",
    "water": "H₂O",
    "air": "air",
    "nitrogen": "N₂",
    "electric": "el.",
}
"""The letters that stand in the lines of a medium; of another medium its own name does."""


def letters_of(medium: str) -> str:
    """The letters that a line of this medium carries."""
    return LETTERS.get(medium, medium.replace("_", " "))


def word(key: str, words: Mapping[str, str]) -> str:
    """A word by its key, from those handed in or else our own; a medium without a word is called by its name."""
    if key in words:
        return words[key]
    return WORDS.get(key, key.removeprefix("medium.").replace("_", " "))
