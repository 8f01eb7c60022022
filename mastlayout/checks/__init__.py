"""The rules, one file for each family, and the finding."""
