"""What each height gives: a chart of every convention's curve, a table, and how each figure is found."""
