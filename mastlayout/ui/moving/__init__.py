"""Moving what is there: one way of doing it for the elevation, the section, the skin and the list."""
