"""The cheapest order of tests, proven: faults, tests and set-ups in, a plan and its certificate out."""
