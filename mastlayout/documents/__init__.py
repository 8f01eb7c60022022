"""The sheets, described once in millimetres, and their renderers."""
