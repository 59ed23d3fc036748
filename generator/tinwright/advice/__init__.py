"""A knowledge base and what was read or seen, turned into advice.

from tinwright.advice.advice import advise_on_sheet
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.spoken import seam_lines

for advice in advise_on_sheet(kb, read_sheet(Path("readings.csv"), kb)):
    for line in seam_lines(kb, advice):
        print(line)
"""
