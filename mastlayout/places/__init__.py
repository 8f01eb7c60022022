"""The search over the places of one fitting, with the rules that check it where it stands."""
