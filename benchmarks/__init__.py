"""Figures as ratios against a named baseline, both measured in one run."""
