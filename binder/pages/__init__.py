"""Figures and maintained words composed into pages. No formula and no threshold."""
