"""
Every size, weight and dash of the drawings, in one place.

Lengths are drawing units; one unit is one CSS pixel where the drawing is shown at its natural size.
Symbols, lines and letters stand on a lattice whose step is `STEP`, so that runs meet their ports straight.
"""

from __future__ import annotations

# --- the lattice and the grid of the author ---------------------------------------------------
STEP = 10
"""Distance between two parallel lines at their closest."""
PITCH = 80
"""Natural distance between two columns, and between two rows, of the author's grid."""
STRETCH = 20
"""By how much a gap of the grid grows where its labels or lines find no room."""
WIDEST_GAP = 480
"""No gap of the grid grows beyond this: what still finds no room then is an error."""
MARGIN = 14
"""White space around the whole drawing."""

# --- weights ---------------------------------------------------------------------------------
LINE = 1.5
"""Stroke of a line."""
TAP = 1.0
"""Stroke of a line that only lets an instrument feel what it stands on."""
LIVE = 3.2
"""Stroke of a line on the live path."""
OUTLINE = 1.5
"""Stroke of a symbol."""
OUTLINE_LIVE = 2.4
"""Stroke of a symbol on the live path."""
DETAIL = 1.0
"""Stroke of what lies inside a symbol: levels, meshes, sensing lines."""

# --- symbols ---------------------------------------------------------------------------------
BOW = (15, 9)
"""Half length and half height of the two triangles of a valve body."""
STEM = 15
"""Height of a valve's spindle above the centre line."""
HANDLE = 6
"""Half width of a hand operator."""
DOME = 8
"""Radius of a diaphragm operator."""
ROUND = 15
"""Radius of the circle of a machine: pump, compressor, cooler, source."""
DIAL = 13
"""Radius of the circle of an instrument."""
VESSEL = (20, 30)
"""Half width and half height of an upright vessel, dished ends included."""
DISH = 10
"""Height of a dished end."""

# --- lines -----------------------------------------------------------------------------------
HOP = 4.0
"""Radius of the bridge where one line passes over another."""
ARROW = (9.0, 7.0)
"""Length and width of a flow arrow."""
DOT = 2.8
"""Radius of the dot where lines join."""

DASHES: dict[str, str] = {
    "hydrogen": "",
    "wet_hydrogen": "16 3",
    "oxygen": "8 4",
    "water": "12 3 2.5 3",
    "air": "12 3 2.5 3 2.5 3",
    "nitrogen": "4.5 3",
    "electric": "1.5 3",
}
"""Dash pattern of each medium; a medium that is not listed is drawn solid and told by its letters."""

# --- flags, rings and cuts of a step ---------------------------------------------------------
FLAG_STROKE = 0.8
"""Stroke of a flag's frame and stem."""
FLAG_PAD = 5.0
"""White space between a flag's frame and what it says."""
RING = 2.2
"""How far the frame round an item that a step moves stands off its ink."""
RING_STROKE = 1.4
"""Stroke of that frame."""
STUB = 16.0
"""Length of what is drawn of a line that goes on beyond an excerpt."""
SLASH = 3.0
"""Half height of the two strokes that cut it off."""

# --- letters ---------------------------------------------------------------------------------
TAG = 12.0
"""Font size of tags."""
LABEL = 11.0
"""Font size of the labels under a tag, and of labels on lines."""
MEDIUM = 10.0
"""Font size of the letters that name a medium."""
BUBBLE = 10.0
"""Font size of a tag that stands inside an instrument."""
LETTER = 11.0
"""Font size of letters that belong to a symbol."""
LEADING = 1.22
"""Distance between two rows of a label, as a multiple of the font size."""
FONT = "sans-serif"

# --- clearances ------------------------------------------------------------------------------
KEEP_OFF = 5
"""A line passes a symbol at least this far from its ink."""
APART = 12
"""Two symbols stand at least this far apart."""
GAP = 4.0
"""A label stands this far from its own symbol."""
CLEAR = 3.0
"""A label keeps at least this far from every other label, symbol and line."""

# --- plots -----------------------------------------------------------------------------------
PLOT = (460.0, 260.0)
"""Width and height of the paper within the axes."""
PANEL_HEIGHT = 150.0
"""Height of the paper where several panels stand one above the other."""
PLOT_CURVE = 2.0
"""Stroke of a curve."""
PLOT_DASHES = ("", "9 4", "3 3", "12 3 2.5 3", "16 4", "12 3 2.5 3 2.5 3")
"""Dash pattern of each series in turn."""
TICK = 5.0
"""Length of a tick."""
