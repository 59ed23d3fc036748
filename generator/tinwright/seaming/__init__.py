"""The trade's arithmetic and reasoning, on plain values: no files, no YAML, no site.

    from tinwright.seaming.can_codes import parse_can_code

    parse_can_code("307x409").height_in   # Fraction(73, 16)
"""
