"""Frames, girth, solids, paths and the scene: every shape of one layout, worked out once."""
