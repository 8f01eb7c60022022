"""The tack: where cloth that swings past the mast on its luff can lie, slice by slice square to the mast."""
