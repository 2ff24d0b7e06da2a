"""Import every subject of the calculations, so that the registry is full."""

import importlib
import pkgutil

import macros.calculations


def import_all_subjects() -> None:
    for module in pkgutil.iter_modules(macros.calculations.__path__):
        importlib.import_module(f"macros.calculations.{module.name}")
