"""What is wrong with a library of documents, where, why and what cures it."""
