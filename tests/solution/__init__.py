"""Tests of steps, the nodal method and checks."""
