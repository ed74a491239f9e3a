"""What changed for the technician between two versions of a library."""
