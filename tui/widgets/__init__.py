"""Widgets get values and post messages; none of them keeps a case."""
