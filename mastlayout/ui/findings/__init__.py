"""The panel of findings."""
