"""One command a file: parse, call the api, print, exit code."""
