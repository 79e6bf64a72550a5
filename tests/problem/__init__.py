"""Reading problems: good forms, and what is told of mistakes."""
