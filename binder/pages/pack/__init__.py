"""A sitter's pack: one short book for one stay, and two leaves for the pocket."""
