"""The search over every place of one fitting."""
