"""Pages written as site, print and phone file. Has never heard of an animal."""
