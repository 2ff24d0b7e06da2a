"""The one exception of this package."""

from __future__ import annotations


class DrawingError(ValueError):
    """What was asked for cannot be drawn; the message says which item or line, and what to change."""
