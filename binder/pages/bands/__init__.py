"""Sheets of the area `bands`."""
