"""Drawings, pictures and square codes."""
