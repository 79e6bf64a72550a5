"""The guide of a site: everything in it is run, and everything it says is held to."""
