"""The arithmetic of the trade, one formula family a file."""
