"""What a teacher starts from: a problem that is ready to be changed, and a whole small unit."""

from __future__ import annotations
