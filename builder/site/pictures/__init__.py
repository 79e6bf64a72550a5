"""A circuit as a picture of its own: for any program, as dots, and as the preview of a page."""
