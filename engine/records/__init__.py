"""Events that happened to a case, and the stores that keep them."""
