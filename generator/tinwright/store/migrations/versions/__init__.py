"""One module for each revision, numbered in their order."""
