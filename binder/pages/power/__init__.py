"""Sheets of the area `power`."""
