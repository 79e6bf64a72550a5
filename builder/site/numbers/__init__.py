"""Better numbers for a problem: what ``stepwell numbers`` looks for, prints and writes."""
