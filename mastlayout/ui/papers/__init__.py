"""Papers in the window: preview, saving, printing, pictures."""
