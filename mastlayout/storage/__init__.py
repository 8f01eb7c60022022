"""The layout file, the catalogue and recovery copies."""
