"""Sheets of the area `stays`."""
