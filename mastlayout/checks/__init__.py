"""What is asked of a layout: one file for each family of rules, all of them in ``rules``."""
