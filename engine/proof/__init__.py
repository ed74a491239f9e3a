"""Documents put to the test: scripted walks with their expected verdict."""
