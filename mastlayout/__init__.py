"""Plan the refit of a yacht's mast: place fittings, check them, print the sheets to drill from."""

__version__ = "0.1.0"
