"""A case as a page for people."""
