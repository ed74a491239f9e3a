"""From the bytes of a YAML file to the model, with a place for every value."""
