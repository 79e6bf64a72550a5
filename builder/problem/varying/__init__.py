"""What a problem's file says of its numbers: which it states, and what its author lets vary."""
