"""Practice quizzes and examinations on plain values: no files, no YAML, no site.

    from tinwright.quizzes.guessing import error_rates, shortest_test
    from tinwright.quizzes.intervals import wilson

    wilson(24, 30).low                                              # 0.627: what 24 of 30 is sure of
    error_rates(30, 23, non_master=0.60, master=0.85).false_pass    # 0.044
    shortest_test(0.60, 0.85, most_false_pass=0.10, most_false_fail=0.10).items    # 21

Names are imported from their modules. The statistics and the assembly of forms need numpy and scipy, which come with
the `office` extra; a site with practice quizzes is built without them.
"""
