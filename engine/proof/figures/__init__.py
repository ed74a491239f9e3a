"""How good a tree is, in figures: its size, its minutes, and how well it tells its suspects apart."""
