"""Sheets of the area `people`."""
