"""One screen a file; screens compose widgets."""
