"""Templates 1:1: each foot on paper that wraps on the skin."""
