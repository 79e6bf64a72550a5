"""Tests of the pages: markup, the plugin, the commands, and the built unit in a real browser."""
