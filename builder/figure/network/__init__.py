"""How a general network is drawn, and how it is told in words."""

from __future__ import annotations

from builder.figure.network.request import Arrow, Branch, LoopArrow, NetworkDrawing

__all__ = ["Arrow", "Branch", "LoopArrow", "NetworkDrawing"]
