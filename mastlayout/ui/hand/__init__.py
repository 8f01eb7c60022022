"""The panel of what is in hand: its readings are the fields that move it."""
