"""One visit of a stay: its hours, tasks, meals, minutes and rests."""
