"""Figures of problems without a circuit: what follows from what, and plates with their filling."""

from builder.figure.relations.chain import Chip, Link, describe_chain, draw_chain

__all__ = ["Chip", "Link", "describe_chain", "draw_chain"]
