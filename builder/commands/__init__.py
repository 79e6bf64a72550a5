"""The commands, one module each: it reads its arguments, calls one service, prints the result.

A module is imported when its command is called, so that ``stepwell --help`` answers at once. Its
one-line summary stands in ``cli.COMMANDS``.
"""
