"""For all tests of the figures."""

import pytest

from macros.calculations.contract import CALCULATIONS


@pytest.fixture(autouse=True)
def _registry():
    """Calculations made up for a test leave the registry with it."""
    known = dict(CALCULATIONS)
    yield
    CALCULATIONS.clear()
    CALCULATIONS.update(known)
