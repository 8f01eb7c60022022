"""What a height gives: horizon, radio, radar, light and sound."""
