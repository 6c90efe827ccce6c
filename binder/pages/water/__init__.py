"""Sheets of the area `water`."""
