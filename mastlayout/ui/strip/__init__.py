"""The left of the window: the whole rig, the list of all that is on the mast, and what ties them."""
