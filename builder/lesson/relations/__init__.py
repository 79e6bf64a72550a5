"""Problems of plain equations, taught: which equation gives which unknown, and why."""
