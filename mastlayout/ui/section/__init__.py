"""The section from above at the height in hand."""
