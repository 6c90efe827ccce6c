"""Sheets of the area `feed`."""
