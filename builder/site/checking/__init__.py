"""Checking problems and units: what a build would refuse, and what is odd.

``files`` says what there is to check, ``one`` checks a problem, ``unit`` what a unit's files say
of each other, ``run`` all of it; ``report`` is what comes out, which ``table``, ``lines`` and
``data`` write.
"""

FEWEST_FOR_HELP = 80
"""Problems that take about as long as starting another process."""
