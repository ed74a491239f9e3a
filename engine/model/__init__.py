"""Frozen values: what a document means once it has been read and checked."""
