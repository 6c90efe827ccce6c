"""Sheets of the area `rounds`."""
