"""The mainsail: where its cloth can lie as it swings about its track, slice by slice square to the mast."""
