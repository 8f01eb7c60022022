"""Clew and sheets: what ring, knots and ropes at a headsail's clew sweep when she tacks."""
