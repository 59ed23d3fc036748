"""Reports from the bench log: a day, a sealer's history, a season; as a page, as PDF, as CSV.

    report = day_report(kb, sessions)
    report_html(kb, report)
    report_pdf(kb, report)

All of them are private: they name people, and cans that somebody may have at home.
"""

from tinwright.reporting.day import DayReport, day_report
from tinwright.reporting.history import SealerReport, sealer_report
from tinwright.reporting.report_page import report_html, report_pdf
from tinwright.reporting.rows import report_csv
from tinwright.reporting.season import SeasonReport, season_report

__all__ = [
    "DayReport",
    "SealerReport",
    "SeasonReport",
    "day_report",
    "report_csv",
    "report_html",
    "report_pdf",
    "sealer_report",
    "season_report",
]
