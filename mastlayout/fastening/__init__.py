"""Fastener choice, hole sizes, metals and the order of the walk."""
