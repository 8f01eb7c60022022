"""The elevation: the mast over the window's whole height, its tape and its labels."""
