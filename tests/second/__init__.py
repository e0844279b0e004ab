"""A second opinion on every round: random patterns, laid stitch by stitch, against what the program works."""
