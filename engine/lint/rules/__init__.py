"""One rule a file; its docstring is its page in the manual."""
