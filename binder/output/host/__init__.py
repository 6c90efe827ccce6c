"""The site on the farm's own network: what is served, to whom, and how it is found."""
