"""Plans proven by a stranger: from the matrix alone, with nothing of the planner."""
