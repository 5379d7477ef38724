"""Frozen tables and values that the parts hand to one another; names carry their units."""
