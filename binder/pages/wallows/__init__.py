"""Sheets of the area `wallows`."""
