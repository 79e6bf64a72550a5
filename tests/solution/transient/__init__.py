"""Circuits that charge and discharge."""
