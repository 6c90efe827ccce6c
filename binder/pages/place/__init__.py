"""The sheet of the map: drawn from measures, over the owner's picture, or the way alone."""
