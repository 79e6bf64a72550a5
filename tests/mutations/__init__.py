"""Broken and hostile problem files, made from the unit's own by number.

``python -m tests.mutations --count 100000 --seed 6`` makes files, sends each the way of a check and
of a page, and tells every one that is neither solved nor refused with its place.
"""
