"""The wall guide: one sheet that hangs beside the plant."""

from macros.sheets.wall.setting import PAPERS, SYSTEMS, Paper, gets_wall_guide, wall_guide

__all__ = ["PAPERS", "SYSTEMS", "Paper", "gets_wall_guide", "wall_guide"]
