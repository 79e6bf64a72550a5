"""Pages that are given other numbers in the browser."""
