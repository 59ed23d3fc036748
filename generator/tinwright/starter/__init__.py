"""A small program of the educator's own to begin with: one sealer, two cans, three defects.

from pathlib import Path
from tinwright.starter import lay_down

lay_down(Path("our-kitchen"))
"""

from tinwright.starter.laying import lay_down

__all__ = ["lay_down"]
