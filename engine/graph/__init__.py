"""A document as a graph: what can be reached, what loops, how long it may take."""
