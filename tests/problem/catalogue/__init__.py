"""The catalogue of faults: mistakes that authors make, each with all that they are told."""
