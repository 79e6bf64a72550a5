"""Stepwell: circuit problems written in YAML become verified worked-example pages."""
