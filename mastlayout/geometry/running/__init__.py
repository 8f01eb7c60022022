"""Running lines: where each leads outside the mast, and how far it reaches when slack."""
