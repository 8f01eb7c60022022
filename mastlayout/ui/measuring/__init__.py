"""The tape measure in the window: taking hold of its ends, its card, and how it is drawn on the views."""
