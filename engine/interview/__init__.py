"""The walk itself: decide, evolve and prompt, without clock, disk or chance."""
