"""Problems that are solved by equations: quantities and the relations between them."""
