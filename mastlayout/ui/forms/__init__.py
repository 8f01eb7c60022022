"""Forms: what can be asked for, a form of one thing, a table of several."""
