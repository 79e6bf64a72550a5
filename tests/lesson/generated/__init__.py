"""Tests of the questions that are made of lessons."""
