"""How sure a reading makes of its band: the uncertainty of readings, probabilities, guard bands and risks."""
