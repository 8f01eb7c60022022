"""Poles: what a spinnaker or whisker pole sweeps while it is set, and where it lies when it is stowed."""
