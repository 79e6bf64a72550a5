"""Circuits that charge and discharge, as they are read."""
