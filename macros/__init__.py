"""Gaswright: from a plant described once to a handbook whose numbers agree."""
