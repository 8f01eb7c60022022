"""On trestles: the mast lying as the person stands, the face that is up, and the next hole."""
