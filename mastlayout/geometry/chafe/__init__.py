"""Where sails meet rig and gear, laid out on the sail itself."""
