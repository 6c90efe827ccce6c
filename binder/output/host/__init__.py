"""The site on the farm's own network: what is shown, to whom, and how it is found."""
