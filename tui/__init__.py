"""Witnessmark in the terminal."""
