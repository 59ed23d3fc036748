"""Pages of every kind, for tests that look at each kind once."""

ONE_OF_EACH_KIND = (
    "index.html",
    "defects/index.html",
    "defects/cutover.html",
    "trees/index.html",
    "trees/droop.html",
    "causes/index.html",
    "causes/first-roller-loose.html",
    "procedures/index.html",
    "procedures/set-first-roller.html",
    "parts/first-roller.html",
    "sealers/bench-crank-sealer.html",
    "cans/307x409.html",
    "seam-specifications/demo-307.html",
    "cautions/botulism.html",
    "terms/overlap.html",
    "sources/cfr-21-113-60.html",
    "set-up/index.html",
    "set-up/bench-crank-sealer-307x409.html",
    "set-up/bench-lever-sealer-603x700.html",
    "seam-check.html",
    "find-the-cause.html",
    "verify-a-certificate.html",
    "quizzes/index.html",
    "quizzes/cautions.html",
    "quizzes/mixed.html",
    "reference.html",
    "how-a-double-seam-is-made.html",
    "how-we-know.html",
    "cans-to-hold.html",
    "bench-log.html",
    "take-along.html",
    "on-this-device.html",
)
"""One page of each kind; of set-up sheets one that works and one that does not."""

WITH_LONG_WORDS = (
    "defects/first-operation-unfinished.html",
    "defects/bubbles-in-water-test.html",
    "causes/chuck-base-distance-large.html",
    "sealers/motor-sealer.html",
    "sources/cfia-metal-can-defects.html",
    "sources/index.html",
    "sizes-and-units.html",
)
"""Pages most likely to be too wide for a phone."""
