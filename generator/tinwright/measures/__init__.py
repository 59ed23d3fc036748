"""What is measured, exact, as people write it: lengths and turns, can size codes, threads and wires.

from tinwright.measures import parse_can_code, parse_length

parse_can_code("307x409").height_in   # Fraction(73, 16)
parse_length("1.40 mm").inches   # Fraction(7, 127)
"""

from tinwright.measures.can_codes import CanCode, parse_can_code, parse_size
from tinwright.measures.hardware import COARSE_PITCH_MM, awg_diameter_in, nearest_awg, screw_travel_in
from tinwright.measures.lengths import MM_PER_INCH, Length, mixed_number, parse_length, parse_number, parse_turns

__all__ = [
    "COARSE_PITCH_MM",
    "MM_PER_INCH",
    "CanCode",
    "Length",
    "awg_diameter_in",
    "mixed_number",
    "nearest_awg",
    "parse_can_code",
    "parse_length",
    "parse_number",
    "parse_size",
    "parse_turns",
    "screw_travel_in",
]
