"""The tack: where cloth that swings past the mast on its luff can lie, one slice square to the mast at a time."""
