"""A booster as the inner loops of runs and transfers see it: plain floats, densities known, no trace."""

from collections.abc import Sequence
from dataclasses import dataclass

from macros.calculations.booster import between_points

__all__ = ["Piston"]


@dataclass(frozen=True)
class Piston:
    """
    An air-driven booster; the same laws as in `booster`, evaluated at densities that are already known.

    Attributes
    ----------
    swept_volume_m3, faces, clearance : float
        What it draws in a stroke, and what the clearance gives back.
    free_stroke_rate_per_s : float
        Strokes against no back pressure.
    area_ratio, assisting_area_ratio, drive_pressure_pa, atmosphere_pa : float
        What it stalls at.
    rate_curve : sequence of (float, float) or None
        Measured share of the free stroke rate by share of the stall; without, a straight line is assumed.
    """

    swept_volume_m3: float
    faces: float
    clearance: float
    free_stroke_rate_per_s: float
    area_ratio: float
    assisting_area_ratio: float
    drive_pressure_pa: float
    atmosphere_pa: float
    rate_curve: Sequence[tuple[float, float]] | None = None

    def stall(self, inlet_pressure: float) -> float:
        """Absolute pressure at which it stands still. [Pa]"""
        drive = self.area_ratio * (self.drive_pressure_pa - self.atmosphere_pa)
        return self.atmosphere_pa + drive + self.assisting_area_ratio * (inlet_pressure - self.atmosphere_pa)

    def rate(self, inlet_pressure: float, outlet_pressure: float) -> float:
        """Strokes against a back pressure; none at the stall and above, whatever a table says. [1/s]"""
        stall = self.stall(inlet_pressure)
        if outlet_pressure >= stall:
            return 0.0
        share = (outlet_pressure - self.atmosphere_pa) / (stall - self.atmosphere_pa)
        if self.rate_curve is not None:
            return self.free_stroke_rate_per_s * between_points(self.rate_curve, share)
        return self.free_stroke_rate_per_s * (1 - share)

    def drawn(self, inlet_density: float, outlet_density: float) -> float:
        """Mass that a stroke moves: swept volume less what expands back from the clearance. [kg]"""
        kept = self.clearance * max(0.0, outlet_density - inlet_density)
        return self.faces * self.swept_volume_m3 * max(0.0, inlet_density - kept)
