"""Sheets of the area `day`."""
