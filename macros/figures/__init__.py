"""
Figures: the only place that joins description, network and calculations.

`graph` is the engine; each other module holds the figures of one part of the plant and offers
`figures(description)`, an iterator of what that plant has. `MODULES` lists them.
"""

from macros.figures import drying, lines, power, purging, relief, safety, stack, surroundings, uses, water

MODULES = (surroundings, stack, power, water, drying, safety, relief, lines, purging, uses)
