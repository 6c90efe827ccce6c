"""Pages for screens: the site, the phone file, search and menus."""
