"""How probable each suspect is, by the weights of a tree and by what was seen so far."""
