"""A file of YAML as text with places: nothing is constructed, mistakes are explained."""
