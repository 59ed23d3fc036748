"""From a knowledge base to the pages and assets of a site.

from pathlib import Path
from tinwright.knowledge import load
from tinwright.site import build_site, write_site

write_site(build_site(load(Path("content"))), Path("pages"))
"""

from tinwright.site.building import SiteContent, build_site
from tinwright.site.writer import write_site

__all__ = ["SiteContent", "build_site", "write_site"]
