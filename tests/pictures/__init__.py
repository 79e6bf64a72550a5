"""Pictures of the unit's pages, to be looked at."""
