"""Examinations on the educator's side: forms, their papers and pages, answers and what they tell.

Everything here is private: it is made from items that never reach the site, and it is written nowhere under it.
"""
