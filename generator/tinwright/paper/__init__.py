"""The same records on paper: handbook, cards, chart and blank sheets, as tagged PDF.

from pathlib import Path
from tinwright.knowledge import load
from tinwright.paper import Press, handbook

press = Press(load(Path("content")))
Path("handbook.pdf").write_bytes(handbook(press).content)

Printing needs the extra `paper`; importing this room does not.
"""

from tinwright.paper.adjustment_cards import adjustment_cards
from tinwright.paper.blank_sheets import bench_log_sheet, seam_readings_sheet, visual_check_sheet
from tinwright.paper.caution_card import caution_card
from tinwright.paper.handbook import handbook
from tinwright.paper.practice_exercise import practice_exercises
from tinwright.paper.press import Press, Printed
from tinwright.paper.set_up_cards import set_up_cards
from tinwright.paper.wall_chart import wall_chart

__all__ = [
    "Press",
    "Printed",
    "adjustment_cards",
    "bench_log_sheet",
    "caution_card",
    "handbook",
    "practice_exercises",
    "seam_readings_sheet",
    "set_up_cards",
    "visual_check_sheet",
    "wall_chart",
]
