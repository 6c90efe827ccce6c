"""The binder as a whole: which sheets it has, and how they become pages."""
