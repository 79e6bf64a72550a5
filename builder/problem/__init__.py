"""What the teacher wrote: the model of a problem and of a unit, and the reader of their files."""
