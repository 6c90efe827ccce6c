"""What the owner wrote: read, checked and frozen. Knows no formula and no page."""
