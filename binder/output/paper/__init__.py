"""Sheets drawn on paper, one by one, and joined into a binder."""
