"""Sheets of the area `housing`."""
