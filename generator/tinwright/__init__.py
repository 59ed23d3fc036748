"""Tinwright: from YAML about cans, sealers and seams to a cross-linked static site.

The shortest useful example:

    from pathlib import Path
    from tinwright.knowledge import load

    kb = load(Path("content"))
    for link in kb.defects["droop"].causes:
        print(kb.causes[link.cause].title, link.likelihood)
"""

__all__ = ["__version__"]

__version__ = "0.1.0"
