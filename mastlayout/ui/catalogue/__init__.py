"""The catalogue: kinds drawn to scale, found by words, placed by keys or dragged onto a view."""
