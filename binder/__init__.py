"""Turns a farm folder into a site and a ring binder that a sitter can follow."""
