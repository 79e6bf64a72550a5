"""Any connected network of one kind of element, with any number of sources: reading it."""
