"""Sheets of the area `herd`."""
