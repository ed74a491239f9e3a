"""One way of printing findings a file."""
