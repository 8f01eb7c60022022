"""What is on the mast: frozen values and edits from layout to layout; no geometry, no files."""
