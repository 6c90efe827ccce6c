"""How pages speak: words, rich text, templates, protocols."""
