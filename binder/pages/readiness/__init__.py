"""Sheets of the area `readiness`."""
