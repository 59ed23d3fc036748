"""A program of the educator's own to begin with: a county's layer on top of the shared knowledge.

from pathlib import Path
from tinwright.starter import County, own_sealer, write_county

sealer = own_sealer("Old crank; crank-cam; 307 401")
county = County("Fern County", "Fern County Extension", "Call.", 1000, ("Main kitchen",), (sealer,))
write_county(Path("our-kitchen"), county, today=today)
"""

from tinwright.starter.county import County, OwnSealer, own_sealer, write_county

__all__ = ["County", "OwnSealer", "own_sealer", "write_county"]
