"""From a checked layout to the rows of its papers; each part by itself, as the window reads only a few."""
